// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/loads/joined_bodies.h"

namespace crossgrain {

/// @throws std::invalid_argument if faces do not meet, naming their distance as far as it is known.
InterfacePair pair_contact(const ContactSpec& spec, const Geometry& geometry,
                           const Features& features, const TetrahedronMesh& mesh,
                           const MaterialField& field);

/// @throws std::invalid_argument likewise; std::logic_error for a gasket without a mate.
InterfacePair pair_gasket(const GasketSpec& spec, const Geometry& geometry,
                          const Features& features, const TetrahedronMesh& mesh,
                          const MaterialField& field);

}  // namespace crossgrain
