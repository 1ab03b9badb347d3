// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/leak_path.h"

#include <algorithm>
#include <limits>
#include <queue>
#include <stdexcept>
#include <string>
#include <utility>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

constexpr double unreached = std::numeric_limits<double>::infinity();

void require_face(const std::vector<SealPoint>& points) {
  bool wetted = false, exits = false;
  for (const SealPoint& point : points) {
    positive(point.area, "area of a place on a seal", "mm^2");
    not_negative(point.contact, "contact of a place on a seal", "MPa");
    wetted = wetted || point.wetted;
    exits = exits || point.exit.has_value();
    for (const int next : point.neighbours) {
      if (next >= 0 && static_cast<std::size_t>(next) < points.size()) continue;
      throw std::invalid_argument("a place on a seal names a neighbour " + std::to_string(next) +
                                  " of " + std::to_string(points.size()) + " places");
    }
  }
  if (!wetted) throw std::invalid_argument("no edge of the seal is wetted by the fluid");
  if (!exits) throw std::invalid_argument("no edge of the seal leads out of it");
}

/// Least level at which a fluid reaches each place, and the place it comes from.
struct Flooding {
  std::vector<double> level;
  std::vector<int> from;  // -1 at a wetted edge
};

/// Places are flooded in the order of the level that they need, as a rising lake does.
Flooding flood(const std::vector<SealPoint>& points, const std::vector<double>& contact) {
  Flooding flooding{std::vector<double>(points.size(), unreached),
                    std::vector<int>(points.size(), -1)};
  using Front = std::pair<double, int>;
  std::priority_queue<Front, std::vector<Front>, std::greater<>> fronts;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!points[i].wetted) continue;
    flooding.level[i] = contact[i];
    fronts.emplace(contact[i], static_cast<int>(i));
  }
  while (!fronts.empty()) {
    const auto [level, here] = fronts.top();
    fronts.pop();
    if (level > flooding.level[here]) continue;
    for (const int next : points[here].neighbours) {
      const double needed = std::max(level, contact[next]);
      if (!(needed < flooding.level[next])) continue;
      flooding.level[next] = needed;
      flooding.from[next] = here;
      fronts.emplace(needed, next);
    }
  }
  return flooding;
}

LeakPath path_to(int exit_point, SealExit exit, const Flooding& flooding,
                 const std::vector<double>& contact) {
  LeakPath path{exit, flooding.level[exit_point], {}, exit_point};
  for (int here = exit_point; here >= 0; here = flooding.from[here]) path.points.push_back(here);
  std::reverse(path.points.begin(), path.points.end());
  path.tightest = *std::max_element(path.points.begin(), path.points.end(),
                                    [&](int a, int b) { return contact[a] < contact[b]; });
  return path;
}

}  // namespace

std::string_view words(SealExit exit) {
  switch (exit) {
    case SealExit::outer_edge:
      return "the outer edge";
    case SealExit::screw_hole:
      return "a screw hole";
    case SealExit::other_port:
      return "another port";
  }
  return "";
}

std::vector<double> averaged_contact(const std::vector<SealPoint>& points, double width) {
  not_negative(width, "width over which a seal counts", "mm");
  std::vector<double> averaged(points.size());
  std::vector<int> seen_from(points.size(), -1);
  std::vector<int> ball;
  for (std::size_t centre = 0; centre < points.size(); ++centre) {
    const int mark = static_cast<int>(centre);
    ball.assign(1, mark);
    seen_from[centre] = mark;
    double area = 0.0, force = 0.0;
    for (std::size_t i = 0; i < ball.size(); ++i) {
      const SealPoint& point = points[ball[i]];
      area += point.area;
      force += point.area * point.contact;
      for (const int next : point.neighbours) {
        if (seen_from[next] == mark) continue;
        if ((points[next].position - points[centre].position).norm() > 0.5 * width) continue;
        seen_from[next] = mark;
        ball.push_back(next);
      }
    }
    averaged[centre] = force / area;
  }
  return averaged;
}

std::vector<LeakPath> leak_paths(const std::vector<SealPoint>& points, double width) {
  require_face(points);
  const std::vector<double> contact = averaged_contact(points, width);
  const Flooding flooding = flood(points, contact);
  std::vector<LeakPath> paths;
  for (const SealExit exit : {SealExit::outer_edge, SealExit::screw_hole, SealExit::other_port}) {
    int leakiest = -1;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (points[i].exit != exit || flooding.level[i] == unreached) continue;
      if (leakiest < 0 || flooding.level[i] < flooding.level[leakiest]) {
        leakiest = static_cast<int>(i);
      }
    }
    if (leakiest >= 0) paths.push_back(path_to(leakiest, exit, flooding, contact));
  }
  if (paths.empty()) {
    throw std::invalid_argument(
        "no wetted edge of the seal hangs together with an edge that leads "
        "out; the faces do not touch each other");
  }
  std::stable_sort(paths.begin(), paths.end(),
                   [](const LeakPath& a, const LeakPath& b) { return a.level < b.level; });
  return paths;
}

}  // namespace crossgrain
