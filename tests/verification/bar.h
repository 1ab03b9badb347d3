// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/elasticity/elastic_constants.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {

/// A free block under uniform stress: all six faces carry the traction, so that it may shear as it
/// likes, and no support takes part.
struct StressedBlock {
  Model model;
  Answer answer;
};

/// @param stress  [MPa], global axes.
/// @param distortion  how far inner nodes are moved, mid-side nodes too, as a share of a cell; the
///                    faces stay flat.
StressedBlock stressed_block(const SolidMaterial& material, const Frame& frame,
                             const Vector6d& stress, double distortion = 0.0);

/// The block free of force, warmed by `kelvin` everywhere.
StressedBlock warmed_block(const SolidMaterial& material, const Frame& frame, double kelvin,
                           double distortion = 0.0);

/// Strain of the linear field that fits the nodal displacements best, engineering shear, and how
/// far the displacements are from that field, as a share of the largest.
struct FittedStrain {
  Vector6d strain;
  double misfit;
};
FittedStrain fitted_strain(const StressedBlock& block);

/// Uniform tension [MPa] along x.
Vector6d tension(double stress);

/// Strain in the axes of a frame. @param strain  engineering shear, global axes.
Vector6d strain_in_axes(const Vector6d& strain, const Frame& frame);

}  // namespace crossgrain::verification
