// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/joint_line.h"

#include <array>
#include <limits>

namespace crossgrain {
namespace {

struct ModeWords {
  JointMode mode;
  std::string_view name, words, unit;
  bool must_reach;
  std::string_view remedy;
};

constexpr std::array<ModeWords, 14> table = {{
    {JointMode::seal_at_assembly, "seal_at_assembly", "gasket seated when the screws are tight",
     "MPa", true, "tighten more, or take a softer or narrower gasket"},
    {JointMode::seal_in_service, "seal_in_service", "seal under pressure", "MPa", true,
     "more screws closer together, a thicker flange, or a softer gasket; retighten after a day"},
    {JointMode::gasket_crushed, "gasket_crushed", "gasket squeezed too far", "MPa", false,
     "tighten less, or let metal limiters or a step in the flange stop the squeeze"},
    {JointMode::bearing, "bearing", "pressure under head or washer", "MPa", false,
     "wider washers, more screws at less torque, or metal limiters in the holes"},
    {JointMode::screw_yield, "screw_yield", "screw yields while it is tightened", "MPa", false,
     "tighten less, or take a stronger or thicker screw"},
    {JointMode::screw_proof, "screw_proof", "screw beyond its proof load", "N", false,
     "tighten less, or take a stronger or thicker screw"},
    {JointMode::pull_out, "pull_out", "insert pulled out", "N", false,
     "longer or wider inserts, through screws with nuts, or more screws at less torque"},
    {JointMode::tear_off, "tear_off", "boss torn off between its layers", "MPa", false,
     "a wider boss with a rounded root, longer inserts, or through screws with nuts"},
    {JointMode::hoop_split, "hoop_split", "boss split along its layers by the insert", "MPa", false,
     "a wider boss, longer inserts, or a print direction along the screws"},
    {JointMode::torque_out, "torque_out", "insert turned in its hole", "N mm", false,
     "tighten less, grease the thread, or take inserts with a coarser knurl"},
    {JointMode::boss_wall, "boss_wall", "wall round the insert", "mm", true, "a wider boss"},
    {JointMode::screw_bottoms, "screw_bottoms", "room under the screw's tip", "mm", true,
     "a shorter screw or a deeper hole: one that bottoms jacks the insert out"},
    {JointMode::flange_bow, "flange_bow", "flange bows between the screws (phi)", "-", false,
     "screws closer together, a thicker or ribbed flange, or a softer gasket"},
    {JointMode::screw_pitch, "screw_pitch", "distance from screw to screw", "mm", false,
     "screws closer together"},
}};

constexpr const ModeWords& find(JointMode mode) { return table[static_cast<std::size_t>(mode)]; }

constexpr bool in_order() {
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (static_cast<std::size_t>(table[i].mode) != i) return false;
  }
  return true;
}
static_assert(in_order(), "the table of modes follows the enumeration");

}  // namespace

std::string_view name_of(JointMode mode) { return find(mode).name; }
std::string_view words(JointMode mode) { return find(mode).words; }
std::string_view remedy(JointMode mode) { return find(mode).remedy; }
std::string_view unit_of(JointMode mode) { return find(mode).unit; }
bool must_reach(JointMode mode) { return find(mode).must_reach; }

bool JointLine::holds() const {
  return must_reach(mode) ? value >= limit.value : value <= limit.value;
}

double JointLine::use() const {
  if (!must_reach(mode)) return value / limit.value;
  if (value <= 0.0) return std::numeric_limits<double>::infinity();
  return limit.value / value;
}

}  // namespace crossgrain
