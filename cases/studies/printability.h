// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/judgement/run_result.h"
#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// What a print direction costs the printer. Bodies are printed apart, each standing on the plate
/// on its lowest point: heights are the greatest, areas the sum.
struct Printability {
  double height_mm = 0.0;
  double footprint_mm2 = 0.0;  ///< area of the shadow on the plate
  double plate_contact_mm2 = 0.0;
  double overhang_mm2 = 0.0;  ///< surface that needs support: faces down and is flatter than the
                              ///< overhang angle; what lies on the plate is not counted
  double trapped_overhang_mm2 = 0.0;  ///< of it, inside cavities, where no support comes out again
};

/// Which triangles count as what. A triangle's cosine is that between its outward normal and down.
struct OverhangLimits {
  double needs_support;  ///< a greater cosine is overhang
  double flat;           ///< a greater one is flat on the plate, if it lies there
  double on_plate_mm;    ///< corners lower than this above the body's lowest point lie on the plate
};
OverhangLimits overhang_limits(double overhang_angle);

/// @param bodies  those that are printed.  @param build  from the plate to the nozzle, any length.
/// @param overhang_angle  from horizontal [rad].
/// @param cavity  faces inside closed or wetted cavities.
/// @throws std::invalid_argument if `build` has no length.
Printability printability(const Geometry& geometry, const std::vector<BodyId>& bodies,
                          const Eigen::Vector3d& build, double overhang_angle,
                          const std::vector<FaceId>& cavity);

/// Each in its own direction.
Printability printability(const Geometry& geometry, const std::vector<BodyDirection>& bodies,
                          double overhang_angle, const std::vector<FaceId>& cavity);

/// Fill a row of the table of directions.
void add_printability(DirectionRow& row, const Printability& cost);

}  // namespace crossgrain
