// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/directional_answer.h"

namespace crossgrain {
namespace {

using Eigen::Index;

/// Warming by one kelvin is a stress of -1.
MaterialField unit_field(MaterialField field) {
  for (auto& material : field.materials) {
    material.elastic = isotropic(1.0, 0.0);
    material.thermal_expansion.setOnes();
  }
  return field;
}

/// Empty if nothing counts.
StressField sum_of(const std::vector<double>& counts, const std::vector<StressField>& of_load) {
  StressField sum(6, 0);
  for (std::size_t i = 0; i < of_load.size(); ++i) {
    if (counts[i] == 0.0) continue;
    if (sum.cols() == 0) sum = StressField::Zero(6, of_load[i].cols());
    sum += counts[i] * of_load[i];
  }
  return sum;
}

/// Rows of these sites, six a site.
Eigen::MatrixXd rows_of(const Eigen::MatrixXd& strain, const std::vector<Index>& sites) {
  Eigen::MatrixXd rows(6 * std::ssize(sites), strain.cols());
  for (Index i = 0; i < std::ssize(sites); ++i)
    rows.middleRows<6>(6 * i) = strain.middleRows<6>(6 * sites[i]);
  return rows;
}

}  // namespace

DirectionalAnswer::DirectionalAnswer(const JudgedModel& model, const Loading& loading,
                                     const MaterialField& field, const TurningLoads& loads,
                                     const std::vector<Index>& sites)
    : model_(model),
      loading_(loading),
      field_(field),
      loads_(loads),
      sites_(sites),
      stiffness_(model.mesh, field, loads.turning_frames(), model.threads),
      elongations_(loads.size()) {
  const MaterialField unit = unit_field(field);
  everywhere_.sites = chosen_sites(model.sites, sites);
  for (std::size_t i = 0; i < loads.size(); ++i) {
    reduced_.emplace_back(stiffness_, loads.load(i), loads.additions(i));
    everywhere_.strain.emplace_back(6 * std::ssize(sites), 0);
    const Eigen::VectorXd& change = loading.loads[i].temperature_change;
    everywhere_.warmth.emplace_back();
    if (change.size() == 0) continue;
    const Eigen::VectorXd still = Eigen::VectorXd::Zero(model.mesh.unknowns());
    const StressField felt = model.sites.fit.of(element_stress(model.mesh, unit, still, change));
    everywhere_.warmth.back() = -felt.row(0)(sites).transpose();
  }
}

std::vector<Eigen::VectorXd> DirectionalAnswer::coefficients(const Eigen::Vector3d& direction,
                                                             const Part* part) const {
  std::vector<Eigen::VectorXd> of_load(reduced_.size());
  for (std::size_t i = 0; i < reduced_.size(); ++i) {
    if (reduced_[i].size() == 0) continue;
    Eigen::VectorXd longer;
    if (const auto locked = loads_.locked_in(i))
      longer = elongations_[*locked] * of_load[*locked] - loads_.reference_elongations(*locked);
    of_load[i] = part ? reduced_[i].coefficients_within((*part)[i], direction, longer)
                      : reduced_[i].coefficients(direction, longer);
  }
  return of_load;
}

Eigen::MatrixXd DirectionalAnswer::displacement(const Eigen::Vector3d& direction) const {
  const auto counts = coefficients(direction);
  Eigen::MatrixXd u =
      Eigen::MatrixXd::Zero(model_.mesh.unknowns(), static_cast<Index>(reduced_.size()));
  for (std::size_t i = 0; i < reduced_.size(); ++i)
    if (counts[i].size() > 0) u.col(static_cast<Index>(i)) = reduced_[i].vectors() * counts[i];
  return u;
}

void DirectionalAnswer::widen(const Eigen::Matrix3Xd& directions,
                              const std::vector<Eigen::MatrixXd>& displacements) {
  for (std::size_t i = 0; i < reduced_.size(); ++i)
    if (loads_.counts(i)) widen_load(i, directions, displacements);
}

void DirectionalAnswer::widen_load(std::size_t load, const Eigen::Matrix3Xd& directions,
                                   const std::vector<Eigen::MatrixXd>& displacements) {
  const auto of = [&](std::size_t other) {
    Eigen::MatrixXd u(model_.mesh.unknowns(), directions.cols());
    for (Index d = 0; d < directions.cols(); ++d)
      u.col(d) = displacements[d].col(static_cast<Index>(other));
    return u;
  };
  Eigen::MatrixXd longer;
  if (const auto locked = loads_.locked_in(load))
    longer = loads_.elongations(of(*locked)).colwise() - loads_.reference_elongations(*locked);
  const auto fresh = reduced_[load].widen(directions, of(load), longer);
  const auto more = std::ssize(fresh);
  if (more == 0) return;
  const Eigen::MatrixXd elongations = loads_.elongations(reduced_[load].vectors().rightCols(more));
  elongations_[load].conservativeResize(elongations.rows(), reduced_[load].size());
  elongations_[load].rightCols(more) = elongations;
  Eigen::MatrixXd& strain = everywhere_.strain[load];
  strain.conservativeResize(Eigen::NoChange, reduced_[load].size());
  for (std::size_t k = 0; k < fresh.size(); ++k) {
    const StressField felt = model_.sites.fit.of(fresh[k])(Eigen::all, sites_);
    strain.col(strain.cols() - more + static_cast<Index>(k)) = felt.reshaped();
  }
}

DirectionalAnswer::Part DirectionalAnswer::without(const std::vector<char>& left_out) const {
  Part part;
  for (const ReducedLoad& reduced : reduced_) part.push_back(reduced.span_without(left_out));
  return part;
}

std::vector<DirectionalAnswer::CaseStress> DirectionalAnswer::stress(
    const Eigen::Vector3d& direction, const BeadStrain& felt, const Part* part) const {
  const Index count = std::ssize(felt.sites.points);
  const auto counts = coefficients(direction, part);
  std::vector<StressField> of_load;
  std::vector<Matrix6d> stiffness;
  std::vector<Vector6d> expansion;
  // Work is the same in all axes: engineering strain turns by the transpose of what turns stress.
  const Matrix6d to_material = stress_rotation(frame_along(direction)).transpose();
  for (const auto& material : field_.materials) {
    stiffness.push_back(crossgrain::stiffness(material.elastic));
    expansion.push_back(Vector6d::Zero());
    expansion.back().head<3>() = material.thermal_expansion;
  }
  for (std::size_t i = 0; i < reduced_.size(); ++i) {
    Eigen::VectorXd strain = Eigen::VectorXd::Zero(6 * count);
    if (counts[i].size() > 0) strain = felt.strain[i] * counts[i];
    StressField stress(6, count);
    for (Index s = 0; s < count; ++s) {
      const int material = field_.material_of_tetrahedron[felt.sites.points[s].tetrahedron];
      Vector6d here = to_material * strain.segment<6>(6 * s);
      if (felt.warmth[i].size() > 0) here -= felt.warmth[i][s] * expansion[material];
      stress.col(s) = stiffness[material] * here;
    }
    of_load.push_back(std::move(stress));
  }
  std::vector<CaseStress> of_case;
  for (const LoadCase& load_case : loading_.cases) {
    of_case.push_back({sum_of(load_case.held, of_load), sum_of(load_case.scaling, of_load)});
  }
  return of_case;
}

BeadStrain felt_at(const BeadStrain& felt, const std::vector<Index>& sites) {
  BeadStrain few;
  few.sites = chosen_sites(felt.sites, sites);
  for (const auto& strain : felt.strain) few.strain.push_back(rows_of(strain, sites));
  for (const auto& warmth : felt.warmth)
    few.warmth.push_back(warmth.size() > 0 ? Eigen::VectorXd(warmth(sites)) : warmth);
  return few;
}

}  // namespace crossgrain
