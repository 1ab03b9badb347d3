// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "cases/simple_shapes/face_patch.h"
#include "cases/simple_shapes/pressed_faces.h"
#include "cases/simple_shapes/simple_shape.h"
#include "cases/simple_shapes/wall_reading.h"

namespace crossgrain {

/// A flat face as the side of a plate of one thickness.
class PlateFace {
 public:
  PlateFace(const PressedBody& part, const CadFace& face);

  const PressedBody& part() const { return part_; }
  const CadFace& face() const { return face_; }
  const FacePatch& patch() const { return patch_; }
  const std::vector<FacePatch::Segment>& openings() const { return openings_; }

  /// The wall under a point, if the face is there.
  std::optional<WallReading> wall_at(const Eigen::Vector3d& point) const;

  /// Read the wall at these points of its outline. @return whether most of them lie on the face
  /// over one wall, pressed from one side.
  bool learn_wall(const std::vector<Eigen::Vector3d>& points);
  double wall() const { return wall_; }
  FaceId opposite() const { return opposite_; }  ///< under most of it
  /// The plate, all but its places. @param half_span  radius, or half the short side [mm].
  SimpleShape shape(ShapeKind kind, double half_span, bool held_by_walls) const;
  bool itself_pressed() const { return part_.is_pressed(face_.id); }

  enum class On { this_side, far_side };
  /// From a point of the face along it, one wall above it, to what stands there [mm]; or above the
  /// far side.
  std::optional<double> to_standing_wall(const Eigen::Vector3d& point, const Eigen::Vector3d& along,
                                         On side = On::this_side) const;

  /// Whether the fluid ends all along its outer edge: a seal holds it, or a port's rim.
  bool ends_at_a_seal() const;

  /// A line through the plate. @param to_edge  from the point [mm].
  WallLine line(const WallReading& reading, const Eigen::Vector3d& pull, WallSide side,
                double to_edge) const;

 private:
  const PressedBody& part_;
  const CadFace& face_;
  FacePatch patch_;
  std::vector<FacePatch::Segment> openings_;
  double wall_ = 0.0, wall_greatest_ = 0.0;
  FaceId opposite_{};
};

/// A plate, and the faces of its two sides.
struct Plate {
  SimpleShape shape;
  FaceId own;       ///< the face it was found by
  FaceId opposite;  ///< the face beyond it
};

}  // namespace crossgrain
