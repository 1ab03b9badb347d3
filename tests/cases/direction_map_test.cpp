// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/direction_map.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>
#include <numeric>

#include "cases/studies/trade_offs.h"
#include "solver/directions/half_sphere.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/near.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

constexpr LayeredStrength strength{60.0, 70.0, 25.0, 65.0, 18.0};

/// A load case of one held and one scaling load on a printed part.
struct Printed {
  TetrahedronMesh mesh;
  std::vector<NodeConstraint> held;
  MaterialField field;
  StressSites sites;
  BodyMaterials materials;
  Targets targets;
  Loading loading;

  Printed(TetrahedronMesh part, std::vector<NodeConstraint> supports, const SolidMaterial& material,
          double bead_width)
      : mesh(std::move(part)),
        held(std::move(supports)),
        field(uniform_field(mesh, {material}, {frame_along({0, 0, 1})})) {
    sites.points = stress_points(mesh);
    sites.positions = mesh.nodes;
    sites.face.assign(sites.points.size(), std::nullopt);
    sites.near_artificial.assign(sites.points.size(), 0);
    sites.under_head.assign(sites.points.size(), 0);
    sites.body_names = {"part"};
    sites.bead_width_of_body = {bead_width};
    sites.fit = BeadFit(mesh, sites.points, sites.bead_width_of_body);
    MaterialAtConditions at{};
    at.nominal = at.low = at.high = material;
    materials = {{at}, {at}};
  }
  void add_load(ElementaryLoad load, bool scales) {
    loading.loads.push_back(std::move(load));
    if (loading.cases.empty()) {
      loading.cases.emplace_back();
      loading.cases[0].name = "working";
      loading.cases[0].kind = CaseKind::working;
    }
    loading.cases[0].held.push_back(scales ? 0.0 : 1.0);
    loading.cases[0].scaling.push_back(scales ? 1.0 : 0.0);
  }
  /// Another one of the loads that there are.
  void add_case(const std::string& name, CaseKind kind, std::vector<double> scaling) {
    LoadCase load_case;
    load_case.name = name;
    load_case.kind = kind;
    load_case.held.assign(scaling.size(), 0.0);
    load_case.scaling = std::move(scaling);
    loading.cases.push_back(load_case);
  }
  JudgedModel model() const { return {mesh, sites, materials, targets, 1}; }
  SolverOptions direct() const { return {.threads = 1, .method = SolverMethod::direct}; }

  DirectionMap map(const MapOptions& options) const {
    StaticSolver solver(mesh, held, direct());
    return map_directions(solver, model(), loading, field, options, [](int) {});
  }
  /// Solved fully, by the way a run goes.
  std::optional<double> solved(const Eigen::Vector3d& n) const {
    const CaseFactors first = solved_cases(n)[0];
    return least(first.factor, first.pressure_factor);
  }
  /// The same of every load case.
  std::vector<CaseFactors> solved_cases(const Eigen::Vector3d& n) const {
    MaterialField turned = field;
    for (auto& frame : turned.frames) frame = frame_along(n);
    Loading loads = loading;
    update_field_loads(loads, mesh, turned);
    StaticSolver solver(mesh, held, direct());
    solver.set_material(turned);
    const auto solution = solve_loads(solver, mesh, turned, sites.fit, loads);
    std::vector<CaseFactors> cases;
    for (const CaseResult& judged :
         judge_cases(model(), loads, solution, turned, MaterialSet::nominal)) {
      CaseFactors& factors = cases.emplace_back();
      factors.factor = judged.all_loads.factor.value;
      factors.pressure_factor = judged.scaling_loads.factor.value;
      for (const ModeResult& mode : judged.all_loads.modes)
        factors.on_all_loads[mode.mode] = mode.factor.value;
    }
    return cases;
  }
  static std::optional<double> least(std::optional<double> a, std::optional<double> b) {
    return a && (!b || *a < *b) ? a : b;
  }
};

SolidMaterial layered_nylon() {
  SolidMaterial nylon = printed_nylon();
  nylon.strength = strength;
  nylon.thermal_expansion = {2e-5, 2e-5, 9e-5};
  return nylon;
}

/// Pulled along x by 5 MPa; nothing holds it.
Printed bar() {
  Printed bar(box_mesh({4, 1, 1}, {8.0, 2.0, 2.0}), {}, layered_nylon(), 0.8);
  const Eigen::VectorXd pull =
      traction_load(bar.mesh, {xi_high}, [](const auto&) { return Eigen::Vector3d(5, 0, 0); }) +
      traction_load(bar.mesh, {xi_low}, [](const auto&) { return Eigen::Vector3d(-5, 0, 0); });
  bar.add_load({"pull", pull, {}, {}, true, {}}, true);
  return bar;
}

/// Warmed unevenly and held so, then under pressure.
Printed pipe(const SolidMaterial& material) {
  const Pipe shape(2);
  Printed pipe(shape.mesh, shape.held, material, 1.2);
  ElementaryLoad warmth{"warmth",
                        Eigen::VectorXd::Zero(shape.mesh.unknowns()),
                        10.0 + shape.mesh.nodes.row(2).transpose().array(),
                        {},
                        false,
                        {}};
  pipe.add_load(warmth, false);
  pipe.add_load({"water", shape.load, {}, {}, true, {}}, true);
  update_field_loads(pipe.loading, pipe.mesh, pipe.field);
  return pipe;
}

/// A hollow sphere, its radii stretched along the axes: every octant the mirror image of its
/// neighbours, to the element.
TetrahedronMesh hollow_sphere(int cells, const Eigen::Vector3d& stretch) {
  // A third of an octant, by angles from its middle axis; the others by turning the axes.
  const auto third = [&](int turns) {
    return block_mesh({cells, cells, 2}, [=](const Eigen::Vector3d& u) {
      const double quarter = std::numbers::pi / 4.0;
      const Eigen::Vector3d n =
          Eigen::Vector3d(std::tan(quarter * u.x()), std::tan(quarter * u.y()), 1.0).normalized();
      const Eigen::Vector3d turned(n[(3 - turns) % 3], n[(4 - turns) % 3], n[(5 - turns) % 3]);
      return Eigen::Vector3d((20.0 + 5.0 * u.z()) * turned.cwiseProduct(stretch));
    });
  };
  constexpr double same = 1e-6;
  TetrahedronMesh whole = welded(joined(joined(third(0), third(1), 0), third(2), 0), same);
  for (int axis = 0; axis < 3; ++axis) {
    TetrahedronMesh mirrored = whole;
    mirrored.nodes.row(axis) *= -1.0;
    // Turned inside out by the mirror: two corners change places, and the middles with them.
    mirrored.tetrahedra.row(0).swap(mirrored.tetrahedra.row(1));
    mirrored.tetrahedra.row(5).swap(mirrored.tetrahedra.row(6));
    mirrored.tetrahedra.row(7).swap(mirrored.tetrahedra.row(8));
    mirrored.triangles.row(0).swap(mirrored.triangles.row(1));
    mirrored.triangles.row(4).swap(mirrored.triangles.row(5));
    whole = welded(joined(whole, mirrored, 0), same);
  }
  return whole;
}

/// Under 1 MPa from within; nothing holds it.
Printed vessel(const Eigen::Vector3d& stretch) {
  Printed vessel(hollow_sphere(4, stretch), {}, layered_nylon(), 1.2);
  vessel.add_load({"water",
                   pressure_load(vessel.mesh, {zeta_low}, [](const auto&) { return 1.0; }),
                   {},
                   {},
                   true,
                   {}},
                  true);
  return vessel;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(direction_map)

// A sphere looks the same from everywhere; what is left is the mesh's, whose elements are 11
// degrees wide (1.2 % were found with 15).
BOOST_AUTO_TEST_CASE(a_sphere_under_pressure_is_as_strong_in_every_direction) {
  const DirectionMap map = vessel({1, 1, 1}).map({.directions = 200, .tolerance = 0.003});

  double least = HUGE_VAL, greatest = 0.0;
  for (const MappedFactors& factors : map.factors) {
    least = std::min(least, *factors.worst());
    greatest = std::max(greatest, *factors.worst());
  }
  BOOST_TEST(map.within_tolerance);
  BOOST_TEST(greatest / least - 1.0 < 0.01);
}

// Part and mesh are their own mirror images: so is what is solved, to round-off. The map is found
// from directions that are not, and may differ by its tolerance.
BOOST_AUTO_TEST_CASE(the_symmetries_of_a_part_show_in_its_map) {
  const Printed part = vessel({1.0, 1.3, 0.8});
  const DirectionMap map = part.map({.directions = 200});

  const double weakest = *map.factors[map.worst].worst();
  BOOST_TEST(*map.factors[map.best].worst() > 1.1 * weakest);
  for (const Eigen::Index d : {11, 77, 143}) {
    const auto expected = part.solved(map.directions.col(d));
    for (int axis = 0; axis < 3; ++axis) {
      Eigen::Vector3d mirrored = map.directions.col(d);
      mirrored[axis] *= -1.0;
      BOOST_TEST(relative_difference(part.solved(mirrored), expected) < 1e-8);
    }
    BOOST_TEST(relative_difference(map.factors[d].worst(), expected) < 0.01);
  }
}

// Source: stress on a plane across n of a bar in tension (statics); layers pulled and slid apart as
// in J. C. Brewer and P. A. Lagace, Quadratic stress criterion for initiation of delamination
// (1988), from memory. The bar's stress is uniform and its displacement linear: exact to round-off.
BOOST_AUTO_TEST_CASE(a_bar_parts_between_its_layers_as_statics_says_at_every_angle) {
  const DirectionMap map = bar().map({.directions = 200, .first = 8, .most = 16});

  BOOST_TEST(map.within_tolerance);
  for (Eigen::Index d = 0; d < map.directions.cols(); ++d) {
    const double cosine = std::abs(map.directions(0, d)), sine = std::sqrt(1.0 - cosine * cosine);
    const double expected =
        1.0 / (5.0 * cosine * std::hypot(cosine / strength.Zt, sine / strength.Sz));
    const auto interlayer = map.factors[d].on_all_loads.at(FailureMode::interlayer);
    if (cosine == 0.0) {  // no stress across the layers but round-off
      BOOST_TEST((!interlayer || *interlayer > 1e6));
      continue;
    }
    BOOST_REQUIRE(interlayer.has_value());
    BOOST_TEST(std::abs(*interlayer / expected - 1.0) < 1e-7);
  }
}

// The tolerance is the map's own; directions of another spread, none of them solved for the map.
BOOST_AUTO_TEST_CASE(the_map_is_as_near_to_full_solutions_as_it_says) {
  const Printed part = pipe(layered_nylon());
  const DirectionMap map =
      part.map({.directions = 300, .first = 12, .most = 60, .tolerance = 0.002});

  BOOST_TEST(map.within_tolerance);
  for (const Eigen::Index d : {3, 50, 97, 141, 190, 233, 270, 299}) {
    const auto expected = part.solved(map.directions.col(d));
    BOOST_REQUIRE(expected.has_value());
    BOOST_TEST_INFO("direction " << d);
    BOOST_TEST(std::abs(*map.factors[d].worst() / *expected - 1.0) < 0.002);
    BOOST_TEST(std::abs(*map.factors[d].worst() / *expected - 1.0) <= map.errors[d]);
  }
  BOOST_TEST(*part.solved(map.refined) > 0.998 * *part.solved(map.directions.col(map.best)));
}

// Places that count for a load case alone are kept for it: one that hardly stresses the part, and a
// proof test, which is left out of the part's factor. Their errors are not what the map stops by:
// twice its tolerance.
BOOST_AUTO_TEST_CASE(every_load_case_is_mapped_for_itself) {
  Printed part = pipe(layered_nylon());
  part.add_case("warm and empty", CaseKind::user, {1.0, 0.0});
  part.add_case("proof", CaseKind::proof, {0.0, 3.0});
  const DirectionMap map =
      part.map({.directions = 200, .first = 16, .most = 60, .tolerance = 0.003});

  BOOST_TEST(map.load_cases.size() == 3u);
  BOOST_TEST(map.load_cases[1] == "warm and empty");
  for (const Eigen::Index d : {7, 60, 113, 166, 199}) {
    const MappedFactors& mapped = map.factors[d];
    BOOST_TEST(*mapped.factor ==
               *Printed::least(mapped.of_case[0].factor, mapped.of_case[1].factor));
    const auto expected = part.solved_cases(map.directions.col(d));
    for (std::size_t i = 0; i < expected.size(); ++i) {
      BOOST_TEST_INFO("direction " << d << ", case " << i);
      BOOST_TEST(relative_difference(mapped.of_case[i].factor, expected[i].factor) < 0.006);
      BOOST_TEST(relative_difference(mapped.of_case[i].pressure_factor,
                                     expected[i].pressure_factor) < 0.006);
      const auto interlayer = FailureMode::interlayer;
      BOOST_TEST(relative_difference(mapped.of_case[i].on_all_loads.at(interlayer),
                                     expected[i].on_all_loads.at(interlayer)) < 0.006);
    }
  }
}

// Exact but for the solver: stiffness and strength do not know a direction.
BOOST_AUTO_TEST_CASE(a_solid_without_layers_has_one_factor) {
  const DirectionMap map = pipe(plain_solid()).map({.directions = 100, .first = 2, .most = 8});

  BOOST_TEST(map.error < 1e-6);
  BOOST_TEST(*std::max_element(map.errors.begin(), map.errors.end()) < 1e-6);
  for (const MappedFactors& factors : map.factors)
    BOOST_TEST(std::abs(*factors.worst() / *map.factors[0].worst() - 1.0) < 1e-6);
}

// Stiffness that knows no direction gives one stress field; round-off of the solver and of turning
// stress there and back.
BOOST_AUTO_TEST_CASE(a_solid_without_layers_has_one_stress_field) {
  const Printed part = pipe(plain_solid());
  const JudgedModel model = part.model();
  const TurningLoads loads(model, part.loading, part.field, {BodyId{1}}, nullptr);
  std::vector<Eigen::Index> all(part.sites.points.size());
  std::iota(all.begin(), all.end(), Eigen::Index{0});
  DirectionalAnswer answer(model, part.loading, part.field, loads, all);
  StaticSolver solver(part.mesh, part.held, part.direct());
  solver.set_material(part.field);
  const Eigen::Vector3d z(0, 0, 1);
  answer.widen(z, {solver.solve(load_matrix(part.loading))});
  const auto expected = answer.stress(z, answer.everywhere());

  for (const Eigen::Vector3d& n : {Eigen::Vector3d(1, 2, 3), Eigen::Vector3d(0, -1, 0.2)}) {
    const auto stress = answer.stress(n, answer.everywhere());
    const Matrix6d back = stress_rotation(frame_along(n));
    const Matrix6d forth = stress_rotation(frame_along(z));
    BOOST_TEST(near(Eigen::MatrixXd(back * stress[0].scaling),
                    Eigen::MatrixXd(forth * expected[0].scaling), 1e-9));
    BOOST_TEST(near(Eigen::MatrixXd(back * stress[0].held),
                    Eigen::MatrixXd(forth * expected[0].held), 1e-9));
  }
}

// Ten times as stiff along the beads as across the layers: far more directions would have to be
// solved. The errors that the map tells have to be true ones: no direction is off by more.
BOOST_AUTO_TEST_CASE(of_an_extreme_material_the_map_is_no_worse_than_it_says) {
  SolidMaterial extreme = layered_nylon();
  extreme.elastic = {20000, 20000, 2000, 0.35, 0.35, 0.35, 500, 500, 20000 / 2.7};
  const Printed part = pipe(extreme);
  const DirectionMap map = part.map({.directions = 300, .most = 40});

  BOOST_TEST(!map.within_tolerance);
  for (const Eigen::Index d : {4, 31, 58, 85, 112, 139, 166, 193, 220, 247, 274, 301}) {
    const double off =
        relative_difference(map.factors[d].worst(), part.solved(map.directions.col(d)));
    BOOST_TEST_INFO("direction " << d);
    BOOST_TEST((off < 0.01 || off <= map.errors[d]));
  }
}

BOOST_AUTO_TEST_CASE(a_budget_that_is_spent_too_early_is_said) {
  const DirectionMap map =
      pipe(layered_nylon())
          .map({.directions = 100, .first = 2, .most = 3, .tried = 1, .tolerance = 1e-3});

  BOOST_TEST(!map.within_tolerance);
  BOOST_TEST(map.solved == 3);
  BOOST_TEST(map.error > 1e-3);
  BOOST_TEST(*std::max_element(map.errors.begin(), map.errors.end()) > 1e-3);
}

BOOST_AUTO_TEST_CASE(a_direction_is_beaten_by_one_as_good_in_all_columns_and_better_in_one) {
  const Eigen::Vector3d up(0, 0, 1);
  std::vector<TradeOff> rows{{up, 3.0, {40, 100, 0, 50, 0}},
                             {up, 3.0, {40, 100, 0, 60, 0}},   // more overhang, nothing better
                             {up, 2.0, {30, 100, 0, 60, 0}},   // weaker but lower
                             {up, {}, {90, 900, 0, 900, 90}},  // nothing limits it
                             {up, 3.0, {40, 100, 0, 50, 0}}};  // the same as the first

  mark_unbeaten(rows);

  BOOST_TEST((rows[0].unbeaten && !rows[1].unbeaten && rows[2].unbeaten && rows[3].unbeaten &&
              rows[4].unbeaten));
}

BOOST_AUTO_TEST_SUITE_END()
