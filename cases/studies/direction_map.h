// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "cases/studies/mapped_factors.h"
#include "cases/studies/turning_loads.h"
#include "solver/static_solver.h"

namespace crossgrain {

struct MapOptions {
  Eigen::Index directions = 1000;  ///< spread evenly over the half-sphere; the axes come on top
  int first = 16;                  ///< solved before the map is tried
  int most = 60;                   ///< solved in all: the budget
  int tried = 4;                   ///< at a time: solved together, each held against the map before
  double tolerance = 0.01;         ///< of a factor that governs
};

/// Worst factors of bodies for every print direction that they share. What it says is sought among
/// solved answers; only what is solved is a result.
struct DirectionMap {
  Eigen::Matrix3Xd directions;
  std::vector<std::string> load_cases;  ///< titles; of_case of the factors has their order
  std::vector<MappedFactors> factors;   ///< of each direction
  /// By which a factor that governs there, or nearly, may be off; estimated, relative to it.
  std::vector<double> errors;
  std::vector<char> tried;  ///< of each direction: whether it was solved to see how far it was off
  /// By which factors that govern were off in the directions solved last, the extremes when solved
  /// fully among them, each before its solution was taken in: relative, the greatest.
  double error = 0.0;
  int solved = 0;                 ///< directions
  double tolerance = 0.0;         ///< that was asked for
  bool within_tolerance = false;  ///< that error; false: the budget was spent before
  /// The directions whose worse factor is the greatest and the least. No limit found counts as
  /// greater than any factor; where none is found anywhere both are the first.
  Eigen::Index best = 0;
  Eigen::Index worst = 0;
  Eigen::Vector3d refined;               ///< the best near `best`, between the map's directions
  std::optional<double> refined_factor;  ///< there, as the map has it
  /// Unknowns x loads [mm]: the answers there, where full solutions may begin.
  Eigen::MatrixXd start_of_best, start_of_worst;
};

/// Of bodies that are printed in one piece; they turn and are judged, all others are held as they
/// are. Of joined bodies the joint is frozen, and the reference counts as a direction solved.
/// @param solver     on the model's mesh; its material and additions are replaced.
/// @param loading    under the field's material.
/// @param field      as the case has the bodies printed.
/// @param reference  of joined bodies, solved with that field; null: no faces can part.
/// @param solving    told before each direction is solved: how many have been.
/// @throws std::invalid_argument for a material that is not isotropic in its layers.
DirectionMap map_directions(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                            const MaterialField& field, const std::vector<BodyId>& bodies,
                            const JointReference* reference, const MapOptions& options,
                            const std::function<void(int)>& solving);

/// The same of all bodies in one piece.
DirectionMap map_directions(StaticSolver& solver, const JudgedModel& model, const Loading& loading,
                            const MaterialField& field, const MapOptions& options,
                            const std::function<void(int)>& solving);

}  // namespace crossgrain
