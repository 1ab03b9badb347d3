// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/straight_elements.h"

#include <Eigen/LU>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <numeric>

#include "solver/elements/parallel.h"
#include "solver/elements/point_material.h"
#include "solver/kernels/kernels.h"

namespace crossgrain {
namespace {

// Above this share of lanes that stay empty the assembled matrix is faster.
constexpr double most_empty_lanes = 0.25;

/// Column i: gradient of barycentric coordinate i + 1 times the root of a twentieth of the volume;
/// NaN for an inverted element.
Eigen::Matrix3d weighted_gradients(const TetrahedronMesh& mesh, int tetrahedron) {
  Eigen::Matrix3d edges;
  for (int a = 0; a < 3; ++a)
    edges.col(a) = mesh.nodes.col(mesh.tetrahedra(a + 1, tetrahedron)) -
                   mesh.nodes.col(mesh.tetrahedra(0, tetrahedron));
  const double six_volumes = edges.determinant();
  return std::sqrt(six_volumes > 0.0 ? six_volumes / 120.0 : NAN) * edges.inverse().transpose();
}

}  // namespace

StraightElements::StraightElements(const TetrahedronMesh& mesh, const RankedElements& elements,
                                   int threads)
    : mesh_(mesh), elements_(elements), threads_(threads) {
  make_pieces();
}

void StraightElements::make_pieces() {
  const auto least = [this](Eigen::Index e) { return elements_.ranks.col(e).minCoeff(); };
  const auto count = elements_.count();
  first_element_ = {0};
  for (int p = 1; p <= most_row_pieces && first_element_.back() < count; ++p) {
    const auto first = first_element_.back();
    auto last = std::max(first + 1, count * p / most_row_pieces);
    while (last < count && least(last) == least(last - 1)) ++last;
    RowPiece piece{pieces_.empty() ? 0 : pieces_.back().end,
                   last < count ? least(last) : mesh_.node_count(), 0};
    piece.reach = std::max<Eigen::Index>(
        piece.end, elements_.ranks.middleCols(first, last - first).maxCoeff() + 1);
    pieces_.push_back(piece);
    first_element_.push_back(last);
  }
}

void StraightElements::set_material(const MaterialField& field) {
  usable_ = field.one_frame_per_element();
  if (!usable_) return;
  auto numbers = number_materials(field);
  if (numbers != material_of_element_) {
    material_of_element_ = std::move(numbers);
    make_groups();
  }
  const auto lanes = static_cast<double>(group_size * groups_.material.size());
  usable_ =
      static_cast<double>(elements_.count()) >= (1.0 - most_empty_lanes) * lanes &&
      Eigen::Map<const Eigen::ArrayXf>(groups_.gradients.data(), std::ssize(groups_.gradients))
          .isFinite()
          .all();
}

std::vector<int> StraightElements::number_materials(const MaterialField& field) {
  using MaterialAndFrame = std::pair<int, int>;
  std::map<MaterialAndFrame, int> numbers;
  std::vector<int> of_element(elements_.count());
  elastic_.clear();
  PointMaterial material(field);
  MaterialAndFrame last(-1, -1);
  for (Eigen::Index e = 0; e < elements_.count(); ++e) {
    const int t = elements_.tetrahedron[e];
    const MaterialAndFrame here(field.material_of_tetrahedron[t], field.frame_number(t, 0));
    of_element[e] = here == last ? of_element[e - 1]
                                 : numbers.try_emplace(here, std::ssize(numbers)).first->second;
    if (36 * of_element[e] == std::ssize(elastic_))
      for (const double constant : material.stiffness(t, 0).reshaped())
        elastic_.push_back(static_cast<float>(constant));
    last = here;
  }
  return of_element;
}

void StraightElements::make_groups() {
  groups_ = {};
  groups_.member.resize(elements_.count());
  std::iota(groups_.member.begin(), groups_.member.end(), 0);
  const auto material = [this](Eigen::Index k) { return material_of_element_[groups_.member[k]]; };
  for (std::size_t p = 0; p < pieces_.size(); ++p) {
    const auto end = first_element_[p + 1];
    std::stable_sort(
        groups_.member.begin() + first_element_[p], groups_.member.begin() + end,
        [this](int e, int f) { return material_of_element_[e] < material_of_element_[f]; });
    for (auto k = first_element_[p]; k < end;) {
      const auto first = k;
      while (k < end && k < first + group_size && material(k) == material(first)) ++k;
      groups_.material.push_back(material(first));
      groups_.first_member.push_back(k);
    }
    groups_.first_of_piece.push_back(std::ssize(groups_.material));
  }
  const auto count = std::ssize(groups_.material);
  groups_.nodes.resize(10 * group_size * count);
  groups_.gradients.resize(9 * group_size * count);
  in_parallel(count, threads_, [this](Eigen::Index begin, Eigen::Index end) {
    for (auto group = begin; group < end; ++group) fill(group);
  });
}

void StraightElements::fill(Eigen::Index group) {
  const auto first = groups_.first_member[group], last = groups_.first_member[group + 1];
  for (int lane = 0; lane < group_size; ++lane) {
    const bool empty = first + lane >= last;
    const int element = groups_.member[empty ? first : first + lane];
    for (int a = 0; a < 10; ++a)
      groups_.nodes[group_size * (10 * group + a) + lane] = elements_.ranks(a, element);
    const Eigen::Matrix3d gradients =
        empty ? Eigen::Matrix3d::Zero() : weighted_gradients(mesh_, elements_.tetrahedron[element]);
    for (int s = 0; s < 9; ++s)
      groups_.gradients[group_size * (9 * group + s) + lane] =
          static_cast<float>(gradients.data()[s]);
  }
}

void StraightElements::apply(const NodeVectors<float>& x, NodeVectors<float>& y) const {
  assert(usable_ && x.nodes() == mesh_.node_count() && y.nodes() == x.nodes());
  const auto multiply = kernels().straight_product[x.columns() - 1];
  const StraightGroups groups{groups_.nodes.data(), groups_.gradients.data(),
                              groups_.material.data(), elastic_.data()};
  sum_row_pieces(pieces_, threads_, y, [&](Eigen::Index p, float* own, float* beyond) {
    multiply(groups, groups_.first_of_piece[p], groups_.first_of_piece[p + 1], pieces_[p].end,
             x.data(), own, beyond);
  });
}

double StraightElements::bytes() const {
  return 4.0 * static_cast<double>(groups_.nodes.size() + groups_.gradients.size());
}

}  // namespace crossgrain
