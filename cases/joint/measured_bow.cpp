// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/measured_bow.h"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "cases/joint/seal_round.h"

namespace crossgrain {
namespace {

constexpr double full_turn = 2.0 * std::numbers::pi;
/// A wave has four unknowns; fewer places than this would be no fit.
constexpr std::size_t fewest_places = 8;

/// A place within a span.
struct InSpan {
  std::size_t place;
  double share;   ///< of the angle from the one screw to the other [-]
  double radius;  ///< about the seal's middle [mm]
};

struct Angles {
  std::vector<double> of_screws;
  std::vector<std::size_t> order;  ///< of the screws, by angle
};

Angles angles_of(const SealRound& round, const std::vector<Eigen::Vector3d>& screws) {
  Angles angles;
  for (std::size_t i = 0; i < screws.size(); ++i) {
    angles.of_screws.push_back(round.angle_of(screws[i]));
    angles.order.push_back(i);
  }
  std::ranges::sort(angles.order, {}, [&](std::size_t i) { return angles.of_screws[i]; });
  return angles;
}

/// From one angle on to the other, 0 to 2 pi.
double turn(double from, double to) {
  const double angle = to - from;
  return angle < 0.0 ? angle + full_turn : angle;
}

/// One face tilted against the other as a whole.
struct Tilt {
  const SealRound& round;
  Eigen::Vector3d level;  ///< at the middle, and per mm along both axes of the seal's plane

  double at(const Eigen::Vector3d& position) const {
    const Eigen::Vector3d away = position - round.middle;
    return level.dot(Eigen::Vector3d(1.0, away.dot(round.zero), away.dot(round.quarter)));
  }
};

Tilt best_tilt(const SealRound& round, const std::vector<SealPoint>& places,
               const std::vector<double>& gap) {
  Eigen::MatrixX3d rows(std::ssize(places), 3);
  Eigen::VectorXd values(std::ssize(places));
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    const SealPoint& place = places[static_cast<std::size_t>(i)];
    const Eigen::Vector3d away = place.position - round.middle;
    const double weight = std::sqrt(place.area);
    rows.row(i) << weight, weight * away.dot(round.zero), weight * away.dot(round.quarter);
    values[i] = weight * gap[static_cast<std::size_t>(i)];
  }
  return {round, rows.colPivHouseholderQr().solve(values)};
}

SpanBow fitted(const std::vector<InSpan>& within, const std::vector<SealPoint>& places,
               const std::vector<double>& gap, const Tilt& tilt) {
  double radius = 0.0, area = 0.0;
  for (const InSpan& one : within) {
    radius += places[one.place].area * one.radius;
    area += places[one.place].area;
  }
  radius /= area;
  Eigen::MatrixX4d rows(std::ssize(within), 4);
  Eigen::VectorXd values(std::ssize(within));
  SpanBow span{};
  double nearest = 1.0;
  for (Eigen::Index i = 0; i < rows.rows(); ++i) {
    const auto& [place, share, here] = within[static_cast<std::size_t>(i)];
    const double weight = std::sqrt(places[place].area / area);
    rows.row(i) << 1.0, std::cos(full_turn * share), share - 0.5, here / radius - 1.0;
    rows.row(i) *= weight;
    values[i] = weight * (gap[place] - tilt.at(places[place].position));
    if (std::abs(share - 0.5) >= nearest) continue;
    nearest = std::abs(share - 0.5);
    span.middle = places[place].position;
  }
  const Eigen::Vector4d wave = rows.colPivHouseholderQr().solve(values);
  const double level = wave[0] + tilt.at(span.middle);
  span.at_screws = level + wave[1];
  span.between = level - wave[1];
  return span;
}

}  // namespace

std::vector<SpanBow> span_bows(const std::vector<SealPoint>& places, const std::vector<double>& gap,
                               const std::vector<Eigen::Vector3d>& screws) {
  if (gap.size() != places.size())
    throw std::invalid_argument(std::to_string(gap.size()) + " gaps for " +
                                std::to_string(places.size()) + " places of a seal");
  std::vector<SpanBow> spans;
  if (screws.size() < 3 || places.empty()) return spans;
  const SealRound round = seal_round(places);
  const auto [of_screws, order] = angles_of(round, screws);
  const Tilt tilt = best_tilt(round, places, gap);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const std::size_t from = order[k], to = order[(k + 1) % order.size()];
    const double width = turn(of_screws[from], of_screws[to]);
    // The screws stand beside the seal, or two of them over each other.
    if (width >= std::numbers::pi) return {};
    if (!(width > 0.0)) continue;
    std::vector<InSpan> within;
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double share = turn(of_screws[from], round.angle_of(places[i].position)) / width;
      if (share <= 1.0) within.push_back({i, share, (places[i].position - round.middle).norm()});
    }
    if (within.size() < fewest_places) continue;
    spans.push_back(fitted(within, places, gap, tilt));
    spans.back().from = from;
    spans.back().to = to;
  }
  return spans;
}

}  // namespace crossgrain
