// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/loads/load_cases.h"
#include "cases/loads/pressure_loads.h"
#include "cases/loads/wrench.h"

namespace crossgrain {

// Until the joint itself is solved, its two bounds: screws that take none of the fluid's thrust on
// the lid (the gasket is relieved by all of it), and screws that take all (the gasket keeps its
// squeeze). Any share between them is a mean of the two, and every mode's admissible set is convex:
// if both bounds hold at some pressure, so does the share between.

/// A group of screws on this part.
struct ScrewGroup {
  std::string name;
  std::vector<FaceId> threads;  ///< walls of all its holes
  std::vector<Hole> holes;      ///< axes pointing to the heads
  Wrench pull;                  ///< of all screws on their threads at nominal preload
  double preload_nominal_N;     ///< per screw
  double least, greatest;       ///< preload over nominal
  ElementaryLoad preload;       ///< nominal: threads, head seats; gaskets are added to it
};

/// A gasket, the screws that press it and the pressure that relieves it.
struct GasketJoint {
  std::string name;
  std::string bolts;
  std::string pressure;
  Eigen::Vector3d normal;  ///< out of the part [-]
  double closing_N;        ///< of the screws at nominal preload, along the normal
  double opening_N;        ///< of the fluid on the lid, along the normal
  ElementaryLoad relief;   ///< screws take none: the gasket gives up the fluid's thrust
  ElementaryLoad share;    ///< screws take all: the threads are pulled by it
};

/// Pull every thread towards its head, press the head seats.
/// @param lid_normal  outward normal of the gasket that the group presses, if there is one: the
///                    heads are on that side.
/// @throws std::invalid_argument naming the place in the case file.
ScrewGroup assemble_screws(const BoltSpec& spec, const std::optional<Eigen::Vector3d>& lid_normal,
                           const Geometry& geometry, const Features& features,
                           const TetrahedronMesh& mesh);

/// Mean outward normal of a gasket's faces.
/// @throws std::invalid_argument if the faces are not flat and alike within 5 degrees.
Eigen::Vector3d gasket_normal(const GasketSpec& spec, const std::vector<FaceId>& faces,
                              const Geometry& geometry);

/// Press the gasket's faces with the screws' pull (added to `screws.preload`) and set up both
/// bounds under the pressure.
/// @throws std::invalid_argument if no opening of the pressure is closed by this gasket.
GasketJoint assemble_gasket(const GasketSpec& spec, ScrewGroup& screws,
                            const AssembledPressure& pressure, const Geometry& geometry,
                            const Features& features, const TetrahedronMesh& mesh);

}  // namespace crossgrain
