// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/elasticity/elastic_constants.h"

namespace crossgrain {

/// The isotropic solid whose stiffness is most like another's, whichever way that one is turned.
struct IsotropicNeighbour {
  OrthotropicConstants constants;
  double least;     ///< eigenvalue of C x = lambda C_isotropic x [-]
  double greatest;  ///< its inverse: neither is larger or smaller in the mean
  double condition() const { return greatest / least; }
};

/// Of all isotropic solids the one with the least ratio of the extreme eigenvalues.
/// @throws std::invalid_argument as require_admissible does.
IsotropicNeighbour isotropic_neighbour(const OrthotropicConstants& constants);

}  // namespace crossgrain
