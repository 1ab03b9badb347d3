// SPDX-License-Identifier: GPL-3.0-or-later
#include <cassert>

#include "materials/failure/failure.h"

namespace crossgrain {

std::string_view name_of(FailureMode mode) {
  switch (mode) {
    case FailureMode::interlayer:
      return "interlayer";
    case FailureMode::in_layer_tension:
      return "in_layer_tension";
    case FailureMode::in_layer_compression:
      return "in_layer_compression";
    case FailureMode::build_compression:
      return "build_compression";
    case FailureMode::yielding:
      return "yielding";
    case FailureMode::brittle_tension:
      return "brittle_tension";
    case FailureMode::tsai_wu:
      return "tsai_wu";
    case FailureMode::maximum_stress:
      return "maximum_stress";
  }
  assert(false);
  return "";
}

std::string_view words_for(FailureMode mode) {
  switch (mode) {
    case FailureMode::interlayer:
      return "layers pull or slide apart";
    case FailureMode::in_layer_tension:
      return "the layer tears in its own plane";
    case FailureMode::in_layer_compression:
      return "the layer is crushed in its own plane";
    case FailureMode::build_compression:
      return "layers are crushed along the build direction";
    case FailureMode::yielding:
      return "the metal or solid plastic yields";
    case FailureMode::brittle_tension:
      return "a brittle solid cracks under tension";
    case FailureMode::tsai_wu:
      return "the Tsai-Wu polynomial reaches its limit (second opinion)";
    case FailureMode::maximum_stress:
      return "one stress component reaches its strength";
  }
  assert(false);
  return "";
}

std::vector<FailureMode> governing_modes(const Strength& strength, Criterion criterion) {
  if (std::holds_alternative<DuctileStrength>(strength)) return {FailureMode::yielding};
  if (std::holds_alternative<BrittleStrength>(strength)) return {FailureMode::brittle_tension};
  if (criterion == Criterion::maximum_stress) return {FailureMode::maximum_stress};
  return {FailureMode::interlayer, FailureMode::in_layer_tension, FailureMode::in_layer_compression,
          FailureMode::build_compression};
}

}  // namespace crossgrain
