// SPDX-License-Identifier: GPL-3.0-or-later
// Bodies whose meshes do not match: constant pressure through their faces, rings shrunk together.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/support/joined_blocks.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using namespace testing;

constexpr double low_height = 5.0, high_height = 4.0, warmed = 50.0;  // mm, mm, K
constexpr double expansion = 1e-4;                                    // 1/K

/// Pressures at the points of two blocks, one on the other, warmed between faces that hold them
/// along z and let them slide.
Eigen::VectorXd pressures(const InterfaceLaw& law, double E_upper, double nu_upper) {
  const auto upper = block_mesh({4, 3, 2}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(10.0 * graded(u.x(), 4, 1.3), 8.0 * graded(u.y(), 3, 0.8),
                           low_height + high_height * u.z());
  });
  const auto mesh = two_bodies(box_mesh({3, 2, 2}, {10.0, 8.0, low_height}), upper);
  const Eigen::Vector3d alike = Eigen::Vector3d::Constant(expansion);
  const auto field = uniform_field(mesh,
                                   {elastic_material(isotropic(2000.0, 0.35), alike),
                                    elastic_material(isotropic(E_upper, nu_upper), alike)},
                                   {Frame::Identity(), Frame::Identity()});
  std::vector<Support> held;
  for (FaceId face :
       {xi_low, eta_low, zeta_low, of_second(xi_low), of_second(eta_low), of_second(zeta_high)})
    held.push_back({"sliding", {face}, Hold::normal});
  StaticSolver solver(mesh, constraints_of(mesh, held), {.method = SolverMethod::direct});
  solver.set_material(field);
  const auto pair = pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, law, 0.1);
  JointSolver joint(mesh, solver, {{pair}, {}}, {.penetration = 1e-8});
  const Eigen::VectorXd warm = Eigen::VectorXd::Constant(mesh.node_count(), warmed);
  return joint.solve({thermal_load(mesh, field, warm), {}, {}, {}}).pairs[0].pressure;
}

void check_pressure(const std::string& id, const std::string& what, double target,
                    const Eigen::VectorXd& obtained) {
  check({Chapter::contact, id,
         what + ": largest departure of pressure from the constant one, share of it",
         "exact: patch test (Irons), bars in series (handbook form)", 0.0,
         absolute(1e-6, "what augmentation is told to leave")},
        (obtained.array() / target - 1.0).abs().maxCoeff<Eigen::PropagateNaN>());
}

BOOST_AUTO_TEST_SUITE(joined_bodies)

BOOST_AUTO_TEST_CASE(tied_blocks_pass_the_patch_test) {
  check_pressure("patch tied", "two tied blocks, meshes that do not match, warmed between walls",
                 2000.0 * expansion * warmed, pressures(Tied{}, 2000.0, 0.35));
}

BOOST_AUTO_TEST_CASE(blocks_of_two_materials_in_contact_pass_the_patch_test) {
  const double compliance = low_height / 2000.0 + high_height / 5000.0;
  check_pressure("patch contact",
                 "two blocks of different materials that press on each other, warmed between walls",
                 expansion * warmed * (low_height + high_height) / compliance,
                 pressures(Unilateral{}, 5000.0, 0.25));
}

BOOST_AUTO_TEST_CASE(a_ring_shrunk_on_another) {
  constexpr double a = 10.0, b = 15.0, c = 25.0, E = 2000.0, interference = 0.03;
  constexpr double quarter = std::numbers::pi / 2.0, height = 4.0;
  const CylinderSector inner{a, b, quarter, height}, outer{b, c, quarter, height};
  const auto mesh =
      two_bodies(block_mesh({3, 8, 1}, inner.map()), block_mesh({4, 10, 1}, outer.map()));
  const auto material = elastic_material(isotropic(E, 0.35));
  const auto field =
      uniform_field(mesh, {material, material}, {Frame::Identity(), Frame::Identity()});
  std::vector<Support> held;
  for (FaceId face :
       {eta_low, eta_high, zeta_low, of_second(eta_low), of_second(eta_high), of_second(zeta_low)})
    held.push_back({"symmetry", {face}, Hold::normal});
  StaticSolver solver(mesh, constraints_of(mesh, held), {.method = SolverMethod::direct});
  solver.set_material(field);
  auto pair = pair_between(mesh, field, {xi_high}, {of_second(xi_low)}, Unilateral{}, 0.1);
  pair.clearance = -interference;
  JointSolver joint(mesh, solver, {{pair}, {}});

  const auto solution = joint.solve({Eigen::VectorXd::Zero(mesh.unknowns()), {}, {}, {}});

  const double pressure =
      interference * E /
      (b * ((b * b + a * a) / (b * b - a * a) + (c * c + b * b) / (c * c - b * b)));
  double area = 0.0;
  for (const auto& point : pair.points) area += point.area;
  const auto row = [&](const std::string& id, const std::string& what, double target,
                       double found) {
    check({Chapter::contact, "press fit " + id, "rings 10-15 and 15-25, interference 0.03: " + what,
           "exact: Lame, two rings, free ends", target,
           fraction(1e-2, "elements of a third of the wall; 1 % of one element's give is left")},
          found);
  };
  row("pressure", "mean pressure between them", pressure, solution.pairs[0].force / area);
  const int node = nearest_node(mesh, {c, 0.0, 0.0});
  row("u(25)", "the outer one's growth", 2.0 * pressure * b * b * c / (E * (c * c - b * b)),
      solution.displacement[3 * Eigen::Index{node}]);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
