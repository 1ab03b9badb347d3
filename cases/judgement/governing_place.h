// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/judgement/governing_state.h"

namespace crossgrain {

/// Within so many bead widths of a place edges may be half a bead width long: halving them once
/// more changed the fit by 2.4 % at a right-angled inner corner.
inline constexpr double widths_round_place = 2.0;
inline constexpr double edge_of_width = 0.5;

/// What the mesh is like where the factor was found.
/// @param balls  in which the mesh was made fine, round places that looked weak.
/// @param other_edges  without limit, besides the inner ones.
GoverningPlace look_at_governing(const GoverningState& state, const std::vector<SizeBall>& balls,
                                 const Geometry& geometry, const std::vector<EdgeId>& other_edges,
                                 const JudgedModel& model, const Loading& loading,
                                 const ElementarySolution& solution, const MaterialField& field);

/// Whether the mesh is fine enough at a site for the stress over a bead there: it is away from
/// edges without limit, or elements are no longer than half a bead.
bool sees_bead(const Geometry& geometry, const std::vector<EdgeId>& other_edges,
               const JudgedModel& model, Eigen::Index site);

/// The mean over the elements of one body that have a node within a distance of a point of their
/// mean edges [mm]; 0 if there are none.
double mean_edge_near(const TetrahedronMesh& mesh, BodyId body, const Eigen::Vector3d& point,
                      double distance);

}  // namespace crossgrain
