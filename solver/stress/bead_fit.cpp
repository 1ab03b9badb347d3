// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress/bead_fit.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/tetrahedra/tetrahedron_sides.h"
#include "solver/assembly/node_adjacency.h"
#include "solver/elements/parallel.h"
#include "solver/elements/shape_functions.h"
#include "solver/stress/clipped_tetrahedron.h"

namespace crossgrain {
namespace {

using Eigen::Index;
using Eigen::Matrix3d;
using Eigen::Matrix4d;
using Eigen::Vector3d;
using Eigen::Vector4d;

/// A quadratic tetrahedron cut at the middles of its edges: four corners, and an octahedron cut
/// along the line between the middles of 01 and 23.
constexpr std::array<std::array<int, 4>, 8> cut_at_middles = {{{0, 4, 6, 7},
                                                               {4, 1, 5, 8},
                                                               {6, 5, 2, 9},
                                                               {7, 8, 9, 3},
                                                               {4, 9, 5, 6},
                                                               {4, 9, 6, 7},
                                                               {4, 9, 7, 8},
                                                               {4, 9, 8, 5}}};
/// A side cut likewise; places in tetrahedron_sides.
constexpr std::array<std::array<int, 3>, 4> side_cut_at_middles = {
    {{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}}};

/// Of each part, row a: what the linear function of corner a is at its four nodes.
std::array<Matrix4d, 8> corner_functions() {
  std::array<Matrix4d, 8> at_nodes;
  for (std::size_t part = 0; part < cut_at_middles.size(); ++part) {
    at_nodes[part].setZero();
    for (int v = 0; v < 4; ++v) {
      // A middle has half of what its edge's ends have.
      const int node = cut_at_middles[part][v];
      at_nodes[part](node < 4 ? node : edges_of_tetrahedron[node - 4][0], v) += 0.5;
      at_nodes[part](node < 4 ? node : edges_of_tetrahedron[node - 4][1], v) += 0.5;
    }
  }
  return at_nodes;
}

// Below this part of the greatest a direction of the fit is not told apart by what the ball holds,
// as across a skin much thinner than a bead: it has no slope there.
constexpr double least_spread = 1e-9;

// An element smaller than this many radii of the ball, and bulging by less than that part of one,
// is taken whole, as if its sides were flat: the volume is then off by as little. Larger ones are
// cut, for the rule across their sides.
constexpr double small = 2.0;
constexpr double flat_enough = 0.003;

constexpr Index pieces = 64;

/// Of the point's ball, the integrals over one element: of each corner's linear function times
/// 1, (x - point) / radius.
struct ElementMoments {
  int tetrahedron;
  Matrix4d of_corner;
};

class Gatherer {
 public:
  Gatherer(const TetrahedronMesh& mesh, const std::vector<std::array<int, 4>>& neighbours,
           const NodeAdjacency& adjacency, const Eigen::VectorXd& bulge)
      : mesh_(mesh),
        neighbours_(neighbours),
        adjacency_(adjacency),
        bulge_(bulge),
        last_visit_(mesh.tetrahedron_count(), -1) {}

  /// Moments of all elements that the ball touches and that hang together inside it.
  const std::vector<ElementMoments>& gather(Index visit, const StressPoint& point, double radius) {
    const Ball ball{mesh_.nodes.col(point.node), radius};
    found_.clear();
    normal_.setZero();
    for (const auto& [tetrahedron, local] : adjacency_.at(point.node))
      if (mesh_.body_of_tetrahedron[tetrahedron] == point.body) find(visit, tetrahedron);
    for (std::size_t next = 0; next < found_.size(); ++next) {
      const int tetrahedron = found_[next].tetrahedron;
      add_moments(found_[next], ball);
      for (int side = 0; side < 4; ++side) {
        const int beyond = neighbours_[tetrahedron][side];
        if (beyond >= 0 && last_visit_[beyond] != visit &&
            mesh_.body_of_tetrahedron[beyond] == point.body && touches(tetrahedron, side, ball))
          find(visit, beyond);
      }
    }
    return found_;
  }

  /// Integrals of the products of 1, (x - point) / radius.
  const Matrix4d& normal_matrix() const { return normal_; }

 private:
  void find(Index visit, int tetrahedron) {
    last_visit_[tetrahedron] = visit;
    found_.push_back({tetrahedron, Matrix4d::Zero()});
  }

  bool touches(int tetrahedron, int side, const Ball& ball) const {
    Eigen::Matrix<double, 3, 6> from;
    for (int k = 0; k < 6; ++k)
      from.col(k) =
          mesh_.nodes.col(mesh_.tetrahedra(tetrahedron_sides[side][k], tetrahedron)) - ball.centre;
    // A node in the ball, or the ball's box on one side of them all, tells at once.
    if (from.colwise().squaredNorm().minCoeff() < ball.radius * ball.radius) return true;
    if ((from.rowwise().minCoeff().array() >= ball.radius).any() ||
        (from.rowwise().maxCoeff().array() <= -ball.radius).any())
      return false;
    return std::any_of(side_cut_at_middles.begin(), side_cut_at_middles.end(),
                       [&](const std::array<int, 3>& part) {
                         const Matrix3d triangle = from(Eigen::all, part);
                         return distance_to_triangle(triangle, Vector3d::Zero()) < ball.radius;
                       });
  }

  void add_moments(ElementMoments& element, const Ball& ball) {
    Eigen::Matrix<double, 3, 10> nodes;
    for (int k = 0; k < 10; ++k)
      nodes.col(k) = mesh_.nodes.col(mesh_.tetrahedra(k, element.tetrahedron)) - ball.centre;
    const StraightTetrahedron corners = nodes.leftCols<4>();
    if (bulge_[element.tetrahedron] <= flat_enough * ball.radius &&
        (corners.colwise() - corners.col(0)).colwise().norm().maxCoeff() <= small * ball.radius) {
      add_part(element, corners, Matrix4d::Identity(), ball);
      return;
    }
    for (std::size_t part = 0; part < cut_at_middles.size(); ++part)
      add_part(element, nodes(Eigen::all, cut_at_middles[part]), corner_functions_[part], ball);
  }

  /// @param corners  from the ball's centre.
  /// @param corner_functions  of the element, as sums of the part's.
  void add_part(ElementMoments& element, const StraightTetrahedron& corners,
                const Matrix4d& corner_functions, const Ball& ball) {
    const auto moments = clipped_moments(corners, {Vector3d::Zero(), ball.radius});
    if (!moments) return;
    Matrix4d functions;
    functions << Eigen::RowVector4d::Ones(), corners / ball.radius;
    normal_.noalias() += functions * *moments;
    element.of_corner.noalias() += corner_functions * *moments;
  }

  const TetrahedronMesh& mesh_;
  const std::vector<std::array<int, 4>>& neighbours_;
  const NodeAdjacency& adjacency_;
  const Eigen::VectorXd& bulge_;
  std::array<Matrix4d, 8> corner_functions_ = corner_functions();
  std::vector<Index> last_visit_;
  std::vector<ElementMoments> found_;
  Matrix4d normal_ = Matrix4d::Zero();
};

/// How far the middle of an element's edge lies off the straight line, at most [mm].
Eigen::VectorXd bulges(const TetrahedronMesh& mesh) {
  Eigen::VectorXd bulge = Eigen::VectorXd::Zero(mesh.tetrahedron_count());
  for (Index t = 0; t < bulge.size(); ++t)
    for (int e = 0; e < 6; ++e) {
      const auto [a, b] = edges_of_tetrahedron[e];
      const auto at = [&](int k) { return mesh.nodes.col(mesh.tetrahedra(k, t)); };
      bulge[t] = std::max(bulge[t], (at(4 + e) - 0.5 * (at(a) + at(b))).norm());
    }
  return bulge;
}

/// The first column of the inverse: coefficients of the function whose integral with the stress is
/// the fit at the point.
Vector4d fit_at_point(const Matrix4d& normal) {
  const Eigen::SelfAdjointEigenSolver<Matrix4d> eigen(0.5 * (normal + normal.transpose()));
  const Vector4d& spread = eigen.eigenvalues();
  const Vector4d inverse =
      (spread.array() > least_spread * spread[3]).select(spread.cwiseInverse(), 0.0);
  return eigen.eigenvectors() * inverse.asDiagonal() * eigen.eigenvectors().row(0).transpose();
}

}  // namespace

BeadFit::BeadFit(const TetrahedronMesh& mesh, const std::vector<StressPoint>& points,
                 const std::vector<double>& bead_width_of_body) {
  const auto neighbours = side_neighbours(mesh);
  const NodeAdjacency adjacency(mesh);
  const Eigen::VectorXd bulge = bulges(mesh);
  std::vector<std::vector<ElementShare>> shares(pieces);
  std::vector<std::vector<int>> counts(pieces);
  const Index count = std::ssize(points);
  in_parallel(pieces, 0, [&](Index first_piece, Index last_piece) {
    Gatherer gatherer(mesh, neighbours, adjacency, bulge);
    for (auto piece = first_piece; piece < last_piece; ++piece)
      for (auto p = count * piece / pieces; p < count * (piece + 1) / pieces; ++p) {
        const double radius = 0.5 * bead_width_of_body[index(points[p].body)];
        const auto& elements = gatherer.gather(p, points[p], radius);
        const Vector4d fit = fit_at_point(gatherer.normal_matrix());
        int used = 0;
        if (!(gatherer.normal_matrix()(0, 0) > 0.0)) {
          // Nothing but tangled elements: a number would be invented.
          shares[piece].push_back({points[p].tetrahedron, Vector4d::Constant(NAN)});
          counts[piece].push_back(1);
          continue;
        }
        for (const auto& [tetrahedron, moments] : elements) {
          const Vector4d weights = moments * fit;
          if (weights.isZero(0.0)) continue;
          shares[piece].push_back({tetrahedron, weights});
          ++used;
        }
        counts[piece].push_back(used);
      }
  });
  first_.assign(1, 0);
  for (Index piece = 0; piece < pieces; ++piece) {
    for (const int used : counts[piece]) first_.push_back(first_.back() + used);
    shares_.insert(shares_.end(), shares[piece].begin(), shares[piece].end());
    shares[piece] = {};
  }
}

Eigen::Matrix<double, 6, Eigen::Dynamic> BeadFit::of(const ElementStress& stress) const {
  Eigen::Matrix<double, 6, Eigen::Dynamic> fitted(6, std::ssize(first_) - 1);
  in_parallel(fitted.cols(), 0, [&](Index begin, Index end) {
    for (auto p = begin; p < end; ++p) {
      Vector6d sum = Vector6d::Zero();
      for (const ElementShare& share : shares(p))
        sum += stress.of(share.tetrahedron) * share.weights;
      fitted.col(p) = sum;
    }
  });
  return fitted;
}

}  // namespace crossgrain
