// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/failure/failure.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>

#include "materials/failure/first_crossing.h"
#include "materials/failure/layered_criteria.h"

namespace crossgrain {
namespace {

// A multiplier past this means that only rounding errors pull: no limit.
constexpr double largest_multiplier = 1e12;

[[noreturn]] void refuse_pair(FailureMode mode, const char* kind) {
  throw std::invalid_argument("failure mode " + std::string(name_of(mode)) + " does not fit a " +
                              kind + " strength");
}

[[noreturn]] void refuse_value(const char* name, double value) {
  std::ostringstream message;
  message << "strength " << name << " must be positive and finite, it is " << value << " MPa";
  throw std::invalid_argument(message.str());
}

// Asked at every point, mode and load case.
inline void require_positive(const char* name, double value) {
  if (!(value > 0.0 && std::isfinite(value))) [[unlikely]]
    refuse_value(name, value);
}

[[noreturn]] void refuse_stress(const Vector6d& stress) {
  std::ostringstream message;
  message << "stress is not finite: " << stress.transpose();
  throw std::invalid_argument(message.str());
}

inline void require_finite(const Vector6d& stress) {
  if (!stress.allFinite()) [[unlikely]]
    refuse_stress(stress);
}

void require_sound(const LayeredStrength& s) {
  require_positive("Xt", s.Xt);
  require_positive("Xc", s.Xc);
  require_positive("Zt", s.Zt);
  require_positive("Zc", s.Zc);
  require_positive("Sz", s.Sz);
}
void require_sound(const DuctileStrength& s) { require_positive("yield", s.yield); }
void require_sound(const BrittleStrength& s) { require_positive("tensile", s.tensile); }

/// Five numbers whose length is the von Mises stress.
Eigen::Matrix<double, 5, 1> deviator(const Vector6d& s) {
  const double root_3 = std::sqrt(3.0);
  Eigen::Matrix<double, 5, 1> d;
  d << 0.5 * (s[0] + s[1]) - s[2], 0.5 * root_3 * (s[0] - s[1]), root_3 * s[3], root_3 * s[4],
      root_3 * s[5];
  return d;
}

Eigen::Matrix3d tensor(const Vector6d& s) {
  return Eigen::Matrix3d{{s[0], s[5], s[4]}, {s[5], s[1], s[3]}, {s[4], s[3], s[2]}};
}

// A principal stress is at most root 2 times the length, von Mises stress root 3 times.
double safe_length_of(FailureMode mode, const LayeredStrength& s) {
  const double in_layer_tension = std::numbers::sqrt2 / 2.0 * s.Xt,
               in_layer_compression = std::numbers::sqrt2 / 2.0 * s.Xc;
  switch (mode) {
    case FailureMode::interlayer:
      return std::min(s.Zt, s.Sz);
    case FailureMode::in_layer_tension:
      return std::min(in_layer_tension, s.Sz);
    case FailureMode::in_layer_compression:
      return in_layer_compression;
    case FailureMode::build_compression:
      return s.Zc;
    case FailureMode::maximum_stress:
      return std::min({in_layer_tension, in_layer_compression, s.Zt, s.Zc, s.Sz});
    default:
      return 0.0;
  }
}
double safe_length_of(FailureMode, const DuctileStrength& s) {
  return s.yield * std::numbers::inv_sqrt3;
}
double safe_length_of(FailureMode, const BrittleStrength& s) {
  return s.tensile * std::numbers::sqrt2 / 2.0;
}

double index_of(FailureMode mode, const LayeredStrength& s, const Vector6d& stress) {
  switch (mode) {
    case FailureMode::interlayer:
      return interlayer_index(s, stress);
    case FailureMode::in_layer_tension:
      return in_layer_tension_index(s, stress);
    case FailureMode::in_layer_compression:
      return in_layer_compression_index(s, stress);
    case FailureMode::build_compression:
      return build_compression_index(s, stress);
    case FailureMode::tsai_wu:
      return tsai_wu_index(s, stress);
    case FailureMode::maximum_stress:
      return maximum_stress_index(s, stress);
    default:
      refuse_pair(mode, "layered");
  }
}

double index_of(FailureMode mode, const DuctileStrength& s, const Vector6d& stress) {
  if (mode != FailureMode::yielding) refuse_pair(mode, "ductile isotropic");
  return deviator(stress).norm() / s.yield;
}

double index_of(FailureMode mode, const BrittleStrength& s, const Vector6d& stress) {
  if (mode != FailureMode::brittle_tension) refuse_pair(mode, "brittle isotropic");
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(tensor(stress),
                                                             Eigen::EigenvaluesOnly);
  return eigen.eigenvalues()[2] / s.tensile;
}

double multiplier_of(FailureMode mode, const LayeredStrength& s, const Vector6d& held,
                     const Vector6d& scaling) {
  switch (mode) {
    case FailureMode::interlayer:
      return interlayer_multiplier(s, held, scaling);
    case FailureMode::in_layer_tension:
      return in_layer_tension_multiplier(s, held, scaling);
    case FailureMode::in_layer_compression:
      return in_layer_compression_multiplier(s, held, scaling);
    case FailureMode::build_compression:
      return build_compression_multiplier(s, held, scaling);
    case FailureMode::tsai_wu:
      return tsai_wu_multiplier(s, held, scaling);
    case FailureMode::maximum_stress:
      return maximum_stress_multiplier(s, held, scaling);
    default:
      refuse_pair(mode, "layered");
  }
}

double multiplier_of(FailureMode, const DuctileStrength& s, const Vector6d& held,
                     const Vector6d& scaling) {
  return leave_unit_ball<5>(deviator(held) / s.yield, deviator(scaling) / s.yield);
}

double multiplier_of(FailureMode, const BrittleStrength& s, const Vector6d& held,
                     const Vector6d& scaling) {
  return leave_positive_definite<3>(s.tensile * Eigen::Matrix3d::Identity() - tensor(held),
                                    tensor(scaling));
}

/// Infinity for no limit. The strength is taken to be sound.
template <typename AnyStrength>
double checked_multiplier(FailureMode mode, const AnyStrength& strength, const Vector6d& held,
                          const Vector6d& scaling) {
  require_finite(held);
  require_finite(scaling);
  if (!(index_of(mode, strength, held) < 1.0)) return 0.0;
  const double multiplier = multiplier_of(mode, strength, held, scaling);
  return multiplier <= largest_multiplier ? multiplier : never;
}

}  // namespace

double safe_length(FailureMode mode, const Strength& strength) {
  return std::visit([mode](const auto& s) { return safe_length_of(mode, s); }, strength);
}

double failure_index(FailureMode mode, const Strength& strength, const Vector6d& stress) {
  require_finite(stress);
  return std::visit(
      [&](const auto& s) {
        require_sound(s);
        return index_of(mode, s, stress);
      },
      strength);
}

std::optional<double> load_multiplier(FailureMode mode, const Strength& strength,
                                      const Vector6d& held, const Vector6d& scaling) {
  const double multiplier = std::visit(
      [&](const auto& s) {
        require_sound(s);
        return checked_multiplier(mode, s, held, scaling);
      },
      strength);
  return multiplier < never ? std::optional(multiplier) : std::nullopt;
}

Eigen::VectorXd load_multipliers(FailureMode mode, const Strength& strength,
                                 const StressColumns& held, const StressColumns& scaling) {
  if (held.cols() != scaling.cols())
    throw std::invalid_argument("held and scaling stress must have as many points");
  Eigen::VectorXd multipliers(held.cols());
  std::visit(
      [&](const auto& s) {
        require_sound(s);
        for (Eigen::Index point = 0; point < held.cols(); ++point)
          multipliers[point] = checked_multiplier(mode, s, held.col(point), scaling.col(point));
      },
      strength);
  return multipliers;
}

}  // namespace crossgrain
