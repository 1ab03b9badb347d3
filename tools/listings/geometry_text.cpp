// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/geometry_text.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "cases/starter/meeting_words.h"
#include "mesh/geometry/geometry_words.h"
#include "tools/listings/table_text.h"
#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

/// So many digits, and no exponent on large numbers: areas and volumes are compared by eye.
std::string figure(double value, int digits) {
  if (std::abs(value) < 1e-9) return "0";  // rounding
  const std::string text = fmt::format("{:.{}g}", value, digits);
  const bool large = std::abs(value) >= 1.0 && text.find('e') != std::string::npos;
  return large ? fmt::format("{:.0f}", value) : text;
}

/// Three numbers in brackets, to so many decimals and without -0.
std::string triple(const Eigen::Vector3d& v, int decimals) {
  const double step = std::pow(10.0, decimals);
  const auto tidy = [&](double x) { return std::round(x * step) / step + 0.0; };
  return fmt::format("({:.8g}, {:.8g}, {:.8g})", tidy(v.x()), tidy(v.y()), tidy(v.z()));
}
std::string xyz(const Eigen::Vector3d& v) { return triple(v, 3); }

std::string box_size(const Box& box) {
  const Eigen::Vector3d size = box.high - box.low;
  return figure(size.x(), 4) + " x " + figure(size.y(), 4) + " x " + figure(size.z(), 4);
}

/// "+z" for a coordinate axis, else its components.
std::string axis_words(const Eigen::Vector3d& axis) {
  if (axis.norm() == 0.0) return "";
  for (int i = 0; i < 3; ++i) {
    if (std::abs(std::abs(axis[i]) - 1.0) < 1e-9) {
      return fmt::format("{}{}", axis[i] > 0 ? '+' : '-', "xyz"[i]);
    }
  }
  return triple(axis, 4);
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

std::string list_files(const std::vector<ReadFile>& files) {
  std::string out;
  for (const ReadFile& file : files) {
    out += plain_text(file.path) + ": " +
           (file.declared_unit.empty() ? "no unit declared" : "drawn in " + file.declared_unit);
    if (file.scale != 1.0) out += fmt::format(", all lengths multiplied by {:g}", file.scale);
    out += '\n';
  }
  return out;
}

std::string list_bodies(const Inspection& inspection) {
  std::vector<std::vector<std::string>> rows;
  for (const Body& body : inspection.geometry.bodies) {
    rows.push_back({fmt::format("{}", number(body.id)), figure(body.volume, 6),
                    figure(body.area, 6), box_size(body.box), plain_text(body.name)});
  }
  return "\nBodies\n" + table_text({">id", "volume mm3", "area mm2", "size mm", "name"}, rows);
}

std::string list_faces(const Inspection& inspection) {
  std::vector<std::vector<std::string>> rows;
  for (const CadFace& face : inspection.geometry.faces) {
    rows.push_back({fmt::format("{}", number(face.id)), fmt::format("{}", number(face.body)),
                    words(face.kind), figure(face.area, 5), xyz(face.centroid),
                    axis_words(face.axis), size_words(face), colour_words(face.colour),
                    plain_text(face.name)});
  }
  return "\nFaces\n" + table_text({">id", ">body", "kind", "area mm2", "at mm", "axis", "size mm",
                                   "colour", "name"},
                                  rows);
}

std::string apart_words(double apart) {
  const std::string distance = fmt::format("{:.2f}", std::abs(apart));
  if (distance == "0.00") return "touch";
  return distance + (apart > 0.0 ? " apart" : " in each other");
}

/// What a case file may say of the pairs. Names in capitals are the case's own.
std::string written_meetings(const Inspection& inspection) {
  const Geometry& geometry = inspection.geometry;
  std::string text = "\nTo join them, for the case file\n";
  std::map<std::string, int> uses;
  for (const TouchingFaces& pair : inspection.touching) {
    std::string name = named_after_bodies(geometry, pair);
    if (const int use = ++uses[name]; use > 1) name += fmt::format(" {}", use);
    text += fmt::format("# face {} on face {}\n", number(pair.first), number(pair.second)) +
            (leaves_room(pair) ? written_gasket(geometry, pair, name, "YOUR BOLTS", "YOUR PRESSURE")
                               : written_contact(geometry, pair, name, "unilateral")) +
            "\n";
  }
  text.pop_back();
  return text;
}

std::string list_touching(const Inspection& inspection) {
  if (inspection.touching.empty()) return "";
  const auto body_of = [&](FaceId face) {
    return fmt::format("{}", number(inspection.geometry.face(face).body));
  };
  std::vector<std::vector<std::string>> rows;
  for (const TouchingFaces& pair : inspection.touching) {
    rows.push_back({fmt::format("{}", number(pair.first)), body_of(pair.first),
                    fmt::format("{}", number(pair.second)), body_of(pair.second),
                    figure(pair.area, 3), apart_words(pair.apart)});
  }
  return "\nFaces of different bodies that lie opposite each other\n" +
         table_text({">face", ">of body", ">and face", ">of body", "area mm2", "mm"}, rows) +
         written_meetings(inspection);
}

std::string seat_words(const Hole& hole) {
  std::string words;
  if (hole.counterbore_diameter) {
    words += fmt::format("counterbore {:.4g} x {:.4g} deep, ", *hole.counterbore_diameter,
                         hole.counterbore_depth);
  }
  if (hole.seat) words += fmt::format("on face {}", number(hole.seat->face));
  return words;
}

std::string pattern_words(const HolePattern& pattern) {
  std::string ids;
  for (const int id : pattern.holes) ids += (ids.empty() ? "" : ", ") + std::to_string(id);
  const std::string start = fmt::format("  Holes {}: {:.4g} mm ", ids, pattern.diameter);
  return pattern.ring
             ? start + fmt::format("on a ring of {:.5g} mm about {} at {}, {:.4g} mm apart\n",
                                   pattern.ring_diameter, axis_words(pattern.axis),
                                   xyz(pattern.centre), pattern.pitch)
             : start + fmt::format("in a row, {:.4g} mm apart\n", pattern.pitch);
}

std::string list_holes(const Inspection& inspection) {
  if (inspection.features.holes.empty()) return "";
  std::vector<std::vector<std::string>> rows;
  for (const Hole& hole : inspection.features.holes) {
    rows.push_back({std::to_string(hole.id), fmt::format("{}", number(hole.body)),
                    fmt::format("{:.4g}", hole.diameter), fmt::format("{:.4g}", hole.depth),
                    hole.through ? "through" : "blind", axis_words(hole.axis), xyz(hole.mouth),
                    seat_words(hole)});
  }
  std::string out = "\nHoles\n" + table_text({">id", ">body", "diameter mm", "depth mm", "kind",
                                              "axis", "mouth mm", "seat"},
                                             rows);
  for (const HolePattern& pattern : inspection.features.patterns) out += pattern_words(pattern);
  return out;
}

std::string surface_words(const WettedSurface& surface) {
  std::string out = "volume " + figure(surface.volume, 6) + " mm3, area " +
                    figure(surface.area, 6) + " mm2, faces";
  for (const FaceId face : surface.faces) out += fmt::format(" {}", number(face));
  return out + '\n';
}

std::string list_cavities(const Inspection& inspection) {
  std::string out;
  for (const WettedSurface& cavity : inspection.cavities) {
    out += "\nClosed cavity: " + surface_words(cavity);
  }
  if (!inspection.wetted) return out;
  out += "\nThe fluid wets: " + surface_words(*inspection.wetted);
  for (const Opening& opening : inspection.wetted->openings) {
    out += "  opening at " + xyz(opening.centre) + " mm, " + figure(opening.vector_area.norm(), 5) +
           " mm2 (" + opening.name + ")\n";
  }
  return out;
}

std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace

std::string geometry_text(const Inspection& inspection) {
  const Geometry& geometry = inspection.geometry;
  std::string out = list_files(geometry.files) + box_size(geometry.box) + " mm over all, " +
                    counted(geometry.bodies.size(), "body", "bodies") + ", " +
                    counted(geometry.faces.size(), "face", "faces") + '\n';
  for (const std::string& warning : geometry.warnings) {
    out += "Warning: " + plain_text(warning) + '\n';
  }
  return out + list_bodies(inspection) + list_faces(inspection) + list_touching(inspection) +
         list_holes(inspection) + list_cavities(inspection);
}

}  // namespace crossgrain
