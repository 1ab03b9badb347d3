// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "mesh/geometry/geometry.h"
#include "mesh/step/import_options.h"

namespace crossgrain {

/// Faces of bodies that meet without being one: something of the case joins them.
struct StatedMeeting {
  std::string name;  ///< "case.toml:12: [[contact]] 'rim'"
  std::vector<FaceId> faces;
  std::vector<FaceId> mate;
  double interference;  ///< how deep they may be drawn into each other [mm]
};

struct PartedBodies {
  std::vector<KeptApart> pairs;
  std::vector<std::string> warnings;  ///< faces of these bodies that touch where nothing joins them
};

/// The bodies that must share no nodes, so that they can move against each other where they meet.
/// @throws std::invalid_argument if faces and mate are of one body.
PartedBodies parted_bodies(const Geometry& geometry, const std::vector<StatedMeeting>& meetings);

}  // namespace crossgrain
