// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/geometry_text.h"

#include <fmt/format.h>

#include <cmath>

namespace crossgrain {
namespace {

std::string xyz(const Eigen::Vector3d& v) {
  // Adding zero turns -0 into 0.
  const auto tidy = [](double x) { return std::round(x * 1000.0) / 1000.0 + 0.0; };
  return fmt::format("({:.6g}, {:.6g}, {:.6g})", tidy(v.x()), tidy(v.y()), tidy(v.z()));
}

std::string box_size(const Box& box) {
  const Eigen::Vector3d size = box.high - box.low;
  return fmt::format("{:.4g} x {:.4g} x {:.4g}", size.x(), size.y(), size.z());
}

/// "+z" for a coordinate axis, else its components.
std::string axis_words(const Eigen::Vector3d& axis) {
  if (axis.norm() == 0.0) return "";
  for (int i = 0; i < 3; ++i) {
    if (std::abs(std::abs(axis[i]) - 1.0) < 1e-9) {
      return fmt::format("{}{}", axis[i] > 0 ? '+' : '-', "xyz"[i]);
    }
  }
  return fmt::format("[{:.4f}, {:.4f}, {:.4f}]", axis.x(), axis.y(), axis.z());
}

std::string colour_words(const std::optional<std::array<double, 3>>& colour) {
  if (!colour) return "-";
  const auto byte = [](double x) { return static_cast<int>(std::lround(255.0 * x)); };
  return fmt::format("#{:02x}{:02x}{:02x}", byte((*colour)[0]), byte((*colour)[1]),
                     byte((*colour)[2]));
}

std::string size_words(const CadFace& face) {
  switch (face.kind) {
    case SurfaceKind::cylinder:
      return fmt::format("d {:.4g}{}", 2.0 * face.radius, face.hollow ? " hollow" : "");
    case SurfaceKind::sphere:
      return fmt::format("d {:.4g}{}", 2.0 * face.radius, face.hollow ? " hollow" : "");
    case SurfaceKind::cone:
      return fmt::format("half angle {:.3g} deg{}", face.half_angle * 180.0 / M_PI,
                         face.hollow ? " hollow" : "");
    case SurfaceKind::torus:
      return fmt::format("ring d {:.4g}, tube d {:.4g}", 2.0 * face.radius,
                         2.0 * face.minor_radius);
    case SurfaceKind::plane:
    case SurfaceKind::freeform:
      break;
  }
  return "";
}

void list_bodies(const Inspection& inspection, std::string& out) {
  out += "\nBodies\n  id  volume mm3   area mm2     size mm                  name\n";
  for (const Body& body : inspection.geometry.bodies) {
    out += fmt::format("{:>4}  {:<11.6g}  {:<11.6g}  {:<23}  {}\n", number(body.id), body.volume,
                       body.area, box_size(body.box), body.name);
  }
}

void list_faces(const Inspection& inspection, std::string& out) {
  out +=
      "\nFaces\n  id  body  kind      area mm2   at mm                          axis      size"
      "                     colour   name\n";
  for (const CadFace& face : inspection.geometry.faces) {
    out += fmt::format("{:>4}  {:>4}  {:<8}  {:<9.5g}  {:<29}  {:<8}  {:<23}  {:<7}  {}\n",
                       number(face.id), number(face.body), name_of(face.kind), face.area,
                       xyz(face.centroid), axis_words(face.axis), size_words(face),
                       colour_words(face.colour), face.name);
  }
}

std::string seat_words(const Hole& hole) {
  std::string words;
  if (hole.counterbore_diameter) {
    words += fmt::format(", counterbore {:.4g} x {:.4g} deep", *hole.counterbore_diameter,
                         hole.counterbore_depth);
  }
  if (hole.seat) words += fmt::format(", seat on face {}", number(hole.seat->face));
  return words;
}

void list_holes(const Inspection& inspection, std::string& out) {
  if (inspection.features.holes.empty()) return;
  out += "\nHoles\n  id  body  diameter mm  depth mm  kind     axis      mouth mm\n";
  for (const Hole& hole : inspection.features.holes) {
    out += fmt::format("{:>4}  {:>4}  {:<11.4g}  {:<8.4g}  {:<7}  {:<8}  {}{}\n", hole.id,
                       number(hole.body), hole.diameter, hole.depth,
                       hole.through ? "through" : "blind", axis_words(hole.axis), xyz(hole.mouth),
                       seat_words(hole));
  }
  for (const HolePattern& pattern : inspection.features.patterns) {
    out += fmt::format("      {} holes of {:.4g} mm ", pattern.holes.size(), pattern.diameter);
    out += pattern.ring ? fmt::format("on a ring of {:.5g} mm about {} at {}, {:.4g} mm apart\n",
                                      pattern.ring_diameter, axis_words(pattern.axis),
                                      xyz(pattern.centre), pattern.pitch)
                        : fmt::format("in a row, {:.4g} mm apart\n", pattern.pitch);
  }
}

void list_cavities(const Inspection& inspection, std::string& out) {
  for (const WettedSurface& cavity : inspection.cavities) {
    out += fmt::format("\nClosed cavity: volume {:.6g} mm3, area {:.6g} mm2, faces", cavity.volume,
                       cavity.area);
    for (const FaceId face : cavity.faces) out += fmt::format(" {}", number(face));
    out += '\n';
  }
}

}  // namespace

std::string_view name_of(SurfaceKind kind) {
  switch (kind) {
    case SurfaceKind::plane:
      return "plane";
    case SurfaceKind::cylinder:
      return "cylinder";
    case SurfaceKind::cone:
      return "cone";
    case SurfaceKind::sphere:
      return "sphere";
    case SurfaceKind::torus:
      return "torus";
    case SurfaceKind::freeform:
      break;
  }
  return "freeform";
}

std::string geometry_text(const Inspection& inspection) {
  const Geometry& geometry = inspection.geometry;
  std::string out =
      fmt::format("{}: drawn in {}, {} mm over all, {} bod{}, {} faces\n", geometry.file,
                  geometry.declared_unit, box_size(geometry.box), geometry.bodies.size(),
                  geometry.bodies.size() == 1 ? "y" : "ies", geometry.faces.size());
  if (geometry.scale != 1.0) out += fmt::format("All lengths multiplied by {:g}\n", geometry.scale);
  for (const std::string& warning : geometry.warnings) out += "Warning: " + warning + '\n';
  list_bodies(inspection, out);
  list_faces(inspection, out);
  list_holes(inspection, out);
  list_cavities(inspection, out);
  return out;
}

}  // namespace crossgrain
