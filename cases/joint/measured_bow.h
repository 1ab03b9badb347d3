// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/joint/leak_path.h"

namespace crossgrain {

/// How much farther apart a seal's two faces lie between two neighbouring screws than at them.
struct SpanBow {
  std::size_t from, to;    ///< screws, by their place among those given
  double at_screws;        ///< between the faces, at the screws' angles [mm]
  double between;          ///< half way [mm]
  Eigen::Vector3d middle;  ///< of the seal half way [mm]

  double bow() const { return between - at_screws; }  ///< [mm]
};

/// From screw to screw round a flat seal, by the best fit of a whole wave from screw to screw with
/// a slope along the seal and one across it, on top of a tilt of one face against the other, so
/// that neither that nor a flange that turns about its screws is a bow.
/// @param places  of the seal
/// @param gap     at each of them; negative: squeezed [mm]
/// @param screws  that press it, round it [mm]
/// @return empty where the screws do not surround the seal, without spans that hold too few places.
/// @throws std::invalid_argument for as many gaps as there are not places.
std::vector<SpanBow> span_bows(const std::vector<SealPoint>& places, const std::vector<double>& gap,
                               const std::vector<Eigen::Vector3d>& screws);

}  // namespace crossgrain
