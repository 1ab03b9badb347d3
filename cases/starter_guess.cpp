// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter_guess.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>

namespace crossgrain {
namespace {

/// A bore of this size holds no screw that joins printed parts.
constexpr double largest_screw_hole = 14.0;  // mm
constexpr int least_screws = 2;

/// Holes for which a size is meant: tapped (ISO 2306 drill) or for a heat-set insert (from memory),
/// and through (ISO 273). Preloads are modest ones for inserts in plastic (common practice, no
/// source).
struct HoleOfSize {
  const char* size;
  double tapped, insert, clearance;  // mm
  double preload;                    // N
};
constexpr HoleOfSize hole_sizes[] = {
    {"M3", 2.5, 4.2, 3.4, 200.0}, {"M4", 3.3, 5.6, 4.5, 300.0},  {"M5", 4.2, 6.4, 5.5, 400.0},
    {"M6", 5.0, 8.0, 6.6, 600.0}, {"M8", 6.8, 9.6, 9.0, 1000.0}, {"M10", 8.5, 12.0, 11.0, 1500.0},
};

const HoleOfSize& nearest_size(double diameter, bool threaded) {
  const auto miss = [&](const HoleOfSize& size) {
    return threaded ? std::min(std::abs(size.tapped - diameter), std::abs(size.insert - diameter))
                    : std::abs(size.clearance - diameter);
  };
  return *std::min_element(
      std::begin(hole_sizes), std::end(hole_sizes),
      [&](const HoleOfSize& a, const HoleOfSize& b) { return miss(a) < miss(b); });
}

bool holds_screws(const HolePattern& pattern) {
  return pattern.diameter <= largest_screw_hole &&
         static_cast<int>(pattern.holes.size()) >= least_screws;
}

const Hole& hole_of(const Features& features, int id) {
  return *std::find_if(features.holes.begin(), features.holes.end(),
                       [id](const Hole& hole) { return hole.id == id; });
}

/// Walls, floors and seats of holes that screws sit in.
std::set<FaceId> screw_faces(const Features& features) {
  std::set<FaceId> faces;
  for (const HolePattern& pattern : features.patterns) {
    if (!holds_screws(pattern)) continue;
    for (const int id : pattern.holes) {
      const Hole& hole = hole_of(features, id);
      faces.insert(hole.wall.begin(), hole.wall.end());
      if (hole.floor) faces.insert(*hole.floor);
    }
  }
  return faces;
}

std::vector<FaceId> neighbours(const Geometry& geometry, const CadFace& face) {
  std::vector<FaceId> found;
  for (const auto& loop : face.loops) {
    for (const LoopEdge& edge : loop) {
      for (const FaceId other : geometry.edge(edge.edge).faces) {
        if (other != face.id) found.push_back(other);
      }
    }
  }
  return found;
}

/// Flat outer faces where a fluid that starts here would come out.
std::vector<FaceId> dry_faces_round(const Geometry& geometry, FaceId start) {
  std::set<FaceId> seen = {start}, dry;
  std::vector<FaceId> open = {start};
  while (!open.empty()) {
    const CadFace& face = geometry.face(open.back());
    open.pop_back();
    for (const FaceId next : neighbours(geometry, face)) {
      if (!seen.insert(next).second) continue;
      const CadFace& other = geometry.face(next);
      if (other.kind == SurfaceKind::plane && lies_outside(geometry, other)) {
        dry.insert(next);
      } else {
        open.push_back(next);
      }
    }
  }
  return {dry.begin(), dry.end()};
}

std::vector<FaceId> hollow_faces_by_size(const Geometry& geometry, const Features& features,
                                         BodyId body) {
  const std::set<FaceId> screws = screw_faces(features);
  std::vector<FaceId> hollow;
  for (const FaceId id : geometry.body(body).faces) {
    if (geometry.face(id).hollow && !screws.contains(id)) hollow.push_back(id);
  }
  std::stable_sort(hollow.begin(), hollow.end(), [&](FaceId a, FaceId b) {
    return geometry.face(a).area > geometry.face(b).area;
  });
  return hollow;
}

bool coaxial(const CadFace& a, const CadFace& b) {
  const Eigen::Vector3d between = b.origin - a.origin;
  return std::abs(a.axis.dot(b.axis)) > 0.99999 &&
         (between - between.dot(a.axis) * a.axis).norm() < 0.01 * a.radius;
}

}  // namespace

bool lies_outside(const Geometry& geometry, const CadFace& plane) {
  const SurfaceTriangles& surface = geometry.surface;
  const double slack = 1e-4 * geometry.body(plane.body).box.diagonal();
  for (Eigen::Index t = 0; t < surface.triangles.cols(); ++t) {
    if (geometry.face(surface.face_of_triangle[t]).body != plane.body) continue;
    for (const int point : surface.triangles.col(t)) {
      if ((surface.points.col(point) - plane.origin).dot(plane.axis) > slack) return false;
    }
  }
  return true;
}

std::optional<CavityGuess> guess_cavity(const Geometry& geometry, const Features& features,
                                        BodyId body) {
  constexpr std::size_t tries = 5;
  const std::vector<FaceId> hollow = hollow_faces_by_size(geometry, features, body);
  for (std::size_t i = 0; i < std::min(tries, hollow.size()); ++i) {
    CavityGuess guess{hollow[i], dry_faces_round(geometry, hollow[i]), {}};
    std::vector<FloodStop> stops;
    for (const FaceId face : guess.dry) stops.push_back({"port", face});
    try {
      guess.wetted = flood(geometry, guess.start, stops);
      return guess;
    } catch (const std::invalid_argument&) {
      // A fillet or groove on the outside, not a cavity: the next largest may be one.
    }
  }
  return std::nullopt;
}

std::vector<ScrewGuess> guess_screws(const Features& features, BodyId body) {
  std::vector<ScrewGuess> screws;
  for (const HolePattern& pattern : features.patterns) {
    if (!holds_screws(pattern)) continue;
    const Hole& first = hole_of(features, pattern.holes.front());
    if (first.body != body) continue;
    const HoleOfSize& size = nearest_size(pattern.diameter, !first.through);
    screws.push_back({pattern, !first.through, size.size, size.preload});
  }
  return screws;
}

std::optional<TubeGuess> guess_tube(const Geometry& geometry, const CadFace& bore) {
  if (bore.kind != SurfaceKind::cylinder) return std::nullopt;
  double outer = std::numeric_limits<double>::infinity();
  for (const CadFace& face : geometry.faces) {
    if (face.body != bore.body || face.kind != SurfaceKind::cylinder || face.hollow) continue;
    if (coaxial(bore, face) && face.radius > bore.radius) outer = std::min(outer, face.radius);
  }
  if (!std::isfinite(outer)) return std::nullopt;
  const Eigen::Vector3d size = bore.box.high - bore.box.low;
  return TubeGuess{bore.radius, outer - bore.radius, size.dot(bore.axis.cwiseAbs())};
}

std::optional<FaceId> largest_flat_face(const Geometry& geometry, BodyId body) {
  std::optional<FaceId> largest;
  for (const FaceId id : geometry.body(body).faces) {
    const CadFace& face = geometry.face(id);
    if (face.kind != SurfaceKind::plane) continue;
    if (!largest || face.area > geometry.face(*largest).area) largest = id;
  }
  return largest;
}

}  // namespace crossgrain
