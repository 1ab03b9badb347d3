// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/failure/layered_criteria.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "materials/failure/first_crossing.h"

namespace crossgrain {
namespace {

using Vector2d = Eigen::Vector2d;
using Vector3d = Eigen::Vector3d;
using Matrix2d = Eigen::Matrix2d;

double macaulay(double value) { return value > 0.0 ? value : 0.0; }

double square(double value) { return value * value; }

/// Shear between layers over its strength.
Vector2d layer_shear(const LayeredStrength& s, const Vector6d& stress) {
  return Vector2d(stress[3], stress[4]) / s.Sz;
}

Matrix2d in_layer_block(const Vector6d& stress) {
  return Matrix2d{{stress[0], stress[5]}, {stress[5], stress[1]}};
}

double larger_in_layer(const Vector6d& stress) {
  return larger_principal(stress[0], stress[1], stress[5]);
}

double smaller_in_layer(const Vector6d& stress) {
  return -larger_principal(-stress[0], -stress[1], stress[5]);
}

/// Where the larger in-layer principal stress reaches a limit, in tension (sign +1), or the smaller
/// one in compression (sign -1).
double in_layer_multiplier(double limit, double sign, const Vector6d& held,
                           const Vector6d& scaling) {
  const Matrix2d margin = limit * Matrix2d::Identity() - sign * in_layer_block(held);
  return leave_positive_definite<2>(margin, sign * in_layer_block(scaling));
}

double linear_multiplier(double limit, double held, double scaling) {
  return scaling > 0.0 ? (limit - held) / scaling : never;
}

/// Linear and quadratic parts of the Tsai-Wu polynomial.
struct TsaiWu {
  explicit TsaiWu(const LayeredStrength& s)
      : F1(1.0 / s.Xt - 1.0 / s.Xc),
        F3(1.0 / s.Zt - 1.0 / s.Zc),
        F11(1.0 / (s.Xt * s.Xc)),
        root_11(std::sqrt(F11)),
        root_33(1.0 / std::sqrt(s.Zt * s.Zc)),
        F44(1.0 / square(s.Sz)) {}

  double linear(const Vector6d& s) const { return F1 * (s[0] + s[1]) + F3 * s[2]; }

  /// q(s, t); a sum of products of like terms, so that q(s, s) never rounds below zero.
  double quadratic(const Vector6d& s, const Vector6d& t) const {
    const Vector3d x = differences(s);
    const Vector3d y = differences(t);
    return 0.5 * x.dot(y) + 3.0 * F11 * s[5] * t[5] + F44 * (s[3] * t[3] + s[4] * t[4]);
  }

 private:
  Vector3d differences(const Vector6d& s) const {
    const Vector3d n(root_11 * s[0], root_11 * s[1], root_33 * s[2]);
    return Vector3d(n[0] - n[1], n[1] - n[2], n[2] - n[0]);
  }

  double F1, F3, F11, root_11, root_33, F44;
};

/// {sqrt(in-layer tension index) - 1, slope} on the path held + x * scaling. The root is taken
/// because it is convex too and, without held stress, a straight line that Newton meets at once.
struct InLayerTensionExcess {
  const LayeredStrength& strength;
  const Vector6d& held;
  const Vector6d& scaling;

  std::pair<double, double> operator()(double x) const {
    const Vector6d stress = held + x * scaling;
    const double half_difference = 0.5 * (stress[0] - stress[1]);
    const double half_slope = 0.5 * (scaling[0] - scaling[1]);
    const double radius = std::sqrt(square(half_difference) + square(stress[5]));
    const double radius_slope =
        radius > 0.0 ? (half_difference * half_slope + stress[5] * scaling[5]) / radius
                     : std::sqrt(square(half_slope) + square(scaling[5]));
    const double principal = larger_in_layer(stress) / strength.Xt;
    const double slope = (0.5 * (scaling[0] + scaling[1]) + radius_slope) / strength.Xt;
    const Vector2d shear = layer_shear(strength, stress);
    const double root = std::sqrt(square(macaulay(principal)) + shear.squaredNorm());
    return {root - 1.0,
            (macaulay(principal) * slope + shear.dot(layer_shear(strength, scaling))) / root};
  }
};

}  // namespace

double interlayer_index(const LayeredStrength& s, const Vector6d& stress) {
  return square(macaulay(stress[2]) / s.Zt) + layer_shear(s, stress).squaredNorm();
}

double in_layer_tension_index(const LayeredStrength& s, const Vector6d& stress) {
  return square(macaulay(larger_in_layer(stress)) / s.Xt) + layer_shear(s, stress).squaredNorm();
}

double in_layer_compression_index(const LayeredStrength& s, const Vector6d& stress) {
  return -smaller_in_layer(stress) / s.Xc;
}

double build_compression_index(const LayeredStrength& s, const Vector6d& stress) {
  return -stress[2] / s.Zc;
}

double maximum_stress_index(const LayeredStrength& s, const Vector6d& stress) {
  return std::max({larger_in_layer(stress) / s.Xt, in_layer_compression_index(s, stress),
                   stress[2] / s.Zt, build_compression_index(s, stress),
                   layer_shear(s, stress).norm()});
}

double interlayer_multiplier(const LayeredStrength& s, const Vector6d& held,
                             const Vector6d& scaling) {
  const Vector2d shear = layer_shear(s, held);
  const Vector2d shear_scaling = layer_shear(s, scaling);
  const Vector3d all(held[2] / s.Zt, shear[0], shear[1]);
  const Vector3d all_scaling(scaling[2] / s.Zt, shear_scaling[0], shear_scaling[1]);
  // With tension at the crossing the bracket is on there; otherwise shear alone leads out.
  const double with_tension = leave_unit_ball<3>(all, all_scaling);
  if (with_tension < never && held[2] + with_tension * scaling[2] >= 0.0) return with_tension;
  return leave_unit_ball<2>(shear, shear_scaling);
}

double in_layer_tension_multiplier(const LayeredStrength& s, const Vector6d& held,
                                   const Vector6d& scaling) {
  // Each term alone crosses no earlier than both together; where neither does, both do not.
  const double bound = std::min(in_layer_multiplier(s.Xt, 1.0, held, scaling),
                                leave_unit_ball<2>(layer_shear(s, held), layer_shear(s, scaling)));
  if (!(bound < never)) return never;
  return root_from_the_right(InLayerTensionExcess{s, held, scaling}, bound);
}

double in_layer_compression_multiplier(const LayeredStrength& s, const Vector6d& held,
                                       const Vector6d& scaling) {
  return in_layer_multiplier(s.Xc, -1.0, held, scaling);
}

double build_compression_multiplier(const LayeredStrength& s, const Vector6d& held,
                                    const Vector6d& scaling) {
  return linear_multiplier(s.Zc, -held[2], -scaling[2]);
}

double maximum_stress_multiplier(const LayeredStrength& s, const Vector6d& held,
                                 const Vector6d& scaling) {
  return std::min({in_layer_multiplier(s.Xt, 1.0, held, scaling),
                   in_layer_multiplier(s.Xc, -1.0, held, scaling),
                   linear_multiplier(s.Zt, held[2], scaling[2]),
                   build_compression_multiplier(s, held, scaling),
                   leave_unit_ball<2>(layer_shear(s, held), layer_shear(s, scaling))});
}

double tsai_wu_index(const LayeredStrength& strength, const Vector6d& stress) {
  const TsaiWu polynomial(strength);
  return polynomial.linear(stress) + polynomial.quadratic(stress, stress);
}

double tsai_wu_multiplier(const LayeredStrength& strength, const Vector6d& held,
                          const Vector6d& scaling) {
  const TsaiWu f(strength);
  return positive_root(f.quadratic(scaling, scaling),
                       f.linear(scaling) + 2.0 * f.quadratic(held, scaling),
                       f.linear(held) + f.quadratic(held, held) - 1.0);
}

}  // namespace crossgrain
