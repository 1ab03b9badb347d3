// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crossgrain {

/// How well a number is known.
enum class Standing { measured, data_sheet, memory, estimated };
std::string_view name_of(Standing standing);

enum class MaterialKind { layered, isotropic_ductile, isotropic_brittle };
enum class PolymerNature { amorphous, semi_crystalline, not_a_polymer };

/// Which bars the sheet's numbers were measured on; moulded ones flatter a print.
enum class Bars { printed, moulded };

/// One number of a card, in internal units, with the range it may lie in.
struct CardValue {
  double value;
  double low;
  double high;
  Standing standing;
  std::string source;  ///< a publication, a data sheet, or "indicative, from memory"
};

/// A material card: what a TOML file in materials/cards/ or beside the user's case says.
/// Keys of `dry` and `conditioned`: E_layer E_build nu_12 nu_13 G_build Xt Yt Xc Zt Zc Sz density
/// cte_layer cte_build (layered) or E nu yield tensile density cte (isotropic); see card_keys.h.
/// Values a data sheet leaves out are absent here: material_at estimates them.
struct MaterialCard {
  std::string name;
  std::string title;
  std::filesystem::path file;
  MaterialKind kind;
  PolymerNature nature;
  Bars bars = Bars::printed;
  bool short_fibre = false;
  std::optional<double> glass_transition_K;
  std::optional<double> bead_width_mm;
  /// Of the short-term modulus left after 1000 h under load [-].
  std::optional<CardValue> creep_modulus_kept;
  std::map<std::string, CardValue> dry;
  std::map<std::string, CardValue>
      conditioned;  ///< what differs after moisture uptake; may be empty
  struct TemperaturePoint {
    double temperature_K;
    double strength_kept;  ///< [-] of the 23 degC value
    double modulus_kept;   ///< [-]
    Standing standing;
    std::string source;
  };
  std::vector<TemperaturePoint> temperature_points;  ///< ascending; may be empty
  std::optional<Standing> standing;                  ///< of every number that does not say its own
  std::string source;                                ///< of every number that does not say its own
  std::string note;
};

/// Read and check one card.
/// @throws std::invalid_argument naming file, line, key, value and remedy.
MaterialCard read_card(const std::filesystem::path& file);

/// Find a card by name ("petg") among the program's cards or by path relative to `beside`.
/// @throws std::invalid_argument suggesting the nearest known name.
MaterialCard find_card(const std::string& name_or_path, const std::filesystem::path& beside);

/// The directory of the program's own cards: the installed one, else the source tree's;
/// the environment variable CROSSGRAIN_CARDS overrides both.
std::filesystem::path card_directory();

/// Names of the program's cards, sorted.
std::vector<std::string> known_cards();

}  // namespace crossgrain
