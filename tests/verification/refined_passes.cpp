// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/refined_passes.h"

#include <Eigen/QR>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <iomanip>

#include "solver/error/error_energy.h"
#include "solver/error/patch_recovery.h"
#include "solver/error/wanted_sizes.h"

namespace crossgrain::verification {
namespace {

struct Solved {
  TetrahedronMesh mesh;
  RefinedPass pass;
  Eigen::VectorXd shares;  ///< per element: squared energy norm of the error [N mm]
};

Solved solved(const ImportOptions& part, const MeshOptions& options, const ModelOfMesh& model_of) {
  const LoadedModel loaded = model_of(mesh_step(part, options));
  const TetrahedronMesh& mesh = loaded.model.mesh;
  const MaterialField& field = loaded.model.field;
  StaticSolver solver(mesh, loaded.model.held);
  solver.set_material(field);
  const Eigen::VectorXd displacement = solver.solve(loaded.load);
  EstimatedStress stress{element_stress(mesh, field, displacement, loaded.heat), {}};
  const auto points = stress_points(mesh);
  stress.recovered = recovered_over_patches(mesh, points, {&stress.elements}).front();
  Solved result;
  result.shares = error_energy(mesh, field, points, stress, stress);
  result.pass = {static_cast<double>(mesh.unknowns()), std::sqrt(result.shares.sum()),
                 strain_energy(mesh, field, displacement, loaded.heat)};
  BOOST_TEST_MESSAGE(result.pass.unknowns << " unknowns, estimated " << result.pass.estimated
                                          << ", energy " << std::setprecision(10)
                                          << result.pass.energy);
  result.mesh = mesh;
  return result;
}

}  // namespace

std::vector<RefinedPass> refined_by_estimate(const ImportOptions& part, MeshOptions options,
                                             const ModelOfMesh& model_of, int passes, double fall) {
  std::vector<RefinedPass> found;
  for (int i = 0; i < passes; ++i) {
    const Solved now = solved(part, options, model_of);
    found.push_back(now.pass);
    options.wanted_sizes =
        wanted_sizes(now.mesh, now.shares,
                     {fall * fall * now.shares.sum(), std::numeric_limits<double>::infinity()});
  }
  return found;
}

std::vector<RefinedPass> refined_evenly(const ImportOptions& part, MeshOptions options,
                                        const ModelOfMesh& model_of,
                                        const std::vector<double>& edges) {
  std::vector<RefinedPass> found;
  for (const double edge : edges) {
    options.size = edge;
    found.push_back(solved(part, options, model_of).pass);
  }
  return found;
}

double rate(const std::vector<RefinedPass>& passes,
            const std::function<double(const RefinedPass&)>& error) {
  Eigen::MatrixX2d lines(passes.size(), 2);
  Eigen::VectorXd logs(passes.size());
  for (std::size_t i = 0; i < passes.size(); ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    lines.row(row) << 1.0, std::log(passes[i].unknowns);
    logs[row] = std::log(error(passes[i]));
  }
  return lines.colPivHouseholderQr().solve(logs)[1];
}

std::vector<FaceId> planes_facing(const Geometry& geometry, const Eigen::Vector3d& normal) {
  std::vector<FaceId> faces;
  for (const CadFace& face : geometry.faces)
    if (face.kind == SurfaceKind::plane && face.axis.dot(normal) > 1.0 - 1e-9)
      faces.push_back(face.id);
  return faces;
}

}  // namespace crossgrain::verification
