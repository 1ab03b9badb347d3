// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/face_inventory.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <set>

#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

/// More than this many of anything is no help to a reader.
constexpr std::size_t most = 12;

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < std::min(most, parts.size()); ++i) {
    text += (i ? ", " : "") + parts[i];
  }
  if (parts.size() > most) text += " and " + std::to_string(parts.size() - most) + " more";
  return text;
}

/// Positions that agree to a hundredth of a millimetre are one.
double rounded(double position) { return std::round(position * 100.0) / 100.0 + 0.0; }

}  // namespace

std::string bodies_present(const Geometry& geometry) {
  std::vector<std::string> parts;
  for (const Body& body : geometry.bodies) {
    if (body.modelled) parts.push_back(words(body));
  }
  return joined(parts);
}

std::string words_for_axis(const Eigen::Vector3d& v) {
  for (int i = 0; i < 3; ++i) {
    if (std::abs(v[i]) > 0.999999) return std::string(1, static_cast<char>('x' + i));
  }
  return words(v);
}

std::string holes_present(const Geometry& geometry, const Features& features) {
  std::vector<std::pair<std::string, int>> kinds;
  for (const Hole& hole : features.holes) {
    if (!geometry.body(hole.body).modelled) continue;
    const std::string kind = words(hole.diameter) + " mm along " + words_for_axis(hole.axis);
    const auto it = std::find_if(kinds.begin(), kinds.end(),
                                 [&](const auto& other) { return other.first == kind; });
    if (it == kinds.end()) {
      kinds.emplace_back(kind, 1);
    } else {
      ++it->second;
    }
  }
  std::vector<std::string> parts;
  for (const auto& [kind, count] : kinds) parts.push_back(std::to_string(count) + " of " + kind);
  return parts.empty() ? "no holes at all" : joined(parts);
}

std::string positions_along(const Geometry& geometry, const std::vector<FaceId>& planes,
                            const Eigen::Vector3d& normal) {
  std::set<double> positions;
  for (const FaceId id : planes) positions.insert(rounded(geometry.face(id).centroid.dot(normal)));
  std::vector<std::string> parts;
  for (const double position : positions) parts.push_back(words(position));
  return joined(parts) + " mm";
}

std::string planes_present(const Geometry& geometry) {
  std::string text;
  for (int i = 0; i < 6; ++i) {
    const Eigen::Vector3d normal = (i % 2 ? -1.0 : 1.0) * Eigen::Vector3d::Unit(i / 2);
    std::vector<FaceId> planes;
    for (const CadFace& face : geometry.faces) {
      const bool there = geometry.body(face.body).modelled && face.kind == SurfaceKind::plane &&
                         face.axis.dot(normal) > 0.999999;
      if (there) planes.push_back(face.id);
    }
    if (planes.empty()) continue;
    text += (text.empty() ? "flat faces look to " : "; ") + std::string(i % 2 ? "-" : "+") +
            static_cast<char>('x' + i / 2) + " at " + positions_along(geometry, planes, normal);
  }
  return text.empty() ? "no flat face looks along an axis" : text;
}

std::string names_present(const Geometry& geometry) {
  std::vector<std::string> parts;
  std::set<std::string> seen;
  for (const CadFace& face : geometry.faces) {
    if (!geometry.body(face.body).modelled || face.name.empty()) continue;
    if (seen.insert(face.name).second) parts.push_back("'" + face.name + "'");
  }
  return parts.empty() ? "the STEP file names no face" : "there are " + joined(parts);
}

std::string hexadecimal(const std::array<double, 3>& colour) {
  char text[8];
  const auto level = [&](int i) {
    return static_cast<unsigned>(std::lround(255.0 * std::clamp(colour[i], 0.0, 1.0)));
  };
  std::snprintf(text, sizeof text, "#%02x%02x%02x", level(0), level(1), level(2));
  return text;
}

std::string colours_present(const Geometry& geometry) {
  std::map<std::string, int> counts;
  for (const CadFace& face : geometry.faces) {
    const Body& body = geometry.body(face.body);
    const auto& colour = face.colour ? face.colour : body.colour;
    if (body.modelled && colour) ++counts[hexadecimal(*colour)];
  }
  std::vector<std::string> parts;
  for (const auto& [colour, count] : counts) {
    parts.push_back(colour + " (" + std::to_string(count) + (count == 1 ? " face)" : " faces)"));
  }
  return parts.empty() ? "the STEP file colours no face" : "there are " + joined(parts);
}

std::string words_for(const Hole& hole) {
  return "hole " + std::to_string(hole.id) + " at " + words(hole.mouth) + " mm";
}

std::string listed(const std::vector<Hole>& holes) {
  std::vector<std::string> parts;
  for (const Hole& hole : holes) parts.push_back(words_for(hole));
  return joined(parts);
}

std::string listed(const Geometry& geometry, const std::vector<FaceId>& faces) {
  std::vector<std::string> parts;
  for (const FaceId face : faces) parts.push_back(words(geometry.face(face)));
  return joined(parts);
}

}  // namespace crossgrain
