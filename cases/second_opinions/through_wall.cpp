// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/through_wall.h"

#include <cmath>

#include "mesh/geometry/gauss_rule.h"

namespace crossgrain {
namespace {

// Stress is quadratic in an element and has a kink between two: pieces shorter than elements.
constexpr int pieces = 8;

double normal_stress(const Vector6d& s, const Eigen::Vector3d& n) {
  return s[0] * n.x() * n.x() + s[1] * n.y() * n.y() + s[2] * n.z() * n.z() +
         2.0 * (s[3] * n.y() * n.z() + s[4] * n.x() * n.z() + s[5] * n.x() * n.y());
}

}  // namespace

double LinearisedStress::on(WallSide side) const {
  const double pressed = membrane - bending, other = membrane + bending;
  if (side == WallSide::pressed) return pressed;
  if (side == WallSide::other) return other;
  return std::abs(pressed) > std::abs(other) ? pressed : other;
}

LinearisedStress linearised(const std::function<double(double)>& stress) {
  const Eigen::Vector2d parts = integrate<Eigen::Vector2d>(
      0.0, 1.0, pieces, Eigen::Vector2d(0.0, 0.0),
      [&](double x) { return Eigen::Vector2d(stress(x) * Eigen::Vector2d(1.0, 6.0 * (x - 0.5))); });
  return {parts[0], parts[1]};
}

std::optional<LinearisedStress> linearised_along(const WallLine& line, const StressOnMesh& field) {
  // Mesh and CAD agree to a small part of an element.
  const double tolerance = 0.05 * (line.to - line.from).norm();
  bool inside = true;
  const LinearisedStress found = linearised([&](double x) {
    const auto place = field.locator.find(line.from + x * (line.to - line.from), tolerance);
    if (!place) {
      inside = false;
      return 0.0;
    }
    const Vector6d stress = stress_at(field.mesh, field.points, field.stress, *place);
    double sum = 0.0;
    for (const Eigen::Vector3d& pull : line.pulls) sum += normal_stress(stress, pull);
    return sum / static_cast<double>(line.pulls.size());
  });
  if (!inside || !std::isfinite(found.membrane) || !std::isfinite(found.bending))
    return std::nullopt;
  return found;
}

}  // namespace crossgrain
