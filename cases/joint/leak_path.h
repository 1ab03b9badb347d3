// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string_view>
#include <vector>

namespace crossgrain {

/// Where a fluid gets out from under a gasket.
enum class SealExit { outer_edge, screw_hole, other_port };

/// "the outer edge", "a screw hole", "another port"
std::string_view words(SealExit exit);

/// One place of a pressed face.
struct SealPoint {
  Eigen::Vector3d position;      ///< [mm]
  double area;                   ///< it stands for [mm^2]
  double contact;                ///< pressure of the gasket on the face; 0 where it is open [MPa]
  std::vector<int> neighbours;   ///< places that a fluid reaches from here; both name each other
  bool wetted = false;           ///< at an edge that the fluid wets
  std::optional<SealExit> exit;  ///< at an edge that leads out
};

/// The way of least resistance to one kind of exit.
struct LeakPath {
  SealExit exit;
  double level;             ///< contact that must be overcome on the way [MPa]
  std::vector<int> points;  ///< from the wetted edge to the exit
  int tightest;             ///< of `points`, where the level is reached: the last hold [index]
};

/// Contact averaged over the places within half a width that hang together with each.
/// @param width  over which a seal counts; a tight line thinner than that counts in part [mm]
/// @return [MPa], one a point
std::vector<double> averaged_contact(const std::vector<SealPoint>& points, double width);

/// For every kind of exit that can be reached the path whose greatest contact is least (the minimax
/// over all paths), the leakiest first. A fluid above that level finds its way.
/// @param points   of the pressed face  @param width  see `averaged_contact` [mm]
/// @throws std::invalid_argument if no place is wetted, no place is an exit, none of them hang
/// together, or a number makes no sense.
std::vector<LeakPath> leak_paths(const std::vector<SealPoint>& points, double width);

}  // namespace crossgrain
