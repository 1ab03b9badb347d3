// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace crossgrain {

/// A metric coarse thread with its socket head, normal washer and clearance hole.
struct ScrewSize {
  std::string_view name;    ///< "M5"
  double diameter;          ///< nominal, of the thread [mm]
  double pitch;             ///< [mm], ISO 262 coarse
  double stress_area;       ///< [mm^2], ISO 898-1
  double head_diameter;     ///< bearing diameter dw of a socket head, ISO 4762 (least) [mm]
  double washer_diameter;   ///< outer, ISO 7089 [mm]
  double washer_hole;       ///< inner diameter, ISO 7089 [mm]
  double washer_thickness;  ///< ISO 7089 [mm]
  double clearance_hole;    ///< ISO 273, medium [mm]

  double pitch_diameter() const { return diameter - 0.6495 * pitch; }  ///< d2, ISO 724 [mm]
  double core_diameter() const { return diameter - 1.2269 * pitch; }   ///< d3, ISO 724 [mm]
  /// Of the circle that stands for the thread in a pull: (d2 + d3) / 2 [mm].
  double stress_diameter() const { return 0.5 * (pitch_diameter() + core_diameter()); }
};

/// M3 to M10.
const std::vector<ScrewSize>& screw_sizes();

/// @return nullptr if the size is not known.
const ScrewSize* find_screw_size(std::string_view name);

/// "M3, M4, ..."
std::string known_screw_sizes();

}  // namespace crossgrain
