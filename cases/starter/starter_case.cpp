// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/starter_case.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>
#include <stdexcept>

#include "cases/starter/joint_guess.h"
#include "cases/starter/meeting_words.h"
#include "cases/starter/starter_guess.h"
#include "cases/starter/starter_words.h"

namespace crossgrain {
namespace {

/// What the sections are written from.
struct Part {
  const Geometry& geometry;
  const Features& features;
  BodyId body;         ///< the one the guesses are about
  bool whole_file;     ///< every body is modelled
  std::string narrow;  ///< keeps choices to that body when there are others
};

Part part_of(const Geometry& geometry, const Features& features) {
  if (geometry.bodies.empty()) {
    throw std::invalid_argument(geometry.files.front().path + ": no solid to write a case for");
  }
  const Body& largest =
      *std::max_element(geometry.bodies.begin(), geometry.bodies.end(),
                        [](const Body& a, const Body& b) { return a.volume < b.volume; });
  const auto namesakes = std::count_if(geometry.bodies.begin(), geometry.bodies.end(),
                                       [&](const Body& body) { return body.name == largest.name; });
  const bool can_be_named = !largest.name.empty() && namesakes == 1;
  const bool several = geometry.bodies.size() > 1;
  const bool whole_file = !several || !can_be_named;
  const std::string narrow =
      several && whole_file ? ", body = \"" + std::to_string(number(largest.id)) + "\"" : "";
  return {geometry, features, largest.id, whole_file, narrow};
}

std::string head(const std::string& step_file) {
  return "# A first case for " + step_file +
         ", with guesses: look for \"check this\".\n"
         "# Every quantity is text with its unit. Lengths and positions are those of the STEP "
         "file.\n"
         "# Faces, holes and bodies: crossgrain inspect " +
         step_file + "\n\n";
}

std::string body_section(const Part& part, const std::string& step_file, const std::string& card,
                         const std::string& why) {
  const Body& body = part.geometry.body(part.body);
  std::ostringstream out;
  out << "[[body]]\nstep_file = " << quoted(step_file) << "\n";
  if (!part.whole_file) {
    out << "name = " << quoted(body.name) << "   # check this: " << why << "\n";
  }
  out << "material = " << quoted(card) << "   # check this; `crossgrain material` lists the cards\n"
      << "print_direction = \"+z\"   # check this: from the plate to the nozzle\n\n";
  return out.str();
}

std::string conditions_section() {
  return "[conditions]   # check this\n"
         "temperature = \"23 degC\"\n"
         "moisture = \"dry\"   # or \"conditioned\"\n"
         "duration = \"8 h\"   # under load at a stretch; plastics lose strength with time\n"
         "cycles = 1\n"
         "medium = \"water\"   # \"air\" or \"gas\" stores far more energy\n\n";
}

/// A point of the bore's axis beside the face, if what is seen from there is wet.
std::string start_of_fluid(const Part& part, const CavityGuess& cavity) {
  const CadFace& first = part.geometry.face(cavity.start);
  if (first.kind == SurfaceKind::cylinder) {
    const Eigen::Vector3d point =
        first.origin + (first.centroid - first.origin).dot(first.axis) * first.axis;
    try {
      const FaceId seen = face_seen_from(part.geometry, point);
      const auto& wet = cavity.wetted.faces;
      if (std::find(wet.begin(), wet.end(), seen) != wet.end()) {
        return "wetted_at = " + written_point(point);
      }
    } catch (const std::invalid_argument&) {
      // Something stands in the bore's axis.
    }
  }
  return "wetted_through = " + written_choice(part.geometry, first, part.narrow);
}

/// Where the fluid stops, as the case file lists it.
struct Stops {
  std::string ports, seal_lines;  ///< lines of { name = ..., faces = ... }
  std::string first;              ///< a name among them; "" if there is none
};

/// @param names  that are taken; gets those of the stops.
Stops stops_of(const Part& part, const CavityGuess& cavity, std::set<std::string>& names) {
  Stops stops;
  std::set<std::string> choices;
  for (const FaceId id : cavity.dry) {
    const CadFace& face = part.geometry.face(id);
    const std::string choice = written_choice(part.geometry, face, part.narrow);
    // Faces in one plane are one choice.
    if (!choices.insert(choice).second) continue;
    std::string name = face.name;
    for (int i = 1; name.empty() || !names.insert(name).second; ++i) {
      name = "port " + std::to_string(i);
    }
    (named_as_seal(face) ? stops.seal_lines : stops.ports) +=
        "  { name = " + quoted(name) + ", faces = " + choice + " },\n";
    if (stops.first.empty()) stops.first = name;
  }
  return stops;
}

/// { wetted_at = ..., ports = [...] }
std::string wetted_choice(const Part& part, const CavityGuess& cavity, const Stops& stops) {
  std::string text = "{ " + start_of_fluid(part, cavity);
  if (!stops.ports.empty()) text += ", ports = [\n" + stops.ports + "]";
  if (!stops.seal_lines.empty()) text += ", seal_lines = [\n" + stops.seal_lines + "]";
  return text + part.narrow + " }";
}

const char* const pressure_head =
    "# check this: the fluid seems to fill the space at this place and to end at these dry faces.\n"
    "[[pressure]]\nname = \"working pressure\"\nvalue = \"1 bar\"   # check this\nfaces = ";

std::string cavity_section(const Part& part, const CavityGuess& cavity) {
  std::set<std::string> names;
  const Stops stops = stops_of(part, cavity, names);
  std::ostringstream out;
  out << pressure_head << wetted_choice(part, cavity, stops) << "\n";
  if (!stops.first.empty()) {
    out << "# The thrust on each of these openings is carried by a plug in the opening itself,\n"
           "# unless told otherwise, such as by: carried_by = { "
        << quoted(stops.first) << " = \"outside\" }\n";
  }
  out << "\n";
  return out.str();
}

/// No cavity: something to start from, a pressure on a flat face against a support.
std::string plain_section(const Part& part) {
  const auto flat = largest_flat_face(part.geometry, part.body);
  const auto& faces = part.geometry.body(part.body).faces;
  const CadFace& loaded = part.geometry.face(flat.value_or(faces.front()));
  return "# check this: no cavity was found; this loads the plane of the largest flat face.\n"
         "[[pressure]]\nname = \"working pressure\"\nvalue = \"1 bar\"   # check this\nfaces = " +
         written_choice(part.geometry, loaded, part.narrow) + "\n\n";
}

std::string support_section(const std::string& why, const std::string& name,
                            const std::string& faces) {
  return "# check this: " + why + "\n[[support]]\nname = " + quoted(name) + "\nfaces = " + faces +
         "\nhold = \"all\"   # or \"normal\": slides on its surface\n\n";
}

std::string screw_holes(const Part& part, const ScrewGuess& screws) {
  const Hole& first = screws.holes.front();
  return written_hole(first.diameter, first.axis, part.narrow) +
         ", count = " + std::to_string(screws.holes.size()) + " }";
}

/// @param head_seat  "" or a line.
std::string bolt_section(const ScrewGuess& screws, const std::string& name,
                         const std::string& holes, const std::string& head_seat) {
  std::ostringstream out;
  out << "# check this: blind holes that may take screws or heat-set inserts.\n"
      << "[[bolt]]\nname = " << quoted(name) << "\nthread = " << holes << "\n"
      << head_seat << "size = \"" << screws.size << "\"   # check this\npreload = \""
      << screws.preload << " N\"   # check this; or: torque = \"0.5 N m\" with friction = 0.2\n\n";
  return out.str();
}

/// Whether every screw comes out of the plane of this face.
bool faces_screws(const CadFace& face, const ScrewGuess& screws) {
  return std::all_of(screws.holes.begin(), screws.holes.end(), [&](const Hole& hole) {
    return face.axis.dot(hole.axis) > 0.999 &&
           std::abs((hole.mouth - face.origin).dot(face.axis)) < 0.1;
  });
}

/// A seal, or else the flat face where the fluid ends, in the plane of the screw holes' mouths.
std::string gasket_section(const Part& part, const ScrewGuess& screws, const std::string& bolts,
                           const std::vector<FaceId>& dry) {
  for (const FaceId id : dry) {
    const CadFace& face = part.geometry.face(id);
    if (!faces_screws(face, screws)) continue;
    return "# check this: a flat gasket that the screws press on the face round the opening.\n"
           "[[gasket]]\nname = \"gasket\"\nfaces = " +
           written_choice_of_one(part.geometry, face, part.narrow) + "\nbolts = " + quoted(bolts) +
           "\npressure = \"working pressure\"\n\n";
  }
  return "";
}

/// Screws: bolts where they have their thread here, supports where they only pass through.
std::string screw_sections(const Part& part, const CavityGuess* cavity, bool& held) {
  std::ostringstream out;
  std::set<std::string> names;
  bool gasket_there = false;
  const std::vector<FaceId> wet = cavity ? cavity->wetted.faces : std::vector<FaceId>();
  for (const ScrewGuess& screws : guess_screws(part.features, part.body, wet)) {
    const std::string holes = screw_holes(part, screws);
    std::string name = screws.size + " screws";
    for (int i = 2; !names.insert(name).second; ++i) {
      name = screws.size + " screws " + std::to_string(i);
    }
    if (!screws.threaded) {
      out << support_section("through holes whose screws may hold the part.", name, holes);
      held = true;
      continue;
    }
    const std::string gasket =
        cavity && !gasket_there ? gasket_section(part, screws, name, cavity->dry) : "";
    if (gasket.empty()) continue;  // screws that press nothing would only pull at the part
    out << bolt_section(screws, name, holes, "") << gasket;
    gasket_there = true;
  }
  return out.str();
}

std::string opposite_support(const Part& part) {
  const auto flat = largest_flat_face(part.geometry, part.body);
  std::optional<FaceId> held;
  for (const FaceId id : part.geometry.body(part.body).faces) {
    const CadFace& face = part.geometry.face(id);
    if (flat && id == *flat) continue;
    if (flat && face.kind == SurfaceKind::plane &&
        face.axis.dot(part.geometry.face(*flat).axis) > -0.999) {
      continue;
    }
    if (!held || face.area > part.geometry.face(*held).area) held = id;
  }
  const FaceId chosen = held.value_or(part.geometry.body(part.body).faces.back());
  return support_section("a face that may be held.", "foot",
                         written_choice(part.geometry, part.geometry.face(chosen), part.narrow));
}

std::string hand_section(const Part& part, const CavityGuess& cavity) {
  const auto tube = guess_tube(part.geometry, part.geometry.face(cavity.start));
  if (!tube)
    return "# Cylinders, domes, flat panels and covers that the part offers, by hand and as "
           "computed.\n[hand_calculation]\nmode = \"auto\"\n\n";
  return "# check this: the simple shape to compare with.\n[hand_calculation]\nshape = "
         "\"thick_cylinder\"\ninner_radius = " +
         quoted_length(tube->inner_radius) + "\nwall = " + quoted_length(tube->wall) +
         "\nlength = " + quoted_length(tube->length) + "\n\n";
}

std::string tail() {
  return "[targets]\n"
         "safety_factor = 3   # common practice, no source; more for gas or people near\n"
         "proof_factor = 1.5\n\n"
         "[directions]   # for `crossgrain directions`\n"
         "named = { \"+z\" = \"+z\", \"-z\" = \"-z\", \"+x\" = \"+x\", \"+y\" = \"+y\" }\n";
}

/// Name after name, the second of a kind with a number.
class UniqueNames {
 public:
  std::string of(const std::string& wish) {
    std::string name = wish;
    for (int i = 2; !taken_.insert(name).second; ++i) name = wish + " " + std::to_string(i);
    return name;
  }

 private:
  std::set<std::string> taken_;
};

/// Bodies that touch or leave room for a gasket.
class JoinedStarter {
 public:
  JoinedStarter(const Geometry& geometry, const Features& features, const JointGuess& guess)
      : geometry_(geometry), guess_(guess) {
    for (const BodyId body : guess.bodies)
      parts_.push_back({geometry, features, body, false, narrowed_to(geometry, body)});
  }

  std::string written(const std::string& step_file, const std::string& card) {
    std::string text = head(step_file);
    for (const Part& part : parts_)
      text += body_section(part, step_file, card, "one of the solids that lie on each other");
    text += conditions_section() + pressure_section();
    text += bolt_sections();
    text += meeting_sections();
    text += std::ranges::any_of(guess_.cavities, &std::optional<CavityGuess>::has_value)
                ? "# No [[support]]: bodies whose loads balance among themselves need none.\n\n"
                : opposite_support(parts_.front());
    return text + "[hand_calculation]\nmode = \"auto\"\n\n" + tail();
  }

 private:
  std::string pressure_section() const {
    std::set<std::string> names;
    std::string choices, dry;
    for (std::size_t b = 0; b < parts_.size(); ++b) {
      const auto& cavity = guess_.cavities[b];
      if (cavity)
        choices +=
            "  " + wetted_choice(parts_[b], *cavity, stops_of(parts_[b], *cavity, names)) + ",\n";
      else
        dry += "# check this: no hollow was found in " +
               quoted(geometry_.body(guess_.bodies[b]).name) +
               "; if the fluid pushes on it, add the face that it touches.\n";
    }
    if (choices.empty()) return plain_section(parts_.front());
    return pressure_head + ("[\n" + choices) + "]\n" + dry + "\n";
  }

  std::string bolt_sections() {
    std::string text;
    for (const JoiningScrews& screws : guess_.screws) {
      const Hole& thread = screws.threads.holes.front();
      const std::string name = names_.of(screws.threads.size + " screws");
      if (presses_.empty()) presses_ = name;
      const std::string holes =
          written_hole(thread.diameter, thread.axis, narrowed_to(geometry_, thread.body)) +
          ", count = " + std::to_string(screws.threads.holes.size()) + " }";
      const CadFace& seat = geometry_.face(screws.head_seat);
      text += bolt_section(
          screws.threads, name, holes,
          "head_seat = " + written_choice(geometry_, seat, narrowed_to(geometry_, seat.body)) +
              "\n");
    }
    return text;
  }

  std::string meeting_sections() {
    std::string text;
    const std::string kind = guess_.screws.empty() ? "tied" : "unilateral";
    for (const TouchingFaces& pair : guess_.contacts)
      text +=
          "# check this: faces that touch; \"tied\" ones are glued, \"unilateral\" ones press and "
          "open.\n" +
          written_contact(geometry_, pair, names_.of(named_after_bodies(geometry_, pair)), kind) +
          "\n";
    for (const TouchingFaces& pair : guess_.gaskets)
      text += "# check this: faces with room for a flat gasket between them.\n" +
              written_gasket(geometry_, pair, names_.of("gasket"), presses_, "working pressure") +
              "\n";
    return text;
  }

  const Geometry& geometry_;
  const JointGuess& guess_;
  std::vector<Part> parts_;
  UniqueNames names_;
  std::string presses_;  ///< the first group of screws
};

}  // namespace

std::string starter_case(const Geometry& geometry, const Features& features,
                         const std::string& step_file, const std::string& card) {
  if (const auto joint = guess_joint(geometry, features))
    return JoinedStarter(geometry, features, *joint).written(step_file, card);
  const Part part = part_of(geometry, features);
  const auto cavity = guess_cavity(geometry, features, part.body);
  bool held = false;
  std::string text = head(step_file) +
                     body_section(part, step_file, card,
                                  "the largest solid of the file; the others are not modelled") +
                     conditions_section();
  text += cavity ? cavity_section(part, *cavity) : plain_section(part);
  text += screw_sections(part, cavity ? &*cavity : nullptr, held);
  if (!cavity && !held) text += opposite_support(part);
  if (cavity && !held) {
    text +=
        "# No [[support]]: a part whose loads balance needs none. Otherwise, for example:\n"
        "# [[support]]\n# name = \"foot\"\n# faces = { plane = \"-z\", at = \"0 mm\" }\n\n";
  }
  if (cavity) text += hand_section(part, *cavity);
  return text + tail();
}

}  // namespace crossgrain
