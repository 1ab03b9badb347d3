// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "mesh/meshing.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {

/// A benchmark on one mesh of it.
struct LoadedModel {
  Model model;
  Eigen::VectorXd load;  ///< unknowns [N], the thermal part included
  Eigen::VectorXd heat;  ///< nodes [K]; empty: none
};
using ModelOfMesh = std::function<LoadedModel(const MeshedGeometry&)>;

/// What one mesh gives.
struct RefinedPass {
  double unknowns;
  double estimated;  ///< energy norm of the error, by recovered stress [sqrt(N mm)]
  double energy;     ///< strain energy [N mm]
};

/// As a run does with `[mesh] error`: mesh, solve, estimate, ask for edge lengths where the error
/// comes from, and again.
/// @param fall  each pass aims at the error of the last times this.
std::vector<RefinedPass> refined_by_estimate(const ImportOptions& part, MeshOptions options,
                                             const ModelOfMesh& model_of, int passes, double fall);

/// Meshes of even edges.
std::vector<RefinedPass> refined_evenly(const ImportOptions& part, MeshOptions options,
                                        const ModelOfMesh& model_of,
                                        const std::vector<double>& edges);

/// The exponent b of error ~ unknowns^b, by least squares through all passes.
double rate(const std::vector<RefinedPass>& passes,
            const std::function<double(const RefinedPass&)>& error);

/// Plane faces with this outward normal.
std::vector<FaceId> planes_facing(const Geometry& geometry, const Eigen::Vector3d& normal);

}  // namespace crossgrain::verification
