// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/judged_cases.h"
#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {

// Of both bars, one above the other [mm, MPa].
inline constexpr double side = 10.0, length = 50.0, E = 2000.0;
inline constexpr double pull = 5.0;                        ///< on the lower bar's upper end [MPa]
inline constexpr double across_layers = 20.0;              ///< strength [MPa]
inline constexpr double in_layer = 60.0;                   ///< strength [MPa]
inline constexpr double gap = 0.2;                         ///< between the bars [mm]
inline constexpr double closes = gap / length * E / pull;  ///< multiple of the pull

/// A bar that is pulled until it presses on another: springs in parallel, worked out by hand.
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
    geometry.bodies[0].name = "lower";
    geometry.bodies[1].name = "upper";
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
            LayeredStrength{in_layer, in_layer, across_layers, 45.0, 60.0}};
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

}  // namespace crossgrain::testing
