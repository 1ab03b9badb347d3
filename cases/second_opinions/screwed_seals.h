// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/judgement/judged_cases.h"
#include "cases/loads/load_combination.h"
#include "mesh/features/features.h"

namespace crossgrain {

/// A gasket in the form of a ring, on one body, and the circle of screws that presses it: what a
/// hand calculation of a joint starts from.
struct ScrewedSeal {
  const GasketSpec* gasket;
  const BoltSpec* bolts;
  const PressureLoad* pressure;
  BodyId body;
  FaceId face;                        ///< that the gasket lies on
  Eigen::Vector3d centre;             ///< of the ring [mm]
  Eigen::Vector3d axis;               ///< unit, out of the body
  double inner_radius, outer_radius;  ///< of the gasket [mm]
  std::vector<Hole> holes;            ///< the threaded ones, one a screw
  double screw_circle_radius;         ///< mean [mm]

  double middle_radius() const { return 0.5 * (inner_radius + outer_radius); }
};

/// Of every gasket whose faces are one flat ring: on the body that it is chosen on first, and on
/// its mate if both are modelled. Gaskets that are no rings are left out.
std::vector<ScrewedSeal> screwed_seals(const CaseFile& case_file, const Geometry& geometry,
                                       const Features& features);

/// What the screws of a seal carry of its pressure in a load case, all together, on top of their
/// preload [N]. Of a gasket whose other body is not modelled it is all of the thrust or nothing, by
/// the case's bound; of joined bodies what the states of the joint say.
double screws_gain(const ScrewedSeal& seal, const LoadCase& load_case, const Loading& loading,
                   const ElementarySolution& solution);

}  // namespace crossgrain
