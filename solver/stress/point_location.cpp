// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/point_location.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <Eigen/QR>
#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>
#include <tuple>
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

MeshLocation nearest_place(const TetrahedronMesh& mesh, int tetrahedron,
                           const Eigen::Vector3d& point) {
  const auto nodes = nodes_of(mesh, tetrahedron);
  const Eigen::Vector3d local = inverse_map(nodes, point);
  const Eigen::Vector3d inside = clipped(local);
  // Round-off must not put a point on a face outside of both its elements.
  if ((local - inside).norm() < 1e-10) return {tetrahedron, inside, 0.0};
  const Eigen::Vector3d nearest = slid_towards(nodes, point, inside);
  return {tetrahedron, nearest, (nodes * tetrahedron_shape(nearest) - point).norm()};
}

/// Looks through the elements whose boxes come near enough to the point.
struct NearestSearch {
  const TetrahedronMesh& mesh;
  const Eigen::Vector3d& point;
  double tolerance;
  MeshLocation best{-1, Eigen::Vector3d::Zero(), std::numeric_limits<double>::infinity()};

  bool intersectVolume(const Eigen::AlignedBox3d& box) const {
    return box.squaredExteriorDistance(point) <= tolerance * tolerance;
  }
  /// @return whether to stop.
  bool intersectObject(int tetrahedron) {
    const auto place = nearest_place(mesh, tetrahedron, point);
    if (place.distance < best.distance) best = place;
    return best.distance == 0.0;
  }
};

}  // namespace

struct PointLocator::Tree {
  Eigen::KdBVH<double, 3, int> boxes;
};

PointLocator::PointLocator(const TetrahedronMesh& mesh)
    : mesh_(mesh), mesh_size_(mesh.nodes.cwiseAbs().maxCoeff()), tree_(std::make_unique<Tree>()) {
  std::vector<int> numbers(mesh.tetrahedron_count());
  std::iota(numbers.begin(), numbers.end(), 0);
  std::vector<Eigen::AlignedBox3d> boxes;
  for (int t : numbers) boxes.push_back(box_of(nodes_of(mesh, t)));
  tree_->boxes.init(numbers.begin(), numbers.end(), boxes.begin(), boxes.end());
}

PointLocator::~PointLocator() = default;

std::optional<MeshLocation> PointLocator::find(const Eigen::Vector3d& point,
                                               double tolerance) const {
  if (!point.allFinite()) return std::nullopt;
  // Round-off must not put a point on the surface outside.
  NearestSearch search{mesh_, point, std::max(tolerance, 1e-12 * mesh_size_)};
  Eigen::BVIntersect(tree_->boxes, search);
  if (!(search.best.distance <= search.tolerance)) return std::nullopt;
  return search.best;
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

Vector6d stress_at(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
                   const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress,
                   const MeshLocation& location) {
  const auto N = tetrahedron_shape(location.local);
  const BodyId body = mesh.body_of_tetrahedron[location.tetrahedron];
  Vector6d sum = Vector6d::Zero();
  for (int a = 0; a < 10; ++a) {
    const int node = mesh.tetrahedra(a, location.tetrahedron);
    const auto point = std::lower_bound(
        points.begin(), points.end(), std::tuple(body, node),
        [](const auto& p, const auto& key) { return std::tuple(p.body, p.node) < key; });
    assert(point != points.end() && point->body == body && point->node == node);
    sum += N[a] * stress.col(point - points.begin());
  }
  return sum;
}

}  // namespace crossgrain
