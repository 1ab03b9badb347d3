// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/constant_effects.h"
#include "cases/judgement/verdict.h"
#include "tests/cases/ranged_material.h"
#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {

/// Two bars, one on the other, pressed together by a screw from the upper one's end to the lower
/// one's foot, which stands still; when the screw is locked the upper end is pushed on. Printed
/// along z, each of a card of its own.
struct ScrewedBars {
  static constexpr double side = 10.0, length = 50.0, area = side * side;  // of either bar
  static constexpr double screw_stiffness = 2000.0;                        // N/mm
  static constexpr int elements = 8;                                       // along a bar

  TetrahedronMesh mesh;
  MaterialField field;
  BodyMaterials materials;
  Targets targets;
  StressSites sites;
  Loading loading;
  StaticSolver solver;
  ElementarySolution solution;
  RunResult result;

  /// @param preload, push  as pressure on a bar's section [MPa].
  /// @param between  what is between the bars.
  ScrewedBars(const LayeredConstants& lower, const LayeredConstants& upper, double preload,
              double push, const InterfaceLaw& between = Unilateral{})
      : mesh(two_bodies(bar(0.0), bar(length))),
        field(uniform_field(
            mesh, {material_of("lower", lower).nominal, material_of("upper", upper).nominal},
            {Frame::Identity(), Frame::Identity()})),
        solver(mesh, constraints_of(mesh, {{"foot", {zeta_low}, Hold::all, {}}}),
               {.method = SolverMethod::direct}) {
    materials.service =
        materials.proof = {material_of("lower", lower), material_of("upper", upper)};
    Geometry geometry;
    geometry.bodies.resize(2);
    geometry.bodies[0].name = "lower";
    geometry.bodies[1].name = "upper";
    sites = stress_sites(mesh, geometry, {}, {1.0, 1.0});
    join(preload, push, between);
    solver.set_material(field);
    solution = solve_loads(solver, mesh, field, sites.fit, loading);
    result.cases = judge_cases(model(), loading, solution, field, MaterialSet::nominal);
    find_worst(result);
  }

  JudgedModel model() const { return {mesh, sites, materials, targets}; }
  std::vector<ConstantEffect> effects() {
    return constant_effects(result, model(), loading, solution, field, solution.displacement.col(0),
                            solver);
  }

 private:
  static TetrahedronMesh bar(double z) {
    TetrahedronMesh mesh = box_mesh({2, 2, elements}, {side, side, length});
    mesh.nodes.row(2).array() += z;
    return mesh;
  }
  void join(double preload, double push, const InterfaceLaw& between) {
    JoinedBodies joined;
    joined.joint.pairs = {
        pair_between(mesh, field, {zeta_high}, {of_second(zeta_low)}, between, 1.0)};
    joined.joint.screws = {{"screw", area_motion(mesh, {of_second(zeta_high)}, {}, "head"),
                            area_motion(mesh, {zeta_low}, {}, "thread"), Eigen::Vector3d::UnitZ(),
                            screw_stiffness, 1.0}};
    joined.gasket_growth = {0.0};
    JoinedScrews group{};
    group.count = 1;
    group.preload = {preload * area, preload * area, preload * area};
    group.kept = 1.0;
    joined.screws = {group};
    ElementaryLoad pushed;
    pushed.name = "push";
    pushed.scales = true;
    pushed.nodal_forces =
        traction_load(mesh, {of_second(zeta_high)},
                      [push](const Eigen::Vector3d&) { return Eigen::Vector3d(0, 0, -push); });
    joined.acting = {pushed};
    joined.states = {{.name = "tightened", .situation = "tightened", .acting = {0.0}},
                     {.name = "working", .situation = "working", .acting = {1.0}, .locked_in = 0}};
    loading.loads.resize(2);
    loading.joined = std::move(joined);
    LoadCase load_case;
    load_case.name = "working";
    load_case.kind = CaseKind::working;
    load_case.held = {1.0, 0.0};
    load_case.scaling = {-1.0, 1.0};
    loading.cases = {load_case};
  }
};

}  // namespace crossgrain::testing
