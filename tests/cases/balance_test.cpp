// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/balance.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/judgement/body_balance.h"
#include "cases/judgement/governing_place.h"
#include "cases/judgement/hidden_zone.h"
#include "cases/judgement/mesh_error.h"
#include "cases/judgement/mode_errors.h"
#include "cases/judgement/raw_stress.h"
#include "cases/judgement/verdict.h"
#include "cases/studies/direction_study.h"
#include "tests/cases/uniform_sites.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace tt = boost::test_tools;

namespace {

// A well-conditioned direct solve on some hundred unknowns leaves about 1e-12.
constexpr double solved = 1e-9;

SolidMaterial printed_plastic() {
  return {orthotropic(TransverselyIsotropicConstants{2500, 1800, 0.35, 0.33, 750}),
          {7e-5, 7e-5, 9e-5},
          1.2e-9,
          Strength(round_strength())};
}

struct Bar {
  TetrahedronMesh mesh = box_mesh({2, 2, 4}, {10, 12, 40});
  MaterialField field = uniform_field(mesh, {printed_plastic()}, {frame_along({0.2, 0.3, 0.9})});
  Loading loading;

  void pull(const std::vector<Support>& supports, const Eigen::Vector3d& traction) {
    loading.supports = supports;
    ElementaryLoad load;
    load.name = "pull";
    load.scales = true;
    load.nodal_forces =
        traction_load(mesh, {zeta_high}, [&](const Eigen::Vector3d&) { return traction; });
    loading.loads = {load};
    loading.cases.resize(1);
    loading.cases[0].name = "working";
    loading.cases[0].kind = CaseKind::working;
    loading.cases[0].held = {0.0};
    loading.cases[0].scaling = {1.0};
  }
};

MeshReport exact_volume() {
  MeshReport report;
  report.volume_mm3 = report.cad_volume_mm3 = 4800.0;
  return report;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(balance)

BOOST_AUTO_TEST_CASE(a_held_bar_answers_its_pull_with_force_and_moment) {
  Bar bar;
  bar.pull({{"foot", {zeta_low}, Hold::all, {}}}, {0, 0.5, 2.0});  // 60 N and 240 N at z = 40
  StaticSolver solver(bar.mesh, constraints_of(bar.mesh, bar.loading.supports));
  solver.set_material(bar.field);
  const auto solution = solve_loads(solver, bar.mesh, bar.field,
                                    BeadFit(bar.mesh, stress_points(bar.mesh), {1.0}), bar.loading);
  const auto combined = combine(bar.loading.cases[0], bar.loading, solution);

  const auto reactions =
      support_reactions(bar.mesh, bar.loading.supports, combined, solver, "working");
  const auto report = check_balance(bar.mesh, bar.loading, solution, solver, exact_volume());

  BOOST_REQUIRE(reactions.size() == 1);
  BOOST_TEST(reactions[0].load_case == "working");
  BOOST_TEST(near(reactions[0].force, Eigen::Vector3d(0, -60, -240), solved));
  // About the origin the load at (5, 6, 40) has the moment (6*240 - 40*60, -5*240, 5*60).
  BOOST_TEST(near(reactions[0].moment, Eigen::Vector3d(960, 1200, -300), solved));
  BOOST_TEST(report.force_error < solved);
  BOOST_TEST(report.moment_error < solved);
  BOOST_TEST(report.volume_error == 0.0);
}

BOOST_AUTO_TEST_CASE(supports_that_share_nodes_count_each_force_once) {
  Bar bar;
  bar.pull({{"foot", {zeta_low}, Hold::all, {}},
            {"side", {xi_low}, Hold::normal, {}},
            {"back", {eta_low}, Hold::direction, {0.0, 0.6, 0.8}}},
           {1.0, 0.5, 2.0});
  StaticSolver solver(bar.mesh, constraints_of(bar.mesh, bar.loading.supports));
  solver.set_material(bar.field);
  const auto solution = solve_loads(solver, bar.mesh, bar.field,
                                    BeadFit(bar.mesh, stress_points(bar.mesh), {1.0}), bar.loading);
  const auto combined = combine(bar.loading.cases[0], bar.loading, solution);

  Eigen::Vector3d total = Eigen::Vector3d::Zero();
  for (const auto& reaction :
       support_reactions(bar.mesh, bar.loading.supports, combined, solver, "working")) {
    total += reaction.force;
  }

  BOOST_TEST(near(total, Eigen::Vector3d(-120, -60, -240), solved));
}

BOOST_AUTO_TEST_CASE(a_displacement_that_does_not_answer_the_load_is_found) {
  Bar bar;
  bar.pull({{"foot", {zeta_low}, Hold::all, {}}}, {0, 0, 2.0});
  StaticSolver solver(bar.mesh, constraints_of(bar.mesh, bar.loading.supports));
  solver.set_material(bar.field);
  auto solution = solve_loads(solver, bar.mesh, bar.field,
                              BeadFit(bar.mesh, stress_points(bar.mesh), {1.0}), bar.loading);
  solution.displacement *= 1.0 + 1e-4;

  const auto report = check_balance(bar.mesh, bar.loading, solution, solver, exact_volume());

  BOOST_TEST(report.force_error == 1e-4, tt::tolerance(1e-3));  // one load all one way
}

BOOST_AUTO_TEST_CASE(volumes_and_NaN_are_not_smoothed_over) {
  Bar bar;
  bar.pull({{"foot", {zeta_low}, Hold::all, {}}}, {0, 0, 2.0});
  StaticSolver solver(bar.mesh, constraints_of(bar.mesh, bar.loading.supports));
  solver.set_material(bar.field);
  auto solution = solve_loads(solver, bar.mesh, bar.field,
                              BeadFit(bar.mesh, stress_points(bar.mesh), {1.0}), bar.loading);
  solution.displacement(5, 0) = std::nan("");
  MeshReport volumes = exact_volume();
  volumes.volume_mm3 = 4704.0;

  const auto report = check_balance(bar.mesh, bar.loading, solution, solver, volumes);

  BOOST_TEST(std::isnan(report.force_error));
  BOOST_TEST(report.volume_error == 0.02, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(from_mesh_to_factor)

namespace {

/// A bar pulled at both ends with 4 MPa, held by nothing.
struct FreeBar : Bar {
  Geometry geometry;
  BodyMaterials materials;
  Targets targets;
  StressSites sites;

  FreeBar() {
    pull({}, {0, 0, 4.0});
    loading.loads[0].nodal_forces += traction_load(
        mesh, {zeta_low}, [](const Eigen::Vector3d&) { return Eigen::Vector3d(0, 0, -4.0); });
    MaterialAtConditions material;
    material.nominal = material.low = material.high = printed_plastic();
    material.low.strength = Strength(LayeredStrength{40, 60, 16, 45, 12});
    material.high.strength = Strength(LayeredStrength{55, 60, 24, 45, 12});
    materials.service = materials.proof = {material};
    geometry.bodies.resize(1);
    geometry.bodies.front().name = "bar";
    sites = stress_sites(mesh, geometry, {}, {1.0});
  }
  JudgedModel model() const { return {mesh, sites, materials, targets}; }
};

}  // namespace

BOOST_AUTO_TEST_CASE(the_governing_place_is_seen_with_the_mesh_round_it) {
  FreeBar bar;
  StaticSolver solver(bar.mesh, {});
  solver.set_material(bar.field);
  const auto solution = solve_loads(solver, bar.mesh, bar.field, bar.sites.fit, bar.loading);
  RunResult result;
  result.targets = bar.targets;
  result.cases = judge_cases(bar.model(), bar.loading, solution, bar.field, MaterialSet::nominal);
  conclude(result, 2);

  const auto state = governing_state(result, bar.sites);
  BOOST_REQUIRE(state.has_value());
  const auto place = look_at_governing(*state, {}, bar.geometry, {}, bar.model(), bar.loading,
                                       solution, bar.field);

  // Cells of 5 x 6 x 10 mm, each cut along its diagonals.
  BOOST_TEST(place.mean_edge_mm > 6.0);
  BOOST_TEST(place.mean_edge_mm < std::sqrt(161.0));
  BOOST_TEST(place.bead_width_mm == 1.0);
  BOOST_TEST(!place.resolved);
  // There is no inner edge in this part, so that the estimate alone tells how well it is meshed.
  BOOST_TEST(place.converged());
  // Under uniform stress both ways of taking it agree, and the mesh makes no error.
  const auto raw = RawStress(*state, bar.model(), bar.loading, solution, bar.field).worst();
  BOOST_REQUIRE(raw.has_value());
  BOOST_TEST(raw->stress_basis == "raw");
  BOOST_TEST(*raw->factor.value == *result.governing->factor.value, tt::tolerance(solved));
  const auto estimate = estimate_mesh_error(*state, bar.model(), bar.loading, solution, bar.field,
                                            result.cases[state->load_case], place, solver);
  BOOST_TEST(estimate.error.energy < 1e-6);
  BOOST_TEST(estimate.error.factor < 1e-6 * state->factor);
  result.mesh_error = MeshError{0.0, 0.125};
  add_mode_errors(result, bar.geometry, bar.model(), bar.loading, solution, bar.field);
  for (const ModeResult& mode : result.cases[0].all_loads.modes) {
    if (!mode.factor.value) continue;
    BOOST_REQUIRE(mode.mesh_error.has_value());
    // What governs keeps the error of its own estimate.
    const double told = mode.mode == state->mode ? *mode.mesh_error - 0.125 : *mode.mesh_error;
    BOOST_TEST(std::abs(told) < 1e-6 * *mode.factor.value);
  }
}

BOOST_AUTO_TEST_CASE(beside_a_support_that_would_govern_a_coarse_mesh_hides_a_zone) {
  FreeBar bar;
  RunResult result;
  ModeResult governing{}, at_support{};
  governing.factor = {4.0, 4.0, 4.0};
  at_support.factor = {3.0, 3.0, 3.0};
  at_support.body = "bar";
  at_support.position = {0, 0, 0};
  result.governing = governing;
  result.cases.resize(1);
  result.cases[0].kind = CaseKind::working;
  result.cases[0].all_loads.near_artificial = {at_support};

  const auto zone = hidden_zone(result, bar.model());
  BOOST_REQUIRE(zone.has_value());
  BOOST_TEST(*zone->at_support.factor.value == 3.0);
  BOOST_TEST(zone->mean_edge_mm > 5.0);

  bar.sites.bead_width_of_body = {40.0};  // the mesh resolves so wide a bead
  BOOST_TEST(!hidden_zone(result, bar.model()).has_value());
  bar.sites.bead_width_of_body = {1.0};
  result.cases[0].all_loads.near_artificial[0].factor.value = 4.5;  // it would not govern
  BOOST_TEST(!hidden_zone(result, bar.model()).has_value());
}

BOOST_AUTO_TEST_CASE(every_body_s_volume_and_mass_stand_beside_cad_s) {
  FreeBar bar;
  bar.geometry.bodies.front().id = BodyId{1};
  bar.geometry.bodies.front().volume = 5000.0;  // the mesh has 4800

  const auto bodies = balance_bodies(bar.geometry, bar.mesh, bar.field, bar.materials.service);

  BOOST_REQUIRE(bodies.size() == 1);
  BOOST_TEST(bodies[0].volume_mm3 == 4800.0, tt::tolerance(1e-12));
  BOOST_TEST(bodies[0].volume_error() == 0.04, tt::tolerance(1e-9));
  BOOST_TEST(bodies[0].mass_g == 5.76, tt::tolerance(1e-9));  // 1.2 g/cm^3
  BOOST_TEST(bodies[0].cad_mass_g == 6.0, tt::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(the_state_at_the_limit_is_that_of_the_factor) {
  FreeBar bar;
  StaticSolver solver(bar.mesh, {});
  solver.set_material(bar.field);
  const auto solution = solve_loads(solver, bar.mesh, bar.field, bar.sites.fit, bar.loading);
  RunResult result;
  result.cases = judge_cases(bar.model(), bar.loading, solution, bar.field, MaterialSet::nominal);
  find_worst(result);
  const auto state = governing_state(result, bar.sites);
  BOOST_REQUIRE(state.has_value());

  const StateStress stress(*state, bar.model(), bar.loading, solution, bar.field);

  BOOST_TEST(*stress.factor_at(state->site) == state->factor, tt::tolerance(1e-9));
  // Held loads that break the part by themselves leave no state at the limit.
  result.governing->factor.value = 0.0;
  BOOST_TEST(!governing_state(result, bar.sites).has_value());
  LoadCase preloaded{};
  preloaded.held = {1.0, 0.0};
  preloaded.scaling = {0.0, 2.0};
  const GoverningState held{0, 0, FailureMode::interlayer, 3.0, true};
  BOOST_TEST(held.at_limit(preloaded) == (std::vector<double>{1.0, 6.0}), tt::per_element());
  const GoverningState together{0, 0, FailureMode::interlayer, 3.0, false};
  BOOST_TEST(together.at_limit(preloaded) == (std::vector<double>{3.0, 6.0}), tt::per_element());
}

BOOST_AUTO_TEST_CASE(edges_are_measured_near_a_point_of_the_body_asked_for) {
  auto mesh = joined(box_mesh({1, 1, 1}, {1, 1, 1}), box_mesh({1, 1, 1}, {4, 4, 4}), 10);
  for (Eigen::Index t = 6; t < mesh.tetrahedron_count(); ++t)
    mesh.body_of_tetrahedron[t] = BodyId{2};
  const Eigen::Vector3d corner(0, 0, 0);
  // Each of the six has three sides of the cube, two diagonals of its sides and its own.
  const double mean = (3.0 + 2.0 * std::sqrt(2.0) + std::sqrt(3.0)) / 6.0;
  BOOST_TEST(mean_edge_near(mesh, BodyId{1}, corner, 0.1) == mean, tt::tolerance(1e-12));
  BOOST_TEST(mean_edge_near(mesh, BodyId{2}, corner, 0.1) == 4 * mean, tt::tolerance(1e-12));
  BOOST_TEST(mean_edge_near(mesh, BodyId{1}, {9, 9, 9}, 0.1) == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
