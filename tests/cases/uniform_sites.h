// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/case_judgement.h"
#include "materials/elasticity/frame.h"

namespace crossgrain::testing {

/// Sites in a row along x, 1 mm apart, all of one body and one tetrahedron.
inline StressSites row_of_sites(Eigen::Index count) {
  StressSites sites;
  sites.positions = Eigen::Matrix3Xd::Zero(3, count);
  for (Eigen::Index i = 0; i < count; ++i) {
    sites.points.push_back({static_cast<int>(i), BodyId{1}, 0});
    sites.positions(0, i) = static_cast<double>(i);
  }
  sites.face.assign(count, std::nullopt);
  sites.near_artificial.assign(count, 0);
  sites.under_head.assign(count, 0);
  sites.body_names = {"bar"};
  return sites;
}

inline StressField uniform_stress(Eigen::Index count, const Vector6d& stress) {
  return stress.replicate(1, count);
}

inline Vector6d voigt(double s11, double s22, double s33, double s23, double s13, double s12) {
  return (Vector6d() << s11, s22, s33, s23, s13, s12).finished();
}

/// One tetrahedron printed in this direction.
inline MaterialField printed_along(const Eigen::Vector3d& build_direction) {
  MaterialField field;
  field.frames = {frame_along(build_direction)};
  field.frame_of_point = Eigen::MatrixXi::Zero(1, 1);
  field.material_of_tetrahedron = {0};
  return field;
}

/// Round numbers that no two strengths share.
inline LayeredStrength round_strength() { return {50.0, 60.0, 20.0, 45.0, 12.0}; }

inline Yardstick layered_yardstick() {
  return {{Strength(round_strength())}, Criterion::interactive};
}

/// A case of held and scaling stress given directly in global axes.
inline CombinedCase stressed(Eigen::Index count, const Vector6d& held, const Vector6d& scaling) {
  CombinedCase combined;
  combined.displacement = Eigen::VectorXd::Zero(3 * count);
  combined.held = uniform_stress(count, held);
  combined.scaling = uniform_stress(count, scaling);
  combined.anything_held = !held.isZero();
  combined.anything_scales = !scaling.isZero();
  return combined;
}

inline LoadCase pressure_case(double working_MPa) {
  LoadCase load_case;
  load_case.name = "working";
  load_case.kind = CaseKind::working;
  load_case.leading_pressure = "water";
  load_case.leading_value_MPa = working_MPa;
  return load_case;
}

}  // namespace crossgrain::testing
