// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/trade_offs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "solver/elements/parallel.h"

namespace crossgrain {
namespace {

/// The less the better in each.
std::array<double, 5> columns(const TradeOff& row) {
  return {-row.factor.value_or(HUGE_VAL), row.print.height_mm, row.print.footprint_mm2,
          row.print.overhang_mm2, row.print.trapped_overhang_mm2};
}

bool beats(const std::array<double, 5>& a, const std::array<double, 5>& b) {
  bool better = false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] > b[i]) return false;
    better = better || a[i] < b[i];
  }
  return better;
}

}  // namespace

void mark_unbeaten(std::vector<TradeOff>& rows) {
  std::vector<std::array<double, 5>> values;
  values.reserve(rows.size());
  for (const TradeOff& row : rows) values.push_back(columns(row));
  for (std::size_t i = 0; i < rows.size(); ++i)
    rows[i].unbeaten =
        std::ranges::none_of(values, [&](const auto& other) { return beats(other, values[i]); });
}

std::vector<TradeOff> trade_offs(const Eigen::Matrix3Xd& directions,
                                 const std::vector<std::optional<double>>& factors,
                                 const Geometry& geometry, const std::vector<BodyId>& bodies,
                                 double overhang_angle, const std::vector<FaceId>& cavity,
                                 int threads) {
  std::vector<TradeOff> rows(factors.size());
  in_parallel(directions.cols(), threads, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto d = begin; d < end; ++d) {
      const Eigen::Vector3d up = directions.col(d), down = -up;
      const auto standing = printability(geometry, bodies, up, overhang_angle, cavity);
      const auto turned = printability(geometry, bodies, down, overhang_angle, cavity);
      const bool turn = std::tie(turned.trapped_overhang_mm2, turned.overhang_mm2) <
                        std::tie(standing.trapped_overhang_mm2, standing.overhang_mm2);
      rows[d] = {turn ? down : up, factors[d], turn ? turned : standing};
    }
  });
  mark_unbeaten(rows);
  return rows;
}

}  // namespace crossgrain
