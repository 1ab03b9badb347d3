// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/elements/material_field.h"
#include "solver/static_solver.h"

namespace crossgrain {

/// A field of the best isotropic solids, which serves a solver for every direction: as what its
/// iterations start from, and to measure residuals by.
struct IsotropicField {
  MaterialField field;
  double least;     ///< eigenvalue of the stiffness against the isotropic one, over all materials
  double greatest;  ///< for any direction
};

/// @param field  whose frames do not count.
IsotropicField isotropic_field(const MaterialField& field);

/// Bounds on the error of displacements by their residuals r: its energy norm is at most the
/// square root of r . K_isotropic^-1 r / least, and at least that of ... / greatest.
/// @param solver     whose material is the isotropic field; its tolerance is that of the bounds.
/// @param residuals  f - K u, unknowns x n [N]; what acts on held directions does not count.
/// @return of each column, the upper bound on the square root of (error . K error) [sqrt(N mm)].
Eigen::VectorXd energy_error_bounds(StaticSolver& solver, const IsotropicField& isotropic,
                                    const Eigen::MatrixXd& residuals);

}  // namespace crossgrain
