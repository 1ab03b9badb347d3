// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/face_choice_reader.h"

#include <array>
#include <charconv>

namespace crossgrain {
namespace {

using Kind = TomlValue::Kind;

FaceChoice read_choice(const TomlValue& value, const std::string& where, Problems& problems);

/// The ways of choosing, and the keys that go with only some of them.
constexpr std::array ways = {"hole", "plane",  "wetted_at", "wetted_through",
                             "name", "colour", "ids",       "outside"};
struct Companion {
  std::string_view key;
  std::array<std::string_view, 2> of;
};
constexpr std::array companions = {
    Companion{"axis", {"hole", "hole"}},
    Companion{"part", {"hole", "hole"}},
    Companion{"at", {"plane", "plane"}},
    Companion{"ports", {"wetted_at", "wetted_through"}},
    Companion{"seal_lines", {"wetted_at", "wetted_through"}},
    Companion{"except", {"outside", "outside"}},
};

void require_one_way(const CaseTable& table) {
  std::string given;
  int count = 0;
  for (const char* way : ways) {
    if (!table.has(way)) continue;
    given += (count++ ? " and '" : "'") + std::string(way) + "'";
  }
  if (count != 1) {
    table.refuse_table(
        (count ? given + " are two ways of choosing faces"
               : std::string("nothing says which faces")) +
        "; give exactly one of hole, plane, wetted_at, wetted_through, name, colour, "
        "ids, outside, or a list of such choices");
  }
  for (const Companion& companion : companions) {
    if (!table.has(companion.key) || table.has(companion.of[0]) || table.has(companion.of[1])) {
      continue;
    }
    table.refuse(companion.key, "goes with '" + std::string(companion.of[0]) +
                                    "', which is not here; add it or leave this out");
  }
}

std::optional<FaceChoice::HoleChoice> read_hole(const CaseTable& table) {
  using Part = FaceChoice::HoleChoice::Part;
  const auto diameter = table.optional_quantity("hole");
  const auto axis = table.optional_direction("axis");
  const std::string part = table.text("part");
  if (!diameter) return std::nullopt;
  return FaceChoice::HoleChoice{*diameter, axis,
                                part == "floor"  ? Part::floor
                                : part == "seat" ? Part::seat
                                                 : Part::wall};
}

std::optional<FaceChoice::PlaneChoice> read_plane(const CaseTable& table) {
  const auto normal = table.optional_direction("plane");
  const auto at = table.optional_quantity("at");
  if (table.has("plane") && !table.has("at")) {
    table.refuse("plane", "where along it? add at = \"12 mm\", the position along this direction");
  }
  if (!normal || !at) return std::nullopt;
  return FaceChoice::PlaneChoice{*normal, *at};
}

void read_stops(const CaseTable& table, std::string_view key, const std::string& word,
                FaceChoice::WettedChoice& wetted) {
  int number = 0;
  for (const TomlValue* value : table.tables(key)) {
    const CaseTable stop(*value, "port", table.problems());
    ++number;
    const std::string name =
        stop.optional_text("name").value_or(word + " " + std::to_string(number));
    for (const std::string& other : wetted.stop_names) {
      if (other == name) stop.refuse_table("'" + name + "' is there twice; give each its own name");
    }
    const auto faces = read_face_choice(stop, "faces");
    if (!faces) continue;
    wetted.stops.push_back(*faces);
    wetted.stop_names.push_back(name);
  }
}

std::optional<FaceChoice::WettedChoice> read_wetted(const CaseTable& table) {
  FaceChoice::WettedChoice wetted;
  wetted.point = table.optional_three("wetted_at");
  if (const auto through = read_face_choice(table, "wetted_through")) {
    wetted.through = std::make_shared<FaceChoice>(*through);
  }
  read_stops(table, "ports", "port", wetted);
  read_stops(table, "seal_lines", "seal line", wetted);
  if (!wetted.point && !wetted.through) return std::nullopt;
  return wetted;
}

std::optional<std::array<double, 3>> read_colour(const CaseTable& table) {
  const auto text = table.optional_text("colour");
  if (!text) return std::nullopt;
  std::array<double, 3> colour{};
  bool sound = text->size() == 7 && (*text)[0] == '#';
  for (int i = 0; sound && i < 3; ++i) {
    unsigned level = 0;
    const char* from = text->data() + 1 + 2 * i;
    const auto [end, error] = std::from_chars(from, from + 2, level, 16);
    sound = error == std::errc() && end == from + 2;
    colour[i] = level / 255.0;
  }
  if (!sound) {
    table.refuse("colour", "not a colour; write \"#rrggbb\" as `crossgrain inspect` prints it");
    return std::nullopt;
  }
  return colour;
}

FaceChoice read_list(const TomlValue& value, const std::string& where, Problems& problems) {
  FaceChoice choice;
  for (const TomlValue& item : value.items) {
    choice.any_of.push_back(read_choice(item, where, problems));
  }
  if (value.items.empty()) {
    problems.add(value.line, where + " = []: an empty list chooses no faces; write { ... } in it");
  }
  return choice;
}

FaceChoice read_table(const TomlValue& value, Problems& problems) {
  const CaseTable table(value, "faces", problems);
  FaceChoice choice;
  require_one_way(table);
  choice.hole = read_hole(table);
  choice.plane = read_plane(table);
  choice.wetted = read_wetted(table);
  choice.name = table.optional_text("name");
  choice.colour = read_colour(table);
  choice.ids = table.whole_numbers("ids");
  choice.everything_outside = table.optional_yes_no("outside").value_or(false);
  if (table.has("outside") && !choice.everything_outside) {
    table.refuse("outside", "must be true; leave it out to choose in another way");
  }
  if (const auto except = read_face_choice(table, "except")) {
    choice.except = std::make_shared<FaceChoice>(*except);
  }
  choice.body = table.optional_text("body");
  choice.count = table.optional_whole("count");
  return choice;
}

FaceChoice read_choice(const TomlValue& value, const std::string& where, Problems& problems) {
  FaceChoice choice;
  if (value.kind == Kind::table) {
    choice = read_table(value, problems);
  } else if (value.kind == Kind::array) {
    choice = read_list(value, where, problems);
  } else {
    problems.add(value.line, where + " = " + written(value) +
                                 ": not a choice of faces; write { hole = \"5 mm\" }, { plane = "
                                 "\"+z\", at = \"12 mm\" }, { ids = [3] } or another way");
  }
  choice.place = {problems.file(), value.line};
  choice.text = written(value);
  return choice;
}

}  // namespace

std::optional<FaceChoice> read_face_choice(const CaseTable& table, std::string_view key) {
  const TomlValue* value = table.faces(key);
  if (!value) return std::nullopt;
  return read_choice(*value, table.where(key), table.problems());
}

}  // namespace crossgrain
