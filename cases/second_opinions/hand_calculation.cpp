// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/hand_calculation.h"

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>
#include <vector>

#include "cases/second_opinions/handbook_stress.h"

namespace crossgrain {
namespace {

[[noreturn]] void refuse(const HandCalculationSpec& spec, const std::string& complaint) {
  std::ostringstream message;
  message << spec.place.file << ":" << spec.place.line << ": hand calculation: " << complaint;
  throw std::invalid_argument(message.str());
}

bool rectangular(HandShape shape) {
  return shape == HandShape::clamped_rectangular_panel ||
         shape == HandShape::supported_rectangular_panel;
}

void require_sizes(const HandCalculationSpec& spec) {
  const auto require = [&](bool sound, const char* what, double value) {
    if (sound) return;
    std::ostringstream complaint;
    complaint << what << ", it is " << value << " mm";
    refuse(spec, complaint.str());
  };
  require(spec.inner_radius > 0.0 && std::isfinite(spec.inner_radius),
          "inner_radius must be positive", spec.inner_radius);
  require(spec.wall > 0.0 && std::isfinite(spec.wall), "wall must be positive", spec.wall);
  if (rectangular(spec.shape))
    require(spec.length >= 2.0 * spec.inner_radius && std::isfinite(spec.length),
            "length is the long side of the panel, at least twice inner_radius (half the short "
            "side)",
            spec.length);
}

struct HandStress {
  double value;  // [MPa]
  const char* shape;
  const char* formula;
};

HandStress stress_of(const HandCalculationSpec& spec, double p, double nu) {
  const double a = spec.inner_radius;
  const double t = spec.wall;
  switch (spec.shape) {
    case HandShape::thin_cylinder:
      return {thin_cylinder_stress(p, a, t), "thin-walled cylinder",
              "hoop stress p r / t (Roark's Formulas, Table 13.1)"};
    case HandShape::thick_cylinder:
      return {thick_cylinder_stress(p, a, t), "thick-walled cylinder",
              "hoop stress at the bore p (b^2 + a^2) / (b^2 - a^2) (Lame; Roark's Formulas, "
              "Table 13.5)"};
    case HandShape::thin_sphere:
      return {thin_sphere_stress(p, a, t), "thin-walled sphere",
              "hoop stress p r / (2 t) (Roark's Formulas, Table 13.1)"};
    case HandShape::thick_sphere:
      return {thick_sphere_stress(p, a, t), "thick-walled sphere",
              "hoop stress at the bore p (2 a^3 + b^3) / (2 (b^3 - a^3)) (Lame; Roark's Formulas, "
              "Table 13.5)"};
    case HandShape::clamped_round_panel:
      return {clamped_round_plate_stress(p, a, t), "round panel, edge clamped",
              "bending stress at the edge 0.75 p a^2 / t^2 (Roark's Formulas, Table 11.2)"};
    case HandShape::supported_round_panel:
      return {supported_round_plate_stress(p, a, t, nu), "round panel, edge supported",
              "bending stress at the centre 3 (3 + nu) p a^2 / (8 t^2) (Roark's Formulas, "
              "Table 11.2)"};
    case HandShape::clamped_rectangular_panel:
      return {clamped_rectangular_plate_stress(p, 2.0 * a, spec.length, t),
              "rectangular panel, edges clamped",
              "bending stress at the long edge beta_1 p b^2 / t^2 (Roark's Formulas, Table 11.4)"};
    case HandShape::supported_rectangular_panel:
      return {supported_rectangular_plate_stress(p, 2.0 * a, spec.length, t),
              "rectangular panel, edges supported",
              "bending stress at the centre beta p b^2 / t^2 (Roark's Formulas, Table 11.4)"};
    case HandShape::none:
      break;
  }
  refuse(spec, "no shape is named");
}

std::string rounded(double value) {
  std::ostringstream text;
  text.precision(3);
  text << value;
  return text.str();
}

bool printed_in_layers(const SolidMaterial& material) {
  return std::holds_alternative<LayeredStrength>(material.strength);
}

}  // namespace

HandStrength hand_strength(const MaterialCard& card, Moisture moisture) {
  const char* key = card.kind == MaterialKind::layered             ? "Xt"
                    : card.kind == MaterialKind::isotropic_ductile ? "yield"
                                                                   : "tensile";
  const bool wet = moisture == Moisture::conditioned && card.conditioned.contains(key);
  const CardValue& value = wet ? card.conditioned.at(key) : card.dry.at(key);
  std::string words = card.kind == MaterialKind::layered ? "the XY tensile strength of the card"
                      : card.kind == MaterialKind::isotropic_ductile ? "the yield strength"
                                                                     : "the tensile strength";
  return {value.value, words + " (" + card.name + (wet ? ", conditioned)" : ")")};
}

HandCalculationResult hand_calculation(const HandCalculationSpec& spec, double pressure, double nu,
                                       const HandStrength& strength) {
  if (spec.shape == HandShape::none) refuse(spec, "no shape is named");
  require_sizes(spec);
  if (!(std::abs(pressure) > 0.0 && std::isfinite(pressure)))
    refuse(spec, "its pressure is zero or not finite");
  if (!(strength.value > 0.0)) refuse(spec, "its strength must be positive");

  const HandStress stress = stress_of(spec, std::abs(pressure), nu);
  HandCalculationResult result;
  result.shape = stress.shape;
  result.formula = stress.formula;
  result.stress_MPa = stress.value;
  result.safety_factor = strength.value / stress.value;
  result.strength = strength.words;
  return result;
}

std::optional<double> thick_wall_factor(const HandCalculationSpec& spec, double pressure,
                                        const HandStrength& strength) {
  HandCalculationSpec thick = spec;
  if (spec.shape == HandShape::thin_cylinder)
    thick.shape = HandShape::thick_cylinder;
  else if (spec.shape == HandShape::thin_sphere)
    thick.shape = HandShape::thick_sphere;
  else
    return std::nullopt;
  return hand_calculation(thick, pressure, 0.0, strength).safety_factor;
}

void add_chain(HandCalculationResult& result, const ChainFactors& factors) {
  const std::pair<const char*, std::optional<double>> stations[] = {
      {"Lame's thick wall", factors.thick_wall},
      {"the real shape, isotropic", factors.real_shape_isotropic},
      {"the printed stiffness", factors.real_shape_anisotropic},
      {"strengths by direction at service conditions", factors.full}};
  result.chain.clear();
  std::string from = "the hand calculation (" + result.shape + ")";
  double factor = factors.hand;
  for (const auto& [to, next] : stations) {
    if (!next || !(*next > 0.0) || !(factor > 0.0)) continue;
    result.chain.push_back({from, to, *next / factor});
    from = to;
    factor = *next;
  }
  if (!factors.full || result.chain.empty()) {
    result.sentence = "The hand calculation gives a factor of " + rounded(factors.hand) +
                      "; there is no factor of the full analysis to compare it with.";
    return;
  }
  const ChainStep* largest = &result.chain.front();
  for (const ChainStep& step : result.chain)
    if (std::abs(std::log(step.ratio)) > std::abs(std::log(largest->ratio))) largest = &step;
  const double whole = *factors.full / factors.hand;
  result.sentence = "The hand calculation gives a factor of " + rounded(factors.hand) +
                    ", this analysis " + rounded(*factors.full) + " (times " + rounded(whole) +
                    "). The largest step is from " + largest->from + " to " + largest->to +
                    ": times " + rounded(largest->ratio) + ".";
}

SolidMaterial isotropic_with_hand_strength(const SolidMaterial& printed,
                                           const HandStrength& strength) {
  SolidMaterial material = with_hand_strength(printed, strength);
  if (printed_in_layers(printed))
    material.elastic = isotropic(printed.elastic.E_1, printed.elastic.nu_12);
  return material;
}

SolidMaterial with_hand_strength(const SolidMaterial& printed, const HandStrength& strength) {
  SolidMaterial material = printed;
  if (printed_in_layers(printed)) material.strength = BrittleStrength{strength.value};
  return material;
}

SolidMaterial isotropic_with_Z(const SolidMaterial& printed) {
  SolidMaterial material = printed;
  if (!printed_in_layers(printed)) return material;
  material.elastic = isotropic(printed.elastic.E_3, printed.elastic.nu_12);
  material.strength = BrittleStrength{std::get<LayeredStrength>(printed.strength).Zt};
  return material;
}

}  // namespace crossgrain
