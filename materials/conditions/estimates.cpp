// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/conditions/estimates.h"

#include <algorithm>
#include <cmath>

#include "materials/card_file/card_keys.h"

namespace crossgrain {
namespace {

// Every rule below is common practice or from memory, without a source, unless it names one. The
// ends of a range take the matching ends of what they are estimated from.

Ranged scaled(const Ranged& base, double value, double low, double high) {
  return {base.value * value, base.low * low, base.high * high};
}

/// Takes numbers from the card, or from a rule, and writes down those of weak standing.
class Ledger {
 public:
  Ledger(MaterialKind kind, const std::map<std::string, CardValue>& values,
         std::vector<Assumption>& assumptions)
      : kind_(kind), values_(values), assumptions_(assumptions) {}

  bool has(const std::string& key) const { return values_.contains(key); }

  Ranged given(const std::string& key) {
    const CardValue& number = values_.at(key);
    const Ranged ranged{number.value, number.low, number.high};
    if (number.standing == Standing::memory || number.standing == Standing::estimated)
      note(key, ranged, number.standing, number.source);
    return ranged;
  }

  Ranged given_or(const std::string& key, const Ranged& estimate, const std::string& rule) {
    return has(key) ? given(key) : estimated(key, estimate, rule);
  }

  Ranged estimated(const std::string& key, const Ranged& estimate, const std::string& rule) {
    note(key, estimate, Standing::estimated, rule);
    return estimate;
  }

 private:
  void note(const std::string& key, const Ranged& r, Standing standing, const std::string& rule) {
    assumptions_.push_back(
        {key, r.value, r.low, r.high, std::string(find_key(kind_, key)->unit), standing, rule});
  }

  MaterialKind kind_;
  const std::map<std::string, CardValue>& values_;
  std::vector<Assumption>& assumptions_;
};

/// The most that nu_13 may be: 1 - nu_12 - 2 nu_13^2 E_build / E_layer > 0, with 5 % to spare so
/// that the solid stays clear of incompressible.
double largest_nu_13(double nu_12, double E_build, double E_layer) {
  return 0.95 * std::sqrt((1.0 - nu_12) * E_layer / (2.0 * E_build));
}

/// Huber's estimate of a shear modulus from the two moduli: Huber, Z. Oesterr. Ing. Arch. Ver.
/// (1923), as used for orthotropic plates (from memory).
double huber(double E_layer, double E_build, double nu_13) {
  const double nu_31 = nu_13 * E_build / E_layer;
  return std::sqrt(E_layer * E_build) / (2.0 * (1.0 + std::sqrt(std::abs(nu_13 * nu_31))));
}

/// A number of moulded bars brought down to printed ones; unchanged for printed bars.
Ranged printed_from(Bars bars, Ledger& ledger, const std::string& key, const Ranged& factor,
                    const std::string& rule) {
  const Ranged sheet = ledger.given(key);
  if (bars == Bars::printed) return sheet;
  return ledger.estimated(key, scaled(sheet, factor.value, factor.low, factor.high),
                          "sheet of moulded bars: " + rule);
}

void fill_elastic(const MaterialCard& card, Ledger& ledger, LayeredConstants& c) {
  c.E_layer = printed_from(card.bars, ledger, "E_layer", {0.85, 0.7, 1.0},
                           "0.85 of it (0.7 to 1.0); common practice, no source");
  c.E_build = card.short_fibre ? ledger.given_or("E_build", scaled(c.E_layer, 0.45, 0.3, 0.7),
                                                 "0.45 E_layer for short fibre (0.3 to 0.7)")
                               : ledger.given_or("E_build", scaled(c.E_layer, 0.75, 0.6, 1.0),
                                                 "0.75 E_layer for unfilled polymer (0.6 to 1.0)");
  c.nu_12 = ledger.given_or("nu_12", {0.35, 0.30, 0.42}, "0.35 (0.30 to 0.42)");
  const auto clipped = [](double nu_13, double nu_12, double E_build, double E_layer) {
    return std::min(nu_13, largest_nu_13(nu_12, E_build, E_layer));
  };
  c.nu_13 = ledger.given_or("nu_13",
                            {clipped(0.35, c.nu_12.value, c.E_build.value, c.E_layer.value),
                             clipped(0.25, c.nu_12.low, c.E_build.low, c.E_layer.low),
                             clipped(0.45, c.nu_12.high, c.E_build.high, c.E_layer.high)},
                            "0.35 (0.25 to 0.45, as far as the solid stores positive energy)");
  c.G_build = ledger.given_or(
      "G_build",
      {0.8 * huber(c.E_layer.value, c.E_build.value, c.nu_13.value),
       0.55 * huber(c.E_layer.low, c.E_build.low, c.nu_13.low),
       1.0 * huber(c.E_layer.high, c.E_build.high, c.nu_13.high)},
      "0.8 of Huber's sqrt(E_layer E_build) / (2 (1 + sqrt(nu_13 nu_31))) (0.55 to 1.0 of it)");
}

/// In-layer tension: the sheet's bars have their beads along the load, a part has not.
Ranged judged_in_layer_strength(Ledger& ledger, const Ranged& along) {
  if (!ledger.has("Yt"))
    return ledger.estimated("Xt", scaled(along, 0.7, 0.5, 1.0),
                            "judged across the beads: 0.7 of the sheet's XY strength (0.5 to 1.0)");
  const Ranged across = ledger.given("Yt");
  return {std::min(along.value, across.value), std::min(along.low, across.low),
          std::min(along.high, across.high)};
}

void fill_strengths(const MaterialCard& card, Ledger& ledger, LayeredConstants& c) {
  const Ranged along = printed_from(
      card.bars, ledger, "Xt", {0.68, 0.65, 0.72},
      "0.65 to 0.72 of it, Ahn et al., Rapid Prototyping J. 8(4) 2002 for ABS (from memory)");
  c.Xt = judged_in_layer_strength(ledger, along);
  if (ledger.has("Xc"))
    c.Xc = printed_from(
        card.bars, ledger, "Xc", {0.85, 0.80, 0.90},
        "0.80 to 0.90 of it, Ahn et al., Rapid Prototyping J. 8(4) 2002 for ABS (from memory)");
  else
    c.Xc = ledger.estimated("Xc", scaled(along, 1.0, 1.0, 1.5),
                            "the XY tensile strength (1.0 to 1.5 of it)");
  c.Zt = card.short_fibre
             ? ledger.given_or("Zt", scaled(along, 0.3, 0.2, 0.5),
                               "0.3 of the XY strength for short fibre (0.2 to 0.5)")
             : ledger.given_or("Zt", scaled(along, 0.5, 0.3, 0.7),
                               "0.5 of the XY strength for unfilled polymer (0.3 to 0.7)");
  const double Zc = 0.8 * c.Xc.value;
  c.Zc = ledger.given_or("Zc", {Zc, std::min(Zc, c.Zt.low), std::max(Zc, c.Xc.high)},
                         "0.8 Xc (Zt to Xc)");
  c.Sz = ledger.given_or("Sz", scaled(c.Zt, 0.6, 0.45, 0.8), "0.6 Zt (0.45 to 0.8)");
}

void fill_physical(const MaterialCard& card, Ledger& ledger, LayeredConstants& c) {
  c.density = ledger.given_or("density", {1.2e-9, 0.9e-9, 1.4e-9}, "1.2 g/cm3 (0.9 to 1.4)");
  if (card.short_fibre) {
    c.cte_layer = ledger.given_or("cte_layer", {3e-5, 2e-5, 6e-5}, "30e-6 1/K (20 to 60)");
    c.cte_build = ledger.given_or("cte_build", {1.2e-4, 6e-5, 2.5e-4}, "120e-6 1/K (60 to 250)");
  } else {
    c.cte_layer = ledger.given_or("cte_layer", {8e-5, 5e-5, 1.5e-4}, "80e-6 1/K (50 to 150)");
    c.cte_build = ledger.given_or("cte_build", c.cte_layer, "as in the layer");
  }
}

}  // namespace

LayeredConstants layered_constants(const MaterialCard& card,
                                   const std::map<std::string, CardValue>& values,
                                   std::vector<Assumption>& assumptions) {
  Ledger ledger(card.kind, values, assumptions);
  LayeredConstants constants;
  fill_elastic(card, ledger, constants);
  fill_strengths(card, ledger, constants);
  fill_physical(card, ledger, constants);
  return constants;
}

IsotropicConstants isotropic_constants(const MaterialCard& card,
                                       const std::map<std::string, CardValue>& values,
                                       std::vector<Assumption>& assumptions) {
  Ledger ledger(card.kind, values, assumptions);
  IsotropicConstants c;
  const bool ductile = card.kind == MaterialKind::isotropic_ductile;
  const bool metal = card.nature == PolymerNature::not_a_polymer;
  c.E = ledger.given("E");
  c.strength = ledger.given(ductile ? "yield" : "tensile");
  c.nu = metal ? ledger.given_or("nu", {0.30, 0.25, 0.35}, "0.30 (0.25 to 0.35)")
               : ledger.given_or("nu", {0.36, 0.30, 0.42}, "0.36 (0.30 to 0.42)");
  c.density = metal
                  ? ledger.given_or("density", {7.8e-9, 2.5e-9, 9.0e-9}, "7.8 g/cm3 (2.5 to 9)")
                  : ledger.given_or("density", {1.2e-9, 0.9e-9, 1.4e-9}, "1.2 g/cm3 (0.9 to 1.4)");
  c.cte = metal ? ledger.given_or("cte", {1.7e-5, 1e-5, 2.4e-5}, "17e-6 1/K (10 to 24)")
                : ledger.given_or("cte", {8e-5, 5e-5, 1.5e-4}, "80e-6 1/K (50 to 150)");
  return c;
}

}  // namespace crossgrain
