// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "cases/loads/load_cases.h"
#include "solver/interface/joint_solver.h"
#include "solver/static_solver.h"
#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// 6 x stress points [MPa].
using StressField = Eigen::Matrix<double, 6, Eigen::Dynamic>;

/// The answer to every elementary load: everything a case is is a sum of these.
struct ElementarySolution {
  Eigen::MatrixXd displacement;             ///< unknowns x loads [mm]
  std::vector<StressField> stress;          ///< per load, as a bead feels it, global axes
  double carried_by_inertia = 0.0;          ///< largest fraction of a load case's forces
  std::vector<JointSolution> joint_states;  ///< of joined bodies, one a load
};

/// Solve all loads with one factorisation and fit their stresses over beads. Single loads need not
/// balance on a part that nothing holds, as long as every load case does.
/// Of joined bodies every state of the joint is solved, and what the joint does to the bodies added
/// to the state's load.
/// @param start  unknowns x loads [mm], where iterations begin: the answer on a mesh before, or of
/// another material.
/// @param only  a case whose loads are wanted, the answers to others may be left zero; none: all.
/// @throws std::invalid_argument naming the load case that does not, with its resultant.
ElementarySolution solve_loads(StaticSolver& solver, const TetrahedronMesh& mesh,
                               const MaterialField& field, const BeadFit& fit, Loading& loading,
                               const Eigen::MatrixXd* start = nullptr,
                               const LoadCase* only = nullptr);

/// A displacement and the temperature change that it answers.
struct SumOfLoads {
  Eigen::VectorXd displacement;        ///< unknowns [mm]
  Eigen::VectorXd temperature_change;  ///< nodes [K]; empty without temperature
};

/// @param counts  what each elementary load counts.
SumOfLoads sum_of_loads(const std::vector<double>& counts, const Loading& loading,
                        const ElementarySolution& solution);

/// A load case's fields: what is held, and what the multiplier scales.
struct CombinedCase {
  Eigen::VectorXd displacement;        ///< held + scaling, unknowns [mm]
  Eigen::VectorXd nodal_forces;        ///< held + scaling, unknowns [N]
  Eigen::VectorXd temperature_change;  ///< held + scaling, nodes [K]; empty without temperature
  StressField held;                    ///< global axes
  StressField scaling;                 ///< global axes
  bool anything_held = false;          ///< a held coefficient that is not zero
  bool anything_scales = false;
};

CombinedCase combine(const LoadCase& load_case, const Loading& loading,
                     const ElementarySolution& solution);

}  // namespace crossgrain
