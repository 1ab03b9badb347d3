// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/elements/quadrature.h"

namespace crossgrain::testing {

/// Conical product of Gauss-Jacobi rules (A. H. Stroud, Approximate Calculation of Multiple
/// Integrals, 1971): degree 2 n - 1 with n^3 points, for any n. Not symmetric; computed, not
/// tabulated, and so a check on the tabulated rules.
TetrahedronRule conical_rule(int n);

}  // namespace crossgrain::testing
