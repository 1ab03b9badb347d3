// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/knock_downs.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

// Every rule below is common practice or from memory, without a source.

constexpr double freezing = 273.15;
constexpr double room_temperature_K = 296.15;
constexpr double room_tolerance_K = 0.01;
constexpr double metals_hold_to_K = 373.15;
constexpr double least_strength_kept = 0.1;  // less cannot be told from nothing: the range is 0.1

constexpr double short_term_h = 0.1;
constexpr double least_sustained = 0.2;

constexpr double few_cycles = 1e3;
constexpr double many_cycles = 1e6;
constexpr double most_cycles = 1e7;
constexpr double strength_after_many_cycles = 0.25;

[[noreturn]] void refuse(const MaterialCard& card, const std::string& complaint) {
  throw std::invalid_argument(card.file.string() + ": " + complaint);
}

std::string celsius(double kelvin) {
  std::ostringstream text;
  text << std::round((kelvin - freezing) * 10.0) / 10.0 << " degC";
  return text.str();
}

/// A loss known to 0.1, but no worse than to the size of the loss itself.
KnockDown uncertain(const std::string& cause, const std::string& applies, double kept,
                    const std::string& rule) {
  const double half_width = std::min(0.1, 1.0 - kept);
  return {cause, applies, kept, kept - half_width, std::min(1.0, kept + half_width), rule};
}

/// Fractions kept between the card's points, with 23 degC standing for 1.
void interpolate(const MaterialCard& card, double temperature, std::vector<KnockDown>& list) {
  std::vector<MaterialCard::TemperaturePoint> points = card.temperature_points;
  const auto at_room = [](const auto& p) {
    return std::abs(p.temperature_K - room_temperature_K) < room_tolerance_K;
  };
  if (std::none_of(points.begin(), points.end(), at_room)) {
    points.push_back({room_temperature_K, 1.0, 1.0, Standing::measured, ""});
    std::sort(points.begin(), points.end(),
              [](const auto& a, const auto& b) { return a.temperature_K < b.temperature_K; });
  }
  if (temperature > points.back().temperature_K + room_tolerance_K)
    refuse(card, "it is " + celsius(temperature) + ", but the card's temperature points end at " +
                     celsius(points.back().temperature_K) +
                     "; lower the temperature or add a [[temperature]] point from the data sheet");
  const auto above = std::find_if(points.begin(), points.end(), [&](const auto& p) {
    return p.temperature_K >= temperature - room_tolerance_K;
  });
  const auto below = above == points.begin() ? above : above - 1;
  const double span = above->temperature_K - below->temperature_K;
  const double t =
      span > 0.0 ? std::clamp((temperature - below->temperature_K) / span, 0.0, 1.0) : 0.0;
  const auto between = [&](double a, double b) { return std::min(1.0, a + t * (b - a)); };
  const std::string rule = "between the card's temperature points (" +
                           (above->source.empty() ? below->source : above->source) + ")";
  list.push_back(uncertain("temperature", "strength",
                           between(below->strength_kept, above->strength_kept), rule));
  list.push_back(
      uncertain("temperature", "modulus", between(below->modulus_kept, above->modulus_kept), rule));
}

/// Linear from 1 at 23 degC to 0 at the glass transition, strength and modulus alike.
void towards_glass_transition(const MaterialCard& card, double temperature,
                              std::vector<KnockDown>& list) {
  if (!card.glass_transition_K)
    refuse(card, "it is " + celsius(temperature) +
                     ", but the card has neither a glass_transition nor [[temperature]] points; "
                     "add one of them from the data sheet");
  const double kept =
      (*card.glass_transition_K - temperature) / (*card.glass_transition_K - room_temperature_K);
  const std::string rule = "1 at 23 degC, falling linearly to 0 at the glass transition of " +
                           celsius(*card.glass_transition_K);
  if (!(*card.glass_transition_K > room_temperature_K && kept > least_strength_kept))
    refuse(card, celsius(temperature) + " is too close to the glass transition of " +
                     celsius(*card.glass_transition_K) +
                     ": no strength is left to rely on; lower the temperature, or take a material "
                     "that stands it, or add [[temperature]] points from the data sheet");
  list.push_back(uncertain("temperature", "strength", kept, rule));
  list.push_back(uncertain("temperature", "modulus", kept, rule));
}

void add_temperature(const MaterialCard& card, double temperature, std::vector<KnockDown>& list) {
  if (!card.temperature_points.empty()) return interpolate(card, temperature, list);
  if (temperature <= room_temperature_K + room_tolerance_K) return;
  switch (card.nature) {
    case PolymerNature::amorphous:
      return towards_glass_transition(card, temperature, list);
    case PolymerNature::semi_crystalline:
      refuse(card, "it is " + celsius(temperature) +
                       ", but above 23 degC the strength of a semi-crystalline polymer follows no "
                       "simple rule; add [[temperature]] points (at, strength_kept, modulus_kept) "
                       "from the data sheet");
    case PolymerNature::not_a_polymer:
      if (temperature <= metals_hold_to_K) return;
      refuse(card, "it is " + celsius(temperature) +
                       ", but above 100 degC the card needs [[temperature]] points (at, "
                       "strength_kept, modulus_kept)");
  }
}

void add_moisture(const MaterialCard& card, Moisture moisture, std::vector<KnockDown>& list) {
  if (moisture == Moisture::dry || !card.conditioned.empty() ||
      card.nature == PolymerNature::not_a_polymer)
    return;
  const std::string rule = "the card has no conditioned values: the dry ones, down to 0.9 of them";
  list.push_back({"moisture", "strength", 1.0, 0.9, 1.0, rule});
  list.push_back({"moisture", "modulus", 1.0, 0.9, 1.0, rule});
}

void add_sustained_load(const MaterialCard& card, double duration_s, std::vector<KnockDown>& list) {
  const double decades = std::log10(duration_s / 3600.0 / short_term_h);
  if (card.nature == PolymerNature::not_a_polymer || !(decades > 1e-9)) return;
  const auto lasting = [&](double per_decade) {
    return std::max(least_sustained, 1.0 - per_decade * decades);
  };
  list.push_back({"sustained load", "strength", lasting(0.16), lasting(0.19), lasting(0.12),
                  "1 up to 0.1 h, less 0.16 per decade of hours (0.12 to 0.19), not under 0.2"});

  // 1000 h are four decades past 0.1 h.
  const auto creeping = [&](double left_at_1000_h) {
    return lasting((1.0 - left_at_1000_h) / 4.0);
  };
  const CardValue& given = card.creep_modulus_kept.value_or(
      CardValue{0.45, 0.35, 0.6, Standing::estimated, "0.45 (0.35 to 0.6)"});
  list.push_back({"sustained load", "modulus", creeping(given.value), creeping(given.low),
                  creeping(given.high),
                  "linear in the logarithm of time from 1 at 0.1 h to the creep modulus at 1000 h, "
                  "not under 0.2; " +
                      given.source});
}

void add_cycles(const MaterialCard& card, double cycles, std::vector<KnockDown>& list) {
  if (cycles <= few_cycles) return;
  if (cycles > most_cycles) {
    std::ostringstream complaint;
    complaint << cycles << " load cycles are past what is known, 1e7; give fewer, or replace the "
              << "part before";
    refuse(card, complaint.str());
  }
  const double decades = std::log10(std::min(cycles, many_cycles) / few_cycles);
  const double kept = 1.0 - (1.0 - strength_after_many_cycles) * decades / 3.0;
  list.push_back(
      uncertain("cycles", "strength", kept,
                "1 up to a thousand cycles, linear in the logarithm to 0.25 at a million"));
}

void require_sound(const MaterialCard& card, const ServiceConditions& conditions) {
  const auto require = [&](bool sound, const std::string& complaint) {
    if (!sound) refuse(card, complaint);
  };
  require(conditions.temperature_K > 0.0 && std::isfinite(conditions.temperature_K),
          "the service temperature must be above absolute zero and finite");
  require(conditions.duration_s > 0.0 && std::isfinite(conditions.duration_s),
          "the time under load must be positive and finite");
  require(conditions.cycles >= 1.0 && std::isfinite(conditions.cycles),
          "the number of load cycles must be at least 1 and finite");
}

}  // namespace

std::vector<KnockDown> knock_downs(const MaterialCard& card, const ServiceConditions& conditions) {
  require_sound(card, conditions);
  std::vector<KnockDown> list;
  add_temperature(card, conditions.temperature_K, list);
  add_moisture(card, conditions.moisture, list);
  add_sustained_load(card, conditions.duration_s, list);
  add_cycles(card, conditions.cycles, list);
  std::erase_if(list, [](const KnockDown& k) { return k.value == 1.0 && k.low == 1.0; });
  for (const KnockDown& k : list)
    if (k.cause == "temperature" && k.applies == "strength" && !(k.value > least_strength_kept))
      refuse(card, "at " + celsius(conditions.temperature_K) +
                       " no strength is left to rely on; lower the temperature");
  return list;
}

Kept kept(const std::vector<KnockDown>& list, std::string_view applies) {
  Kept product;
  for (const KnockDown& k : list) {
    if (k.applies != applies) continue;
    product.value *= k.value;
    product.low *= k.low;
    product.high *= k.high;
  }
  return product;
}

}  // namespace crossgrain
