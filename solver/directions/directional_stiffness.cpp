// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/directional_stiffness.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>
#include <string>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"
#include "solver/elements/strain.h"

namespace crossgrain {
namespace {

constexpr int monomials = direction_monomial_count;
/// Of an element; row: node, columns: component of its gradient, strain [mm^2].
using ElementMoments = Eigen::Matrix<double, 10, 18, Eigen::RowMajor>;
// So that what waits to be summed stays in the cache.
constexpr Eigen::Index elements_at_a_time = 1024;

/// Place of component (i, j) among the six of a stress.
constexpr int place_of[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};

/// Sums over the points of an element of gradient times strain.
class StrainMoments {
 public:
  explicit StrainMoments(const TetrahedronMesh& mesh)
      : mesh_(mesh), straight_(tetrahedron_rule(2)), curved_(stiffness_rule()) {}

  void move_to(Eigen::Index t) {
    // Strain and gradients are linear where edges are straight: four points are exact.
    element_ = has_straight_edges(mesh_, t) ? &straight_ : &curved_;
    element_->move_to(mesh_, t);
    tetrahedron_ = t;
  }

  /// @return row: node, columns: component of its gradient, strain [mm^2].
  const Eigen::Matrix<double, 10, 18>& of(const Eigen::Ref<const Eigen::VectorXd>& u) {
    const ElementAtPoints& element = *element_;
    const auto at_nodes = nodal_vectors(mesh_, tetrahedron_, u);
    sums_.setZero();
    for (Eigen::Index q = 0; q < element.size(); ++q) {
      const Vector6d strain = element.weight(q) * strain_of(element.gradients(q), at_nodes);
      for (int j = 0; j < 3; ++j)
        sums_.middleCols<6>(6 * j) += element.gradients(q).row(j).transpose() * strain.transpose();
    }
    return sums_;
  }

 private:
  const TetrahedronMesh& mesh_;
  ElementAtPoints straight_, curved_;
  ElementAtPoints* element_ = nullptr;
  Eigen::Index tetrahedron_ = -1;
  Eigen::Matrix<double, 10, 18> sums_;
};

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
    const auto [solid, is_new] = solid_of.try_emplace({material, frame}, contraction_.size());
    if (is_new) {
      const auto& elastic = field.materials[material].elastic;
      contraction_.push_back(contraction(
          frame < 0 ? stiffness_polynomial(elastic)
                    : fixed_stiffness(rotate_stiffness(stiffness(elastic), field.frames[frame]))));
      tetrahedra_of_solid_.emplace_back();
    }
    tetrahedra_of_solid_[solid->second].push_back(t);
  }
}

DirectionalForces DirectionalStiffness::forces(const Eigen::VectorXd& u) const {
  return std::move(forces_of_each(u).front());
}

std::vector<DirectionalForces> DirectionalStiffness::forces_of_each(
    const Eigen::MatrixXd& displacements) const {
  if (displacements.rows() != mesh_.unknowns() || !displacements.allFinite())
    throw std::invalid_argument("a displacement does not fit the mesh or is not finite");
  std::vector<DirectionalForces> forces(displacements.cols(),
                                        DirectionalForces::Zero(displacements.rows(), monomials));
  for (std::size_t m = 0; m < contraction_.size(); ++m) {
    const auto moments = nodal_moments(tetrahedra_of_solid_[m], displacements);
    in_parallel(mesh_.node_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
      for (std::size_t c = 0; c < forces.size(); ++c)
        for (auto node = begin; node < end; ++node)
          Eigen::Map<Eigen::Matrix<double, 1, 3 * monomials>>(&forces[c](3 * node, 0)) +=
              moments[c].row(node) * contraction_[m];
    });
  }
  return forces;
}

std::vector<DirectionalStiffness::NodalMoments> DirectionalStiffness::nodal_moments(
    const std::vector<Eigen::Index>& tetrahedra, const Eigen::MatrixXd& displacements) const {
  const auto columns = displacements.cols();
  std::vector<NodalMoments> sums(columns, NodalMoments::Zero(mesh_.node_count(), 18));
  std::vector<ElementMoments> moments(elements_at_a_time * columns);
  for (Eigen::Index first = 0; first < std::ssize(tetrahedra); first += elements_at_a_time) {
    const auto count = std::min(elements_at_a_time, std::ssize(tetrahedra) - first);
    in_parallel(count, threads_, [&](Eigen::Index begin, Eigen::Index end) {
      StrainMoments element(mesh_);
      for (auto e = begin; e < end; ++e) {
        element.move_to(tetrahedra[first + e]);
        for (Eigen::Index c = 0; c < columns; ++c)
          moments[e * columns + c] = element.of(displacements.col(c));
      }
    });
    // Every range adds to nodes of its own, in the order of the elements.
    in_parallel(mesh_.node_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
      for (Eigen::Index e = 0; e < count; ++e)
        for (int a = 0; a < 10; ++a) {
          const Eigen::Index node = mesh_.tetrahedra(a, tetrahedra[first + e]);
          if (node < begin || node >= end) continue;
          for (Eigen::Index c = 0; c < columns; ++c)
            sums[c].row(node) += moments[e * columns + c].row(a);
        }
    });
  }
  return sums;
}

}  // namespace crossgrain
