// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/features/wetted_surface.h"

#include <algorithm>
#include <stdexcept>

#include "mesh/features/body_outside.h"
#include "mesh/features/face_neighbours.h"
#include "mesh/features/openings.h"
#include "mesh/geometry/geometry_words.h"
#include "mesh/geometry/surface_rays.h"

namespace crossgrain {
namespace {

struct Flood {
  std::vector<bool> wet;             ///< by face
  std::vector<FaceId> order;         ///< as reached
  std::vector<FaceId> reached_from;  ///< by face
};

Flood spread(const Geometry& geometry, const FaceNeighbours& neighbours, FaceId start,
             const std::vector<FloodStop>& stops) {
  Flood flood{std::vector<bool>(geometry.faces.size(), false),
              {start},
              std::vector<FaceId>(geometry.faces.size(), start)};
  std::vector<bool> closed(geometry.faces.size(), false);
  for (const FloodStop& stop : stops) {
    for (const FaceId face : stop.faces) closed[index(face)] = true;
  }
  flood.wet[index(start)] = true;
  for (std::size_t i = 0; i < flood.order.size(); ++i) {
    const FaceId face = flood.order[i];
    for (const auto& [edge, next] : neighbours.of(face)) {
      if (!flood.wet[index(next)] && !closed[index(next)]) {
        flood.wet[index(next)] = true;
        flood.reached_from[index(next)] = face;
        flood.order.push_back(next);
      }
    }
  }
  return flood;
}

std::string way_to(FaceId end, FaceId start, const Flood& flood, const Geometry& geometry) {
  std::vector<FaceId> way{end};
  while (way.back() != start) {
    way.push_back(flood.reached_from[index(way.back())]);
  }
  std::string text;
  for (auto face = way.rbegin(); face != way.rend(); ++face) {
    text += (text.empty() ? "" : " -> ") + words(geometry.face(*face));
  }
  return text;
}

/// Whether the flood got out: of the directions in which either a wet or a dry face is the
/// farthest, stops left aside, the wet ones are the more by far. A flood that got out takes all of
/// them but for what the stops cut off.
void require_inside(const Geometry& geometry, FaceId start, const Flood& flood,
                    const std::vector<FloodStop>& stops) {
  std::vector<bool> aside(geometry.faces.size(), false), outer(geometry.faces.size(), false);
  for (const FloodStop& stop : stops) {
    for (const FaceId face : stop.faces) aside[index(face)] = true;
  }
  int wet = 0, dry = 0;
  for (const auto& faces : farthest_faces(geometry, geometry.face(start).body)) {
    bool any_wet = false, any_dry = false;
    for (const FaceId face : faces) {
      outer[index(face)] = true;
      any_wet = any_wet || flood.wet[index(face)];
      any_dry = any_dry || (!flood.wet[index(face)] && !aside[index(face)]);
    }
    wet += any_wet && !any_dry;
    dry += any_dry && !any_wet;
  }
  if (wet <= 2 * dry) {
    return;
  }
  const auto out = std::find_if(flood.order.begin(), flood.order.end(),
                                [&](FaceId face) { return outer[index(face)]; });
  throw std::invalid_argument(
      "the fluid gets out of the body: " + way_to(*out, start, flood, geometry) +
      "; name the face at which it is to stop on this way (a port's end or "
      "a seal line)");
}

bool contains(const std::vector<FaceId>& faces, FaceId face) {
  return std::find(faces.begin(), faces.end(), face) != faces.end();
}

std::string words(const FloodStop& stop, const Geometry& geometry) {
  const std::size_t count = stop.faces.size();
  return (stop.name.empty() ? "" : "\"" + stop.name + "\", ") +
         (count > 1 ? std::to_string(count) + " faces such as " : "") +
         words(geometry.face(stop.faces.front()));
}

/// A choice such as a plane may hold more faces than the fluid meets; one of them is enough.
void require_stops_met(const Geometry& geometry, FaceId start, const FaceNeighbours& neighbours,
                       const Flood& flood, const std::vector<FloodStop>& stops) {
  const auto met = [&](FaceId face) {
    const auto& near = neighbours.of(face);
    return std::any_of(near.begin(), near.end(),
                       [&](const auto& side) { return flood.wet[index(side.face)]; });
  };
  for (const FloodStop& stop : stops) {
    if (std::any_of(stop.faces.begin(), stop.faces.end(), met)) continue;
    throw std::invalid_argument("the fluid never meets the stop " + words(stop, geometry) +
                                ", starting from " + words(geometry.face(start)) +
                                "; name a dry face that borders the cavity, or leave it out");
  }
}

/// A stop met in one loop gives it its name; in several, a number too.
void name_openings(std::vector<Opening>& openings, const std::vector<FloodStop>& stops) {
  for (std::size_t i = 0; i < openings.size(); ++i) {
    const auto stop = std::find_if(stops.begin(), stops.end(), [&](const FloodStop& s) {
      return contains(s.faces, openings[i].beyond) && !s.name.empty();
    });
    openings[i].name = stop == stops.end() ? "opening " + std::to_string(i + 1) : stop->name;
  }
  std::vector<std::string> names;
  for (const Opening& opening : openings) {
    names.push_back(opening.name);
  }
  for (std::size_t i = 0; i < openings.size(); ++i) {
    if (std::count(names.begin(), names.end(), names[i]) > 1) {
      const auto before =
          std::count(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(i) + 1, names[i]);
      openings[i].name += " " + std::to_string(before);
    }
  }
}

double area_of(const Geometry& geometry, const std::vector<FaceId>& faces) {
  double area = 0.0;
  for (const FaceId face : faces) {
    area += geometry.face(face).area;
  }
  return area;
}

}  // namespace

FaceId face_seen_from(const Geometry& geometry, const Eigen::Vector3d& point) {
  const SurfaceRays rays(geometry);
  if (const auto body = rays.body_around(point)) {
    throw std::invalid_argument("the point " + words(point) + " mm lies in the material of body " +
                                words(geometry.body(*body)) + "; give a point in the fluid");
  }
  std::optional<RayHit> nearest;
  for (const Eigen::Vector3d& direction : even_directions(500)) {
    // The nearest of many: a ray that slips between two triangles sees something farther.
    const auto hit = rays.first_hit(point, direction);
    if (hit && hit->from_outside && (!nearest || hit->distance < nearest->distance)) {
      nearest = hit;
    }
  }
  if (!nearest) {
    throw std::invalid_argument(
        "the point " + words(point) +
        " mm sees no face; give a point in the cavity (the part reaches from " +
        words(geometry.box.low) + " to " + words(geometry.box.high) + " mm)");
  }
  return nearest->face;
}

WettedSurface flood(const Geometry& geometry, FaceId start, const std::vector<FloodStop>& stops) {
  for (const FloodStop& stop : stops) {
    if (contains(stop.faces, start)) {
      throw std::invalid_argument("the stop " + words({stop.name, {start}}, geometry) +
                                  " is the face the fluid starts from; name a dry face instead");
    }
  }
  const FaceNeighbours neighbours(geometry);
  const Flood reached = spread(geometry, neighbours, start, stops);
  require_inside(geometry, start, reached, stops);
  require_stops_met(geometry, start, neighbours, reached, stops);

  WettedSurface wetted;
  wetted.faces = reached.order;
  std::sort(wetted.faces.begin(), wetted.faces.end());
  wetted.openings = openings_of(geometry, neighbours, reached.wet);
  name_openings(wetted.openings, stops);
  wetted.area = area_of(geometry, wetted.faces);
  wetted.volume = enclosed_volume(geometry, wetted.faces, wetted.openings);
  return wetted;
}

std::vector<WettedSurface> closed_cavities(const Geometry& geometry) {
  std::vector<WettedSurface> cavities;
  for (const Body& body : geometry.bodies) {
    for (std::size_t i = 1; body.modelled && i < body.shells.size(); ++i) {
      WettedSurface cavity{body.shells[i],
                           {},
                           area_of(geometry, body.shells[i]),
                           enclosed_volume(geometry, body.shells[i], {})};
      if (cavity.volume > 0.0) {
        cavities.push_back(std::move(cavity));
      }
    }
  }
  return cavities;
}

}  // namespace crossgrain
