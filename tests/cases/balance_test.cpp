// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/balance.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/judgement/governing_place.h"
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
    Geometry geometry;
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

  const auto place = look_at_governing(result, bar.model(), bar.loading, solution, bar.field);

  BOOST_REQUIRE(place.has_value());
  // Cells of 5 x 6 x 10 mm, each cut along its diagonal.
  BOOST_TEST(place->longest_edge_mm == std::sqrt(161.0), tt::tolerance(1e-12));
  BOOST_TEST(place->bead_width_mm == 1.0);
  BOOST_TEST(!place->converged);
  // Under uniform stress both ways of taking it agree.
  BOOST_REQUIRE(place->raw.has_value());
  BOOST_TEST(place->raw->stress_basis == "raw");
  BOOST_TEST(*place->raw->factor.value == *result.governing->factor.value, tt::tolerance(solved));
}

BOOST_AUTO_TEST_CASE(edges_are_measured_near_a_point_of_the_body_asked_for) {
  auto mesh = joined(box_mesh({1, 1, 1}, {1, 1, 1}), box_mesh({1, 1, 1}, {4, 4, 4}), 10);
  for (Eigen::Index t = 6; t < mesh.tetrahedron_count(); ++t)
    mesh.body_of_tetrahedron[t] = BodyId{2};
  const Eigen::Vector3d corner(0, 0, 0);
  BOOST_TEST(longest_edge_near(mesh, BodyId{1}, corner, 0.1) == std::sqrt(3.0),
             tt::tolerance(1e-12));
  BOOST_TEST(longest_edge_near(mesh, BodyId{2}, corner, 0.1) == 4 * std::sqrt(3.0),
             tt::tolerance(1e-12));
  BOOST_TEST(longest_edge_near(mesh, BodyId{1}, {9, 9, 9}, 0.1) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_free_bar_printed_upright_holds_Zt_lying_down_Xt_with_their_ranges) {
  FreeBar bar;
  StaticSolver solver(bar.mesh, {});

  const auto rows = study_directions(solver, bar.model(), bar.loading, bar.field, exact_volume(),
                                     {{"upright", {0, 0, 1}}, {"lying", {1, 0, 0}}});

  BOOST_REQUIRE(rows.size() == 2);
  BOOST_TEST(*rows[0].factor.value == 20.0 / 4.0, tt::tolerance(solved));
  BOOST_TEST(*rows[0].factor.low == 16.0 / 4.0, tt::tolerance(solved));
  BOOST_TEST(*rows[0].factor.high == 24.0 / 4.0, tt::tolerance(solved));
  BOOST_TEST((rows[0].governing->mode == FailureMode::interlayer));
  BOOST_TEST(*rows[1].factor.value == 50.0 / 4.0, tt::tolerance(solved));
  BOOST_TEST(*rows[1].factor.low == 40.0 / 4.0, tt::tolerance(solved));
  BOOST_TEST((rows[1].governing->mode == FailureMode::in_layer_tension));
  BOOST_TEST(rows[0].distrust.empty());
  // Free of rigid motion: both ends move by half the stretch s L / (2 E).
  BOOST_TEST(rows[0].displacement_max_mm >= 4.0 * 40 / (2 * 1800.0));
}

BOOST_AUTO_TEST_CASE(a_study_on_a_mesh_that_lost_volume_is_distrusted) {
  FreeBar bar;
  StaticSolver solver(bar.mesh, {});
  MeshReport lost = exact_volume();
  lost.volume_mm3 *= 0.9;

  const auto rows =
      study_directions(solver, bar.model(), bar.loading, bar.field, lost, {{"upright", {0, 0, 1}}});

  BOOST_REQUIRE(rows[0].distrust.size() == 1);
  BOOST_TEST(rows[0].distrust[0].find("volume error") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(strain_energy_is_half_stress_times_strain_times_volume) {
  FreeBar bar;
  StaticSolver solver(bar.mesh, {});
  for (auto& frame : bar.field.frames) frame = frame_along({0, 0, 1});

  const auto cases =
      solve_and_judge(solver, bar.model(), bar.loading, bar.field, MaterialSet::nominal);

  BOOST_TEST(cases[0].strain_energy_mJ == 0.5 * 16.0 / 1800.0 * 4800.0, tt::tolerance(solved));
}

// An orthotropic bar that warms freely is free of stress in any print direction only if the thermal
// load is renewed for it.
BOOST_AUTO_TEST_CASE(a_study_renews_the_loads_that_depend_on_the_print_direction) {
  FreeBar bar;
  ElementaryLoad warming;
  warming.name = "warming";
  warming.temperature_change = Eigen::VectorXd::Constant(bar.mesh.node_count(), 40.0);
  warming.nodal_forces = thermal_load(bar.mesh, bar.field, warming.temperature_change);
  bar.loading.loads.push_back(warming);
  bar.loading.cases[0].held = {0.0, 1.0};
  bar.loading.cases[0].scaling = {1.0, 0.0};
  StaticSolver solver(bar.mesh, {});

  const auto rows = study_directions(solver, bar.model(), bar.loading, bar.field, exact_volume(),
                                     {{"upright", {0, 0, 1}}, {"lying", {1, 0, 0}}});

  BOOST_TEST(*rows[0].factor.value == 20.0 / 4.0, tt::tolerance(1e-7));
  BOOST_TEST(*rows[1].factor.value == 50.0 / 4.0, tt::tolerance(1e-7));
}

BOOST_AUTO_TEST_SUITE_END()
