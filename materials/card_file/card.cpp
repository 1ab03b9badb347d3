// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/card_file/card.h"

#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

#include "materials/card_file/card_keys.h"
#include "materials/units/nearest_name.h"
#include "materials/units/quantity.h"

namespace crossgrain {
namespace {

constexpr double room_temperature_K = 296.15;
// Numbers without a stated range: common practice, no source.
constexpr double range_from_memory = 0.20;

template <typename Value>
using Words = std::vector<std::pair<std::string, Value>>;

const Words<Standing> standings{{"measured", Standing::measured},
                                {"data_sheet", Standing::data_sheet},
                                {"memory", Standing::memory},
                                {"estimated", Standing::estimated}};
const Words<MaterialKind> kinds{{"layered", MaterialKind::layered},
                                {"isotropic_ductile", MaterialKind::isotropic_ductile},
                                {"isotropic_brittle", MaterialKind::isotropic_brittle}};
const Words<PolymerNature> natures{{"amorphous", PolymerNature::amorphous},
                                   {"semi_crystalline", PolymerNature::semi_crystalline},
                                   {"not_a_polymer", PolymerNature::not_a_polymer}};
const Words<Bars> bar_kinds{{"printed", Bars::printed}, {"moulded", Bars::moulded}};

/// Where a number comes from if it does not say so itself.
struct DefaultSource {
  std::optional<Standing> standing;
  std::string source;
};

/// Reads one file; every complaint names the file and the line.
class CardReader {
 public:
  explicit CardReader(const std::filesystem::path& file) : file_(file) {
    if (!std::filesystem::is_regular_file(file))
      throw std::invalid_argument(file.string() + ": no such material card");
    try {
      root_ = toml::parse_file(file.string());
    } catch (const toml::parse_error& error) {
      throw std::invalid_argument(place(error.source()) +
                                  "not valid TOML: " + std::string(error.description()));
    }
  }

  MaterialCard read() {
    MaterialCard card;
    card.file = file_;
    card.name = file_.stem().string();
    read_head(card);
    card.dry = read_numbers(card, "dry");
    card.conditioned = read_numbers(card, "conditioned");
    require_needed(card);
    read_temperature_points(card);
    return card;
  }

 private:
  std::string place(const toml::source_region& region) const {
    std::ostringstream text;
    text << file_.string() << ":" << region.begin.line << ": ";
    return text.str();
  }

  [[noreturn]] void refuse(const toml::node& node, const std::string& complaint) const {
    throw std::invalid_argument(place(node.source()) + complaint);
  }

  void refuse_unknown(const toml::table& table, const std::vector<std::string>& known) const {
    for (const auto& [key, node] : table) {
      const std::string name(key.str());
      if (std::find(known.begin(), known.end(), name) == known.end())
        refuse(node, "unknown key \"" + name + "\"" + did_you_mean(name, known));
    }
  }

  std::string text(const toml::table& table, std::string_view key) const {
    const toml::node* node = table.get(key);
    if (node == nullptr) return "";
    if (!node->is_string()) refuse(*node, std::string(key) + " must be a text in quotes");
    return node->value<std::string>().value();
  }

  template <typename Value>
  std::optional<Value> word(const toml::table& table, std::string_view key,
                            const Words<Value>& words) const {
    const toml::node* node = table.get(key);
    if (node == nullptr) return std::nullopt;
    const std::string written = text(table, key);
    std::string list;
    for (const auto& [name, value] : words) {
      if (name == written) return value;
      list += (list.empty() ? "\"" : ", \"") + name + "\"";
    }
    refuse(*node, std::string(key) + " = \"" + written + "\" is none of " + list);
  }

  /// A quantity in quotes; plain numbers only where there is no unit to forget.
  double number(const toml::node& node, const std::string& key, Dimension dimension) const {
    double value = 0.0;
    if (const auto written = node.value_exact<std::string>()) {
      try {
        value = parse_quantity(*written, dimension);
      } catch (const std::invalid_argument& error) {
        refuse(node, key + " = " + error.what());
      }
    } else if (node.is_number() && dimension == Dimension::fraction) {
      value = node.value<double>().value();
    } else {
      refuse(node, key + " must be a quantity in quotes, in one of: " + accepted_units(dimension));
    }
    if (!std::isfinite(value)) refuse(node, key + " is not finite");
    return value;
  }

  CardValue value_with_source(const toml::node& node, const std::string& key, Dimension dimension,
                              const DefaultSource& fallback) const {
    const toml::table* table = node.as_table();
    const toml::table nothing;
    const toml::table& detail = table != nullptr ? *table : nothing;
    refuse_unknown(detail, {"value", "low", "high", "standing", "source"});
    const toml::node* main = table != nullptr ? table->get("value") : &node;
    if (main == nullptr) refuse(node, key + " has no \"value\"");

    CardValue result;
    result.value = number(*main, key, dimension);
    const auto standing = word(detail, "standing", standings);
    if (!standing && !fallback.standing)
      refuse(node, key +
                       " does not say how well it is known; add standing and source here or at the "
                       "top of the card");
    result.standing = standing ? *standing : *fallback.standing;
    result.source = detail.contains("source") ? text(detail, "source") : fallback.source;
    if (result.source.empty())
      refuse(node, key +
                       " has no source; name the data sheet or publication, or write \"indicative, "
                       "from memory\"");
    read_range(detail, key, dimension, result);
    return result;
  }

  void read_range(const toml::table& detail, const std::string& key, Dimension dimension,
                  CardValue& result) const {
    const bool weak = result.standing == Standing::memory || result.standing == Standing::estimated;
    // An absolute temperature has no meaningful percentage.
    const double spread = weak && dimension != Dimension::temperature ? range_from_memory : 0.0;
    const double half_width = spread * std::abs(result.value);
    const toml::node* low = detail.get("low");
    const toml::node* high = detail.get("high");
    result.low = low ? number(*low, key + " low", dimension) : result.value - half_width;
    result.high = high ? number(*high, key + " high", dimension) : result.value + half_width;
    if (low && !(result.low <= result.value)) refuse(*low, key + " low is above its value");
    if (high && !(result.high >= result.value)) refuse(*high, key + " high is below its value");
  }

  void require_bound(const toml::node& node, const CardKey& key, const CardValue& value) const {
    const std::string name(key.name);
    if (key.bound == Bound::positive && !(value.low > 0.0))
      refuse(node, name + " must be positive, with its whole range");
    if (key.bound == Bound::poisson && !(value.low > -1.0 && value.high < 1.0))
      refuse(node, name + " must lie between -1 and 1, with its whole range");
  }

  void read_head(MaterialCard& card) const {
    refuse_unknown(root_, {"title", "kind", "nature", "bars", "short_fibre", "standing", "source",
                           "glass_transition", "bead_width", "creep_modulus_kept", "note", "dry",
                           "conditioned", "temperature"});
    card.title = text(root_, "title");
    if (card.title.empty()) card.title = card.name;
    card.note = text(root_, "note");
    card.standing = word(root_, "standing", standings);
    card.source = text(root_, "source");
    card.kind = needed(word(root_, "kind", kinds), "kind", "layered");
    const bool layered = card.kind == MaterialKind::layered;
    card.nature = layered ? needed(word(root_, "nature", natures), "nature", "amorphous")
                          : word(root_, "nature", natures).value_or(PolymerNature::not_a_polymer);
    if (layered)
      card.bars =
          needed(word(root_, "bars", bar_kinds), "bars", "printed",
                 ": sheets quote printed or moulded bars, and moulded ones flatter a print");
    if (const toml::node* node = root_.get("short_fibre")) {
      if (!node->is_boolean()) refuse(*node, "short_fibre must be true or false");
      card.short_fibre = node->value<bool>().value();
    }
    if (const auto value = head_number(card, "glass_transition", Dimension::temperature))
      card.glass_transition_K = value->value;
    if (const auto value = head_number(card, "bead_width", Dimension::length, Bound::positive))
      card.bead_width_mm = value->value;
    card.creep_modulus_kept =
        head_number(card, "creep_modulus_kept", Dimension::fraction, Bound::positive);
  }

  template <typename Value>
  Value needed(std::optional<Value> value, const std::string& key, const std::string& example,
               const std::string& reason = "") const {
    if (value) return *value;
    throw std::invalid_argument(file_.string() + ": " + key + " is missing, write for instance " +
                                key + " = \"" + example + "\"" + reason);
  }

  std::optional<CardValue> head_number(const MaterialCard& card, std::string_view key,
                                       Dimension dimension, Bound bound = Bound::any) const {
    const toml::node* node = root_.get(key);
    if (node == nullptr) return std::nullopt;
    const CardValue value =
        value_with_source(*node, std::string(key), dimension, {card.standing, card.source});
    require_bound(*node, CardKey{key, dimension, bound, false, "", ""}, value);
    return value;
  }

  std::map<std::string, CardValue> read_numbers(const MaterialCard& card,
                                                std::string_view section) {
    std::map<std::string, CardValue> numbers;
    const toml::node* section_node = root_.get(section);
    if (section_node == nullptr) return numbers;
    const toml::table* table = section_node->as_table();
    if (table == nullptr) refuse(*section_node, std::string(section) + " must be a table");
    for (const auto& [key, node] : *table) {
      const std::string name(key.str());
      if (name == "nu_31" && card.kind == MaterialKind::layered) continue;
      const CardKey* known = find_key(card.kind, name);
      if (known == nullptr) refuse_key(node, name, card.kind);
      const CardValue value =
          value_with_source(node, name, known->dimension, {card.standing, card.source});
      require_bound(node, *known, value);
      numbers[name] = value;
    }
    if (table->contains("nu_31") && card.kind == MaterialKind::layered)
      convert_nu_31(card, *table->get("nu_31"), numbers);
    refuse_layers_of_moulded_bars(card, *table);
    return numbers;
  }

  [[noreturn]] void refuse_key(const toml::node& node, const std::string& name,
                               MaterialKind kind) const {
    if (kind == MaterialKind::layered)
      if (const auto remedy = remedy_for_ambiguous_key(name))
        refuse(node, "\"" + name + "\" is ambiguous for layered material: " + *remedy);
    std::vector<std::string> known;
    for (const CardKey& key : keys_of(kind)) known.emplace_back(key.name);
    if (kind != MaterialKind::layered && find_key(MaterialKind::layered, name) != nullptr)
      refuse(node, "\"" + name + "\" belongs to layered material, this card says it is isotropic");
    refuse(node, "unknown key \"" + name + "\"" + did_you_mean(name, known));
  }

  /// nu_31 (pulled along the build, contraction in the layer) = nu_13 E_build / E_layer.
  void convert_nu_31(const MaterialCard& card, const toml::node& node,
                     std::map<std::string, CardValue>& numbers) const {
    if (numbers.contains("nu_13")) refuse(node, "give nu_13 or nu_31, not both");
    if (!numbers.contains("E_layer") || !numbers.contains("E_build"))
      refuse(node,
             "nu_31 can be turned into nu_13 = nu_31 E_layer / E_build only beside E_layer and "
             "E_build; give them in the same table, or give nu_13");
    CardValue value =
        value_with_source(node, "nu_31", Dimension::fraction, {card.standing, card.source});
    const double ratio = numbers["E_layer"].value / numbers["E_build"].value;
    value.value *= ratio;
    value.low *= ratio;
    value.high *= ratio;
    value.source += " (given as nu_31, times E_layer / E_build)";
    require_bound(node, *find_key(MaterialKind::layered, "nu_13"), value);
    numbers["nu_13"] = value;
  }

  void refuse_layers_of_moulded_bars(const MaterialCard& card, const toml::table& table) const {
    if (card.kind != MaterialKind::layered || card.bars != Bars::moulded) return;
    for (const char* key : {"E_build", "nu_31", "G_build", "Zt", "Zc", "Sz", "Yt"})
      if (const toml::node* node = table.get(key))
        refuse(*node, std::string(key) +
                          " cannot come from a moulded bar, which has no layers; write bars = "
                          "\"printed\" or leave " +
                          key + " out");
  }

  void require_needed(const MaterialCard& card) const {
    for (const CardKey& key : keys_of(card.kind))
      if (key.required && !card.dry.contains(std::string(key.name)))
        throw std::invalid_argument(file_.string() + ": [dry] lacks " + std::string(key.name) +
                                    ", the " + std::string(key.meaning) +
                                    "; nothing can be judged without it");
  }

  void read_temperature_points(MaterialCard& card) const {
    const toml::node* node = root_.get("temperature");
    if (node == nullptr) return;
    const toml::array* points = node->as_array();
    if (points == nullptr) refuse(*node, "write temperature points as [[temperature]]");
    for (const toml::node& entry : *points) {
      const toml::table* table = entry.as_table();
      if (table == nullptr) refuse(entry, "write temperature points as [[temperature]]");
      card.temperature_points.push_back(temperature_point(card, *table));
      const std::size_t count = card.temperature_points.size();
      if (count > 1 && !(card.temperature_points[count - 1].temperature_K >
                         card.temperature_points[count - 2].temperature_K))
        refuse(entry, "temperature points must rise from one to the next");
    }
  }

  MaterialCard::TemperaturePoint temperature_point(const MaterialCard& card,
                                                   const toml::table& table) const {
    refuse_unknown(table, {"at", "strength_kept", "modulus_kept", "standing", "source"});
    for (const char* key : {"at", "strength_kept", "modulus_kept"})
      if (!table.contains(key)) refuse(table, "this temperature point lacks " + std::string(key));
    MaterialCard::TemperaturePoint point;
    point.temperature_K = number(*table.get("at"), "at", Dimension::temperature);
    point.strength_kept = number(*table.get("strength_kept"), "strength_kept", Dimension::fraction);
    point.modulus_kept = number(*table.get("modulus_kept"), "modulus_kept", Dimension::fraction);
    if (!(point.strength_kept > 0.0 && point.modulus_kept > 0.0))
      refuse(table, "strength_kept and modulus_kept must be positive; leave out points past use");
    const bool at_room = std::abs(point.temperature_K - room_temperature_K) < 0.01;
    if (at_room && !(point.strength_kept == 1.0 && point.modulus_kept == 1.0))
      refuse(table, "strength_kept and modulus_kept are fractions of the 23 degC values: 1 there");
    const auto standing = word(table, "standing", standings);
    const std::string source = text(table, "source");
    point.source = source.empty() ? card.source : source;
    if (!(standing || card.standing) || point.source.empty())
      refuse(table, "this temperature point names no standing or source");
    point.standing = standing ? *standing : *card.standing;
    return point;
  }

  std::filesystem::path file_;
  toml::table root_;
};

}  // namespace

std::string_view name_of(Standing standing) {
  for (const auto& [name, value] : standings)
    if (value == standing) return name;
  return "";
}

MaterialCard read_card(const std::filesystem::path& file) { return CardReader(file).read(); }

}  // namespace crossgrain
