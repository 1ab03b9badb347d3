// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/directional_stiffness.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>

#include "solver/directions/strain_batch.h"
#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"

namespace crossgrain {
namespace {

using Eigen::Index;

constexpr int monomials = direction_monomial_count;
// So that what waits to be summed stays in the cache.
constexpr Index elements_at_a_time = 64 * batch;
// What is summed by itself, whatever the number of threads.
constexpr Index nodes_at_a_time = 4096;

/// Place of component (i, j) among the six of a stress.
constexpr int place_of[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};

/// Moments at a node -> force components of all monomials.
Eigen::Matrix<double, 18, 3 * monomials> contraction(const StiffnessPolynomial& polynomial) {
  Eigen::Matrix<double, 18, 3 * monomials> contraction;
  for (int m = 0; m < monomials; ++m)
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j)
        contraction.col(i * monomials + m).segment<6>(6 * j) =
            polynomial.coefficients[m].row(place_of[i][j]);
  return contraction;
}

std::vector<int> all_frames(const MaterialField& field) {
  std::vector<int> all(field.frames.size());
  std::iota(all.begin(), all.end(), 0);
  return all;
}

/// @return -1 of an element that turns.
int held_frame(const MaterialField& field, Eigen::Index tetrahedron,
               const std::vector<int>& turning) {
  const auto frames = field.frame_of_point.row(tetrahedron);
  const auto turns = [&](int frame) { return std::ranges::find(turning, frame) != turning.end(); };
  if (std::all_of(frames.begin(), frames.end(), turns)) return -1;
  if ((frames.array() != frames[0]).any())
    throw std::invalid_argument(
        "element " + std::to_string(tetrahedron + 1) +
        " is held while others turn, but its frame changes from point to point");
  return frames[0];
}

}  // namespace

StrainMoments& StrainMoments::operator*=(double factor) {
  for (auto& sums : of_solid) sums *= factor;
  strain.at_corners *= factor;
  return *this;
}

void StrainMoments::subtract(double factor, const StrainMoments& other) {
  for (std::size_t m = 0; m < of_solid.size(); ++m) of_solid[m] -= factor * other.of_solid[m];
  strain.at_corners -= factor * other.strain.at_corners;
}

DirectionalStiffness::DirectionalStiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                                           int threads)
    : DirectionalStiffness(mesh, field, all_frames(field), threads) {}

DirectionalStiffness::DirectionalStiffness(const TetrahedronMesh& mesh, const MaterialField& field,
                                           const std::vector<int>& turning, int threads)
    : mesh_(mesh), threads_(thread_count(threads)) {
  require_fits(field, mesh, stiffness_rule().size());
  std::map<std::pair<int, int>, std::size_t> solid_of;  // material and frame, -1 of what turns
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    const int material = field.material_of_tetrahedron[t], frame = held_frame(field, t, turning);
    const auto [solid, is_new] = solid_of.try_emplace({material, frame}, solids_.size());
    if (is_new) {
      const auto& elastic = field.materials[material].elastic;
      solids_.emplace_back().contraction = contraction(
          frame < 0 ? stiffness_polynomial(elastic)
                    : fixed_stiffness(rotate_stiffness(stiffness(elastic), field.frames[frame])));
    }
    Solid& of_element = solids_[solid->second];
    (has_straight_edges(mesh, t) ? of_element.straight : of_element.curved).push_back(t);
  }
}

std::vector<StrainMoments> DirectionalStiffness::moments(
    const Eigen::MatrixXd& displacements) const {
  if (displacements.rows() != mesh_.unknowns() || !displacements.allFinite())
    throw std::invalid_argument("a displacement does not fit the mesh or is not finite");
  StrainMoments none;
  none.of_solid.assign(solids_.size(), StrainMoments::OfNodes::Zero(mesh_.node_count(), 18));
  none.strain.at_corners.resize(6, 4 * mesh_.tetrahedron_count());
  none.strain.volumes.resize(mesh_.tetrahedron_count());
  std::vector<StrainMoments> sums(displacements.cols(), none);
  for (std::size_t k = 0; k < solids_.size(); ++k) {
    // Strain and gradients are linear where edges are straight: four points are exact.
    add_moments(solids_[k].straight, tetrahedron_rule(2), displacements, k, sums);
    add_moments(solids_[k].curved, stiffness_rule(), displacements, k, sums);
  }
  return sums;
}

void DirectionalStiffness::add_moments(const std::vector<Index>& tetrahedra,
                                       const TetrahedronRule& rule,
                                       const Eigen::MatrixXd& displacements, std::size_t solid,
                                       std::vector<StrainMoments>& sums) const {
  const auto columns = displacements.cols();
  std::vector<StrainBatch::Moments> moments(elements_at_a_time * columns);
  for (Index first = 0; first < std::ssize(tetrahedra); first += elements_at_a_time) {
    const auto count = std::min(elements_at_a_time, std::ssize(tetrahedra) - first);
    in_parallel((count + batch - 1) / batch, threads_, [&](Index begin, Index end) {
      StrainBatch elements(mesh_, rule, displacements);
      for (auto b = begin; b < end; ++b) {
        const Index first_of_batch = b * batch;
        elements.clear();
        for (Index e = first_of_batch; e < count && !elements.full(); ++e)
          elements.take(tetrahedra[first + e]);
        elements.integrate();
        for (int lane = 0; lane < elements.count(); ++lane) {
          const Index e = first_of_batch + lane, t = tetrahedra[first + e];
          for (Index c = 0; c < columns; ++c) {
            moments[e * columns + c] = elements.moments(lane, c);
            sums[c].strain.at_corners.middleCols<4>(4 * t) = elements.at_corners(lane, c);
            sums[c].strain.volumes[t] = elements.volume(lane);
          }
        }
      }
    });
    // Every range adds to nodes of its own, in the order of the elements.
    in_parallel(mesh_.node_count(), threads_, [&](Index begin, Index end) {
      for (Index e = 0; e < count; ++e)
        for (int a = 0; a < 10; ++a) {
          const Index node = mesh_.tetrahedra(a, tetrahedra[first + e]);
          if (node < begin || node >= end) continue;
          for (Index c = 0; c < columns; ++c)
            sums[c].of_solid[solid].row(node) += moments[e * columns + c].row(a);
        }
    });
  }
}

Eigen::VectorXd DirectionalStiffness::forces(const StrainMoments& of_u,
                                             const Eigen::Vector3d& direction) const {
  const auto of_direction = direction_monomials(direction);
  Eigen::VectorXd forces = Eigen::VectorXd::Zero(mesh_.unknowns());
  auto by_node = forces.reshaped<Eigen::RowMajor>(mesh_.node_count(), 3);
  for (std::size_t k = 0; k < solids_.size(); ++k) {
    Eigen::Matrix<double, 18, 3> contraction;
    for (int i = 0; i < 3; ++i)
      contraction.col(i) =
          solids_[k].contraction.middleCols<monomials>(i * monomials) * of_direction;
    by_node += of_u.of_solid[k] * contraction;
  }
  return forces;
}

DirectionalStiffness::Products DirectionalStiffness::products(
    const Eigen::Ref<const Eigen::MatrixXd>& vectors, const StrainMoments& of_u) const {
  const auto columns = vectors.cols();
  const Index pieces = (mesh_.node_count() + nodes_at_a_time - 1) / nodes_at_a_time;
  Products products = Products::Zero(columns, monomials);
  for (std::size_t k = 0; k < solids_.size(); ++k) {
    // Row: vector, component; columns: component of the gradient, strain.
    std::vector<Eigen::MatrixXd> of_piece(pieces);
    in_parallel(pieces, threads_, [&](Index begin, Index end) {
      for (auto p = begin; p < end; ++p) {
        const Index first = p * nodes_at_a_time,
                    count = std::min(nodes_at_a_time, mesh_.node_count() - first);
        Eigen::MatrixXd by_node(count, 3 * columns);
        for (Index v = 0; v < columns; ++v)
          by_node.middleCols<3>(3 * v) =
              vectors.col(v).segment(3 * first, 3 * count).reshaped<Eigen::RowMajor>(count, 3);
        of_piece[p] = by_node.transpose() * of_u.of_solid[k].middleRows(first, count);
      }
    });
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(3 * columns, 18);
    for (const auto& part : of_piece) sum += part;
    for (Index v = 0; v < columns; ++v)
      for (int i = 0; i < 3; ++i)
        products.row(v) +=
            sum.row(3 * v + i) * solids_[k].contraction.middleCols<monomials>(i * monomials);
  }
  return products;
}

}  // namespace crossgrain
