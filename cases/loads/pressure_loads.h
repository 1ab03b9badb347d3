// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/loads/load_cases.h"
#include "cases/loads/wrench.h"

namespace crossgrain {

/// What the fluid does to whatever closes an opening.
struct FluidThrust {
  Opening opening;
  Wrench wrench;           ///< on what closes it
  std::string carried_by;  ///< "plug", "outside", or the name of a gasket, contact or support
};

/// A pressure put on its faces, with the thrusts that plugs and supports hand on to the part. What
/// gaskets carry is left to the joint.
struct AssembledPressure {
  ElementaryLoad load;
  std::vector<FluidThrust> thrusts;
  double value_MPa;  ///< above the surrounding air; of a pure head the greatest on the faces
  std::vector<std::string> notes;
};

/// Pressure over space: the value, and the head below the free surface.
ScalarOfPosition pressure_field(const PressureLoad& spec);

/// On the nodes of its faces, head included [MPa].
double greatest_pressure(const PressureLoad& spec, const std::vector<FaceId>& faces,
                         const TetrahedronMesh& mesh);

/// @throws std::invalid_argument naming the place in the case file.
AssembledPressure assemble_pressure(const PressureLoad& spec, const CaseFile& case_file,
                                    const Geometry& geometry, const Features& features,
                                    const TetrahedronMesh& mesh);

}  // namespace crossgrain
