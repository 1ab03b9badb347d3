// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/face_choice.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "cases/face_choice/face_inventory.h"
#include "materials/units/nearest_name.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// A drawing's figure is good to a hundredth; parts are not made or drawn closer than that.
constexpr double position_tolerance = 0.02;       // mm
constexpr double diameter_tolerance = 0.01;       // share
constexpr double cosine_of_a_tenth = 0.99999848;  // 0.1 degrees: less than any draft angle
constexpr double colour_tolerance = 1.5 / 255.0;

[[noreturn]] void refuse(const FaceChoice& choice, const std::string& what) {
  throw std::invalid_argument(choice.place.file + ":" + std::to_string(choice.place.line) + ": " +
                              choice.text + ": " + what);
}

bool has_name(const Body& body, const std::string& name) {
  return body.name == name || std::to_string(number(body.id)) == name;
}

/// The geometry with only the bodies of the choice modelled.
Geometry narrowed(const Geometry& geometry, const FaceChoice& choice) {
  Geometry result = geometry;
  bool found = false;
  for (Body& body : result.bodies) {
    body.modelled = body.modelled && has_name(body, *choice.body);
    found = found || body.modelled;
  }
  if (!found) {
    refuse(choice,
           "no body has the name '" + *choice.body + "'; there are " + bodies_present(geometry));
  }
  return result;
}

bool contains(const std::vector<FaceId>& faces, FaceId face) {
  return std::find(faces.begin(), faces.end(), face) != faces.end();
}

bool modelled(const Geometry& geometry, const CadFace& face) {
  return geometry.body(face.body).modelled;
}

/// The faces of modelled bodies for which `fits` holds, in id order.
template <typename Fits>
std::vector<FaceId> faces_where(const Geometry& geometry, Fits fits) {
  std::vector<FaceId> faces;
  for (const CadFace& face : geometry.faces) {
    if (modelled(geometry, face) && fits(face)) faces.push_back(face.id);
  }
  return faces;
}

bool fits(const Hole& hole, const FaceChoice::HoleChoice& wanted) {
  return std::abs(hole.diameter - wanted.diameter) <= diameter_tolerance * wanted.diameter &&
         (!wanted.axis || std::abs(hole.axis.dot(*wanted.axis)) >= cosine_of_a_tenth);
}

void append_part(const Hole& hole, const FaceChoice& choice, std::vector<FaceId>& faces) {
  using Part = FaceChoice::HoleChoice::Part;
  switch (choice.hole->part) {
    case Part::wall:
      faces.insert(faces.end(), hole.wall.begin(), hole.wall.end());
      return;
    case Part::floor:
      if (!hole.floor) {
        refuse(choice, words_for(hole) + " goes through and has no floor; choose its wall");
      }
      faces.push_back(*hole.floor);
      return;
    case Part::seat:
      if (!hole.seat) {
        refuse(choice, words_for(hole) +
                           " has no flat seat round its mouth; choose the face under the head in "
                           "another way");
      }
      faces.push_back(hole.seat->face);
      return;
  }
}

ChosenFaces choose_holes(const Geometry& geometry, const Features& features,
                         const FaceChoice& choice) {
  ChosenFaces chosen;
  for (const Hole& hole : features.holes) {
    if (!geometry.body(hole.body).modelled || !fits(hole, *choice.hole)) continue;
    chosen.holes.push_back(hole);
    append_part(hole, choice, chosen.faces);
  }
  if (chosen.holes.empty()) {
    refuse(choice, "no such hole; there are " + holes_present(geometry, features) +
                       "; correct the diameter or the axis");
  }
  return chosen;
}

std::vector<FaceId> choose_planes(const Geometry& geometry, const FaceChoice& choice) {
  const FaceChoice::PlaneChoice& plane = *choice.plane;
  const auto looks_there = [&](const CadFace& face) {
    return face.kind == SurfaceKind::plane && face.axis.dot(plane.normal) >= cosine_of_a_tenth;
  };
  const auto faces = faces_where(geometry, [&](const CadFace& face) {
    return looks_there(face) &&
           std::abs(face.centroid.dot(plane.normal) - plane.at) <= position_tolerance;
  });
  if (!faces.empty()) return faces;
  const auto others = faces_where(geometry, looks_there);
  refuse(choice, "no flat face there; " +
                     (others.empty() ? "none looks that way; " + planes_present(geometry)
                                     : "those that look that way are at " +
                                           positions_along(geometry, others, plane.normal)));
}

std::vector<FaceId> choose_by_name(const Geometry& geometry, const FaceChoice& choice) {
  const std::string& name = *choice.name;
  auto faces = faces_where(geometry, [&](const CadFace& face) { return face.name == name; });
  if (!faces.empty()) return faces;
  faces = faces_where(geometry,
                      [&](const CadFace& face) { return geometry.body(face.body).name == name; });
  if (!faces.empty()) return faces;
  std::vector<std::string> known;
  for (const CadFace& face : geometry.faces) {
    if (modelled(geometry, face) && !face.name.empty()) known.push_back(face.name);
  }
  const auto nearest = nearest_name(name, known);
  refuse(choice, "no face or body has this name; " +
                     (nearest ? "did you mean '" + *nearest + "'?"
                              : names_present(geometry) + "; choose in another way"));
}

std::vector<FaceId> choose_by_colour(const Geometry& geometry, const FaceChoice& choice) {
  const auto faces = faces_where(geometry, [&](const CadFace& face) {
    // A face without a colour of its own shows its body's.
    const auto& colour = face.colour ? face.colour : geometry.body(face.body).colour;
    if (!colour) return false;
    for (int i = 0; i < 3; ++i) {
      if (!(std::abs((*colour)[i] - (*choice.colour)[i]) <= colour_tolerance)) return false;
    }
    return true;
  });
  if (faces.empty()) {
    refuse(choice, "no face has this colour; " + colours_present(geometry));
  }
  return faces;
}

std::vector<FaceId> choose_by_id(const Geometry& geometry, const FaceChoice& choice) {
  std::vector<FaceId> faces;
  for (const int id : choice.ids) {
    if (id < 1 || id > static_cast<int>(geometry.faces.size())) {
      refuse(choice, "there is no face " + std::to_string(id) + "; the part has faces 1 to " +
                         std::to_string(geometry.faces.size()) +
                         ", `crossgrain inspect` lists them");
    }
    const CadFace& face = geometry.face(FaceId{id});
    if (!modelled(geometry, face)) {
      refuse(choice, "face " + std::to_string(id) + " belongs to body " +
                         words(geometry.body(face.body)) +
                         ", which this choice or this case leaves out; choose a face of " +
                         bodies_present(geometry));
    }
    faces.push_back(face.id);
  }
  return faces;
}

/// Where the flood begins: every face of it must turn out wet.
std::vector<FaceId> first_wetted(const Geometry& geometry, const Features& features,
                                 const FaceChoice::WettedChoice& wetted) {
  if (wetted.point) return {face_seen_from(geometry, *wetted.point)};
  return choose_faces(geometry, features, *wetted.through).faces;
}

std::vector<FloodStop> flood_stops(const Geometry& geometry, const Features& features,
                                   const FaceChoice::WettedChoice& wetted) {
  std::vector<FloodStop> stops;
  for (std::size_t i = 0; i < wetted.stops.size(); ++i) {
    stops.push_back(
        {wetted.stop_names[i], choose_faces(geometry, features, wetted.stops[i]).faces});
  }
  return stops;
}

WettedSurface choose_wetted(const Geometry& geometry, const Features& features,
                            const FaceChoice& choice) {
  const std::vector<FloodStop> stops = flood_stops(geometry, features, *choice.wetted);
  try {
    const std::vector<FaceId> first = first_wetted(geometry, features, *choice.wetted);
    WettedSurface surface = flood(geometry, first.front(), stops);
    for (const FaceId face : first) {
      if (contains(surface.faces, face)) continue;
      refuse(choice, "wetted_through chose faces of more than one cavity, such as " +
                         words(geometry.face(face)) + "; choose one port, or list two choices");
    }
    return surface;
  } catch (const std::invalid_argument& error) {
    // Messages of inner choices name their own place already.
    if (std::string_view(error.what()).starts_with(choice.place.file + ":")) throw;
    refuse(choice, error.what());
  }
}

std::vector<FaceId> choose_outside(const Geometry& geometry, const Features& features,
                                   const FaceChoice& choice) {
  std::vector<FaceId> faces;
  for (const Body& body : geometry.bodies) {
    if (!body.modelled || body.shells.empty()) continue;
    faces.insert(faces.end(), body.shells.front().begin(), body.shells.front().end());
  }
  if (choice.except) {
    const auto except = choose_faces(geometry, features, *choice.except).faces;
    std::erase_if(faces, [&](FaceId face) { return contains(except, face); });
  }
  if (faces.empty()) refuse(choice, "nothing is left of the outside; except fewer faces");
  std::sort(faces.begin(), faces.end());
  return faces;
}

/// Add a cavity to those found before.
void join(const FaceChoice& choice, const WettedSurface& more, std::optional<WettedSurface>& all) {
  if (!all) all = WettedSurface{{}, {}, 0.0, 0.0};
  for (const FaceId face : more.faces) {
    if (contains(all->faces, face)) {
      refuse(choice, "two of the choices find the same cavity; leave one out");
    }
  }
  all->faces.insert(all->faces.end(), more.faces.begin(), more.faces.end());
  all->openings.insert(all->openings.end(), more.openings.begin(), more.openings.end());
  all->area += more.area;
  all->volume += more.volume;
}

/// All faces of a list of choices, each once.
ChosenFaces choose_any(const Geometry& geometry, const Features& features,
                       const FaceChoice& choice) {
  ChosenFaces all;
  for (const FaceChoice& one : choice.any_of) {
    const ChosenFaces chosen = choose_faces(geometry, features, one);
    for (const FaceId face : chosen.faces) {
      if (!contains(all.faces, face)) all.faces.push_back(face);
    }
    for (const Hole& hole : chosen.holes) {
      const bool there = std::any_of(all.holes.begin(), all.holes.end(),
                                     [&](const Hole& other) { return other.id == hole.id; });
      if (!there) all.holes.push_back(hole);
    }
    if (chosen.wetted) join(choice, *chosen.wetted, all.wetted);
  }
  std::sort(all.holes.begin(), all.holes.end(),
            [](const Hole& a, const Hole& b) { return a.id < b.id; });
  return all;
}

ChosenFaces resolve(const Geometry& geometry, const Features& features, const FaceChoice& choice) {
  if (!choice.any_of.empty()) return choose_any(geometry, features, choice);
  if (choice.hole) return choose_holes(geometry, features, choice);
  ChosenFaces chosen;
  if (choice.wetted) {
    chosen.wetted = choose_wetted(geometry, features, choice);
    chosen.faces = chosen.wetted->faces;
  } else if (choice.plane) {
    chosen.faces = choose_planes(geometry, choice);
  } else if (choice.name) {
    chosen.faces = choose_by_name(geometry, choice);
  } else if (choice.colour) {
    chosen.faces = choose_by_colour(geometry, choice);
  } else if (choice.everything_outside) {
    chosen.faces = choose_outside(geometry, features, choice);
  } else {
    chosen.faces = choose_by_id(geometry, choice);
  }
  return chosen;
}

void check_count(const Geometry& geometry, const FaceChoice& choice, const ChosenFaces& chosen) {
  const std::size_t found = choice.hole ? chosen.holes.size() : chosen.faces.size();
  if (!choice.count || found == static_cast<std::size_t>(*choice.count)) return;
  refuse(choice, "found " + std::to_string(found) + ", not " + std::to_string(*choice.count) +
                     ": " + (choice.hole ? listed(chosen.holes) : listed(geometry, chosen.faces)) +
                     "; correct count, or narrow the choice");
}

}  // namespace

ChosenFaces choose_faces(const Geometry& geometry, const Features& features,
                         const FaceChoice& choice) {
  const ChosenFaces chosen = choice.body ? resolve(narrowed(geometry, choice), features, choice)
                                         : resolve(geometry, features, choice);
  check_count(geometry, choice, chosen);
  return chosen;
}

}  // namespace crossgrain
