// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "cases/studies/printability.h"

namespace crossgrain {

/// A direction's strength beside what it costs the printer.
struct TradeOff {
  Eigen::Vector3d up;
  std::optional<double> factor;  ///< absent: no limit found
  Printability print;
  bool unbeaten = false;  ///< no other is as good in every column and better in one
};

/// Of a build direction and its opposite, which are equally strong, the one that leaves less
/// overhang in cavities, then less overhang in all.
/// @param directions  3 x n.  @param factors  of each.
/// @param bodies, overhang_angle, cavity  as for printability.
/// @return in the order of the directions; columns compared are factor, height, shadow, overhang
/// and what of it is trapped.
std::vector<TradeOff> trade_offs(const Eigen::Matrix3Xd& directions,
                                 const std::vector<std::optional<double>>& factors,
                                 const Geometry& geometry, const std::vector<BodyId>& bodies,
                                 double overhang_angle, const std::vector<FaceId>& cavity,
                                 int threads);

/// Fill `unbeaten`.
void mark_unbeaten(std::vector<TradeOff>& rows);

}  // namespace crossgrain
