// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/graded_disc.h"

#include <cmath>
#include <numbers>

#include "tests/support/structured_mesh.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using namespace testing;

constexpr int sides = 6;

/// Cells that grow from share 0 to 1; in between linear, so that mid-side nodes lie in the middle.
double geometric(double share, int cells, double growth) {
  const double cell = std::min(std::floor(share * cells), cells - 1.0);
  const auto corner = [&](double i) {
    return (std::pow(growth, i) - 1.0) / (std::pow(growth, cells) - 1.0);
  };
  return corner(cell) + (share * cells - cell) * (corner(cell + 1.0) - corner(cell));
}

}  // namespace

TetrahedronMesh GradedDisc::mesh() const {
  // A corner pulled in from the half circle keeps the core's angles open.
  const auto in_core = [this](double xi, double eta) {
    const double x = graded(xi, core_cells, core_power), y = graded(eta, core_cells, core_power);
    return Point(core * x * (1.0 - 0.16 * y), core * y * (1.0 - 0.16 * x), 0.0);
  };
  const auto raised = [this](Point point, double share) {
    point.z() = face(point.norm()) + direction * depth * geometric(share, layers, layer_growth);
    return point;
  };
  const auto ring = [=, this](bool upper) {
    return [=, this](const Point& unit) {
      const double theta = std::numbers::pi / 4.0 * (upper ? 2.0 - unit.y() : unit.y());
      const Point edge = upper ? in_core(unit.y(), 1.0) : in_core(1.0, unit.y());
      const Point rim_point(radius * std::cos(theta), radius * std::sin(theta), 0.0);
      const double out = geometric(unit.x(), ring_cells, ring_growth);
      return raised((1.0 - out) * edge + out * rim_point, unit.z());
    };
  };
  const auto core_block = block_mesh({core_cells, core_cells, layers}, [&](const Point& unit) {
    return raised(in_core(unit.x(), unit.y()), unit.z());
  });
  const std::array<int, 3> ring_block{ring_cells, core_cells, layers};
  const auto two = joined(core_block, block_mesh(ring_block, ring(false)), sides);
  auto all = welded(joined(two, block_mesh(ring_block, ring(true)), 2 * sides), 1e-6 * core);
  for (auto& number_of_face : all.face_of_triangle)
    number_of_face = FaceId{number(number_of_face) + first_face - 1};
  return all;
}

FaceId GradedDisc::of_block(int block, FaceId side) const {
  return FaceId{first_face - 1 + block * sides + number(side)};
}

std::vector<FaceId> GradedDisc::of_all_blocks(FaceId side) const {
  return {of_block(0, side), of_block(1, side), of_block(2, side)};
}

std::vector<FaceId> GradedDisc::graded_face() const { return of_all_blocks(zeta_low); }
std::vector<FaceId> GradedDisc::far_face() const { return of_all_blocks(zeta_high); }
std::vector<FaceId> GradedDisc::rim() const { return {of_block(1, xi_high), of_block(2, xi_high)}; }

std::vector<Support> GradedDisc::symmetry() const {
  return {held_along({of_block(0, xi_low), of_block(2, eta_low)}, Point::UnitX()),
          held_along({of_block(0, eta_low), of_block(1, eta_low)}, Point::UnitY())};
}

}  // namespace crossgrain::verification
