// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/asked_sizes.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace crossgrain {

using Eigen::Vector3d;

namespace {

void require_sound(const Vector3d& point, double length, const char* what) {
  if (point.allFinite() && std::isfinite(length) && length > 0.0) return;
  std::ostringstream text;
  text << what << " of " << length << " mm is asked of the mesh at (" << point.x() << ", "
       << point.y() << ", " << point.z() << ") mm: it must be a positive length at a finite place";
  throw std::invalid_argument(text.str());
}

}  // namespace

AskedSizes::AskedSizes(std::vector<SizedPoint> wanted, std::vector<SizeBall> balls)
    : balls_(std::move(balls)) {
  for (const SizedPoint& point : wanted) require_sound(point.point, point.size, "an edge length");
  for (const SizeBall& ball : balls_) {
    require_sound(ball.centre, ball.size, "an edge length");
    require_sound(ball.centre, ball.radius, "a ball's radius");
  }
  wanted_ = GrowingSizes(std::move(wanted));
}

double AskedSizes::on_surface(const Vector3d& place, double greatest) const {
  return in_balls(place, longest_edge_on_surface, wanted_.at(place, greatest));
}

double AskedSizes::inside(const Vector3d& place, double greatest) const {
  const double wanted = wanted_.at(place, mean_edge_inside * greatest) / mean_edge_inside;
  return in_balls(place, longest_edge_inside, wanted);
}

double AskedSizes::in_balls(const Vector3d& place, double longest_edge, double greatest) const {
  double size = greatest;
  for (const SizeBall& ball : balls_) {
    // An element that only touches the ball reaches out of it by an edge.
    const double outside = (place - ball.centre).norm() - ball.radius - ball.size;
    size = std::min(size, ball.size / longest_edge + size_growth * std::max(0.0, outside));
  }
  return size;
}

}  // namespace crossgrain
