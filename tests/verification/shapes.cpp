// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

// joined() shifts the face numbers of each further block by this.
constexpr int faces_per_block = 6;
FaceId of_block(int block, FaceId side) { return FaceId{number(side) + faces_per_block * block}; }

/// The core is a four-sided patch (0,0) (c,0) (d,d) (0,c) of straight sides.
Point core_point(double side, double corner, double xi, double eta) {
  return xi * (1.0 - eta) * Point(side, 0, 0) + xi * eta * Point(corner, corner, 0) +
         (1.0 - xi) * eta * Point(0, side, 0);
}

}  // namespace

double graded(double share, int cells, double power) {
  const double below = std::min(std::floor(share * cells + 1e-9), cells - 1.0);
  const double from = std::pow(below / cells, power);
  const double to = std::pow((below + 1.0) / cells, power);
  return from + (to - from) * (share * cells - below);
}

testing::BlockMap CylinderSector::map() const {
  return [*this](const Point& unit) {
    return at(inner + (outer - inner) * unit.x(), unit.y(), height * unit.z());
  };
}

Point CylinderSector::at(double radius, double share_of_angle, double z) const {
  const double theta = angle * share_of_angle;
  return {radius * std::cos(theta), radius * std::sin(theta), z};
}

std::vector<Support> CylinderSector::symmetry() const {
  return {held_along({testing::eta_low}, Point::UnitY()),
          held_along({testing::eta_high}, Point(-std::sin(angle), std::cos(angle), 0.0))};
}

TetrahedronMesh QuarterPlate::mesh() const {
  // A corner pulled in from the half circle keeps the core's angles open.
  const double side = 0.5 * radius;
  const double corner = 0.42 * radius;
  const auto height = [this](const Point& unit) {
    return Point(0.0, 0.0, thickness * (unit.z() - 0.5));
  };
  const auto core = [=](const Point& unit) {
    return Point(core_point(side, corner, unit.x(), unit.y()) + height(unit));
  };
  // From the core's edge to the rim; eta runs through an eighth of a turn, towards the other ring,
  // so that the diagonals of all faces meet.
  const auto ring = [=, this](bool upper) {
    return [=, this](const Point& unit) {
      const double theta = std::numbers::pi / 4.0 * (upper ? 2.0 - unit.y() : unit.y());
      const Point edge =
          upper ? core_point(side, corner, unit.y(), 1.0) : core_point(side, corner, 1.0, unit.y());
      const Point rim_point(radius * std::cos(theta), radius * std::sin(theta), 0.0);
      return Point((1.0 - unit.x()) * edge + unit.x() * rim_point + height(unit));
    };
  };
  const std::array<int, 3> core_cells{cells[0], cells[0], cells[2]};
  const std::array<int, 3> ring_cells{cells[1], cells[0], cells[2]};
  const TetrahedronMesh two =
      testing::joined(testing::block_mesh(core_cells, core),
                      testing::block_mesh(ring_cells, ring(false)), faces_per_block);
  return testing::welded(
      testing::joined(two, testing::block_mesh(ring_cells, ring(true)), 2 * faces_per_block),
      1e-6 * radius);
}

std::vector<FaceId> QuarterPlate::upper_faces() {
  return {of_block(0, testing::zeta_high), of_block(1, testing::zeta_high),
          of_block(2, testing::zeta_high)};
}

std::vector<FaceId> QuarterPlate::rim() {
  return {of_block(1, testing::xi_high), of_block(2, testing::xi_high)};
}

std::vector<Support> QuarterPlate::symmetry() const {
  return {
      held_along({of_block(0, testing::xi_low), of_block(2, testing::eta_low)}, Point::UnitX()),
      held_along({of_block(0, testing::eta_low), of_block(1, testing::eta_low)}, Point::UnitY())};
}

}  // namespace crossgrain::verification
