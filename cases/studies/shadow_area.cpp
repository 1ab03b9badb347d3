// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/shadow_area.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace crossgrain {
namespace {

using Interval = std::pair<double, double>;

/// Where a line at height y cuts a triangle that it meets.
Interval cut(const FlatTriangle& triangle, double y) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (int i = 0; i < 3; ++i) {
    const Eigen::Vector2d& a = triangle[i];
    const Eigen::Vector2d& b = triangle[(i + 1) % 3];
    if ((a[1] <= y) == (b[1] <= y)) continue;
    const double x = a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
    low = std::min(low, x);
    high = std::max(high, x);
  }
  return {low, high};
}

double union_length(std::vector<Interval>& intervals) {
  std::sort(intervals.begin(), intervals.end());
  double length = 0.0;
  double reached = -std::numeric_limits<double>::infinity();
  for (const auto& [low, high] : intervals) {
    if (high <= reached) continue;
    length += high - std::max(low, reached);
    reached = high;
  }
  return length;
}

}  // namespace

double shadow_area(const std::vector<FlatTriangle>& triangles, int lines) {
  double bottom = std::numeric_limits<double>::infinity();
  double top = -bottom;
  for (const FlatTriangle& triangle : triangles)
    for (const Eigen::Vector2d& corner : triangle) {
      bottom = std::min(bottom, corner[1]);
      top = std::max(top, corner[1]);
    }
  if (!(top > bottom)) return 0.0;

  const double spacing = (top - bottom) / lines;
  std::vector<std::vector<Interval>> cuts(lines);
  for (const FlatTriangle& triangle : triangles) {
    const auto [low, high] = std::minmax({triangle[0][1], triangle[1][1], triangle[2][1]});
    const int first = std::max(0, static_cast<int>(std::ceil((low - bottom) / spacing - 0.5)));
    for (int line = first; line < lines; ++line) {
      const double y = bottom + (line + 0.5) * spacing;
      if (y >= high) break;
      const Interval interval = cut(triangle, y);
      if (interval.first < interval.second) cuts[line].push_back(interval);
    }
  }
  double area = 0.0;
  for (std::vector<Interval>& intervals : cuts) area += spacing * union_length(intervals);
  return area;
}

}  // namespace crossgrain
