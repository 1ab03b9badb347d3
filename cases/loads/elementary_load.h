// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>

#include "solver/loads/loads.h"

namespace crossgrain {

/// One load that a solve is made for. Load cases combine them.
struct ElementaryLoad {
  std::string name;              ///< "working pressure", "flange screws", "gasket: preload", ...
  Eigen::VectorXd nodal_forces;  ///< unknowns [N]
  Eigen::VectorXd temperature_change;           ///< nodes [K]; empty but for temperature loads
  std::optional<Eigen::Vector3d> acceleration;  ///< [mm/s^2]; of acceleration loads only
  bool scales = false;                          ///< as the case file says of the load
  Resultant resultant;
};

}  // namespace crossgrain
