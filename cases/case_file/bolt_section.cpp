// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>

#include "cases/case_file/case_sections.h"
#include "cases/case_file/face_choice_reader.h"
#include "cases/joint/preload.h"
#include "cases/joint/screw_sizes.h"
#include "cases/joint/screw_strength.h"

namespace crossgrain {
namespace {

/// Three significant digits, as a preload deserves.
std::string shortly(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", value);
  return text;
}

/// @return nullptr, reported, if the size is needed and not known.
const ScrewSize* known_size(const CaseTable& table, const BoltSpec& bolt) {
  const ScrewSize* size = find_screw_size(bolt.size);
  const bool needed =
      table.has("torque") || (bolt.head_seat.has_value() && !table.has("head_diameter"));
  if (!size && needed && !bolt.size.empty()) {
    table.refuse("size", "unknown size; known are " + known_screw_sizes() +
                             "; for another give preload and head_diameter");
  }
  return size;
}

/// The keys that say how tight the screws are.
struct TightnessKeys {
  std::optional<double> preload;  // N
  std::optional<double> torque;   // N mm
  std::optional<double> friction;
  std::optional<double> head_friction;
  std::optional<double> scatter;
  bool by_feel;
};

TightnessKeys read_tightness(const CaseTable& table) {
  return {table.optional_quantity("preload"), table.optional_quantity("torque"),
          table.optional_number("friction"),  table.optional_number("head_friction"),
          table.optional_number("scatter"),   table.text("tightening") == "by_feel"};
}

void check_tightness(const CaseTable& table, const ScrewSize* size, const BoltSpec& bolt) {
  if (table.has("preload") == table.has("torque")) {
    table.refuse_table(
        "how tight? give either preload = \"1.2 kN\", or torque = \"2 N m\" with friction");
    return;
  }
  for (const char* key : {"friction", "head_friction", "tightening"}) {
    if (!table.has("preload") || !table.has(key)) continue;
    table.refuse(key, "goes with torque; leave it out, preload is given");
  }
  if (table.has("torque") && !table.has("friction")) {
    table.refuse("torque",
                 "a torque alone does not give a preload; add friction = 0.2, or what you know of "
                 "your screws (dry steel 0.15 to 0.25, common practice, no source)");
  }
  if (table.has("head_diameter") && size && bolt.head_diameter <= size->clearance_hole) {
    table.refuse("head_diameter", "not greater than the clearance hole of " + bolt.size + ", " +
                                      shortly(size->clearance_hole) +
                                      " mm; give the head's or the washer's outer diameter");
  }
}

void check_class(const CaseTable& table, const BoltSpec& bolt) {
  try {
    screw_class(bolt.strength_class);
  } catch (const std::invalid_argument& error) {
    table.refuse("class", error.what());
  }
}

std::string words_for_scatter(const TightnessKeys& keys, double scatter) {
  if (keys.scatter) return "scatter (greatest / least) " + shortly(scatter) + " as given";
  if (keys.preload) return "no scatter stated and none assumed";
  return "scatter (greatest / least) " + shortly(scatter) +
         (keys.by_feel ? ", usual for tightening by feel (from memory)"
                       : ", usual for a torque wrench");
}

void set_preload(const TightnessKeys& keys, const ScrewSize* size, BoltSpec& bolt) {
  double nominal = 0.0;
  double scatter = keys.scatter.value_or(1.0);
  if (keys.preload) {
    nominal = *keys.preload;
    bolt.preload_source = "preload " + shortly(nominal) + " N as given";
  } else {
    const TighteningFriction friction{*keys.friction, keys.head_friction.value_or(*keys.friction)};
    bolt.torque = *keys.torque;
    bolt.friction = friction;
    nominal = preload_from_torque(*keys.torque, *size, bolt.head_diameter, friction);
    scatter = keys.scatter.value_or(
        usual_scatter(keys.by_feel ? Tightening::by_feel : Tightening::torque_wrench));
    bolt.preload_source = "from torque " + shortly(*keys.torque * 1e-3) + " N m, friction " +
                          shortly(friction.thread) + " in the thread and " +
                          shortly(friction.head) + " under the head (VDI 2230)";
  }
  bolt.preload_source += "; " + words_for_scatter(keys, scatter);
  const PreloadRange range = scattered_preload(nominal, scatter);
  bolt.preload_min = range.least;
  bolt.preload_nominal = range.nominal;
  bolt.preload_max = range.greatest;
}

}  // namespace

BoltSpec read_bolt(const CaseTable& table) {
  BoltSpec bolt{};
  bolt.place = table.place();
  bolt.name = table.text("name");
  bolt.thread = read_face_choice(table, "thread").value_or(FaceChoice{});
  bolt.head_seat = read_face_choice(table, "head_seat");
  bolt.size = table.text("size");
  const ScrewSize* size = known_size(table, bolt);
  bolt.head_diameter =
      table.optional_quantity("head_diameter").value_or(size ? size->head_diameter : 0.0);
  bolt.modulus = table.quantity("modulus");
  bolt.expansion = table.quantity("expansion");
  bolt.insert_expansion = table.quantity("insert_expansion");
  bolt.embedding = table.optional_quantity("embedding");
  bolt.creep_loss = table.quantity("creep_loss");
  bolt.strength_class = table.text("class");
  bolt.length = table.optional_quantity("length");
  bolt.insert_diameter = table.optional_quantity("insert_diameter");
  bolt.insert_length = table.optional_quantity("insert_length");
  bolt.pull_out = table.optional_quantity("pull_out");
  bolt.boss_diameter = table.optional_quantity("boss_diameter");
  check_class(table, bolt);
  const TightnessKeys keys = read_tightness(table);
  check_tightness(table, size, bolt);
  if (table.problems().none()) set_preload(keys, size, bolt);
  return bolt;
}

}  // namespace crossgrain
