// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/starter_guess.h"

#include <algorithm>
#include <cctype>
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

bool small_enough(const Hole& hole) { return hole.diameter <= largest_screw_hole; }

/// Whether a choice by diameter and axis that finds one finds the other.
bool alike(const Hole& a, const Hole& b) {
  return a.body == b.body && std::abs(a.diameter - b.diameter) <= 0.01 * a.diameter &&
         std::abs(a.axis.dot(b.axis)) >= 0.9999985;
}

std::vector<std::vector<Hole>> groups_of(const Features& features, BodyId body) {
  std::vector<std::vector<Hole>> groups;
  for (const Hole& hole : features.holes) {
    if (hole.body != body || !small_enough(hole)) continue;
    const auto group = std::find_if(groups.begin(), groups.end(),
                                    [&](const auto& known) { return alike(known.front(), hole); });
    if (group == groups.end()) {
      groups.push_back({hole});
    } else {
      group->push_back(hole);
    }
  }
  std::erase_if(groups,
                [](const auto& group) { return static_cast<int>(group.size()) < least_screws; });
  return groups;
}

/// Walls and floors of holes made for screws: those in a ring or row, and counterbored ones.
std::set<FaceId> screw_faces(const Features& features) {
  std::set<int> in_patterns;
  for (const HolePattern& pattern : features.patterns) {
    in_patterns.insert(pattern.holes.begin(), pattern.holes.end());
  }
  std::set<FaceId> faces;
  for (const Hole& hole : features.holes) {
    if (!small_enough(hole)) continue;
    if (!in_patterns.contains(hole.id) && !hole.counterbore_diameter) continue;
    faces.insert(hole.wall.begin(), hole.wall.end());
    if (hole.floor) faces.insert(*hole.floor);
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

bool coplanar(const CadFace& a, const CadFace& b) {
  return a.kind == SurfaceKind::plane && b.kind == SurfaceKind::plane &&
         a.axis.dot(b.axis) > 0.999999 && std::abs((a.origin - b.origin).dot(a.axis)) < 1e-3;
}

/// Whether a seal lies in the same plane beside it: then the fluid wets it up to the seal.
bool ends_at_a_seal(const Geometry& geometry, const CadFace& face) {
  const auto beside = neighbours(geometry, face);
  return std::any_of(beside.begin(), beside.end(), [&](FaceId other) {
    return named_as_seal(geometry.face(other)) && coplanar(face, geometry.face(other));
  });
}

bool stops_the_fluid(const Geometry& geometry, const CadFace& face) {
  if (face.kind != SurfaceKind::plane) return false;
  return named_as_seal(face) || (lies_outside(geometry, face) && !ends_at_a_seal(geometry, face));
}

/// Where a fluid that starts here would come to rest: seals, and flat outer faces.
std::vector<FaceId> dry_faces_round(const Geometry& geometry, FaceId start) {
  std::set<FaceId> seen = {start}, dry;
  std::vector<FaceId> open = {start};
  while (!open.empty()) {
    const CadFace& face = geometry.face(open.back());
    open.pop_back();
    for (const FaceId next : neighbours(geometry, face)) {
      if (!seen.insert(next).second) continue;
      if (stops_the_fluid(geometry, geometry.face(next))) {
        dry.insert(next);
      } else {
        open.push_back(next);
      }
    }
  }
  return {dry.begin(), dry.end()};
}

std::vector<FaceId> hollow_faces_by_size(const Geometry& geometry, const Features& features,
                                         BodyId body, const std::vector<FaceId>& screwed) {
  std::set<FaceId> screws = screw_faces(features);
  screws.insert(screwed.begin(), screwed.end());
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
                                        BodyId body, const std::vector<FaceId>& screwed) {
  constexpr std::size_t tries = 5;
  const std::vector<FaceId> hollow = hollow_faces_by_size(geometry, features, body, screwed);
  for (std::size_t i = 0; i < std::min(tries, hollow.size()); ++i) {
    CavityGuess guess{hollow[i], dry_faces_round(geometry, hollow[i]), {}};
    std::vector<FloodStop> stops;
    for (const FaceId face : guess.dry) stops.push_back({"port", {face}});
    try {
      guess.wetted = flood(geometry, guess.start, stops);
      return guess;
    } catch (const std::invalid_argument&) {
      // A fillet or groove on the outside, not a cavity: the next largest may be one.
    }
  }
  return std::nullopt;
}

std::vector<ScrewGuess> guess_screws(const Features& features, BodyId body,
                                     const std::vector<FaceId>& wet) {
  const auto touched = [&](const Hole& hole) {
    return std::find_first_of(hole.wall.begin(), hole.wall.end(), wet.begin(), wet.end()) !=
           hole.wall.end();
  };
  std::vector<ScrewGuess> screws;
  for (const std::vector<Hole>& holes : groups_of(features, body)) {
    if (std::any_of(holes.begin(), holes.end(), touched)) continue;
    const bool threaded =
        std::none_of(holes.begin(), holes.end(), [](const Hole& hole) { return hole.through; });
    const HoleOfSize& size = nearest_size(holes.front().diameter, threaded);
    screws.push_back({holes, threaded, size.size, size.preload});
  }
  return screws;
}

bool named_as_seal(const CadFace& face) {
  std::string name = face.name;
  std::transform(name.begin(), name.end(), name.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  const auto says = [&](const char* word) { return name.find(word) != std::string::npos; };
  return says("seal") || says("gasket") || says("o-ring");
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
