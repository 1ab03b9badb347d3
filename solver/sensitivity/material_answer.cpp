// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/sensitivity/material_answer.h"

#include <Eigen/QR>

#include "solver/elements/element_at_points.h"
#include "solver/elements/parallel.h"
#include "solver/elements/straight_edges.h"
#include "solver/elements/strain.h"

namespace crossgrain {
namespace {

using Eigen::Index;

// Summed slice by slice and then in order: the same for any number of threads.
constexpr Index slices = 64;
// Of two displacements of energy 1 that differ by less in energy one is enough.
constexpr double same_displacement = 1e-12;

/// Stress of one material per warmth [MPa/K], material axes.
Vector6d warmth_stress(const SolidMaterial& material) {
  Vector6d strain = Vector6d::Zero();
  strain.head<3>() = material.thermal_expansion;
  return stiffness(material.elastic) * strain;
}

}  // namespace

/// The sums over some elements.
class MaterialAnswer::Pass {
 public:
  Pass(const TetrahedronMesh& mesh, const MaterialField& field,
       const std::array<Eigen::VectorXd, 2>& displacements, const Eigen::VectorXd& warmth)
      : mesh_(mesh),
        field_(field),
        displacements_(displacements),
        warmth_(warmth),
        straight_(tetrahedron_rule(2)),
        curved_(stiffness_rule()) {}

  std::vector<Sums> zeros() const {
    Sums none;
    for (auto& sum : none.strain_by_strain) sum.setZero();
    for (auto& sum : none.felt) sum.setZero();
    none.warmed.setZero();
    none.felt_warmth.setZero();
    return std::vector<Sums>(field_.materials.size(), none);
  }

  void add_energies(Index t, std::vector<Sums>& sums) {
    // Strain is linear where edges are straight: four points are exact for its products.
    const bool few =
        warmth_.size() == 0 && field_.one_frame_per_element() && has_straight_edges(mesh_, t);
    move_to(few ? straight_ : curved_, t);
    Sums& sum = sums[field_.material_of_tetrahedron[t]];
    for (Index q = 0; q < element_->size(); ++q) {
      const double weight = element_->weight(q);
      const std::array<Vector6d, 2> strain = strain_at(q);
      sum.strain_by_strain[0] += weight * strain[0] * strain[0].transpose();
      sum.strain_by_strain[1] += weight * strain[0] * strain[1].transpose();
      sum.strain_by_strain[2] += weight * strain[1] * strain[1].transpose();
      if (warmth_.size() == 0) continue;
      for (int v = 0; v < 2; ++v) sum.warmed.col(v) += weight * warmth_at(q) * strain[v];
    }
  }

  /// As `stress_functional` samples it.
  void add_felt(const StressQuantity& quantity, std::vector<Sums>& sums) {
    const Eigen::MatrixX4d fit = fit_at_corners(stiffness_rule());
    for (const auto& [tetrahedron, weights] : quantity.shares) {
      move_to(curved_, tetrahedron);
      const Eigen::VectorXd at_points = fit * weights;
      Sums& sum = sums[field_.material_of_tetrahedron[tetrahedron]];
      for (Index q = 0; q < element_->size(); ++q) {
        const std::array<Vector6d, 2> strain = strain_at(q);
        const Vector6d direction = at_points[q] * (to_material_ * quantity.direction);
        for (int v = 0; v < 2; ++v) sum.felt[v] += direction * strain[v].transpose();
        if (warmth_.size() > 0) sum.felt_warmth += warmth_at(q) * direction;
      }
    }
  }

 private:
  void move_to(ElementAtPoints& element, Index t) {
    element_ = &element;
    element.move_to(mesh_, t);
    tetrahedron_ = t;
    for (int v = 0; v < 2; ++v) at_nodes_[v] = nodal_vectors(mesh_, t, displacements_[v]);
    if (warmth_.size() > 0) warmth_at_nodes_ = warmth_(mesh_.tetrahedra.col(t));
  }
  /// In the axes of the point's frame.
  std::array<Vector6d, 2> strain_at(Index q) {
    const int frame = field_.frame_number(tetrahedron_, q);
    // Work is the same in all axes: strain turns back by the transpose of what turns stress.
    if (frame != frame_) to_material_ = stress_rotation(field_.frames[frame]).transpose();
    frame_ = frame;
    const auto& gradients = element_->gradients(q);
    return {to_material_ * strain_of(gradients, at_nodes_[0]),
            to_material_ * strain_of(gradients, at_nodes_[1])};
  }
  double warmth_at(Index q) const { return warmth_at_nodes_.dot(element_->shape(q)); }

  const TetrahedronMesh& mesh_;
  const MaterialField& field_;
  const std::array<Eigen::VectorXd, 2>& displacements_;
  const Eigen::VectorXd& warmth_;
  ElementAtPoints straight_, curved_;
  ElementAtPoints* element_ = nullptr;
  Index tetrahedron_ = -1;
  int frame_ = -1;
  Matrix6d to_material_;
  std::array<Eigen::Matrix<double, 3, 10>, 2> at_nodes_;
  TetrahedronShape warmth_at_nodes_;
};

MaterialAnswer::MaterialAnswer(const TetrahedronMesh& mesh, const MaterialField& field,
                               const LoadedState& state, const Eigen::VectorXd& counted,
                               const StressQuantity& quantity, const Eigen::Matrix2d& added)
    : added_(added) {
  require_fits(field, mesh, stiffness_rule().size());
  const std::array<Eigen::VectorXd, 2> displacements{state.displacement, counted};
  std::vector<std::vector<Sums>> of_slice(slices);
  in_parallel(slices, 0, [&](Index begin, Index end) {
    Pass pass(mesh, field, displacements, state.temperature_change);
    for (Index slice = begin; slice < end; ++slice) {
      of_slice[slice] = pass.zeros();
      const Index last = mesh.tetrahedron_count() * (slice + 1) / slices;
      for (Index t = mesh.tetrahedron_count() * slice / slices; t < last; ++t)
        pass.add_energies(t, of_slice[slice]);
    }
  });
  Pass pass(mesh, field, displacements, state.temperature_change);
  sums_ = pass.zeros();
  for (const auto& slice : of_slice)
    for (std::size_t m = 0; m < sums_.size(); ++m) {
      for (int k = 0; k < 3; ++k) sums_[m].strain_by_strain[k] += slice[m].strain_by_strain[k];
      sums_[m].warmed += slice[m].warmed;
    }
  pass.add_felt(quantity, sums_);

  // The solution answers its loads: their work on a displacement is that of its own forces.
  work_ = added_.col(0);
  for (std::size_t m = 0; m < sums_.size(); ++m) {
    const Matrix6d C = stiffness(field.materials[m].elastic);
    for (int v = 0; v < 2; ++v) work_[v] += C.cwiseProduct(sums_[m].strain_by_strain[v]).sum();
    work_ -= sums_[m].warmed.transpose() * warmth_stress(field.materials[m]);
  }
}

MaterialAnswer::Answer MaterialAnswer::with(const std::vector<SolidMaterial>& materials,
                                            const Eigen::Vector2d& other_work) const {
  Eigen::Matrix2d energy = added_;
  Eigen::Vector2d work = work_ + other_work, felt = Eigen::Vector2d::Zero();
  double felt_warmth = 0.0;
  for (std::size_t m = 0; m < sums_.size(); ++m) {
    const Matrix6d C = stiffness(materials[m].elastic);
    const Vector6d warmth = warmth_stress(materials[m]);
    const auto of = [&](int pair) { return C.cwiseProduct(sums_[m].strain_by_strain[pair]).sum(); };
    energy += (Eigen::Matrix2d() << of(0), of(1), of(1), of(2)).finished();
    work += sums_[m].warmed.transpose() * warmth;
    for (int v = 0; v < 2; ++v) felt[v] += C.cwiseProduct(sums_[m].felt[v]).sum();
    felt_warmth += warmth.dot(sums_[m].felt_warmth);
  }
  // Brought to like size, so that it shows whether both are one.
  const Eigen::Vector2d size =
      energy.diagonal().unaryExpr([](double e) { return e > 0.0 ? 1.0 / std::sqrt(e) : 1.0; });
  Eigen::CompleteOrthogonalDecomposition<Eigen::Matrix2d> system;
  system.setThreshold(same_displacement);
  system.compute(size.asDiagonal() * energy * size.asDiagonal());
  const Eigen::Vector2d parts = size.asDiagonal() * system.solve(size.asDiagonal() * work);
  return {felt.dot(parts) - felt_warmth, parts};
}

}  // namespace crossgrain
