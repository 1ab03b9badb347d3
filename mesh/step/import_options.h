// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <filesystem>
#include <string>
#include <vector>

#include "mesh/geometry/ids.h"

namespace crossgrain {

/// Where a file's coordinates are put: first turned, then shifted.
struct Placement {
  Eigen::Vector3d axis = Eigen::Vector3d::UnitZ();  ///< of the turn, any length but zero
  double angle = 0.0;                               ///< right-handed about the axis [rad]
  Eigen::Vector3d about = Eigen::Vector3d::Zero();  ///< a point of the axis, scaled already [mm]
  Eigen::Vector3d shift = Eigen::Vector3d::Zero();  ///< [mm]
};

/// Where bodies come from and how they are read.
struct StepSource {
  std::filesystem::path step_file;
  double scale = 1.0;
  /// Names of the solids to model; empty: all. The others keep their ids but are not modelled.
  /// A name that no solid has, or that several have, is an error that lists the names there are.
  std::vector<std::string> bodies = {};
  Placement placement = {};
};

/// Two bodies that share no nodes where they touch; others are glued there.
struct KeptApart {
  BodyId first;
  BodyId second;
  double interference = 0.0;  ///< how deep they may lie in each other, as press fits do [mm]
};

/// The files that make up a part, and what is done where their bodies meet. Bodies, faces and edges
/// are numbered on from file to file.
struct ImportOptions {
  ImportOptions() = default;
  // Not explicit: most parts are one file.
  // NOLINTNEXTLINE(google-explicit-constructor)
  ImportOptions(StepSource only) : files{std::move(only)} {}

  std::vector<StepSource> files;
  std::vector<KeptApart> apart;
};

}  // namespace crossgrain
