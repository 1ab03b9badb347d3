// SPDX-License-Identifier: GPL-3.0-or-later
// Maps of bodies that are printed separately and joined by faces that can part.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "cases/loads/joint_states.h"
#include "cases/studies/direction_study.h"
#include "cases/studies/joint_changes.h"
#include "cases/studies/mapped_prints.h"
#include "tests/cases/bars_with_gap.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/near.h"
#include "tests/support/screwed_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

constexpr LayeredStrength strength{60.0, 70.0, 25.0, 65.0, 18.0};
const BodyId first{1}, second{2};
const Eigen::Vector3d upright(0, 0, 1);

SolidMaterial layered_nylon() {
  SolidMaterial nylon = printed_nylon();
  nylon.strength = strength;
  return nylon;
}

/// Two bodies and what joins them, judged; both printed upright in the case.
struct JoinedPrints {
  TetrahedronMesh mesh;
  MaterialField field;
  BodyMaterials materials;
  Targets targets;
  StressSites sites;
  Loading loading;

  JoinedPrints(const TetrahedronMesh& bodies, const SolidMaterial& material, JoinedBodies joined)
      : mesh(bodies),
        field(uniform_field(mesh, {material, material},
                            {frame_along(upright), frame_along(upright)})) {
    MaterialAtConditions at{};
    at.nominal = at.low = at.high = material;
    materials = {{at, at}, {at, at}};
    Geometry geometry;
    geometry.bodies.resize(2);
    geometry.bodies[0].name = "lower";
    geometry.bodies[1].name = "upper";
    sites = stress_sites(mesh, geometry, {}, {1.0, 1.0});
    loading.loads.resize(joined.states.size());
    loading.joined = std::move(joined);
  }
  void add_case(const std::vector<double>& held, const std::vector<double>& scaling) {
    LoadCase load_case;
    load_case.name = "working";
    load_case.kind = CaseKind::working;
    load_case.held = held;
    load_case.scaling = scaling;
    loading.cases.push_back(load_case);
  }
  JudgedModel model() const { return {mesh, sites, materials, targets, 1}; }

  SolverOptions direct() const { return {.threads = 1, .method = SolverMethod::direct}; }

  ElementarySolution solved(const MaterialField& printed) {
    StaticSolver solver(mesh, {}, direct());
    solver.set_material(printed);
    return solve_loads(solver, mesh, printed, sites.fit, loading);
  }
  /// Of a body alone, the other as in the case.
  DirectionMap map(BodyId body, const MapOptions& options) {
    const ElementarySolution as_is = solved(field);
    const JointReference reference{as_is, frozen_states(mesh, *loading.joined, as_is.joint_states)};
    StaticSolver solver(mesh, {}, direct());
    return map_directions(solver, model(), loading, field, {body}, &reference, options, [](int) {});
  }
  MaterialField turned(BodyId body, const Eigen::Vector3d& n) const {
    return with_frames_along(field, frames_of_bodies(field, mesh, {body}), n);
  }
  /// Its own factors, with the joint free.
  MappedFactors solved(BodyId body, const Eigen::Vector3d& n) {
    const MaterialField printed = turned(body, n);
    return judge_solution_of({body}, loading, solved(printed), printed, model());
  }
};

/// Tightened, then pulled apart with the screw locked: rubber of one slope, always pressed.
JoinedPrints screwed_blocks(const SolidMaterial& material) {
  const ScrewedBlocks blocks(ScrewedBlocks::printed(material, upright, upright));
  ElementaryLoad pull;
  pull.name = "pull";
  pull.scales = true;
  pull.nodal_forces = 3.0 * blocks.pulled_apart;
  JoinedBodies joined;
  joined.joint = blocks.joint;
  joined.gasket_growth = {0.0};
  joined.screws = {{"screw", 0, 1, {300.0, 300.0, 300.0}, 1.0, 0.0, 0.0, 16.0, {}, second, 5.0}};
  joined.acting = {pull};
  joined.states = {{.name = "tightened", .situation = "tightened", .acting = {0.0}},
                   {.name = "pulled", .situation = "pulled", .acting = {1.0}, .locked_in = 0}};
  JoinedPrints prints(blocks.mesh, material, std::move(joined));
  prints.add_case({1.0, 0.0}, {-1.0, 1.0});
  return prints;
}

/// Two bars end to end along x, pressed together by `pressure` [MPa] through rubber that hardly
/// holds them in shear.
JoinedPrints bars_in_series(double pressure) {
  const TetrahedronMesh bar = box_mesh({4, 1, 1}, {8.0, 2.0, 2.0});
  const TetrahedronMesh mesh = two_bodies(bar, inverted(bar, {8.0, 1.0, 1.0}));
  const SolidMaterial nylon = layered_nylon();
  const MaterialField any =
      uniform_field(mesh, {nylon, nylon}, {frame_along(upright), frame_along(upright)});
  Bedding rubber{20.0, 1.0};
  rubber.shear_modulus = 1e-3;
  ElementaryLoad press;
  press.name = "press";
  press.scales = true;
  press.nodal_forces =
      traction_load(mesh, {xi_low}, [&](const auto&) { return Eigen::Vector3d(pressure, 0, 0); }) +
      traction_load(mesh, {of_second(xi_low)},
                    [&](const auto&) { return Eigen::Vector3d(-pressure, 0, 0); });
  JoinedBodies joined;
  joined.joint.pairs = {pair_between(mesh, any, {xi_high}, {of_second(xi_high)}, rubber, 0.1)};
  joined.gasket_growth = {0.0};
  joined.acting = {press};
  joined.states = {{.name = "pressed", .situation = "pressed", .acting = {1.0}}};
  JoinedPrints prints(mesh, nylon, std::move(joined));
  prints.add_case({0.0}, {1.0});
  return prints;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(print_maps)

// Nothing is lost by freezing a linear joint: what is left is the map's own error, within what was
// asked for, and by no more directions than one in twenty beyond what is said of each, as it is
// meant. The other body keeps its direction, or the factors would be others.
BOOST_AUTO_TEST_CASE(a_linear_joint_is_mapped_body_by_body_as_it_is_solved) {
  JoinedPrints prints = screwed_blocks(layered_nylon());
  for (const BodyId body : {first, second}) {
    const DirectionMap map =
        prints.map(body, {.directions = 200, .first = 16, .most = 60, .tolerance = 0.003});

    BOOST_TEST(map.within_tolerance);
    int looked_at = 0, beyond = 0;
    for (Eigen::Index d = 0; d < map.directions.cols(); d += 3) {
      const auto expected = prints.solved(body, map.directions.col(d));
      const double off = relative_difference(map.factors[d].worst(), expected.worst());
      BOOST_TEST_INFO("body " << number(body) << ", direction " << d);
      BOOST_TEST(off < 0.003);
      ++looked_at;
      if (!(off <= map.errors[d])) ++beyond;
    }
    BOOST_TEST(beyond <= looked_at / 20);
  }
}

// The case's own direction is solved before the map: there it has nothing to guess.
BOOST_AUTO_TEST_CASE(the_map_knows_the_case_itself) {
  JoinedPrints prints = screwed_blocks(layered_nylon());

  const DirectionMap map = prints.map(first, {.directions = 50, .first = 4, .most = 8});

  const Eigen::Index along_z = map.directions.cols() - 1;
  BOOST_TEST_REQUIRE((map.directions.col(along_z) == upright));
  BOOST_TEST(relative_difference(map.factors[along_z].worst(),
                                 prints.solved(first, upright).worst()) < 1e-6);
}

// Source: stress on a plane across n of a bar under uniaxial load (statics), whatever the bar
// beyond it is made of; layers slid apart while pressed on each other by the shear alone, as J. C.
// Brewer and P. A. Lagace, Quadratic stress criterion for initiation of delamination (1988) have
// it, from memory. The rubber's shear modulus is a millionth of the bars'.
BOOST_AUTO_TEST_CASE(of_bars_in_series_each_slides_between_its_layers_as_statics_says) {
  constexpr double pressure = 5.0;
  JoinedPrints prints = bars_in_series(pressure);
  for (const BodyId body : {first, second}) {
    const DirectionMap map = prints.map(body, {.directions = 100, .first = 8, .most = 20});

    for (Eigen::Index d = 0; d < 100; ++d) {
      const double cosine = std::abs(map.directions(0, d)), sine = std::sqrt(1.0 - cosine * cosine);
      if (cosine * sine < 0.01) continue;
      const auto interlayer = map.factors[d].on_all_loads.at(FailureMode::interlayer);
      BOOST_TEST_REQUIRE(interlayer.has_value());
      BOOST_TEST(*interlayer == strength.Sz / (pressure * cosine * sine), tolerance(1e-3));
    }
  }
}

// Either block is the other's image in a point, which leaves every direction as it is.
BOOST_AUTO_TEST_CASE(bodies_that_are_each_others_image_have_one_map) {
  JoinedPrints prints = screwed_blocks(layered_nylon());
  const MapOptions options{.directions = 100, .first = 16, .most = 60, .tolerance = 0.003};

  const DirectionMap one = prints.map(first, options), other = prints.map(second, options);

  for (std::size_t d = 0; d < one.factors.size(); ++d)
    BOOST_TEST(relative_difference(one.factors[d].worst(), other.factors[d].worst()) <=
               one.errors[d] + other.errors[d]);
}

BOOST_AUTO_TEST_CASE(joined_solids_without_layers_have_one_factor_each) {
  SolidMaterial plain = plain_solid();
  JoinedPrints prints = screwed_blocks(plain);

  const DirectionMap map = prints.map(first, {.directions = 50, .first = 2, .most = 8});

  for (const MappedFactors& factors : map.factors)
    BOOST_TEST(std::abs(*factors.worst() / *map.factors[0].worst() - 1.0) < 1e-6);
}

BOOST_AUTO_TEST_CASE(a_print_is_judged_alone_and_all_of_them_together_by_the_weakest) {
  JoinedPrints prints = screwed_blocks(layered_nylon());
  const MaterialField printed = prints.turned(second, {1, 0, 0.4});

  StaticSolver solver(prints.mesh, {}, prints.direct());
  const StudiedPrinting study =
      study_printing(solver, prints.model(), prints.loading, printed, {}, "upper turned");

  const auto own = [&](BodyId body) {
    return judge_solution_of({body}, prints.loading, study.solution, printed, prints.model());
  };
  const auto all = judge_solution(prints.loading, study.solution, printed, prints.model());
  BOOST_TEST(*all.worst() == std::min(*own(first).worst(), *own(second).worst()));
  BOOST_TEST_REQUIRE(study.row.of_bodies.size() == 2u);
  BOOST_TEST((study.row.of_bodies[0].build == upright));
}

BOOST_AUTO_TEST_CASE(bodies_glued_and_printed_alike_are_one_print) {
  const SolidMaterial nylon = layered_nylon();
  const TetrahedronMesh box = box_mesh({1, 1, 1}, {1.0, 1.0, 1.0});
  TetrahedronMesh above = box, apart = box;
  above.nodes.row(2).array() += 1.0;
  apart.nodes.row(2).array() += 2.0;
  TetrahedronMesh mesh = joined(welded(two_bodies(box, above), 1e-6), apart, 20);
  for (Eigen::Index t = mesh.tetrahedron_count() - box.tetrahedron_count();
       t < mesh.tetrahedron_count(); ++t)
    mesh.body_of_tetrahedron[t] = BodyId{3};
  const auto prints = [&](const SolidMaterial& third, const Eigen::Vector3d& of_second) {
    const MaterialField field =
        uniform_field(mesh, {nylon, nylon, third},
                      {frame_along(upright), frame_along(of_second), frame_along({1, 0, 0})});
    return prints_of(mesh, field, {"foot", "neck", "lid"});
  };

  const auto glued = prints(nylon, upright);
  BOOST_TEST_REQUIRE(glued.size() == 2u);
  BOOST_TEST(glued[0].name == "foot + neck");
  BOOST_TEST((glued[0].bodies == std::vector{BodyId{1}, BodyId{2}}));
  BOOST_TEST(glued[1].name == "lid");
  BOOST_TEST((glued[1].build == Eigen::Vector3d(1, 0, 0)));
  // Glued after they were printed.
  BOOST_TEST(prints(nylon, -upright).size() == 3u);
  // Nothing is said of a body without layers.
  BOOST_TEST(prints(plain_solid(), upright).size() == 1u);
}

BOOST_AUTO_TEST_CASE(a_map_that_a_full_solution_belies_says_so_everywhere) {
  MappedPrint mapped;
  mapped.map.directions = Eigen::Matrix3d::Identity();
  mapped.map.factors.resize(3);
  for (auto& factors : mapped.map.factors) factors.factor = 2.0;
  mapped.map.errors = {0.01, 0.02, 0.04};
  mapped.map.refined = Eigen::Vector3d(1, 1, 0).normalized();
  mapped.map.refined_factor = 2.1;
  mapped.map.tolerance = 0.01;
  mapped.map.within_tolerance = true;
  MappedFactors solved;
  solved.factor = 1.9;

  // Others turned as well: the map does not speak of that.
  hold_against(mapped, "best of each", {0, -1, 0}, false, solved);
  BOOST_TEST((mapped.map.within_tolerance && mapped.map.errors[0] == 0.01));
  hold_against(mapped, "worst of lid", {0, -1, 0}, true, solved);

  BOOST_TEST(mapped.solved.size() == 2u);
  BOOST_TEST(mapped.solved[1].said == 0.02);
  BOOST_TEST(mapped.map.errors[1] == 0.05, tolerance(1e-9));
  BOOST_TEST(mapped.map.errors[2] == 0.10, tolerance(1e-9));
  BOOST_TEST(mapped.map.error == 0.05, tolerance(1e-9));
  BOOST_TEST(!mapped.map.within_tolerance);
}

BOOST_AUTO_TEST_CASE(faces_that_come_to_another_state_are_told) {
  BarsWithGap bars;
  const auto& before = bars.solution.joint_states;
  BOOST_TEST_REQUIRE(before[1].pairs[0].open == before[1].pairs[0].pressure.size());
  auto after = before;
  BOOST_TEST(joint_changes(bars.loading, before, after).empty());

  after[1].pairs[0].pressure.setConstant(3.0);
  const auto changes = joint_changes(bars.loading, before, after);

  BOOST_TEST_REQUIRE(changes.size() == 1u);
  BOOST_TEST(changes[0].state == "pulled");
  BOOST_TEST(changes[0].closed == 1.0, tolerance(1e-9));
  BOOST_TEST((changes[0].opened == 0.0 && changes[0].stop == 0.0));
}

BOOST_AUTO_TEST_SUITE_END()
