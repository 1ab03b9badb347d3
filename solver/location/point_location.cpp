// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/location/point_location.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <Eigen/QR>
#include <algorithm>
#include <limits>
#include <numeric>
#include <unsupported/Eigen/BVH>

#include "solver/elements/shape_functions.h"

namespace crossgrain {
namespace {

using Nodes = Eigen::Matrix<double, 3, 10>;

Nodes nodes_of(const TetrahedronMesh& mesh, int tetrahedron) {
  Nodes nodes;
  for (int a = 0; a < 10; ++a) nodes.col(a) = mesh.nodes.col(mesh.tetrahedra(a, tetrahedron));
  return nodes;
}

/// A box that a curved element cannot leave: that of its Bezier control points.
Eigen::AlignedBox3d box_of(const Nodes& nodes) {
  Eigen::AlignedBox3d box;
  for (int a = 0; a < 4; ++a) box.extend(nodes.col(a));
  for (int e = 0; e < 6; ++e) {
    const auto [i, j] = edges_of_tetrahedron[e];
    box.extend(2.0 * nodes.col(4 + e) - 0.5 * (nodes.col(i) + nodes.col(j)));
  }
  return box;
}

/// Local coordinates at which the element's map meets the point, by Newton's method; far outside
/// the element they need not be sharp.
Eigen::Vector3d inverse_map(const Nodes& nodes, const Eigen::Vector3d& point) {
  Eigen::Vector3d local = Eigen::Vector3d::Constant(0.25);
  for (int iteration = 0; iteration < 30; ++iteration) {
    const Eigen::Vector3d miss = point - nodes * tetrahedron_shape(local);
    const Eigen::Matrix3d jacobian = nodes * tetrahedron_local_gradients(local).transpose();
    Eigen::Vector3d step = jacobian.inverse() * miss;
    // The map folds over away from its element: do not stride out.
    if (step.norm() > 0.5) step *= 0.5 / step.norm();
    local += step;
    if (!(step.norm() > 1e-13)) break;
  }
  return local;
}

Eigen::Vector4d barycentric(const Eigen::Vector3d& local) {
  Eigen::Vector4d L;
  L << 1.0 - local.sum(), local;
  return L;
}

/// Moved into the unit tetrahedron.
Eigen::Vector3d clipped(const Eigen::Vector3d& local) {
  const Eigen::Vector4d L = barycentric(local).cwiseMax(0.0);
  return L.tail<3>() / L.sum();
}

/// Slide along the sides on which `local` lies towards the point, by Gauss-Newton steps.
Eigen::Vector3d slid_towards(const Nodes& nodes, const Eigen::Vector3d& point,
                             Eigen::Vector3d local) {
  for (int iteration = 0; iteration < 5; ++iteration) {
    const Eigen::Vector4d L = barycentric(local);
    std::vector<int> free;
    for (int i = 0; i < 4; ++i)
      if (L[i] > 1e-12) free.push_back(i);
    if (free.size() == 1) break;
    // Directions that leave the other barycentric coordinates zero.
    Eigen::Matrix3Xd along = Eigen::Matrix3Xd::Zero(3, free.size() - 1);
    for (std::size_t k = 1; k < free.size(); ++k) {
      if (free[k] > 0) along(free[k] - 1, k - 1) += 1.0;
      if (free[0] > 0) along(free[0] - 1, k - 1) -= 1.0;
    }
    const Eigen::Matrix3d jacobian = nodes * tetrahedron_local_gradients(local).transpose();
    const Eigen::MatrixXd slopes = jacobian * along;
    const Eigen::Vector3d miss = point - nodes * tetrahedron_shape(local);
    local = clipped(local + along * slopes.colPivHouseholderQr().solve(miss));
  }
  return local;
}

// Round-off must not put a point on a face outside of both its elements.
bool is_inside(const Eigen::Vector3d& local) { return (local - clipped(local)).norm() < 1e-10; }

MeshLocation nearest_place(const TetrahedronMesh& mesh, int tetrahedron,
                           const Eigen::Vector3d& point) {
  const auto nodes = nodes_of(mesh, tetrahedron);
  const Eigen::Vector3d inside = clipped(inverse_map(nodes, point));
  const Eigen::Vector3d nearest = slid_towards(nodes, point, inside);
  return {tetrahedron, nearest, (nodes * tetrahedron_shape(nearest) - point).norm()};
}

}  // namespace

struct PointLocator::Tree {
  std::vector<Eigen::AlignedBox3d> box_of_element;
  Eigen::KdBVH<double, 3, int> boxes;
};

namespace {

struct Search {
  const TetrahedronMesh& mesh;
  const std::vector<Eigen::AlignedBox3d>& box_of_element;
  const Eigen::Vector3d& point;
  std::optional<BodyId> body;

  bool of_body(int tetrahedron) const {
    return !body || mesh.body_of_tetrahedron[static_cast<std::size_t>(tetrahedron)] == *body;
  }
  const Eigen::AlignedBox3d& box(int tetrahedron) const {
    return box_of_element[static_cast<std::size_t>(tetrahedron)];
  }
};

/// Looks for an element that holds the point, as Eigen's search of a tree wants it.
struct HoldingSearch : Search {
  double tolerance;  ///< of round-off [mm]
  std::optional<MeshLocation> found;

  bool intersectVolume(const Eigen::AlignedBox3d& volume) const {
    return volume.squaredExteriorDistance(point) <= tolerance * tolerance;
  }
  /// @return whether to stop.
  bool intersectObject(int tetrahedron) {
    if (!intersectVolume(box(tetrahedron)) || !of_body(tetrahedron)) return false;
    const Eigen::Vector3d local = inverse_map(nodes_of(mesh, tetrahedron), point);
    if (is_inside(local)) found = {tetrahedron, clipped(local), 0.0};
    return found.has_value();
  }
};

/// Looks through the elements from the nearest box on.
struct NearestSearch : Search {
  using Scalar = double;
  double tolerance;  ///< [mm]
  MeshLocation best{-1, Eigen::Vector3d::Zero(), std::numeric_limits<double>::infinity()};

  bool may_be_better(const Eigen::AlignedBox3d& volume) const {
    const double square = volume.squaredExteriorDistance(point);
    return square <= tolerance * tolerance && square < best.distance * best.distance;
  }
  double minimumOnVolume(const Eigen::AlignedBox3d& volume) const {
    return may_be_better(volume) ? volume.exteriorDistance(point)
                                 : std::numeric_limits<double>::infinity();
  }
  double minimumOnObject(int tetrahedron) {
    if (!may_be_better(box(tetrahedron)) || !of_body(tetrahedron)) return best.distance;
    const MeshLocation place = nearest_place(mesh, tetrahedron, point);
    if (place.distance < best.distance) best = place;
    return best.distance;
  }
};

}  // namespace

PointLocator::PointLocator(const TetrahedronMesh& mesh)
    : mesh_(mesh), mesh_size_(mesh.nodes.cwiseAbs().maxCoeff()), tree_(std::make_unique<Tree>()) {
  std::vector<int> numbers(mesh.tetrahedron_count());
  std::iota(numbers.begin(), numbers.end(), 0);
  std::vector<Eigen::AlignedBox3d>& boxes = tree_->box_of_element;
  boxes.reserve(numbers.size());
  for (int t : numbers) boxes.push_back(box_of(nodes_of(mesh, t)));
  tree_->boxes.init(numbers.begin(), numbers.end(), boxes.begin(), boxes.end());
}

PointLocator::~PointLocator() = default;

std::optional<MeshLocation> PointLocator::find(const Eigen::Vector3d& point, double tolerance,
                                               std::optional<BodyId> body) const {
  if (!point.allFinite()) return std::nullopt;
  // Round-off must not put a point on the surface outside.
  const double round_off = 1e-12 * mesh_size_;
  const Search search{mesh_, tree_->box_of_element, point, body};
  HoldingSearch holding{search, round_off, std::nullopt};
  Eigen::BVIntersect(tree_->boxes, holding);
  if (holding.found) return holding.found;
  NearestSearch nearest{search, std::max(tolerance, round_off)};
  Eigen::BVMinimize(tree_->boxes, nearest);
  if (!(nearest.best.distance <= nearest.tolerance) || nearest.best.tetrahedron < 0)
    return std::nullopt;
  return nearest.best;
}

Eigen::Vector3d displacement_at(const TetrahedronMesh& mesh, const Eigen::VectorXd& displacement,
                                const MeshLocation& location) {
  const auto N = tetrahedron_shape(location.local);
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (int a = 0; a < 10; ++a)
    sum +=
        N[a] * displacement.segment<3>(3 * Eigen::Index{mesh.tetrahedra(a, location.tetrahedron)});
  return sum;
}

}  // namespace crossgrain
