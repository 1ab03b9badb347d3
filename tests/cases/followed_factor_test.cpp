// SPDX-License-Identifier: GPL-3.0-or-later
// A bar that is pulled until it presses on another: springs in parallel, worked out by hand.
#include "cases/judgement/followed_factor.h"

#include <boost/test/unit_test.hpp>

#include "tests/support/joined_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

// Of both bars, one above the other [mm, MPa].
constexpr double side = 10.0, length = 50.0, E = 2000.0;
constexpr double pull = 5.0;                        // on the lower bar's upper end [MPa]
constexpr double across_layers = 20.0;              // strength [MPa]
constexpr double gap = 0.2;                         // between the bars [mm]
constexpr double closes = gap / length * E / pull;  // multiple of the pull

struct BarsWithGap {
  TetrahedronMesh mesh = two_bodies(box_mesh({2, 2, 5}, {side, side, length}), upper());
  MaterialField field;
  BodyMaterials materials;
  Targets targets;
  StressSites sites;
  Loading loading;
  StaticSolver solver;
  ElementarySolution solution;
  std::vector<CaseResult> results;

  BarsWithGap()
      : field(uniform_field(mesh, {plastic(), plastic()}, {Frame::Identity(), Frame::Identity()})),
        solver(mesh,
               constraints_of(mesh, {{"foot", {zeta_low}, Hold::all, {}},
                                     {"top", {of_second(zeta_high)}, Hold::all, {}}}),
               {.method = SolverMethod::direct}) {
    MaterialAtConditions material;
    material.nominal = material.low = material.high = plastic();
    materials.service = materials.proof = {material, material};
    Geometry geometry;
    geometry.bodies.resize(2);
    sites = stress_sites(mesh, geometry, {}, {1.0, 1.0});
    load();
    solver.set_material(field);
    solution = solve_loads(solver, mesh, field, sites.fit, loading);
    results = judge_cases(model(), loading, solution, field, MaterialSet::nominal);
  }

  JudgedModel model() const { return {mesh, sites, materials, targets}; }

 private:
  static TetrahedronMesh upper() {
    TetrahedronMesh bar = box_mesh({3, 2, 5}, {side, side, length});
    bar.nodes.row(2).array() += length + gap;
    return bar;
  }
  static SolidMaterial plastic() {
    return {isotropic(E, 0.0), Eigen::Vector3d::Zero(), 1e-9,
            LayeredStrength{60.0, 60.0, across_layers, 45.0, 60.0}};
  }
  void load() {
    JoinedBodies joined;
    InterfacePair pair =
        pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, Unilateral{}, 2.0 * gap);
    pair.distance_counts = true;
    joined.joint = {{pair}, {}};
    joined.gasket_growth = {0.0};
    ElementaryLoad pulled;
    pulled.name = "pull";
    pulled.scales = true;
    pulled.nodal_forces = traction_load(
        mesh, {zeta_high}, [](const Eigen::Vector3d&) { return Eigen::Vector3d(0, 0, pull); });
    joined.acting = {pulled};
    joined.states = {{.name = "at rest", .situation = "at rest", .acting = {0.0}},
                     {.name = "pulled", .situation = "pulled", .acting = {1.0}}};
    loading.loads.resize(2);
    loading.joined = std::move(joined);
    LoadCase load_case;
    load_case.name = "working";
    load_case.kind = CaseKind::working;
    load_case.held = {1.0, 0.0};
    load_case.scaling = {-1.0, 1.0};
    load_case.leading_pressure = "pull";
    load_case.leading_value_MPa = pull;
    loading.cases = {load_case};
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(followed_factor)

BOOST_AUTO_TEST_CASE(
    a_bar_that_comes_to_press_on_another_carries_more_than_the_straight_line_says) {
  BarsWithGap bars;
  // At multiple 1 the gap is open: a bar alone.
  BOOST_TEST(*bars.results[0].scaling_loads.factor.value == across_layers / pull, tolerance(1e-3));

  const auto followed = follow_factors(bars.results, bars.solver, bars.model(), bars.loading,
                                       bars.field, bars.solution);

  BOOST_REQUIRE(followed.size() == 1u);
  BOOST_TEST(followed[0].unsettled == "");
  // From `closes` on both bars share what comes on top: (q + closes) / 2 of the pull in the lower.
  BOOST_TEST(*followed[0].judgement.factor.value == 2.0 * across_layers / pull - closes,
             tolerance(0.02));
}

BOOST_AUTO_TEST_CASE(a_followed_factor_keeps_the_ratios_of_its_range_and_never_raises_a_pressure) {
  BarsWithGap bars;
  CaseResult& result = bars.results[0];
  result.scaling_loads.factor.low = 0.5 * *result.scaling_loads.factor.value;
  const double before = *result.allowable_pressure_MPa;
  const auto followed = follow_factors(bars.results, bars.solver, bars.model(), bars.loading,
                                       bars.field, bars.solution);
  BOOST_REQUIRE(followed.size() == 1u);

  take_in(followed[0], result);

  BOOST_TEST(*result.scaling_loads.factor.value > 6.0);
  BOOST_TEST(*result.scaling_loads.factor.low == 0.5 * *result.scaling_loads.factor.value,
             tolerance(1e-12));
  BOOST_TEST(*result.allowable_pressure_MPa == before, tolerance(1e-12));
  BOOST_REQUIRE(result.followed.has_value());
  BOOST_TEST(*result.followed->straight_line == across_layers / pull, tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_followed_keeps_the_straight_line_and_says_so) {
  BarsWithGap bars;
  CaseResult& result = bars.results[0];
  FollowedFactor lost{.load_case = 0, .multiple = 4.0, .unsettled = "the iteration does not end"};

  take_in(lost, result);

  BOOST_TEST(*result.scaling_loads.factor.value == across_layers / pull, tolerance(1e-3));
  BOOST_TEST(result.followed->unsettled == "the iteration does not end");
}

BOOST_AUTO_TEST_CASE(bodies_that_are_not_joined_need_not_be_followed) {
  BarsWithGap bars;
  bars.loading.joined.reset();

  BOOST_TEST(follow_factors(bars.results, bars.solver, bars.model(), bars.loading, bars.field,
                            bars.solution)
                 .empty());
}

BOOST_AUTO_TEST_SUITE_END()
