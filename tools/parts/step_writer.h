// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <TopoDS_Face.hxx>
#include <TopoDS_Shape.hxx>
#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace crossgrain::parts {

using Colour = std::array<double, 3>;  ///< sRGB 0..1

/// A mark on one face of a solid.
struct FaceMark {
  TopoDS_Face face;
  std::string name;
  std::optional<Colour> colour;
};

/// A solid (or, to provoke readers, any shape) as it is to stand in a STEP file. Lengths in mm.
struct StepBody {
  TopoDS_Shape shape;
  std::string name;
  std::optional<Colour> colour;
  std::vector<FaceMark> marks;
};

enum class StepUnit { millimetre, inch, metre };
enum class StepSchema { AP203, AP214, AP242 };

/// Write bodies with their names and colours. The same input gives the same bytes (the header's
/// date is fixed).
/// @throws std::runtime_error if the file cannot be written.
void write_step(const std::vector<StepBody>& bodies, const std::filesystem::path& file,
                StepUnit unit = StepUnit::millimetre, StepSchema schema = StepSchema::AP214);

/// The solid inside what a boolean operation returns, which is a compound.
/// @throws std::logic_error if there is none, or more than one.
TopoDS_Shape only_solid(const TopoDS_Shape& shape);

/// The face of a shape on which a point lies [mm].
/// @throws std::logic_error if no face or more than one holds it (within 1e-6 mm).
TopoDS_Face face_at(const TopoDS_Shape& shape, const std::array<double, 3>& point);

}  // namespace crossgrain::parts
