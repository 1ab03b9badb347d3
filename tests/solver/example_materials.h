// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/conditions/material.h"
#include "materials/elasticity/frame.h"

namespace crossgrain::testing {

/// Synthetic: round numbers to calculate with.
inline SolidMaterial plain_solid() {
  return {isotropic(2000.0, 0.35), Eigen::Vector3d::Constant(1e-4), 1.2e-9, DuctileStrength{40.0}};
}

/// Synthetic: nine unequal constants and three unequal expansions, none to be mistaken for another.
inline SolidMaterial nine_constant_solid() {
  return {{3000.0, 1800.0, 1200.0, 0.35, 0.40, 0.30, 500.0, 650.0, 800.0},
          {2e-5, 6e-5, 11e-5},
          1.1e-9,
          DuctileStrength{40.0}};
}

/// A frame along none of the axes and planes.
inline Frame skew_frame() { return frame_along({1.0, -2.0, 2.5}, {0.7, 1.0, 0.2}); }

}  // namespace crossgrain::testing
