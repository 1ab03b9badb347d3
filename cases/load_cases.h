// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "cases/case_file.h"
#include "cases/face_choice.h"
#include "solver/loads.h"
#include "solver/material_field.h"

namespace crossgrain {

/// One load that a solve is made for. Load cases combine them.
struct ElementaryLoad {
  std::string name;              ///< "working pressure", "flange screws", "gasket: preload", ...
  Eigen::VectorXd nodal_forces;  ///< unknowns [N]
  Eigen::VectorXd temperature_change;  ///< nodes [K]; empty but for temperature loads
  Resultant resultant;
};

/// An opening of a pressurised cavity and who carries its thrust.
struct OpeningThrust {
  std::string pressure;
  std::string opening;
  Eigen::Vector3d thrust;  ///< on what closes the opening [N]
  std::string carried_by;  ///< in words
};

enum class CaseKind { assembly, working, user, proof };

/// A combination: held part + lambda * scaling part.
struct LoadCase {
  std::string name;
  CaseKind kind;
  std::string bound;         ///< "screws take none of the pressure", or empty
  std::vector<double> held;  ///< coefficient per elementary load
  std::vector<double> scaling;
  std::optional<double>
      largest_lambda;  ///< past which the model does not hold: the gasket is relieved
  std::string largest_lambda_reason;
  std::optional<std::string>
      leading_pressure;  ///< the pressure load that an allowable pressure speaks of
};

struct Loading {
  std::vector<ElementaryLoad> loads;
  std::vector<LoadCase> cases;  ///< assembly first, then working (bounds), user's, proof
  std::vector<OpeningThrust> thrusts;
  std::vector<Support> supports;
  std::vector<FaceId>
      artificial;  ///< faces of supports and point-like loads: reported apart nearby
  std::vector<std::string> notes;
};

/// Resolve every load of a case on a mesh.
/// @throws std::invalid_argument naming the place in the case file.
Loading assemble_loading(const CaseFile& case_file, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field);

}  // namespace crossgrain
