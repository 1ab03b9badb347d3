// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/insert_pull_out.h"
#include "cases/joint/joint_line.h"
#include "materials/conditions/material.h"

namespace crossgrain {

// What the material of a screw's seat stands, read from its strengths: layered solids by the
// direction of the screw, others alike all round.

/// Under a head: a share of the short-term compressive strength along the screw (of the yield of a
/// ductile solid, the tensile strength of a brittle one).
/// @param short_term   strengths at the joint's temperature, no time under load taken off: the
/// share
///                     holds that already
/// @param share        see `BearingShare` [-]  @param share_given  by the user
JointLimit seat_bearing_limit(const Strength& short_term, bool along_build, double share,
                              bool share_given);

/// Pulled across its layers at the joint's conditions: Zt, on the authority that its card has for
/// it; of a solid without layers its yield or tensile strength.
JointLimit seat_tension_limit(const MaterialAtConditions& material);

/// Round an insert: Sz, which both directions of insert load somewhere; yield / sqrt 3 of a ductile
/// solid; of a brittle one the tensile strength, which pure shear reaches as its largest principal
/// stress.
ShearStrength seat_shear_strength(const MaterialAtConditions& material);

}  // namespace crossgrain
