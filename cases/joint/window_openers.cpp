// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/window_openers.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "cases/joint/flange_bow.h"
#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

bool is_seal(JointMode mode) {
  return mode == JointMode::seal_at_assembly || mode == JointMode::seal_in_service;
}

std::string shortly(double value) {
  std::ostringstream text;
  text.precision(2);
  text << value;
  return text.str();
}

/// Contact between the screws over its mean; nothing is left of it in a very soft flange.
double evenness(double bow) {
  // A measured bow may be none at all, where the closed form is 0 / 0.
  return std::max(bowed_contact(std::max(bow, 1e-3), 0.0).between, 1e-6);
}

/// How many times less a bow number must be for the contact between screws to grow by `gain`; none
/// if even a rigid flange would not do.
std::optional<double> less_bow(double bow, double gain) {
  const double wanted = gain * evenness(bow);
  // Perfectly even is the limit, 0.2 as good as that.
  if (wanted > evenness(0.2)) return std::nullopt;
  double low = 0.2, high = bow;
  for (int step = 0; step < 60; ++step) {
    const double middle = 0.5 * (low + high);
    (evenness(middle) >= wanted ? low : high) = middle;
  }
  return bow / low;
}

OpenerAdvice more_screws(const TorqueWindow& window, const OpenerFacts& facts) {
  const WindowOpener opener = WindowOpener::more_screws;
  if (!is_seal(window.lowest->mode) || window.highest->mode == JointMode::gasket_crushed) {
    return {opener, false, "would not help: it is not one screw's force that is too great"};
  }
  const double gap = window.lowest->torque / window.highest->torque;
  const int needed = static_cast<int>(std::ceil(facts.screws * gap));
  const std::string count = std::to_string(needed) + " in place of " + std::to_string(facts.screws);
  if (needed > 3 * facts.screws) return {opener, false, "not by themselves: " + count};
  return {opener, true, "about " + count + ", evenly spread"};
}

OpenerAdvice by_bow(WindowOpener opener, const TorqueWindow& window, const OpenerFacts& facts) {
  const bool flange = opener == WindowOpener::thicker_flange;
  if (!is_seal(window.lowest->mode))
    return {opener, false, "would not help: the seal is not short"};
  if (!facts.bow) return {opener, false, "not known: the flange's bow could not be worked out"};
  const auto less = less_bow(*facts.bow, window.lowest->torque / window.highest->torque);
  if (!less) return {opener, false, "not by itself: even without any bow too little is left"};
  // phi goes with t^(-3/4) and with modulus^(1/4).
  const double times = flange ? std::pow(*less, 4.0 / 3.0) : std::pow(*less, 4.0);
  const double most = flange ? 3.0 : 10.0;
  const std::string much =
      flange ? shortly(times) + " times as thick" : "of 1/" + shortly(times) + " of the stiffness";
  return {opener, times <= most, (times <= most ? "about " : "not by itself: ") + much};
}

OpenerAdvice metal_limiter(const std::vector<PreloadResponse>& responses,
                           const PreloadScatter& scatter, const OpenerFacts& facts) {
  std::vector<PreloadResponse> limited;
  for (PreloadResponse response : responses) {
    if (response.mode == JointMode::bearing) continue;
    // Without losses the same is left of a preload that is less by what they took.
    if (response.after_losses && must_reach(response.mode)) {
      for (auto& point : response.points) point.preload *= facts.kept_after_losses;
    }
    limited.push_back(std::move(response));
  }
  const bool opens = !torque_window(limited, scatter).empty();
  return {WindowOpener::metal_limiter, opens,
          opens ? "in every hole: the heads press metal and creep takes nothing"
                : "not by itself: something else than the plastic under the heads is too weak"};
}

}  // namespace

std::string_view name_of(WindowOpener opener) {
  switch (opener) {
    case WindowOpener::more_screws:
      return "more_screws";
    case WindowOpener::thicker_flange:
      return "thicker_flange";
    case WindowOpener::softer_gasket:
      return "softer_gasket";
    case WindowOpener::metal_limiter:
      return "metal_limiter";
  }
  return "";
}

std::vector<OpenerAdvice> advise_openers(const std::vector<PreloadResponse>& responses,
                                         const PreloadScatter& scatter, const OpenerFacts& facts) {
  positive(facts.screws, "number of screws", "-");
  within(facts.kept_after_losses, 1e-3, 1.0, "share of the preload that losses leave", "-");
  const TorqueWindow window = torque_window(responses, scatter);
  if (!window.empty()) return {};
  std::vector<OpenerAdvice> advice;
  if (window.lowest && window.highest && !window.never) {
    advice = {more_screws(window, facts), by_bow(WindowOpener::thicker_flange, window, facts),
              by_bow(WindowOpener::softer_gasket, window, facts)};
  } else {
    const std::string unknown = "not known: no torque satisfies '" +
                                std::string(words(window.never.value())) + "', so nothing scales";
    for (const auto opener :
         {WindowOpener::more_screws, WindowOpener::thicker_flange, WindowOpener::softer_gasket}) {
      advice.push_back({opener, false, unknown});
    }
  }
  advice.push_back(metal_limiter(responses, scatter, facts));
  return advice;
}

}  // namespace crossgrain
