// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/fluid_spread.h"

#include <algorithm>
#include <limits>
#include <unordered_map>

namespace crossgrain {
namespace {

// A rule's points lie nearer to each other, and to the nodes of their own triangle's edges.
constexpr double share_of_edge = 0.5;

double longest_edge(const TetrahedronMesh& mesh, int triangle) {
  double longest = 0.0;
  for (int c = 0; c < 3; ++c)
    longest = std::max(longest, (mesh.nodes.col(mesh.triangles(c, triangle)) -
                                 mesh.nodes.col(mesh.triangles((c + 1) % 3, triangle)))
                                    .norm());
  return longest;
}

std::vector<double> neighbourhoods(const TetrahedronMesh& mesh,
                                   const std::vector<InterfacePoint>& points) {
  std::vector<double> radius;
  for (const auto& point : points) {
    double edge = std::numeric_limits<double>::infinity();
    for (const auto& side : point.sides) edge = std::min(edge, longest_edge(mesh, side.triangle));
    radius.push_back(share_of_edge * edge);
  }
  return radius;
}

}  // namespace

FluidSpread::FluidSpread(const TetrahedronMesh& mesh, const std::vector<InterfacePoint>& points)
    : mesh_(mesh), points_(points), radius_(neighbourhoods(mesh, points)) {
  find_cells();
  find_cells_beside();
}

void FluidSpread::find_cells() {
  const auto same_triangles = [&](std::size_t a, std::size_t b) {
    return points_[a].sides[0].triangle == points_[b].sides[0].triangle &&
           points_[a].sides[1].triangle == points_[b].sides[1].triangle;
  };
  for (std::size_t p = 0; p < points_.size(); ++p) {
    if (p == 0 || !same_triangles(p - 1, p)) cells_.push_back({p, p, {}, {}});
    Cell& cell = cells_.back();
    cell.last = p + 1;
    const Eigen::Vector3d half = Eigen::Vector3d::Constant(radius_[p]);
    cell.box.extend(points_[p].position - half);
    cell.box.extend(points_[p].position + half);
    cell_of_point_.push_back(static_cast<int>(cells_.size()) - 1);
  }
}

std::vector<int> FluidSpread::nodes_of(const Cell& cell) const {
  std::vector<int> nodes;
  for (const auto& side : points_[cell.first].sides)
    for (const int node : mesh_.triangles.col(side.triangle)) nodes.push_back(node);
  return nodes;
}

void FluidSpread::find_cells_beside() {
  std::unordered_map<int, std::vector<int>> cells_at;
  for (std::size_t c = 0; c < cells_.size(); ++c)
    for (const int node : nodes_of(cells_[c])) cells_at[node].push_back(static_cast<int>(c));
  for (Cell& cell : cells_) {
    for (const int node : nodes_of(cell))
      for (const int other : cells_at[node])
        if (cell.box.intersects(cells_[static_cast<std::size_t>(other)].box))
          cell.beside.push_back(other);
    std::ranges::sort(cell.beside);
    cell.beside.erase(std::unique(cell.beside.begin(), cell.beside.end()), cell.beside.end());
  }
}

class FluidSpread::Flood {
 public:
  Flood(const FluidSpread& on, const std::vector<bool>& may_enter)
      : on_(on), may_enter_(may_enter), wet_(may_enter.size(), false), dry_left_(on.cells_.size()) {
    for (std::size_t p = 0; p < may_enter.size(); ++p)
      if (may_enter[p]) ++dry_left_[cell_of(p)];
  }

  void enter(std::size_t point) {
    if (wet_[point] || !may_enter_[point]) return;
    wet_[point] = true;
    --dry_left_[cell_of(point)];
    front_.push_back(point);
  }
  void spread() {
    while (!front_.empty()) {
      const std::size_t from = front_.back();
      front_.pop_back();
      for (const int beside : on_.cells_[cell_of(from)].beside)
        if (dry_left_[static_cast<std::size_t>(beside)] > 0)
          enter_from(from, on_.cells_[static_cast<std::size_t>(beside)]);
    }
  }
  const std::vector<bool>& wet() const { return wet_; }

 private:
  std::size_t cell_of(std::size_t point) const {
    return static_cast<std::size_t>(on_.cell_of_point_[point]);
  }
  void enter_from(std::size_t from, const Cell& cell) {
    const Eigen::Vector3d& here = on_.points_[from].position;
    if (cell.box.squaredExteriorDistance(here) > on_.radius_[from] * on_.radius_[from]) return;
    for (std::size_t to = cell.first; to < cell.last; ++to)
      if ((on_.points_[to].position - here).norm() <= std::max(on_.radius_[from], on_.radius_[to]))
        enter(to);
  }

  const FluidSpread& on_;
  const std::vector<bool>& may_enter_;
  std::vector<bool> wet_;
  std::vector<int> dry_left_;  ///< by cell, of the points that may be entered
  std::vector<std::size_t> front_;
};

bool FluidSpread::comes_from(const std::vector<bool>& wetted, std::size_t point) const {
  for (const auto& side : points_[point].sides)
    for (const int node : mesh_.triangles.col(side.triangle))
      if (wetted[static_cast<std::size_t>(node)] &&
          (mesh_.nodes.col(node) - points_[point].position).norm() <= radius_[point])
        return true;
  return false;
}

std::vector<bool> FluidSpread::reached(const std::vector<bool>& may_enter,
                                       const std::vector<int>& wetted_nodes) const {
  std::vector<bool> wetted(static_cast<std::size_t>(mesh_.node_count()), false);
  for (const int node : wetted_nodes) wetted[static_cast<std::size_t>(node)] = true;
  Flood flood(*this, may_enter);
  for (std::size_t p = 0; p < points_.size(); ++p)
    if (may_enter[p] && comes_from(wetted, p)) flood.enter(p);
  flood.spread();
  return flood.wet();
}

}  // namespace crossgrain
