// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "solver/stress/stress_recovery.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {

/// A row of the chapter on what a bead feels.
void check_felt(const std::string& id, const std::string& what, const std::string& source,
                double target, const Tolerance& tolerance, double obtained);

/// The first body's stress point at the node that lies there; to 1e-9 mm, or the test ends.
StressPoint point_at(const TetrahedronMesh& mesh, const Eigen::Vector3d& position);

/// What a bead [mm] feels at a node of a field that the mesh's elements fit.
double felt_at(const TetrahedronMesh& mesh, const Eigen::Vector3d& position, double bead,
               const std::function<double(const Eigen::Vector3d&)>& field);

}  // namespace crossgrain::verification
