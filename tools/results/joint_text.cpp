// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "tools/results/markdown.h"
#include "tools/results/number_text.h"
#include "tools/results/plain_text.h"
#include "tools/results/summary_sections.h"

namespace crossgrain {
namespace {

std::string owner_text(const std::string& owner) { return "'" + markdown_text(owner) + "'"; }

/// "0.21 MPa", "1.4 N m", "2.4 mm", "1.6".
std::string value_text(double value, JointMode mode, const ReadingUnits& units) {
  const std::string_view unit = unit_of(mode);
  if (unit == "MPa") return pressure_text(value, units);
  if (unit == "N mm") return number_text(1e-3 * value) + " N m";
  return number_text(value) + (unit == "-" ? "" : " " + std::string(unit));
}

/// In which state and with which preload.
std::string when_text(const JointLine& line) {
  if (line.state.empty()) return "always";
  return markdown_text(line.state) +
         (line.level ? ", " + std::string(words(*line.level)) + " preload" : "");
}

std::string used_text(const JointLine& line) {
  const double use = line.use();
  return std::isfinite(use) ? fmt::format("{:.0f} %", 100.0 * use) : "nothing left";
}

std::string lines_table(const JudgedJoint& joint, const ReadingUnits& units) {
  MarkdownTable table({"check", "of", "found", "limit", "used", "worst in", "limit is"});
  for (const JointLine& line : joint.lines) {
    table.add({std::string(words(line.mode)) + (line.holds() ? "" : ": **no**"),
               owner_text(line.owner), value_text(line.value, line.mode, units),
               (must_reach(line.mode) ? "at least " : "at most ") +
                   value_text(line.limit.value, line.mode, units),
               used_text(line), when_text(line), std::string(words(line.limit.standing))});
  }
  return table.text();
}

/// What fails, one item each: how far, where, what to do.
std::string failures(const JudgedJoint& joint, const ReadingUnits& units) {
  std::vector<std::string> items;
  for (const JointLine& line : joint.lines) {
    if (line.holds()) continue;
    std::string item =
        fmt::format("{} of '{}': {} where {} {} ({}).", words(line.mode), line.owner,
                    value_text(line.value, line.mode, units),
                    must_reach(line.mode) ? "it takes at least" : "it stands at most",
                    value_text(line.limit.value, line.mode, units), line.limit.source);
    if (!line.note.empty()) item += " It " + line.note + ".";
    if (line.place) item += " Look at " + position_text(*line.place) + " mm.";
    items.push_back(item + " What helps: " + std::string(remedy(line.mode)) + ".");
  }
  return bullet_list(items);
}

/// "1.2 N m", or "640 N of preload" where no torque is known.
std::string tightness_text(double over_nominal, const GroupTightness& group) {
  if (group.torque) return number_text(1e-3 * over_nominal * *group.torque) + " N m";
  return number_text(over_nominal * group.preload.nominal) + " N of preload";
}

std::string bound_words(const std::optional<TorqueBound>& bound) {
  if (!bound) return "nothing that was looked at sets a limit";
  return fmt::format("{} of '{}', {}{}", words(bound->mode), bound->owner, bound->situation,
                     bound->extrapolated ? "; beyond the preloads that were solved for, run the "
                                           "case again with it"
                                         : "");
}

std::vector<std::string> open_window(const TorqueWindow& window,
                                     const std::vector<GroupTightness>& groups) {
  std::vector<std::string> items;
  for (const GroupTightness& group : groups) {
    items.push_back(fmt::format(
        "{} screws of '{}': from {} to {}; asked for are {}.", group.screws, group.name,
        window.lowest ? tightness_text(window.lowest->torque, group) : "nothing",
        window.highest ? tightness_text(window.highest->torque, group) : "no limit found",
        tightness_text(1.0, group)));
  }
  items.push_back("Less than that: " + bound_words(window.lowest) + ".");
  items.push_back("More than that: " + bound_words(window.highest) + ".");
  return items;
}

std::vector<std::string> shut_window(const JudgedJoint& joint) {
  const TorqueWindow& window = *joint.window;
  std::vector<std::string> items;
  if (window.never) {
    items.push_back(fmt::format("Whatever the torque, it fails by: {}.", words(*window.never)));
  } else {
    for (const GroupTightness& group : joint.groups) {
      items.push_back(fmt::format(
          "{} screws of '{}' would need {} ({}) and stand {} ({}).", group.screws, group.name,
          tightness_text(window.lowest->torque, group), bound_words(window.lowest),
          tightness_text(window.highest->torque, group), bound_words(window.highest)));
    }
  }
  return items;
}

std::string_view heading(WindowOpener opener) {
  switch (opener) {
    case WindowOpener::more_screws:
      return "More screws";
    case WindowOpener::thicker_flange:
      return "A thicker flange";
    case WindowOpener::softer_gasket:
      return "A softer gasket";
    case WindowOpener::metal_limiter:
      return "Metal limiters";
  }
  return "";
}

std::string openers_text(const std::vector<OpenerAdvice>& openers) {
  if (openers.empty()) return "";
  std::vector<std::string> items;
  for (const OpenerAdvice& advice : openers) {
    items.push_back(fmt::format("{}: {}{}.", heading(advice.opener), advice.opens ? "yes, " : "",
                                advice.words));
  }
  return wrapped(
             "What would make room, by simple scaling, each alone; run the case again with it:") +
         "\n" + bullet_list(items);
}

std::string by_temperature_text(const JudgedJoint& joint) {
  if (joint.by_temperature.size() < 2) return "";
  std::vector<std::string> items;
  for (const TemperatureWindow& at : joint.by_temperature) {
    for (const GroupTightness& group : joint.groups) {
      items.push_back(fmt::format(
          "{:.0f} °C, '{}': {}", at.temperature_K - 273.15, group.name,
          at.window.empty()
              ? "no torque"
              : fmt::format(
                    "{} to {}",
                    at.window.lowest ? tightness_text(at.window.lowest->torque, group) : "nothing",
                    at.window.highest ? tightness_text(at.window.highest->torque, group)
                                      : "no limit found")));
    }
  }
  return "By temperature:\n\n" + bullet_list(items);
}

std::string window_text(const JudgedJoint& joint) {
  if (!joint.window) return "";
  const bool shut = joint.window->empty();
  return "### How tight\n\n" +
         wrapped(shut ? "**No torque does it**: what seals at the least preload it may give is "
                        "more than what holds at the greatest."
                      : "Seals at the least preload a torque may give, and neither crushes, yields "
                        "nor pulls at the greatest, in every state and at every temperature:") +
         "\n" + bullet_list(shut ? shut_window(joint) : open_window(*joint.window, joint.groups)) +
         by_temperature_text(joint) + openers_text(joint.openers);
}

}  // namespace

std::string joint_section(const RunOutputs& outputs, const ReadingUnits& units) {
  if (!outputs.result.joint) return "";
  const JudgedJoint& joint = *outputs.result.joint;
  return "## The joint\n\n" +
         wrapped(joint.holds()
                     ? "The joint holds in every state that was looked at. What is used "
                       "up most stands first:"
                     : "**The joint does not hold.** What is used up most stands first:") +
         "\n" + lines_table(joint, units) + failures(joint, units) + window_text(joint);
}

}  // namespace crossgrain
