// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/elements/material_field.h"
#include "solver/interface/interface_point.h"

namespace crossgrain {

/// Give every point the stiffness with which faces push or tie directly: 20 times that of one
/// element behind either face, in series, along the normal. Stiffer ones would make both faces
/// follow each other point by point, which two meshes that do not match cannot without locking;
/// augmentation takes away what the faces then go into each other in the mean.
void set_contact_stiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                           std::vector<InterfacePoint>& points);

/// Depth of one element behind either face, in series, by its modulus: faces under a pressure go
/// this much times the pressure closer [mm/MPa].
double element_compliance(const InterfacePoint& point);

}  // namespace crossgrain
