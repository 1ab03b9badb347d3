// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/error/patch_recovery.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "solver/assembly/node_adjacency.h"
#include "solver/elements/parallel.h"
#include "solver/elements/quadrature.h"
#include "solver/elements/shape_functions.h"
#include "solver/stress/body_points.h"

namespace crossgrain {
namespace {

using Eigen::Index;
using Eigen::Vector3d;
using Fields = std::vector<const ElementStress*>;
using Basis = Eigen::Matrix<double, 10, 1>;
using BasisMatrix = Eigen::Matrix<double, 10, 10>;
/// A polynomial's coefficients; six columns for each field.
using Coefficients = Eigen::Matrix<double, 10, Eigen::Dynamic>;

// Fewer elements round a corner than this do not tell ten coefficients apart safely: at a face of
// the body there are about twelve, at an edge fewer. Then the next ones count as well.
constexpr std::size_t fewest_elements = 12;

/// 1, x, y, z and their products, of a position about the patch's corner.
Basis basis_at(const Vector3d& x) {
  Basis basis;
  basis << 1.0, x, x.cwiseAbs2(), x[0] * x[1], x[1] * x[2], x[2] * x[0];
  return basis;
}

/// Where an element's stress is taken, as shape functions and as shares of its corners.
struct Samples {
  Eigen::Matrix<double, 10, 4> shapes;
  Eigen::Matrix4d corners;
};

Samples gauss_samples() {
  const auto& rule = tetrahedron_rule(2);
  Samples samples;
  for (int q = 0; q < 4; ++q) {
    const Vector3d local = rule.points.col(q);
    samples.shapes.col(q) = tetrahedron_shape(local);
    samples.corners.col(q) << 1.0 - local.sum(), local;
  }
  return samples;
}

/// The polynomials of one corner of the mesh.
struct Patch {
  Coefficients coefficients;
  double size = 0.0;  // [mm], that positions are divided by
};

class PatchFitter {
 public:
  PatchFitter(const TetrahedronMesh& mesh, const NodeAdjacency& adjacency, const Fields& fields)
      : mesh_(mesh), adjacency_(adjacency), fields_(fields) {}

  Patch fit(const StressPoint& corner) {
    elements_.clear();
    add_round(corner.node, corner.body);
    if (elements_.size() < fewest_elements) {
      const std::vector<int> first_ring = elements_;
      for (const int t : first_ring)
        for (int k = 0; k < 4; ++k) add_round(mesh_.tetrahedra(k, t), corner.body);
    }
    return fitted(mesh_.nodes.col(corner.node));
  }

 private:
  void add_round(int node, BodyId body) {
    for (const auto& [t, local] : adjacency_.at(node))
      if (mesh_.body_of_tetrahedron[t] == body &&
          std::ranges::find(elements_, t) == elements_.end())
        elements_.push_back(t);
  }

  Patch fitted(const Vector3d& centre) const {
    Patch patch;
    for (const int t : elements_)
      for (int k = 0; k < 4; ++k)
        patch.size =
            std::max(patch.size, (mesh_.nodes.col(mesh_.tetrahedra(k, t)) - centre).norm());
    BasisMatrix normal = BasisMatrix::Zero();
    Coefficients right = Coefficients::Zero(10, 6 * std::ssize(fields_));
    for (const int t : elements_) {
      Eigen::Matrix<double, 3, 10> nodes;
      for (int k = 0; k < 10; ++k) nodes.col(k) = mesh_.nodes.col(mesh_.tetrahedra(k, t)) - centre;
      for (int q = 0; q < 4; ++q) {
        const Basis basis = basis_at(nodes * samples_.shapes.col(q) / patch.size);
        normal.selfadjointView<Eigen::Lower>().rankUpdate(basis);
        for (std::size_t f = 0; f < fields_.size(); ++f)
          right.middleCols<6>(6 * static_cast<Index>(f)) +=
              basis * (fields_[f]->of(t) * samples_.corners.col(q)).transpose();
      }
    }
    // What the elements do not tell apart, as across a single layer, stays out of the polynomial.
    normal.diagonal() *= 1.0 + least_spread;
    patch.coefficients = normal.selfadjointView<Eigen::Lower>().ldlt().solve(right);
    return patch;
  }

  static constexpr double least_spread = 1e-9;
  const TetrahedronMesh& mesh_;
  const NodeAdjacency& adjacency_;
  const Fields& fields_;
  const Samples samples_ = gauss_samples();
  std::vector<int> elements_;
};

/// The number of a point's node in the point's tetrahedron.
int local_number(const TetrahedronMesh& mesh, const StressPoint& point) {
  const auto nodes = mesh.tetrahedra.col(point.tetrahedron);
  return static_cast<int>(std::find(nodes.begin(), nodes.end(), point.node) - nodes.begin());
}

}  // namespace

std::vector<Eigen::Matrix<double, 6, Eigen::Dynamic>> recovered_over_patches(
    const TetrahedronMesh& mesh, const std::vector<StressPoint>& points, const Fields& fields) {
  const NodeAdjacency adjacency(mesh);
  const Index count = std::ssize(points);
  std::vector<Patch> patches(count);
  in_parallel(count, 0, [&](Index begin, Index end) {
    PatchFitter fitter(mesh, adjacency, fields);
    for (auto p = begin; p < end; ++p)
      if (local_number(mesh, points[p]) < 4) patches[p] = fitter.fit(points[p]);
  });

  const BodyPoints point_at(points);
  std::vector<Eigen::Matrix<double, 6, Eigen::Dynamic>> recovered(fields.size());
  for (auto& field : recovered) field.resize(6, count);
  in_parallel(count, 0, [&](Index begin, Index end) {
    for (auto p = begin; p < end; ++p) {
      const StressPoint& point = points[p];
      const auto value = [&](Index of) {
        const Vector3d from = mesh.nodes.col(points[of].node);
        const Vector3d position = mesh.nodes.col(point.node);
        return Eigen::VectorXd(patches[of].coefficients.transpose() *
                               basis_at((position - from) / patches[of].size));
      };
      const int local = local_number(mesh, point);
      Eigen::VectorXd at_point;
      if (local < 4) {
        at_point = value(p);
      } else {
        const auto [a, b] = edges_of_tetrahedron[local - 4];
        const auto end_of_edge = [&](int k) {
          return value(point_at.of(mesh.tetrahedra(k, point.tetrahedron), point.body));
        };
        at_point = 0.5 * (end_of_edge(a) + end_of_edge(b));
      }
      for (std::size_t f = 0; f < fields.size(); ++f)
        recovered[f].col(p) = at_point.segment<6>(6 * static_cast<Index>(f));
    }
  });
  return recovered;
}

}  // namespace crossgrain
