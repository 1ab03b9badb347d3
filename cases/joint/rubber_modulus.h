// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// A modulus that comes out of a rule, with the range that the rule leaves.
struct RubberModulus {
  double value;  ///< [MPa]
  double low;    ///< [MPa]
  double high;   ///< [MPa]
};

/// Young's modulus of a rubber or a soft thermoplastic by its Shore A hardness:
/// E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)). Measured moduli of rubbers lie within
/// 30 % of it (from memory); above 80 Shore A, where the scale runs out, within a factor of 1.7.
/// @param shore_A  20 to 96
/// @throws std::invalid_argument outside: Shore A says too little there.
/// Source: A. N. Gent, Rubber Chem. Technol. 31 (1958), from memory.
RubberModulus modulus_by_hardness(double shore_A);

}  // namespace crossgrain
