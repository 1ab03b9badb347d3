// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/json_parts.h"

#include <cmath>
#include <stdexcept>

#include "tools/results/plain_text.h"

namespace crossgrain {
namespace {

/// nlohmann itself would write NaN as null without a word.
void make_plain(Json& value, const std::string& key, NotANumber policy) {
  if (value.is_number_float() && !std::isfinite(value.get<double>())) {
    if (policy == NotANumber::refused) {
      throw std::runtime_error("result " + key +
                               " is not a finite number: this is a mistake of the program");
    }
    value = nullptr;
  }
  if (value.is_string()) value = plain_text(value.get_ref<const std::string&>());
  if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i)
      make_plain(value[i], key + "[" + std::to_string(i) + "]", policy);
  }
  if (value.is_object()) {
    for (auto& [name, member] : value.items())
      make_plain(member, key.empty() ? name : key + "." + name, policy);
  }
}

}  // namespace

Json json_number(const std::optional<double>& value) {
  if (!value || std::isinf(*value)) return nullptr;
  return *value;
}

Json json_vector(const Eigen::Vector3d& vector) { return {vector.x(), vector.y(), vector.z()}; }

Json json_global_stress(const Vector6d& stress) {
  return {{"xx", stress[0]}, {"yy", stress[1]}, {"zz", stress[2]},
          {"xy", stress[5]}, {"yz", stress[3]}, {"xz", stress[4]}};
}

Json json_range(const FactorRange& factor) {
  return {{"value", json_number(factor.value)},
          {"low", json_number(factor.low)},
          {"high", json_number(factor.high)}};
}

Json json_mode(const ModeResult& mode) {
  Json out = json_range(mode.factor);
  const Vector6d& s = mode.stress;
  out["mode"] = name_of(mode.mode);
  out["position_mm"] = json_vector(mode.position);
  out["body"] = mode.body;
  out["face"] = mode.face ? Json(number(*mode.face)) : Json(nullptr);
  out["stress_material_axes_MPa"] = {{"11", s[0]}, {"22", s[1]}, {"33", s[2]},
                                     {"23", s[3]}, {"13", s[4]}, {"12", s[5]}};
  out["stress_basis"] = mode.stress_basis;
  out["mesh_error"] = json_number(mode.mesh_error);
  return out;
}

Json json_judgement(const Judgement& judgement) {
  Json out = json_range(judgement.factor);
  const Json place = judgement.governing ? json_mode(*judgement.governing) : Json::object();
  for (const char* key : {"mode", "position_mm", "body", "face", "stress_material_axes_MPa",
                          "stress_basis", "mesh_error"}) {
    out[key] = place.contains(key) ? place[key] : Json(nullptr);
  }
  out["applies"] = judgement.applies;
  out["limited_by"] = judgement.limited_by;
  out["modes"] = Json::object();
  for (const ModeResult& mode : judgement.modes)
    out["modes"][std::string(name_of(mode.mode))] = json_mode(mode);
  out["near_artificial_supports"] = Json::array();
  for (const ModeResult& mode : judgement.near_artificial)
    out["near_artificial_supports"].push_back(json_mode(mode));
  out["under_screw_heads"] = Json::array();
  for (const ModeResult& mode : judgement.under_heads)
    out["under_screw_heads"].push_back(json_mode(mode));
  return out;
}

std::string finished(Json document, NotANumber policy) {
  make_plain(document, "", policy);
  return document.dump(2) + "\n";
}

}  // namespace crossgrain
