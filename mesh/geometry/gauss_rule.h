// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

namespace crossgrain {

/// Gauss's rule of five points on [-1, 1]: exact for polynomials of degree nine.
/// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4 (from memory; the
/// exact areas of circles in the tests depend on every digit).
struct GaussPoint {
  double at;
  double weight;
};
inline constexpr std::array<GaussPoint, 5> gauss_rule = {
    {{0.0, 0.5688888888888889},
     {-0.5384693101056831, 0.4786286704993665},
     {0.5384693101056831, 0.4786286704993665},
     {-0.9061798459386640, 0.2369268850561891},
     {0.9061798459386640, 0.2369268850561891}}};

/// The integral of a function of one variable over [from, to], cut into equal pieces.
/// @param zero  the sum's start, which gives its type.
template <typename Sum, typename Function>
Sum integrate(double from, double to, int pieces, Sum zero, const Function& function) {
  const double half = 0.5 * (to - from) / pieces;
  for (int piece = 0; piece < pieces; ++piece) {
    const double middle = from + half * (2 * piece + 1);
    for (const GaussPoint& point : gauss_rule) {
      zero += (point.weight * half) * function(middle + half * point.at);
    }
  }
  return zero;
}

}  // namespace crossgrain
