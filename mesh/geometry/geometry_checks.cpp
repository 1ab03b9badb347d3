// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/geometry_checks.h"

#include <algorithm>
#include <stdexcept>

#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

bool is_modelled(const Geometry& geometry, const CadFace& face) {
  return geometry.body(face.body).modelled;
}

/// Faces thinner and edges shorter than this trouble the mesher and mean nothing to a printer.
double smallest_detail(const Geometry& geometry) {
  return std::min(0.01, 1e-3 * geometry.box.diagonal());  // [mm]; common practice, no source
}

double perimeter(const Geometry& geometry, const CadFace& face) {
  double sum = 0.0;
  for (const auto& loop : face.loops) {
    for (const LoopEdge& side : loop) {
      sum += geometry.edge(side.edge).length;
    }
  }
  return sum;
}

void warn_of_slivers(const Geometry& geometry, std::vector<std::string>& warnings) {
  std::vector<FaceId> slivers;
  for (const CadFace& face : geometry.faces) {
    // Exact for a long strip.
    const double length = 0.5 * perimeter(geometry, face);
    const double width = face.area / length;
    if (is_modelled(geometry, face) && width < smallest_detail(geometry) && length > 20.0 * width) {
      slivers.push_back(face.id);
    }
  }
  if (!slivers.empty()) {
    warnings.push_back(words(slivers) + (slivers.size() == 1 ? " a sliver" : " slivers") +
                       ", thinner than " + words(smallest_detail(geometry)) +
                       " mm; meshing may fail there: remove in CAD");
  }
}

void warn_of_tiny_edges(const Geometry& geometry, std::vector<std::string>& warnings) {
  const auto tiny = [&](const CadEdge& edge) {
    return !edge.degenerate && !edge.faces.empty() &&
           is_modelled(geometry, geometry.face(edge.faces.front())) &&
           edge.length < smallest_detail(geometry);
  };
  const auto count = std::count_if(geometry.edges.begin(), geometry.edges.end(), tiny);
  if (count > 0) {
    const auto first = std::find_if(geometry.edges.begin(), geometry.edges.end(), tiny);
    warnings.push_back(std::to_string(count) + (count == 1 ? " edge is" : " edges are") +
                       " shorter than " + words(smallest_detail(geometry)) + " mm, the first at " +
                       words(first->middle) + " mm; meshing may fail there: remove in CAD");
  }
}

void warn_of_size(const Geometry& geometry, std::vector<std::string>& warnings) {
  const Eigen::Vector3d sides = geometry.box.high - geometry.box.low;
  const double longest = sides.maxCoeff();
  const bool small = longest<10.0, large = longest> 2000.0;
  if (!small && !large) {
    return;
  }
  warnings.push_back("the part is " + words(sides.x()) + " x " + words(sides.y()) + " x " +
                     words(sides.z()) + " mm over all, implausibly " + (small ? "small" : "large") +
                     "; if the file's unit is wrong, set scale = " +
                     (small ? "25.4 (drawn in inches), 10 (in centimetres) or 1000 (in metres)"
                            : "0.03937 (1/25.4: inches counted twice), 0.1 or 0.001"));
}

}  // namespace

void require_closed_bodies(const Geometry& geometry) {
  std::vector<std::vector<const CadEdge*>> open(geometry.bodies.size());
  for (const CadEdge& edge : geometry.edges) {
    if (!edge.degenerate && edge.faces.size() == 1) {
      open[index(geometry.face(edge.faces.front()).body)].push_back(&edge);
    }
  }
  for (const Body& body : geometry.bodies) {
    const auto& edges = open[index(body.id)];
    if (body.modelled && !edges.empty()) {
      const CadEdge& edge = *edges.front();
      throw std::invalid_argument(geometry.path_of(body) + ": body " + words(body) +
                                  " is open: " + std::to_string(edges.size()) +
                                  (edges.size() == 1 ? " edge has" : " edges have") +
                                  " a face on one side only, the first at " + words(edge.middle) +
                                  " mm on " + words(geometry.face(edge.faces.front())) +
                                  "; close the gap in CAD and export the part as a solid");
    }
  }
}

std::vector<std::string> geometry_warnings(const Geometry& geometry) {
  std::vector<std::string> warnings;
  for (const ReadFile& file : geometry.files) {
    if (file.declared_unit.empty()) {
      warnings.push_back("the file " + (geometry.files.size() > 1 ? file.path + " " : "") +
                         "declares no unit of length; millimetres are assumed");
    }
  }
  warn_of_size(geometry, warnings);
  warn_of_slivers(geometry, warnings);
  warn_of_tiny_edges(geometry, warnings);
  return warnings;
}

}  // namespace crossgrain
