// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/torque_window.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

/// How far beyond the greatest preload that was solved for the last slope is believed.
constexpr double farthest = 3.0;

using Point = PreloadResponse::Point;

void require_response(const PreloadResponse& response) {
  const std::string whose = std::string(words(response.mode)) + " of '" + response.owner + "'";
  bool sound = response.points.size() >= 2 && std::isfinite(response.limit);
  for (std::size_t i = 0; sound && i < response.points.size(); ++i) {
    const Point& point = response.points[i];
    sound = std::isfinite(point.value) && std::isfinite(point.preload) && point.preload >= 0.0 &&
            (i == 0 || point.preload > response.points[i - 1].preload);
  }
  if (sound) return;
  throw std::invalid_argument(whose + " in '" + response.situation +
                              "' is no response to preload: give two or more finite values at "
                              "ascending preloads and a limit");
}

/// Where the straight line through two points meets a level.
double crossing(const Point& a, const Point& b, double level) {
  return a.preload + (level - a.value) * (b.preload - a.preload) / (b.value - a.value);
}

/// The value's room to the limit, positive where the line holds.
struct Room {
  double sign, limit;
  double operator()(const Point& point) const { return sign * (point.value - limit); }
};

/// Walks over the points from the side where the line is satisfied last (`from` the highest preload
/// down for what must be reached, the lowest up for what must be kept).
PreloadBound walk(const std::vector<Point>& points, const Room& room, bool reach) {
  const int count = static_cast<int>(points.size());
  const auto at = [&](int i) -> const Point& { return points[reach ? count - 1 - i : i]; };
  if (room(at(0)) < 0.0) {
    // Not satisfied at the near end: follow the slope outwards.
    const double preload = crossing(at(0), at(1), room.limit);
    const bool outward = reach ? preload > at(0).preload : preload < at(0).preload;
    const bool believed = reach ? preload <= farthest * at(0).preload : preload > 0.0;
    if (!std::isfinite(preload) || !outward || !believed) {
      return {PreloadBound::Kind::never, 0.0, false};
    }
    return {PreloadBound::Kind::at, preload, true};
  }
  for (int i = 1; i < count; ++i) {
    if (room(at(i)) >= 0.0) continue;
    return {PreloadBound::Kind::at, crossing(at(i - 1), at(i), room.limit), false};
  }
  const double preload = crossing(at(count - 2), at(count - 1), room.limit);
  const double end = at(count - 1).preload;
  const bool outward =
      reach ? preload <= end && preload > 0.0 : preload >= end && preload <= farthest * end;
  if (!std::isfinite(preload) || !outward) return {PreloadBound::Kind::always, 0.0, false};
  return {PreloadBound::Kind::at, preload, preload != end};
}

}  // namespace

bool TorqueWindow::empty() const {
  return never || (lowest && highest && !(lowest->torque <= highest->torque));
}

PreloadBound preload_bound(const PreloadResponse& response) {
  require_response(response);
  const bool reach = must_reach(response.mode);
  return walk(response.points, {reach ? 1.0 : -1.0, response.limit}, reach);
}

TorqueWindow torque_window(const std::vector<PreloadResponse>& responses,
                           const PreloadScatter& scatter) {
  within(scatter.least, 1e-3, 1.0, "least preload over nominal", "-");
  within(scatter.greatest, 1.0, 1e3, "greatest preload over nominal", "-");
  TorqueWindow window;
  for (const PreloadResponse& response : responses) {
    const PreloadBound bound = preload_bound(response);
    if (bound.kind == PreloadBound::Kind::always) continue;
    if (bound.kind == PreloadBound::Kind::never) {
      if (!window.never) window.never = response.mode;
      continue;
    }
    const bool reach = must_reach(response.mode);
    // The torque whose least preload just reaches it, or whose greatest just keeps it.
    const double torque = bound.preload / (reach ? scatter.least : scatter.greatest);
    auto& end = reach ? window.lowest : window.highest;
    if (end && (reach ? end->torque >= torque : end->torque <= torque)) continue;
    end = {torque, response.mode, response.owner, response.situation, bound.extrapolated};
  }
  return window;
}

std::vector<TemperatureWindow> windows_by_temperature(const std::vector<PreloadResponse>& responses,
                                                      const PreloadScatter& scatter) {
  std::set<double> temperatures;
  for (const auto& response : responses) temperatures.insert(response.temperature_K);
  std::vector<TemperatureWindow> windows;
  for (const double temperature : temperatures) {
    std::vector<PreloadResponse> there;
    for (const auto& response : responses) {
      if (response.temperature_K == temperature) there.push_back(response);
    }
    windows.push_back({temperature, torque_window(there, scatter)});
  }
  return windows;
}

}  // namespace crossgrain
