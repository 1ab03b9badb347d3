// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/features.h"

#include <algorithm>

#include "mesh/features/face_neighbours.h"
#include "mesh/features/hole_ends.h"
#include "mesh/features/hole_patterns.h"
#include "mesh/features/hole_walls.h"

namespace crossgrain {
namespace {

struct Ends {
  HoleEnd low, high;
};

const HoleEnd& end(const Ends& ends, bool high) { return high ? ends.high : ends.low; }

/// A wider hole in whose floor a hole opens.
struct Counterbore {
  std::size_t wall;
  bool high;  ///< the end of the inner hole at which it lies
};

/// A chamber with an outlet in its floor is no counterbore: common practice, no source.
bool sized_as_counterbore(const HoleWall& inner, const HoleWall& wide) {
  return wide.radius > inner.radius && wide.radius <= 3.0 * inner.radius &&
         wide.high - wide.low <= 4.0 * wide.radius;
}

std::optional<Counterbore> counterbore_of(std::size_t inner, const std::vector<HoleWall>& walls,
                                          const std::vector<Ends>& ends,
                                          const FaceNeighbours& neighbours) {
  for (const bool high : {true, false}) {
    const HoleEnd& at = end(ends[inner], high);
    if (!at.open || !at.flat) {
      continue;
    }
    for (std::size_t wide = 0; wide < walls.size(); ++wide) {
      const auto& around = neighbours.of(*at.face);
      const bool meets = std::any_of(around.begin(), around.end(), [&](const auto& neighbour) {
        return std::binary_search(walls[wide].faces.begin(), walls[wide].faces.end(),
                                  neighbour.face);
      });
      if (meets && sized_as_counterbore(walls[inner], walls[wide]) &&
          coaxial(walls[inner].axis, walls[inner].origin, walls[wide].axis, walls[wide].origin) &&
          end(ends[wide], high).open) {
        return Counterbore{wide, high};
      }
    }
  }
  return std::nullopt;
}

/// Out of the end with the seat; of a through hole with two or none, towards plus.
bool mouth_is_high(const Ends& ends) {
  if (ends.low.open != ends.high.open) {
    return ends.high.open;
  }
  return ends.high.flat || !ends.low.flat;
}

Hole plain_hole(const HoleWall& wall, const Ends& ends, bool high) {
  const HoleEnd& mouth = end(ends, high);
  const HoleEnd& bottom = end(ends, !high);
  Hole hole{};
  hole.body = wall.body;
  hole.diameter = 2.0 * wall.radius;
  // Adding zero turns -0 into 0.
  hole.axis = (high ? wall.axis : Eigen::Vector3d(-wall.axis)).array() + 0.0;
  hole.mouth = wall.at(mouth.along);
  hole.depth = wall.high - wall.low;
  hole.through = bottom.open;
  hole.wall = wall.faces;
  if (!bottom.open) {
    hole.floor = bottom.face;
  }
  if (mouth.flat) {
    hole.seat = Seat{*mouth.face, mouth.diameter, std::nullopt};
  }
  return hole;
}

void widen(Hole& hole, const HoleWall& wide, const HoleEnd& mouth) {
  hole.counterbore_diameter = 2.0 * wide.radius;
  hole.counterbore_depth = wide.high - wide.low;
  hole.seat->outer_diameter = 2.0 * wide.radius;
  hole.mouth = wide.at(mouth.along);
}

std::vector<Hole> holes_of(const std::vector<HoleWall>& walls, const std::vector<Ends>& ends,
                           const FaceNeighbours& neighbours) {
  std::vector<std::optional<Counterbore>> widening;
  std::vector<bool> is_counterbore(walls.size(), false);
  for (std::size_t i = 0; i < walls.size(); ++i) {
    widening.push_back(counterbore_of(i, walls, ends, neighbours));
    if (widening.back()) {
      is_counterbore[widening.back()->wall] = true;
    }
  }
  std::vector<Hole> holes;
  for (std::size_t i = 0; i < walls.size(); ++i) {
    const bool closed = !ends[i].low.open && !ends[i].high.open;  // a groove, a cavity
    if (is_counterbore[i] || closed) {
      continue;
    }
    const bool high = widening[i] ? widening[i]->high : mouth_is_high(ends[i]);
    holes.push_back(plain_hole(walls[i], ends[i], high));
    holes.back().id = static_cast<int>(holes.size());
    if (widening[i]) {
      widen(holes.back(), walls[widening[i]->wall], end(ends[widening[i]->wall], high));
    }
  }
  return holes;
}

}  // namespace

Features find_features(const Geometry& geometry) {
  const FaceNeighbours neighbours(geometry);
  const std::vector<HoleWall> walls = find_hole_walls(geometry);
  std::vector<Ends> ends;
  for (const HoleWall& wall : walls) {
    ends.push_back(
        {end_of(wall, false, geometry, neighbours), end_of(wall, true, geometry, neighbours)});
  }
  Features features;
  features.holes = holes_of(walls, ends, neighbours);
  features.patterns = find_patterns(features.holes, geometry);
  return features;
}

}  // namespace crossgrain
