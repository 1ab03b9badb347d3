// SPDX-License-Identifier: GPL-3.0-or-later
// What a constant's range does to the factor: bars worked out by hand, and a pipe solved anew.
#include "cases/judgement/constant_effects.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/judgement/confirmed_effects.h"
#include "cases/judgement/factor_range.h"
#include "cases/judgement/factor_slope.h"
#include "cases/judgement/mesh_error.h"
#include "cases/judgement/verdict.h"
#include "solver/error/stress_functional.h"
#include "tests/cases/ranged_material.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/joined_blocks.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

/// A part printed along z, solved and judged as a run does.
struct Solved {
  TetrahedronMesh mesh;
  BodyMaterials materials;
  MaterialField field;
  StressSites sites;
  Targets targets;
  Loading loading;
  std::vector<NodeConstraint> held;
  StaticSolver solver;
  ElementarySolution solution;
  Eigen::VectorXd counted;
  RunResult result;

  Solved(TetrahedronMesh part, std::vector<NodeConstraint> supports,
         const std::vector<MaterialAtConditions>& of_body, std::vector<ElementaryLoad> loads)
      : mesh(std::move(part)),
        materials{of_body, of_body},
        field(uniform_field(mesh, solid_materials(of_body, MaterialSet::nominal),
                            std::vector<Frame>(of_body.size(), Frame::Identity()))),
        held(std::move(supports)),
        solver(mesh, held, {.method = SolverMethod::direct}) {
    Geometry geometry;
    geometry.bodies.resize(of_body.size());
    sites = stress_sites(mesh, geometry, {}, std::vector<double>(of_body.size(), 1.0));
    loading.loads = std::move(loads);
    LoadCase load_case;
    load_case.name = "working";
    load_case.kind = CaseKind::working;
    load_case.held.assign(loading.loads.size(), 0.0);
    load_case.scaling.assign(loading.loads.size(), 1.0);
    loading.cases = {load_case};
    update_field_loads(loading, mesh, field);
    solver.set_material(field);
    solution = solve_loads(solver, mesh, field, sites.fit, loading);
    judge();
  }

  /// Anew where the load cases have been changed.
  void judge() {
    result.cases = judge_cases(model(), loading, solution, field, MaterialSet::nominal);
    find_worst(result);
    const auto state = governing_state(result, sites);
    BOOST_TEST_REQUIRE(state.has_value());
    counted = solver.solve(
        stress_functional(mesh, field, sites.fit.shares(state->site),
                          factor_slope(*state, {*state, model(), loading, solution, field})),
        Unbalanced::left_to_inertia);
  }

  JudgedModel model() const { return {mesh, sites, materials, targets}; }
  double factor() const { return *result.factor.value; }
  void confirm(std::vector<ConstantEffect>& effects) {
    confirm_effects(effects, result, solver, model(), loading, field, solution);
  }
  std::vector<ConstantEffect> effects() {
    return constant_effects(result, model(), loading, solution, field, counted, solver);
  }
  /// Solved fully with other solids.
  double factor_of(const std::vector<SolidMaterial>& solids) {
    MaterialField other = field;
    other.materials = solids;
    Loading loads = loading;
    update_field_loads(loads, mesh, other);
    StaticSolver anew(mesh, held, {.method = SolverMethod::direct});
    anew.set_material(other);
    const auto answer = solve_loads(anew, mesh, other, sites.fit, loads);
    return *judge_cases(model(), loads, answer, other, MaterialSet::nominal)[0]
                .all_loads.factor.value;
  }
};

const ConstantEffect& effect_of(const std::vector<ConstantEffect>& effects,
                                const std::string& constant, const std::string& card = "mine") {
  const auto found = std::ranges::find_if(effects, [&](const ConstantEffect& effect) {
    return effect.constant.name == constant && effect.card == card;
  });
  BOOST_TEST_REQUIRE((found != effects.end()), constant);
  return *found;
}

ElementaryLoad load_of(const Eigen::VectorXd& forces) { return {"load", forces, {}, {}, true, {}}; }

// MPa, on bars' ends.
constexpr double pull = 5.0;

/// Pulled across its layers; nothing holds it.
Solved pulled_bar(const LayeredConstants& constants) {
  const auto mesh = box_mesh({1, 1, 4}, {2, 2, 8});
  const auto along = [](double stress) {
    return [stress](const Eigen::Vector3d&) { return Eigen::Vector3d(0, 0, stress); };
  };
  return {mesh,
          {},
          {material_of("mine", constants)},
          {load_of(traction_load(mesh, {zeta_high}, along(pull)) +
                   traction_load(mesh, {zeta_low}, along(-pull)))}};
}

/// Two bars, one on the other, both of the same length; their outer ends are held and the middle
/// is pushed up, so that the lower one is pulled: springs in parallel.
Solved pushed_between(const LayeredConstants& lower, const LayeredConstants& upper) {
  constexpr double length = 4.0;
  const auto block = box_mesh({1, 1, 4}, {2, 2, 2 * length});
  const auto lower_half = box_mesh({1, 1, 2}, {2, 2, length});
  TetrahedronMesh mesh = block;
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    double z = 0.0;
    for (int k = 0; k < 4; ++k) z += 0.25 * mesh.nodes(2, mesh.tetrahedra(k, t));
    mesh.body_of_tetrahedron[t] = BodyId{z < length ? 1 : 2};
  }
  // Forces of a pull on the end of the lower half, where its nodes are in the whole.
  const Eigen::VectorXd on_half = traction_load(
      lower_half, {zeta_high}, [](const auto&) { return Eigen::Vector3d(0, 0, pull); });
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh.unknowns());
  for (Eigen::Index i = 0; i < lower_half.node_count(); ++i)
    forces.segment<3>(3 * nearest_node(mesh, lower_half.nodes.col(i))) += on_half.segment<3>(3 * i);
  const auto held = constraints_of(mesh, {{"ends", {zeta_low, zeta_high}, Hold::all}});
  return {
      mesh, held, {material_of("lower", lower), material_of("upper", upper)}, {load_of(forces)}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(constant_effects_on_the_factor)

BOOST_AUTO_TEST_CASE(of_a_bar_under_dead_load_the_strength_across_the_layers_alone_matters) {
  LayeredConstants constants = known();
  constants.E_layer = {2000, 1500, 2600};
  constants.E_build = {1500, 1000, 1900};
  constants.G_build = {600, 400, 700};
  constants.Xt = {80, 60, 100};
  constants.Zt = {20, 12, 25};
  constants.Sz = {30, 20, 40};
  Solved bar = pulled_bar(constants);

  const auto effects = bar.effects();

  BOOST_TEST(effects.size() == 6u);
  BOOST_TEST(effects[0].constant.name == "Zt");
  BOOST_TEST((effects[0].basis == EffectBasis::judged));
  BOOST_TEST(*effects[0].at_low == 12.0 / pull, tolerance(1e-9));
  BOOST_TEST(*effects[0].at_high == 25.0 / pull, tolerance(1e-9));
  for (std::size_t i = 1; i < effects.size(); ++i) {
    BOOST_TEST_CONTEXT(effects[i].constant.name)
    BOOST_TEST(reach_of(effects[i]) < 1e-8);
  }
}

BOOST_AUTO_TEST_CASE(a_stronger_mode_takes_over_where_the_weakest_one_grows_strong) {
  LayeredConstants constants = known();
  constants.nu_12 = constants.nu_13 = exactly(0.3);
  constants.Zt = {20, 12, 60};
  // Pushed in the layer by 50 MPa at its sides and pulled by 5 across: the sides fail at 90.
  const auto mesh = box_mesh({1, 1, 4}, {2, 2, 8});
  const auto push = [&](FaceId face, const Eigen::Vector3d& stress) {
    return traction_load(mesh, {face}, [stress](const auto&) { return stress; });
  };
  Solved bar(mesh, {}, {material_of("mine", constants)},
             {load_of(push(zeta_high, {0, 0, pull}) + push(zeta_low, {0, 0, -pull}) +
                      push(xi_high, {-10, 0, 0}) + push(xi_low, {10, 0, 0}))});

  const auto effects = bar.effects();

  BOOST_TEST(*effects[0].at_low == 12.0 / pull, tolerance(1e-9));
  BOOST_TEST(*effects[0].at_high == 90.0 / 10.0, tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(what_the_loads_relieve_may_break_before_they_come) {
  LayeredConstants constants = known();
  constants.Zt = {20, 10, 30};
  TetrahedronMesh other = box_mesh({1, 1, 4}, {2, 2, 8});
  other.nodes.row(0).array() += 4.0;
  const TetrahedronMesh mesh = two_bodies(box_mesh({1, 1, 4}, {2, 2, 8}), other);
  const auto pull_on = [&](FaceId end, double stress) {
    return traction_load(mesh, {end}, [=](const auto&) { return Eigen::Vector3d(0, 0, stress); });
  };
  // One bar is pulled by 15 MPa that the load takes 3 of, the other by 10 of the load.
  Solved bars(mesh, constraints_of(mesh, {{"feet", {zeta_low, of_second(zeta_low)}, Hold::all}}),
              {material_of("mine", constants), material_of("mine", constants)},
              {load_of(pull_on(zeta_high, 15)),
               load_of(pull_on(zeta_high, -3) + pull_on(of_second(zeta_high), 10))});
  bars.loading.cases[0].held = {1.0, 0.0};
  bars.loading.cases[0].scaling = {0.0, 1.0};

  const auto effects = bars.effects();

  BOOST_TEST(*effects[0].at_low == 0.0);
  // Together: 12 MPa against 30.
  BOOST_TEST(*effects[0].at_high == 30.0 / 12.0, tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(two_bars_that_share_a_force_do_so_by_their_stiffness) {
  LayeredConstants lower = known(), upper = known();
  lower.E_build = {1500, 1000, 1900};
  upper.E_build = {2500, 1200, 3000};
  lower.Zt = {20, 16, 22};
  Solved bars = pushed_between(lower, upper);
  // The lower one takes E / (E + E of the upper one).
  const auto by_hand = [](double Zt, double E, double other) {
    return Zt * (E + other) / (pull * E);
  };
  BOOST_TEST(bars.factor() == by_hand(20, 1500, 2500), tolerance(1e-6));

  const auto effects = bars.effects();

  // The field keeps its shape, so that what is foretold is exact.
  const auto& of_lower = effect_of(effects, "E_build", "lower");
  BOOST_TEST((of_lower.basis == EffectBasis::foretold));
  BOOST_TEST(*of_lower.at_low == by_hand(20, 1000, 2500), tolerance(1e-6));
  BOOST_TEST(*of_lower.at_high == by_hand(20, 1900, 2500), tolerance(1e-6));
  const auto& of_upper = effect_of(effects, "E_build", "upper");
  BOOST_TEST(*of_upper.at_low == by_hand(20, 1500, 1200), tolerance(1e-6));
  BOOST_TEST(*of_upper.at_high == by_hand(20, 1500, 3000), tolerance(1e-6));
  BOOST_TEST(effects[0].card == "upper");
}

BOOST_AUTO_TEST_CASE(where_another_place_takes_over_the_greatest_effect_is_solved_for) {
  LayeredConstants lower = known(), upper = known();
  lower.E_build = {1500, 500, 1900};
  upper.E_build = {2500, 2400, 2600};
  upper.Zc = exactly(40);
  Solved bars = pushed_between(lower, upper);
  const auto lower_one = [](double E) { return 20.0 * (E + 2500.0) / (pull * E); };
  const auto upper_one = [](double E) { return 40.0 * (E + 2500.0) / (pull * 2500.0); };
  BOOST_TEST_REQUIRE(lower_one(1500) < upper_one(1500));
  auto effects = bars.effects();
  BOOST_TEST(*effect_of(effects, "E_build", "lower").at_low == lower_one(500), tolerance(1e-6));

  bars.confirm(effects);

  const auto& solved = effect_of(effects, "E_build", "lower");
  BOOST_TEST((solved.basis == EffectBasis::solved));
  BOOST_TEST(*solved.at_low == upper_one(500), tolerance(1e-6));
  BOOST_TEST(*solved.at_high == lower_one(1900), tolerance(1e-6));
  // Solving costs: one constant, the greatest.
  BOOST_TEST((effect_of(effects, "E_build", "upper").basis == EffectBasis::foretold));
}

BOOST_AUTO_TEST_CASE(what_is_held_feels_the_stiffness_as_well) {
  LayeredConstants lower = known(), upper = known();
  lower.E_build = {1500, 1000, 1900};
  upper.E_build = exactly(2500);
  lower.Zt = exactly(1.5);
  Solved bars = pushed_between(lower, upper);
  // Half as much again is held; the lower one takes its share of both.
  bars.loading.cases[0].held = {0.5};
  bars.judge();
  const auto by_hand = [](double E) {
    const double taken = pull * E / (E + 2500.0);
    return (1.5 - 0.5 * taken) / taken;
  };
  BOOST_TEST(*bars.result.pressure_factor.value == by_hand(1500), tolerance(1e-6));
  BOOST_TEST_REQUIRE(by_hand(1500) < *bars.result.factor.value);

  const auto effects = bars.effects();

  BOOST_TEST(*effects[0].at_low == by_hand(1000), tolerance(1e-6));
  BOOST_TEST(*effects[0].at_high == by_hand(1900), tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(the_range_is_found_with_stiff_and_soft_where_they_hurt_most) {
  LayeredConstants lower = known(), upper = known();
  // Both low or both high would share the force as the nominal ones do.
  lower.E_build = {1500, 1000, 2000};
  upper.E_build = {3000, 2000, 4000};
  upper.Zc = exactly(200);  // it is pushed, and not meant to fail
  lower.Zt = {20, 16, 22};
  Solved bars = pushed_between(lower, upper);
  const StiffnessEnds ends = stiffness_ends(bars.effects(), bars.materials);

  add_ranges(bars.result.cases, bars.solver, bars.model(), bars.loading, bars.field, bars.solution,
             ends);

  const FactorRange range = bars.result.cases[0].all_loads.factor;
  BOOST_TEST(*range.low == 16.0 * (2000.0 + 2000.0) / (pull * 2000.0), tolerance(1e-6));
  BOOST_TEST(*range.high == 22.0 * (1000.0 + 4000.0) / (pull * 1000.0), tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(warmed_between_walls_a_bar_feels_its_modulus_and_its_expansion) {
  LayeredConstants constants = known();
  constants.E_build = {1500, 1000, 1900};
  constants.cte_build = {1e-4, 6e-5, 1.5e-4};
  constants.Zc = {70, 60, 75};
  const auto mesh = box_mesh({1, 1, 4}, {2, 2, 8});
  constexpr double warmth = 100.0;
  ElementaryLoad load = load_of(Eigen::VectorXd::Zero(mesh.unknowns()));
  load.temperature_change = Eigen::VectorXd::Constant(mesh.node_count(), warmth);
  Solved bar(mesh, constraints_of(mesh, {{"walls", {zeta_low, zeta_high}, Hold::all}}),
             {material_of("mine", constants)}, {load});
  const auto by_hand = [](double Zc, double E, double cte) { return Zc / (E * cte * warmth); };
  BOOST_TEST(bar.factor() == by_hand(70, 1500, 1e-4), tolerance(1e-6));

  const auto effects = bar.effects();

  const auto& modulus = effect_of(effects, "E_build");
  BOOST_TEST(*modulus.at_low == by_hand(70, 1000, 1e-4), tolerance(1e-6));
  BOOST_TEST(*modulus.at_high == by_hand(70, 1900, 1e-4), tolerance(1e-6));
  const auto& expansion = effect_of(effects, "cte_build");
  BOOST_TEST(*expansion.at_low == by_hand(70, 1500, 6e-5), tolerance(1e-6));
  BOOST_TEST(*expansion.at_high == by_hand(70, 1500, 1.5e-4), tolerance(1e-6));
  BOOST_TEST(*effect_of(effects, "Zc").at_low == by_hand(60, 1500, 1e-4), tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(a_hanging_bar_is_as_strong_as_it_is_light) {
  LayeredConstants constants = known();
  constants.density = {1e-9, 0.8e-9, 1.3e-9};
  const auto mesh = box_mesh({1, 1, 8}, {2, 2, 16});
  ElementaryLoad weight = load_of(Eigen::VectorXd::Zero(mesh.unknowns()));
  weight.acceleration = Eigen::Vector3d(0, 0, -9.81e6);
  Solved bar(mesh, constraints_of(mesh, {{"top", {zeta_high}, Hold::all}}),
             {material_of("mine", constants)}, {weight});

  const auto effects = bar.effects();

  BOOST_TEST(*effects[0].at_low == bar.factor() / 0.8, tolerance(1e-6));
  BOOST_TEST(*effects[0].at_high == bar.factor() / 1.3, tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(of_a_pipe_small_changes_come_out_as_when_it_is_solved_anew) {
  LayeredConstants constants = known();
  const auto within = [](double value) { return Ranged{value, 0.995 * value, 1.005 * value}; };
  constants.E_layer = within(8000);
  constants.E_build = within(3500);
  constants.nu_12 = within(0.35);
  constants.nu_13 = within(0.39);
  constants.G_build = within(1300);
  const Pipe shape(2);
  Solved pipe(shape.mesh, shape.held, {material_of("mine", constants)}, {load_of(shape.load)});

  const auto effects = pipe.effects();

  const auto ranged = ranged_constants(pipe.materials.service[0]);
  double greatest = 0.0;
  for (const auto& effect : effects) greatest = std::max(greatest, reach_of(effect));
  for (std::size_t c = 0; c < ranged.size(); ++c) {
    const auto solved = [&](RangeEnd end) {
      std::vector<RangeEnd> ends(ranged.size(), RangeEnd::value);
      ends[c] = end;
      return pipe.factor_of({solid_at_ends(pipe.materials.service[0], ends).solid});
    };
    const double change = solved(RangeEnd::high) - solved(RangeEnd::low);
    const auto& effect = effect_of(effects, ranged[c].name);
    // A change of a hundredth: what is left of it by third order is a ten-thousandth.
    BOOST_TEST_CONTEXT(ranged[c].name)
    BOOST_TEST(std::abs(*effect.at_high - *effect.at_low - change) <
               1e-3 * std::abs(change) + 1e-5 * greatest);
  }
}

BOOST_AUTO_TEST_CASE(a_followed_factor_takes_its_constants_along) {
  std::vector<ConstantEffect> effects(1);
  effects[0].at_low = 2.0;
  effects[0].at_high = 3.0;

  follow(effects, 2.5, 5.0);

  BOOST_TEST(*effects[0].at_low == 4.0);
  BOOST_TEST(*effects[0].at_high == 6.0);
}

BOOST_AUTO_TEST_SUITE_END()
