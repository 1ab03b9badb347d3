// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "tools/results/run_outputs.h"

namespace crossgrain {

/// What stands in the field files where no limit was found: VTK's viewers cannot colour by
/// infinity. Also kept in each file's field data as "safety_factor_no_limit".
inline constexpr double no_limit_factor = 1e6;

/// Writes the fields of a run's load cases for VTK's viewers, appended raw with LZ4.
///
/// Volume (.vtu): quadratic tetrahedra; its points are the stress points, so that a node between
/// two bodies appears once for each. Point data:
///   displacement_mm (3), stress_MPa (XX YY ZZ XY YZ XZ, global axes), safety_factor,
///   safety_factor_<mode>, governing_mode (position in the field data's mode_names, -1 none),
///   tension_across_layers_MPa (stress along the build direction), shear_between_layers_MPa,
///   von_mises_not_for_layers_MPa, body.
/// Cell data: body, print_direction (3). Isotropic material has no layers: its two layer stresses
/// are 0. Faces (.vtp): the boundary, each quadratic triangle as four flat ones (VTK's polygons are
/// flat), with the same point data, and cell data face (CAD face number) and body.
///
/// Faces that meet (.vtp), of joined bodies only: both faces of every contact and gasket, as flat
/// triangles likewise, with point data displacement_mm and cell data, each the mean over what of a
/// triangle meets the other face:
///   contact_pressure_MPa (the fluid's not counted), gap_mm (negative: squeezed, or pressed into
///   each other), fluid_pressure_MPa (that has come there), contact_area_mm2 (that meets the other
///   face: pressure times area sums to the force, over one side), contact_state (position in the
///   field data's contact_state_names), meeting (position in meeting_names: the contact or gasket),
///   side (1, 2: `faces`, `mate`), face, body.
class FieldWriter {
 public:
  explicit FieldWriter(const RunOutputs& outputs);
  ~FieldWriter();

  /// @param shown  path to name in messages.
  /// @throws std::invalid_argument naming `shown` and the reason if writing fails;
  ///         std::runtime_error naming the field and load case if a value is not a number and the
  ///         load case does not say so in its `distrust`.
  void write_volume(std::size_t load_case, const std::filesystem::path& file,
                    const std::filesystem::path& shown) const;
  void write_faces(std::size_t load_case, const std::filesystem::path& file,
                   const std::filesystem::path& shown) const;
  void write_meeting_faces(std::size_t load_case, const std::filesystem::path& file,
                           const std::filesystem::path& shown) const;

 private:
  struct Grids;
  const RunOutputs& outputs_;
  std::unique_ptr<Grids> grids_;
};

/// The .pvd file that lists one file per load case, as steps 0, 1, ...
std::string field_collection(const std::vector<std::string>& file_names);

}  // namespace crossgrain
