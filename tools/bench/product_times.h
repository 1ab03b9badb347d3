// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/assembly/stiffness_assembly.h"

namespace crossgrain::bench {

/// The fine level's product in single precision, of a stored matrix and element by element.
struct ProductTimes {
  double seconds_stored, seconds_by_elements;  ///< the best of several, by turns
  double bytes_stored, bytes_by_elements;      ///< read in each, vectors not counted
};

/// @param assembly  holds a stiffness.
ProductTimes product_times(const StiffnessAssembly& assembly);

}  // namespace crossgrain::bench
