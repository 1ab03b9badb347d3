// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/directional_answer.h"

#include <numeric>

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

MaterialField turned(MaterialField field, const Eigen::Vector3d& direction) {
  for (auto& frame : field.frames) frame = frame_along(direction);
  return field;
}

DirectionalLoad directional(const Loading& loading, std::size_t load, const TetrahedronMesh& mesh,
                            const MaterialField& field) {
  if (loading.loads[load].temperature_change.size() == 0)
    return DirectionalLoad(loading.loads[load].nodal_forces);
  return DirectionalLoad([&](const Eigen::Vector3d& n) -> Eigen::VectorXd {
    Loading along = loading;
    update_field_loads(along, mesh, turned(field, n));
    return along.loads[load].nodal_forces;
  });
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
                                     const MaterialField& field)
    : model_(model),
      loading_(loading),
      field_(field),
      stiffness_(model.mesh, field, model.threads) {
  const MaterialField unit = unit_field(field);
  std::vector<Index> all(model.sites.points.size());
  std::iota(all.begin(), all.end(), Index{0});
  everywhere_.sites = chosen_sites(model.sites, all);
  for (std::size_t i = 0; i < loading.loads.size(); ++i) {
    reduced_.emplace_back(stiffness_, directional(loading, i, model.mesh, field));
    everywhere_.strain.emplace_back(6 * std::ssize(all), 0);
    const Eigen::VectorXd& change = loading.loads[i].temperature_change;
    everywhere_.warmth.emplace_back();
    if (change.size() == 0) continue;
    const Eigen::VectorXd still = Eigen::VectorXd::Zero(model.mesh.unknowns());
    everywhere_.warmth.back() =
        -model.sites.fit.of(element_stress(model.mesh, unit, still, change)).row(0).transpose();
  }
}

Eigen::MatrixXd DirectionalAnswer::displacement(const Eigen::Vector3d& direction) const {
  Eigen::MatrixXd u =
      Eigen::MatrixXd::Zero(model_.mesh.unknowns(), static_cast<Index>(reduced_.size()));
  for (std::size_t i = 0; i < reduced_.size(); ++i)
    if (reduced_[i].size() > 0) u.col(static_cast<Index>(i)) = reduced_[i].displacement(direction);
  return u;
}

void DirectionalAnswer::widen(const Eigen::Matrix3Xd& directions,
                              const std::vector<Eigen::MatrixXd>& displacements) {
  Eigen::MatrixXd of_load(model_.mesh.unknowns(), directions.cols());
  for (std::size_t i = 0; i < reduced_.size(); ++i) {
    for (Index d = 0; d < directions.cols(); ++d)
      of_load.col(d) = displacements[d].col(static_cast<Index>(i));
    const auto fresh = reduced_[i].widen(directions, of_load);
    Eigen::MatrixXd& strain = everywhere_.strain[i];
    strain.conservativeResize(Eigen::NoChange, reduced_[i].size());
    for (std::size_t k = 0; k < fresh.size(); ++k)
      strain.col(strain.cols() - std::ssize(fresh) + static_cast<Index>(k)) =
          model_.sites.fit.of(fresh[k]).reshaped();
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
    if (reduced_[i].size() > 0)
      strain = felt.strain[i] * (part ? reduced_[i].coefficients(direction, (*part)[i])
                                      : reduced_[i].coefficients(direction));
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
