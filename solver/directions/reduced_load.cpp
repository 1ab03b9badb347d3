// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/directions/reduced_load.h"

#include <Eigen/Cholesky>
#include <Eigen/QR>
#include <cmath>
#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

// Of the first displacement's energy: what is smaller is the solver's error.
constexpr double least_energy = 1e-20;
// Of a displacement, in energy: what lies less outside the span of others is theirs. Squared it is
// what differences of energies still tell.
constexpr double least_share = 1e-6;

Eigen::VectorXd solved(const Eigen::MatrixXd& stiffness, const Eigen::VectorXd& load) {
  const Eigen::LLT<Eigen::MatrixXd> factor(stiffness);
  if (factor.info() != Eigen::Success)
    throw std::runtime_error("the " + std::to_string(stiffness.rows()) +
                             " displacements that directions are answered from depend on each "
                             "other; fewer of them, solved more exactly, would not");
  return factor.solve(load);
}

}  // namespace

ReducedLoad::ReducedLoad(const DirectionalStiffness& stiffness, DirectionalLoad load,
                         StiffnessAdditions additions)
    : stiffness_(stiffness),
      load_(std::move(load)),
      additions_(std::move(additions)),
      vectors_(load_.parts().rows(), 0),
      blocks_(direction_monomial_count, Eigen::MatrixXd(0, 0)),
      projected_load_(0, load_.parts().cols()) {}

std::vector<ElementStress> ReducedLoad::widen(const Eigen::Matrix3Xd& directions,
                                              const Eigen::MatrixXd& solutions,
                                              const Eigen::MatrixXd& told) {
  const auto before = size();
  std::vector<Eigen::VectorXd> known;
  Eigen::MatrixXd news = solutions;
  for (Eigen::Index i = 0; i < news.cols(); ++i) {
    known.push_back(load_.told() > 0 ? coefficients(directions.col(i), told.col(i))
                                     : coefficients(directions.col(i)));
    if (before > 0) news.col(i) -= vectors_ * known.back();
  }
  const auto along_z = direction_monomials({0, 0, 1});
  auto resistances = resistance(news);
  if (before == 0 && news.cols() > 0)
    first_energy_ = (products(news.leftCols<1>(), resistances[0]) * along_z)[0];
  std::vector<Eigen::Index> fresh;  // which of the news became vectors
  for (Eigen::Index i = 0; i < news.cols(); ++i) {
    Resistance& to_new = resistances[i];
    known[i].conservativeResize(size());
    // Of what came with it only what is across: energies along z tell.
    for (auto k = before; k < size(); ++k) {
      const double share = (products(vectors_.col(k), to_new) * along_z)[0];
      news.col(i) -= share * vectors_.col(k);
      to_new.subtract(share, resistances[fresh[k - before]]);
      known[i][k] = share;
    }
    // It may still lie in the span of all vectors together.
    const DirectionalStiffness::Products with_itself = products(news.col(i), to_new),
                                         with_vectors = products(vectors_, to_new);
    const double energy = (with_itself * along_z)[0];
    const Eigen::VectorXd across = with_vectors * along_z;
    const Eigen::VectorXd within = solved(stiffness_along({0, 0, 1}), across);
    if (energy > least_energy * first_energy_ &&
        energy - across.dot(within) > least_share * least_share * energy) {
      const double scale = 1.0 / std::sqrt(energy);
      to_new *= scale;
      append(scale * news.col(i), scale * with_vectors, scale * scale * with_itself);
      fresh.push_back(i);
      known[i].conservativeResize(size());
      known[i][size() - 1] = 1.0 / scale;
    } else {
      known[i] += within;
    }
    solutions_.push_back(known[i]);
  }
  std::vector<ElementStress> strain;
  for (const Eigen::Index i : fresh) strain.push_back(std::move(resistances[i].of_elements.strain));
  return strain;
}

ReducedLoad::Resistance& ReducedLoad::Resistance::operator*=(double factor) {
  of_elements *= factor;
  of_additions *= factor;
  return *this;
}

void ReducedLoad::Resistance::subtract(double factor, const Resistance& other) {
  of_elements.subtract(factor, other.of_elements);
  of_additions -= factor * other.of_additions;
}

std::vector<ReducedLoad::Resistance> ReducedLoad::resistance(
    const Eigen::MatrixXd& displacements) const {
  std::vector<Resistance> resistances;
  for (auto& moments : stiffness_.moments(displacements))
    resistances.push_back({std::move(moments), {}});
  if (additions_.empty()) return resistances;
  for (Eigen::Index c = 0; c < displacements.cols(); ++c)
    resistances[c].of_additions = added_forces(additions_, displacements.col(c));
  return resistances;
}

DirectionalStiffness::Products ReducedLoad::products(
    const Eigen::Ref<const Eigen::MatrixXd>& vectors, const Resistance& to_u) const {
  auto products = stiffness_.products(vectors, to_u.of_elements);
  if (to_u.of_additions.size() > 0)
    products += vectors.transpose() * to_u.of_additions * constant_as_monomials().transpose();
  return products;
}

void ReducedLoad::append(const Eigen::VectorXd& u,
                         const DirectionalStiffness::Products& with_vectors,
                         const DirectionalStiffness::Products& with_itself) {
  const auto k = size();
  vectors_.conservativeResize(Eigen::NoChange, k + 1);
  vectors_.col(k) = u;
  projected_load_.conservativeResize(k + 1, Eigen::NoChange);
  projected_load_.row(k) = u.transpose() * load_.parts();
  for (int m = 0; m < direction_monomial_count; ++m) {
    blocks_[m].conservativeResize(k + 1, k + 1);
    blocks_[m].col(k) << with_vectors.col(m), with_itself(0, m);
    blocks_[m].row(k) = blocks_[m].col(k).transpose();
  }
}

Eigen::MatrixXd ReducedLoad::stiffness_along(const Eigen::Vector3d& direction) const {
  const auto monomials = direction_monomials(direction);
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(size(), size());
  for (int m = 0; m < direction_monomial_count; ++m) K += monomials[m] * blocks_[m];
  return K;
}

Eigen::VectorXd ReducedLoad::coefficients(const Eigen::Vector3d& direction,
                                          const Eigen::VectorXd& told) const {
  return solved(stiffness_along(direction), projected_load_ * load_.weights(direction, told));
}

Eigen::MatrixXd ReducedLoad::span_without(const std::vector<char>& without) const {
  Eigen::MatrixXd left(size(), 0);
  for (std::size_t i = 0; i < solutions_.size(); ++i) {
    if (without[i] || solutions_[i].size() == 0) continue;
    left.conservativeResize(Eigen::NoChange, left.cols() + 1);
    left.rightCols<1>().setZero();
    left.rightCols<1>().head(solutions_[i].size()) = solutions_[i].normalized();
  }
  if (left.cols() == 0) return left;
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> independent(left);
  independent.setThreshold(1e-10);
  return independent.householderQ() * Eigen::MatrixXd::Identity(size(), independent.rank());
}

Eigen::VectorXd ReducedLoad::coefficients_within(const Eigen::MatrixXd& span,
                                                 const Eigen::Vector3d& direction,
                                                 const Eigen::VectorXd& told) const {
  return span * solved(span.transpose() * stiffness_along(direction) * span,
                       span.transpose() * (projected_load_ * load_.weights(direction, told)));
}

Eigen::VectorXd ReducedLoad::displacement(const Eigen::Vector3d& direction) const {
  return vectors_ * coefficients(direction);
}

Eigen::VectorXd ReducedLoad::residual(const Eigen::Vector3d& direction) const {
  const auto to_answer = std::move(resistance(displacement(direction)).front());
  Eigen::VectorXd left = load_.parts() * load_.weights(direction) -
                         stiffness_.forces(to_answer.of_elements, direction);
  if (to_answer.of_additions.size() > 0) left -= to_answer.of_additions;
  return left;
}

}  // namespace crossgrain
