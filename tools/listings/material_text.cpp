// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/listings/material_text.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "tools/results/number_text.h"
#include "tools/results/pressure_units.h"

namespace crossgrain {
namespace {

using Json = nlohmann::ordered_json;

std::string unit_of(const std::string& key) {
  if (key == "density") return "tonne/mm^3";
  if (key.starts_with("cte")) return "1/K";
  if (key.starts_with("nu")) return "-";
  return "MPa";
}

std::string number_or_dash(const MaterialCard& card, const std::string& layered,
                           const std::string& isotropic) {
  const auto& key = card.kind == MaterialKind::layered ? layered : isotropic;
  const auto found = card.dry.find(key);
  return found == card.dry.end() ? "-" : number_text(found->second.value, 4);
}

std::string card_row(const MaterialCard& card) {
  return fmt::format(
      "  {:<16} {:>8} {:>8} {:>8} {:>8}  {}\n", card.name, number_or_dash(card, "E_layer", "E"),
      number_or_dash(card, "E_build", "E"),
      number_or_dash(card, "Xt",
                     card.kind == MaterialKind::isotropic_brittle ? "tensile" : "yield"),
      number_or_dash(card, "Zt", "-"), card.title);
}

Json value_json(const CardValue& value) {
  return {{"value", value.value},
          {"low", value.low},
          {"high", value.high},
          {"standing", name_of(value.standing)},
          {"source", value.source}};
}

Json values_json(const std::map<std::string, CardValue>& values) {
  Json json = Json::object();
  for (const auto& [key, value] : values) json[key] = value_json(value);
  return json;
}

Json assumption_json(const Assumption& assumption) {
  return {{"quantity", assumption.quantity}, {"value", assumption.value},
          {"low", assumption.low},           {"high", assumption.high},
          {"unit", assumption.unit},         {"standing", name_of(assumption.standing)},
          {"rule", assumption.rule}};
}

std::string value_line(const std::string& quantity, double value, double low, double high,
                       const std::string& unit_inside, std::string_view standing,
                       const std::string& rule) {
  const auto [scale, unit] = unit_for_reading(unit_inside, {});
  return fmt::format("  {:<10} {:>8}  {:>8} to {:<8} {:<9} {}: {}\n", quantity,
                     number_text(value * scale, 4), number_text(low * scale, 4),
                     number_text(high * scale, 4), unit, standing, rule);
}

void list_values(const char* title, const std::map<std::string, CardValue>& values,
                 std::string& out) {
  if (values.empty()) return;
  out += fmt::format("\n{}\n", title);
  for (const auto& [key, value] : values)
    out += value_line(key, value.value, value.low, value.high, unit_of(key),
                      name_of(value.standing), value.source);
}

}  // namespace

std::string card_list_text(const std::vector<MaterialCard>& cards) {
  std::string out = "Material cards, dry values in MPa (in the layer: XY; along the build: Z)\n";
  out += fmt::format("  {:<16} {:>8} {:>8} {:>8} {:>8}\n", "card", "E XY", "E Z", "XY", "Z");
  for (const MaterialCard& card : cards) out += card_row(card);
  return out + "\nShow one with: crossgrain material CARD\n";
}

std::string card_list_json(const std::vector<MaterialCard>& cards) {
  Json list = Json::array();
  for (const MaterialCard& card : cards) {
    list.push_back({{"name", card.name}, {"title", card.title}, {"dry", values_json(card.dry)}});
  }
  return list.dump(2) + '\n';
}

std::string card_text(const MaterialCard& card, const MaterialAtConditions& material) {
  std::string out = fmt::format("{}: {}\n{}\n", card.name, card.title, card.note);
  if (card.glass_transition_K) {
    out += fmt::format("Glass transition {:.0f} degC\n", *card.glass_transition_K - 273.15);
  }
  list_values("On the card (dry)", card.dry, out);
  list_values("After moisture uptake", card.conditioned, out);
  if (!material.assumptions.empty()) out += "\nEstimated or weakly known, as used\n";
  for (const Assumption& assumption : material.assumptions) {
    out += value_line(assumption.quantity, assumption.value, assumption.low, assumption.high,
                      assumption.unit, name_of(assumption.standing), assumption.rule);
  }
  return out;
}

std::string card_json(const MaterialCard& card, const MaterialAtConditions& material) {
  Json assumptions = Json::array();
  for (const Assumption& assumption : material.assumptions) {
    assumptions.push_back(assumption_json(assumption));
  }
  const Json json = {{"name", card.name},
                     {"title", card.title},
                     {"note", card.note},
                     {"dry", values_json(card.dry)},
                     {"conditioned", values_json(card.conditioned)},
                     {"assumptions", assumptions}};
  return json.dump(2) + '\n';
}

}  // namespace crossgrain
