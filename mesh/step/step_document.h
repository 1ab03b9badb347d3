// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Shape.hxx>
#include <TopoDS_Solid.hxx>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "mesh/step/import_options.h"

namespace crossgrain {

using Colour = std::array<double, 3>;  ///< sRGB 0..1

/// What the STEP file says of a solid or a face besides its shape.
struct Label {
  std::string name;
  std::optional<Colour> colour;
};

/// A solid in its place in the assembly.
struct LabelledSolid {
  TopoDS_Solid solid;
  Label label;
  std::vector<Label> faces;  ///< in the order in which the solid's distinct faces are first met
};

/// A face or edge that belongs to no solid, in its place.
struct Stray {
  TopoDS_Shape shape;
  Label label;
};

/// A STEP file after translation, before any judgement.
struct StepDocument {
  std::string declared_unit;
  std::vector<LabelledSolid> solids;
  std::vector<Stray> strays;
};

/// Translate a STEP file into solids with names and colours, in millimetres times the scale, in the
/// file's own place.
/// @throws std::invalid_argument naming the file and the remedy if it cannot be read.
StepDocument read_step_document(const StepSource& source);

}  // namespace crossgrain
