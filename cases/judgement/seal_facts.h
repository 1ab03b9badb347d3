// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/joint_facts.h"
#include "cases/loads/joined_bodies.h"

namespace crossgrain {

/// What a gasket between two bodies is held to, with places at which the fluid may pass: one for
/// each pair of mesh triangles that meet, and the edges of the face it lies on, wetted or leading
/// out.
/// @param pair  the gasket's.  @param fluid  that it keeps in; null: none comes near.
SealFacts seal_facts(const GasketSpec& spec, const InterfacePair& pair, const JoinedFluid* fluid,
                     const std::vector<ElasticScrew>& screws, double screw_hole,
                     const TetrahedronMesh& mesh);

/// A quantity of the pair's points as its mean at the same places: its contact [MPa], its gap [mm].
std::vector<double> mean_at_places(const InterfacePair& pair, const Eigen::VectorXd& of_points);

}  // namespace crossgrain
