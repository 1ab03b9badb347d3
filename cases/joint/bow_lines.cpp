// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/bow_lines.h"

#include <algorithm>
#include <sstream>

#include "cases/joint/flange_bow.h"

namespace crossgrain {
namespace {

/// A seal that is not pressed at its screws has nothing that could be even.
double unevenness(const SpanBow& span) {
  return span.at_screws < 0.0 ? bow_number(span.between / span.at_screws) : nothing_between;
}

std::string words(const SpanBow& span) {
  std::ostringstream text;
  text.precision(2);
  text << "gapes " << span.bow() << " mm more between screws " << span.from + 1 << " and "
       << span.to + 1 << " than at them";
  return text.str();
}

double pitch(const SealFacts& seal, const SpanBow& span) {
  return (seal.screws[span.from] - seal.screws[span.to]).norm();
}

}  // namespace

std::vector<JointLine> bow_lines(const SealFacts& seal, const std::vector<SpanBow>& spans,
                                 const JointStateFacts& state) {
  if (!state.tightening || spans.empty()) return {};
  const SpanBow& worst = *std::ranges::max_element(spans, {}, &SpanBow::bow);
  const JointLimit harmless{
      harmless_bow, LimitStanding::estimated,
      "beam on an elastic foundation: up to here 95 % are left between the screws"};
  std::vector<JointLine> lines{{JointMode::flange_bow, seal.name, unevenness(worst), harmless,
                                state.situation, state.level, worst.middle, words(worst)}};
  if (!seal.pitch_limit) return lines;
  const JointLimit usual{*seal.pitch_limit, LimitStanding::estimated,
                         "2 d + 6 t / (m + 0.5), pressure vessel practice for metal flanges"};
  const auto pitch_of = [&](const SpanBow& span) { return pitch(seal, span); };
  lines.push_back({JointMode::screw_pitch, seal.name,
                   pitch(seal, *std::ranges::max_element(spans, {}, pitch_of)), usual, "",
                   std::nullopt, std::nullopt, ""});
  return lines;
}

}  // namespace crossgrain
