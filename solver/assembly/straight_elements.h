// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solver/assembly/element_pattern.h"
#include "solver/blocks/node_vectors.h"
#include "solver/blocks/row_pieces.h"
#include "solver/elements/material_field.h"

namespace crossgrain {

/// Multiplies node vectors with the stiffness of a mesh, its edges straightened, without having
/// assembled it: from displacements to strain, stress and forces, many elements side by side. What
/// it reads is a tenth of the matrix. In single precision, for a preconditioner: there a curved
/// element does not miss its bow.
class StraightElements {
 public:
  /// Both are kept by reference. @param threads  0: all cores.
  StraightElements(const TetrahedronMesh& mesh, const RankedElements& elements, int threads);

  /// Grouping and geometry stay where only frames and constants changed.
  void set_material(const MaterialField& field);

  /// There is no product where frames change within elements or are too many, nor where an
  /// element with straight edges would be inverted.
  bool usable() const { return usable_; }

  /// y = K x, by rank; the same to the last bit for any number of threads.
  void apply(const NodeVectors<float>& x, NodeVectors<float>& y) const;

  double bytes() const;

 private:
  /// Elements of one material in each and of one piece, in order; lanes that stay empty weigh
  /// nothing.
  struct Groups {
    std::vector<Eigen::Index> first_of_piece{0};  ///< and one past the last
    std::vector<Eigen::Index> first_member{0};    ///< of each; and one past the last
    std::vector<int> member;                      ///< elements
    std::vector<int> material;
    std::vector<int> nodes;        ///< as the kernel wants them
    std::vector<float> gradients;  ///< likewise; not finite where an element would be inverted
  };
  void make_pieces();
  /// @return number in elastic_ of each element's material.
  std::vector<int> number_materials(const MaterialField& field);
  void make_groups();
  void fill(Eigen::Index group);

  const TetrahedronMesh& mesh_;
  const RankedElements& elements_;
  int threads_;
  bool usable_ = false;
  std::vector<RowPiece> pieces_;
  std::vector<Eigen::Index> first_element_;  ///< of each piece; and one past the last
  std::vector<int> material_of_element_;
  std::vector<float> elastic_;  ///< 36 of each material
  Groups groups_;
};

}  // namespace crossgrain
