// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/elements/material_field.h"
#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Give the points of a pair the stiffness with which faces push or tie directly: five times that
/// of one element behind either face, in series, along the normal, in the mean over the pair: the
/// same at all of them, or a constant pressure would bend the faces. Two meshes that do not match
/// cannot follow each other point by point: under a sphere with three elements to the contact's
/// radius a stiffness of 20 made pressure at points scatter by 15 to 30 %, this one by 5 to 10 %,
/// about the same means. What the faces then go into each other in the mean, augmentation takes
/// away.
void set_contact_stiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                           std::vector<InterfacePoint>& points);

/// What one element behind either face, in series, gives under a pressure, in the mean over the
/// pair [mm/MPa].
double element_compliance(const InterfacePoint& point);

}  // namespace crossgrain
