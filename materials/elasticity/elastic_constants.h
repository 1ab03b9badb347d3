// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "materials/elasticity/tensor.h"

namespace crossgrain {

/// Nine elastic constants of an orthotropic solid.
/// Axes: 1 along the bead, 2 across it in the layer, 3 the build direction (from the plate to the
/// nozzle). nu_ij = -strain_j / strain_i for stress along i alone; nu_ij / E_i = nu_ji / E_j.
struct OrthotropicConstants {
  double E_1;    ///< [MPa]
  double E_2;    ///< [MPa]
  double E_3;    ///< [MPa]
  double nu_12;  ///< [-]
  double nu_13;  ///< [-]
  double nu_23;  ///< [-]
  double G_23;   ///< [MPa]
  double G_13;   ///< [MPa]
  double G_12;   ///< [MPa]
};

/// Constants of a printed solid that is isotropic in the layer plane (1, 2); 3 is the build
/// direction.
struct TransverselyIsotropicConstants {
  double E_layer;  ///< E_1 = E_2 [MPa]
  double E_build;  ///< E_3 [MPa]
  double nu_12;    ///< in the layer [-]
  double nu_13;    ///< stress in the layer, strain along the build direction [-]
  double G_build;  ///< G_13 = G_23 [MPa]
};

/// G_12 = E_layer / (2 (1 + nu_12)) follows from isotropy in the layer.
OrthotropicConstants orthotropic(const TransverselyIsotropicConstants& constants);

/// @param E  Young's modulus [MPa]  @param nu  Poisson's ratio [-]
OrthotropicConstants isotropic(double E, double nu);

/// Compliance in material axes: 6x6 [1/MPa], symmetric.
Matrix6d compliance(const OrthotropicConstants& constants);

/// Stiffness in material axes: 6x6 [MPa], symmetric positive definite.
/// @throws std::invalid_argument as require_admissible does.
Matrix6d stiffness(const OrthotropicConstants& constants);

/// Why a solid cannot be computed, naming the inequality that fails and the values in it: it stores
/// negative energy, or is too close to incompressible for displacement elements (isotropic
/// nu > 0.495). Nothing if it can. NaN fails.
std::optional<std::string> inadmissibility(const OrthotropicConstants& constants);

/// Refuse constants as `inadmissibility` says.
/// @throws std::invalid_argument naming the inequality that fails and the values in it; NaN fails.
void require_admissible(const OrthotropicConstants& constants);

}  // namespace crossgrain
