// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/linear_system/stiffness_assembly.h"

#include <algorithm>
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/point_material.h"

namespace crossgrain {
namespace {

const TetrahedronMesh& checked(const TetrahedronMesh& mesh) {
  if (mesh.tetrahedron_count() == 0 || !mesh.nodes.allFinite())
    throw std::invalid_argument("the mesh has no elements, or a node that is nowhere");
  if (mesh.tetrahedra.minCoeff() < 0 || mesh.tetrahedra.maxCoeff() >= mesh.node_count())
    throw std::invalid_argument("an element of the mesh names a node that is not there");
  return mesh;
}

/// Nodes >= `node` that share an element with it, ascending; a node of no element keeps its
/// diagonal.
std::vector<int> later_neighbours(const TetrahedronMesh& mesh, const NodeAdjacency& adjacency,
                                  int node) {
  std::vector<int> neighbours{node};
  for (const auto& [tetrahedron, local] : adjacency.at(node))
    for (int other : mesh.tetrahedra.col(tetrahedron))
      if (other > node) neighbours.push_back(other);
  std::sort(neighbours.begin(), neighbours.end());
  neighbours.erase(std::unique(neighbours.begin(), neighbours.end()), neighbours.end());
  return neighbours;
}

}  // namespace

StiffnessAssembly::StiffnessAssembly(const TetrahedronMesh& mesh, const TetrahedronRule& rule,
                                     int threads)
    : mesh_(checked(mesh)), rule_(rule), threads_(threads), adjacency_(mesh) {
  lay_out_pattern();
  integrate_geometry();
}

void StiffnessAssembly::lay_out_pattern() {
  const auto nodes = mesh_.node_count();
  std::vector<std::vector<int>> rows(nodes);
  in_parallel(nodes, threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i)
      rows[i] = later_neighbours(mesh_, adjacency_, static_cast<int>(i));
  });
  matrix_.row_start.assign(1, 0);
  for (const auto& row : rows) {
    matrix_.column.insert(matrix_.column.end(), row.begin(), row.end());
    matrix_.row_start.push_back(std::ssize(matrix_.column));
  }
  matrix_.blocks.resize(9, std::ssize(matrix_.column));
}

void StiffnessAssembly::integrate_geometry() {
  gradient_products_.assign(mesh_.tetrahedron_count(), PairBlocks::Zero());
  in_parallel(mesh_.tetrahedron_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    ElementAtPoints element(rule_);
    for (auto t = begin; t < end; ++t) {
      element.move_to(mesh_, t);
      for (Eigen::Index q = 0; q < element.size(); ++q)
        add_gradient_products(gradient_products_[t], element.gradients(q), element.weight(q));
    }
  });
}

std::vector<PairBlocks> StiffnessAssembly::element_stiffness(const MaterialField& field) const {
  std::vector<PairBlocks> elements(mesh_.tetrahedron_count());
  in_parallel(mesh_.tetrahedron_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    PointMaterial material(field);
    ElementAtPoints element(rule_);
    for (auto t = begin; t < end; ++t) {
      if (field.one_frame_per_element()) {
        elements[t].noalias() = contraction(material.stiffness(t, 0)) * gradient_products_[t];
        continue;
      }
      element.move_to(mesh_, t);
      elements[t].setZero();
      for (Eigen::Index q = 0; q < element.size(); ++q) {
        PairBlocks products = PairBlocks::Zero();
        add_gradient_products(products, element.gradients(q), element.weight(q));
        elements[t].noalias() += contraction(material.stiffness(t, q)) * products;
      }
    }
  });
  return elements;
}

void StiffnessAssembly::gather(const std::vector<PairBlocks>& elements) {
  in_parallel(mesh_.node_count(), threads_, [&](Eigen::Index begin, Eigen::Index end) {
    for (auto i = begin; i < end; ++i) {
      const auto row = matrix_.column.begin() + matrix_.row_start[i];
      const auto row_end = matrix_.column.begin() + matrix_.row_start[i + 1];
      matrix_.blocks.middleCols(matrix_.row_start[i], row_end - row).setZero();
      for (const auto& [t, a] : adjacency_.at(i)) {
        for (int b = 0; b < 10; ++b) {
          const int j = mesh_.tetrahedra(b, t);
          if (j < i) continue;
          const auto k = std::lower_bound(row, row_end, j) - matrix_.column.begin();
          const auto& blocks = elements[t];
          if (a <= b) {
            matrix_.blocks.col(k) += blocks.col(pair_number(a, b));
          } else {
            matrix_.block(k) +=
                Eigen::Map<const Eigen::Matrix3d>(blocks.col(pair_number(b, a)).data()).transpose();
          }
        }
      }
    }
  });
}

void StiffnessAssembly::assemble(const MaterialField& field) {
  require_fits(field, mesh_, rule_.size());
  gather(element_stiffness(field));
}

}  // namespace crossgrain
