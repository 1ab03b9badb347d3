// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/broken_assumptions.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "cases/second_opinions/causes.h"

namespace crossgrain {
namespace {

std::vector<Cause> causes_of(const ComparedPlace& at) {
  std::vector<Cause> causes;
  for (const auto& find :
       {thick_wall, uneven_wall, near_an_end, thrust_held_elsewhere, opening_nearby, edge_gives_way,
        edge_held_in_part, pulled_in_its_plane, short_plate, stiffness_by_direction, other_loads})
    if (auto cause = find(at)) causes.push_back(std::move(*cause));
  return causes;
}

double off(double found, double expected) { return std::abs(found / expected - 1.0); }

/// One cause or two whose numbers together come within 15 %; empty if there are none.
std::vector<Cause> explaining(const std::vector<Cause>& causes, double found, double hand) {
  for (const Cause& one : causes)
    if (one.corrected && off(found, *one.corrected) <= agreed) return {one};
  for (auto one = causes.begin(); one != causes.end(); ++one) {
    for (auto two = one + 1; two != causes.end(); ++two) {
      if (!one->corrected || !two->corrected) continue;
      if (off(found, *one->corrected + *two->corrected - hand) <= agreed) return {*one, *two};
    }
  }
  return {};
}

Difference told(const std::vector<Cause>& causes, const std::string& end) {
  Difference difference;
  for (const Cause& cause : causes) {
    difference.names += (difference.names.empty() ? "" : ", ") + cause.name;
    difference.reason += cause.sentence + " ";
  }
  difference.reason += end;
  return difference;
}

}  // namespace

Difference difference_by(std::vector<Cause> causes, double found, double hand,
                         const std::string& others) {
  if (!(off(found, hand) > agreed)) return {};
  if (const auto enough = explaining(causes, found, hand); !enough.empty()) {
    double expected = hand;
    for (const Cause& cause : enough) expected += *cause.corrected - hand;
    return told(enough, "That leaves " + percent(found / expected) + ".");
  }
  // A cause whose number leads away from what was found is none.
  std::erase_if(causes, [&](const Cause& cause) {
    return cause.corrected && !(off(found, *cause.corrected) < off(found, hand));
  });
  if (causes.empty()) return {"not explained", "Not explained by " + others + "."};
  const bool numbers = std::any_of(causes.begin(), causes.end(),
                                   [](const Cause& cause) { return cause.corrected.has_value(); });
  return told(causes, numbers ? "The numbers do not make up for all of it."
                              : "By how much, no formula here says.");
}

Difference difference_at(const ComparedPlace& at) {
  return difference_by(
      causes_of(at), at.field.on(at.line.side), at.hand,
      "a thick or uneven wall, an end, a step or a hole nearby, a yielding edge, "
      "pull in the plate's plane, an end held from outside, stiffness by direction "
      "or other loads");
}

}  // namespace crossgrain
