// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/face_choice/face_choice.h"
#include "cases/loads/elementary_load.h"
#include "cases/loads/joined_bodies.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// An opening of a pressurised cavity and who carries its thrust.
struct OpeningThrust {
  std::string pressure;
  std::string opening;
  Eigen::Vector3d thrust;  ///< on what closes the opening [N]
  std::string carried_by;  ///< in words
};

enum class CaseKind { assembly, working, user, proof };

/// Which strengths judge a case: those at the service conditions, or the short-term ones of a proof
/// test (23 degC, the proof's own duration).
enum class StrengthBasis { service, proof };

/// A combination: held part + lambda * scaling part.
struct LoadCase {
  std::string name;
  CaseKind kind;
  std::string bound;         ///< "screws take none of the pressure", or empty
  std::vector<double> held;  ///< coefficient per elementary load
  std::vector<double> scaling;
  StrengthBasis strengths = StrengthBasis::service;
  std::optional<double>
      largest_lambda;  ///< past which the model does not hold: the gasket is relieved
  std::string largest_lambda_reason;
  std::optional<std::string>
      leading_pressure;            ///< the pressure load that an allowable pressure speaks of
  double leading_value_MPa = 0.0;  ///< of it, at multiplier 1

  /// Held and scaling, at multiplier 1.
  std::vector<double> together() const {
    std::vector<double> sum = held;
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += scaling[i];
    return sum;
  }
};

/// "working (screws take all of the pressure)": bounds of one case have one name.
inline std::string case_title(const std::string& name, const std::string& bound) {
  return bound.empty() ? name : name + " (" + bound + ")";
}

/// The two ways in which the joint of a gasket whose other body is not modelled may take its
/// pressure.
struct JointLoads {
  std::string name, bolts, pressure;
  std::size_t relief, share;  ///< places among the elementary loads
  double closing_N;           ///< at preload multiple 1
  double opening_N;           ///< at the working pressure
};

struct Loading {
  /// Of joined bodies the states of the joint, one a load; their forces are known once they are
  /// solved.
  std::vector<ElementaryLoad> loads;
  std::vector<LoadCase> cases;  ///< assembly first, then working (bounds), user's, proof
  std::vector<OpeningThrust> thrusts;
  std::vector<JointLoads> joints;
  std::vector<Support> supports;
  std::vector<FaceId>
      artificial;  ///< faces of supports and point-like loads: reported apart nearby
  std::vector<EdgeId> artificial_edges;  ///< of supports that slide, likewise
  std::vector<EdgeId> support_edges;     ///< at which supports make stress without limit
  std::vector<std::string> notes;
  std::optional<std::string> leading_pressure;  ///< that an allowable pressure speaks of
  double working_pressure_MPa = 0.0;            ///< its value; negative is a vacuum
  std::optional<JoinedBodies> joined;           ///< of bodies that can part
};

/// Resolve every load of a case on a mesh.
/// @throws std::invalid_argument naming the place in the case file.
Loading assemble_loading(const CaseFile& case_file, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field);

/// Renew the loads that depend on the material (thermal, acceleration) for another field on the
/// same mesh: another print direction, the low or the high elastic set.
void update_field_loads(Loading& loading, const TetrahedronMesh& mesh, const MaterialField& field);

/// All elementary loads side by side: unknowns x loads [N].
Eigen::MatrixXd load_matrix(const Loading& loading);

}  // namespace crossgrain
