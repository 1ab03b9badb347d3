// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/rubber_modulus.h"

#include "cases/joint/stated_number.h"

namespace crossgrain {

RubberModulus modulus_by_hardness(double shore_A) {
  const double S = within(shore_A, 20.0, 96.0, "hardness", "Shore A");
  const double E = 0.0981 * (56.0 + 7.62336 * S) / (0.137505 * (254.0 - 2.54 * S));
  if (S > 80.0) return {E, E / 1.7, E * 1.7};
  return {E, 0.7 * E, 1.3 * E};
}

}  // namespace crossgrain
