// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/hole_patterns.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <optional>

namespace crossgrain {
namespace {

constexpr double same_length = 0.02;     // [mm]
constexpr double same_direction = 1e-3;  // [rad]

using Holes = std::vector<const Hole*>;

bool alike(const Hole& a, const Hole& b) {
  return a.body == b.body && std::abs(a.diameter - b.diameter) < same_length &&
         a.through == b.through &&
         std::abs(a.counterbore_diameter.value_or(0.0) - b.counterbore_diameter.value_or(0.0)) <
             same_length &&
         (a.axis - b.axis).norm() < same_direction &&
         std::abs((a.mouth - b.mouth).dot(a.axis)) < same_length;
}

std::vector<Holes> groups_of(const std::vector<Hole>& holes) {
  std::vector<Holes> groups;
  for (const Hole& hole : holes) {
    const auto group = std::find_if(groups.begin(), groups.end(),
                                    [&](const Holes& g) { return alike(*g.front(), hole); });
    if (group == groups.end()) {
      groups.push_back({&hole});
    } else {
      group->push_back(&hole);
    }
  }
  return groups;
}

/// Whether angles, sorted, lie on equal steps round the circle, of which few may be empty.
bool evenly_spaced(const std::vector<double>& angles, double tolerance) {
  constexpr double full_turn = 2.0 * M_PI, least_filled = 0.7;
  std::vector<double> gaps{angles.front() + full_turn - angles.back()};
  for (std::size_t i = 1; i < angles.size(); ++i) {
    gaps.push_back(angles[i] - angles[i - 1]);
  }
  const double steps = std::round(full_turn / *std::min_element(gaps.begin(), gaps.end()));
  return static_cast<double>(angles.size()) > least_filled * steps &&
         std::all_of(gaps.begin(), gaps.end(), [&](double gap) {
           const double step = full_turn / steps;
           return std::abs(gap - step * std::round(gap / step)) < tolerance;
         });
}

/// The holes at one distance from a centre, if they stand at equal angles; in order round the axis.
Holes ring_round(const Eigen::Vector3d& centre, double radius, const Holes& group) {
  const Eigen::Vector3d axis = group.front()->axis;
  const Eigen::Vector3d x = axis.unitOrthogonal(), y = axis.cross(x);
  std::vector<std::pair<double, const Hole*>> by_angle;
  for (const Hole* hole : group) {
    const Eigen::Vector3d arm = hole->mouth - centre;
    if (std::abs((arm - arm.dot(axis) * axis).norm() - radius) < same_length) {
      by_angle.emplace_back(std::atan2(arm.dot(y), arm.dot(x)), hole);
    }
  }
  std::sort(by_angle.begin(), by_angle.end());
  std::vector<double> angles;
  Holes ring;
  for (const auto& [angle, hole] : by_angle) {
    angles.push_back(angle);
    ring.push_back(hole);
  }
  return evenly_spaced(angles, same_length / radius) ? ring : Holes();
}

std::optional<Eigen::Vector3d> circle_centre(const Eigen::Vector3d& a, const Eigen::Vector3d& b,
                                             const Eigen::Vector3d& c) {
  const Eigen::Vector3d u = b - a, v = c - a, normal = u.cross(v);
  if (!(normal.norm() > 1e-3 * u.norm() * v.norm())) {
    return std::nullopt;
  }
  return a + (u.squaredNorm() * v.cross(normal) + v.squaredNorm() * normal.cross(u)) /
                 (2.0 * normal.squaredNorm());
}

/// Three or four holes stand on a circle by chance: they are a ring if something turns about its
/// axis.
bool turns_about(const Geometry& geometry, BodyId body, const Eigen::Vector3d& centre,
                 const Eigen::Vector3d& axis) {
  return std::any_of(geometry.faces.begin(), geometry.faces.end(), [&](const CadFace& face) {
    const bool has_axis = face.kind == SurfaceKind::cylinder || face.kind == SurfaceKind::cone ||
                          face.kind == SurfaceKind::torus;
    const Eigen::Vector3d arm = face.origin - centre;
    return face.body == body && has_axis && face.axis.cross(axis).norm() < same_direction &&
           (arm - arm.dot(axis) * axis).norm() < same_length;
  });
}

HolePattern ring_pattern(const Holes& ring, const Eigen::Vector3d& centre) {
  HolePattern pattern{{}, ring.front()->diameter, true, centre, ring.front()->axis};
  for (const Hole* hole : ring) {
    pattern.holes.push_back(hole->id);
  }
  std::sort(pattern.holes.begin(), pattern.holes.end());
  pattern.ring_diameter = 2.0 * (ring.front()->mouth - centre).norm();
  pattern.pitch = (ring.back()->mouth - ring.front()->mouth).norm();
  for (std::size_t i = 1; i < ring.size(); ++i) {
    pattern.pitch = std::min(pattern.pitch, (ring[i]->mouth - ring[i - 1]->mouth).norm());
  }
  return pattern;
}

std::optional<HolePattern> largest_ring(const Holes& group, const Geometry& geometry) {
  constexpr std::size_t sure = 5;
  std::optional<HolePattern> best;
  for (std::size_t i = 0; i < group.size(); ++i) {
    for (std::size_t j = i + 1; j < group.size(); ++j) {
      for (std::size_t k = j + 1; k < group.size(); ++k) {
        const auto centre = circle_centre(group[i]->mouth, group[j]->mouth, group[k]->mouth);
        if (!centre) {
          continue;
        }
        const Holes ring = ring_round(*centre, (group[i]->mouth - *centre).norm(), group);
        const bool larger = ring.size() >= 3 && (!best || ring.size() > best->holes.size());
        if (larger && (ring.size() >= sure ||
                       turns_about(geometry, ring.front()->body, *centre, ring.front()->axis))) {
          best = ring_pattern(ring, *centre);
        }
      }
    }
  }
  return best;
}

std::optional<HolePattern> row_from(const Hole& first, const Hole& second, const Holes& group) {
  const Eigen::Vector3d step = second.mouth - first.mouth;
  HolePattern row{{}, first.diameter, false, Eigen::Vector3d::Zero(), first.axis};
  row.pitch = step.norm();
  Eigen::Vector3d at = first.mouth, sum = Eigen::Vector3d::Zero();
  while (true) {
    const auto next = std::find_if(group.begin(), group.end(), [&](const Hole* hole) {
      return (hole->mouth - at).norm() < same_length;
    });
    if (next == group.end()) {
      break;
    }
    row.holes.push_back((*next)->id);
    sum += (*next)->mouth;
    at = (*next)->mouth + step;
  }
  row.centre = sum / static_cast<double>(row.holes.size());
  return row.holes.size() >= 3 ? std::optional(row) : std::nullopt;
}

/// Of rows of equal length the one with the least pitch: a grid has slanting ones too.
std::optional<HolePattern> largest_row(const Holes& group) {
  std::optional<HolePattern> best;
  for (const Hole* first : group) {
    for (const Hole* second : group) {
      if (first == second) {
        continue;
      }
      const auto row = row_from(*first, *second, group);
      const bool better =
          row && (!best || row->holes.size() > best->holes.size() ||
                  (row->holes.size() == best->holes.size() && row->pitch < best->pitch));
      if (better) {
        best = row;
      }
    }
  }
  if (best) {
    std::sort(best->holes.begin(), best->holes.end());
  }
  return best;
}

void take(const HolePattern& pattern, Holes& group) {
  group.erase(std::remove_if(group.begin(), group.end(),
                             [&](const Hole* hole) {
                               return std::binary_search(pattern.holes.begin(), pattern.holes.end(),
                                                         hole->id);
                             }),
              group.end());
}

}  // namespace

std::vector<HolePattern> find_patterns(const std::vector<Hole>& holes, const Geometry& geometry) {
  constexpr std::size_t most = 100;  // all triples of more take too long
  std::vector<HolePattern> patterns;
  for (Holes& group : groups_of(holes)) {
    while (group.size() >= 3 && group.size() <= most) {
      const auto ring = largest_ring(group, geometry), row = largest_row(group);
      if (!ring && !row) {
        break;
      }
      const bool take_ring = ring && (!row || ring->holes.size() >= row->holes.size());
      patterns.push_back(take_ring ? *ring : *row);
      take(patterns.back(), group);
    }
  }
  return patterns;
}

}  // namespace crossgrain
