// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_places.h"

#include <cmath>
#include <map>
#include <sstream>
#include <stdexcept>
#include <tuple>

#include "cases/joint/stated_number.h"

namespace crossgrain {
namespace {

/// Points by cubes of `reach`: whoever is near lies in one of 27.
class Cubes {
 public:
  Cubes(const std::vector<Eigen::Vector3d>& positions, double reach)
      : positions_(positions), reach_(reach) {
    for (std::size_t i = 0; i < positions.size(); ++i) {
      cubes_[cube(positions[i])].push_back(static_cast<int>(i));
    }
  }

  template <typename Visit>
  void for_each_near(const Eigen::Vector3d& x, Visit visit) const {
    const auto [a, b, c] = cube(x);
    for (int i = a - 1; i <= a + 1; ++i) {
      for (int j = b - 1; j <= b + 1; ++j) {
        for (int k = c - 1; k <= c + 1; ++k) visit_cube({i, j, k}, x, visit);
      }
    }
  }

 private:
  using Cube = std::tuple<int, int, int>;

  Cube cube(const Eigen::Vector3d& x) const {
    const Eigen::Vector3i index = (x / reach_).array().floor().cast<int>();
    return {index[0], index[1], index[2]};
  }

  template <typename Visit>
  void visit_cube(const Cube& where, const Eigen::Vector3d& x, Visit& visit) const {
    const auto it = cubes_.find(where);
    if (it == cubes_.end()) return;
    for (const int i : it->second) {
      if ((positions_[i] - x).norm() <= reach_) visit(i);
    }
  }

  const std::vector<Eigen::Vector3d>& positions_;
  double reach_;
  std::map<Cube, std::vector<int>> cubes_;
};

[[noreturn]] void refuse_lonely(const SealEdge& edge, double reach) {
  std::ostringstream text;
  text << "no place of the seal lies within " << reach << " mm of "
       << (edge.exit ? words(*edge.exit) : "its wetted edge")
       << "; the faces do not reach that edge, or the reach is too small";
  throw std::invalid_argument(text.str());
}

void mark(const SealEdge& edge, const Cubes& cubes, double reach, std::vector<SealPoint>& places) {
  bool near = false;
  for (const Eigen::Vector3d& x : edge.line) {
    cubes.for_each_near(x, [&](int i) {
      near = true;
      if (edge.exit) {
        places[i].exit = edge.exit;
      } else {
        places[i].wetted = true;
      }
    });
  }
  if (!near) refuse_lonely(edge, reach);
}

}  // namespace

std::vector<SealPoint> seal_places(const std::vector<Eigen::Vector3d>& positions,
                                   const std::vector<double>& areas,
                                   const std::vector<SealEdge>& edges, double reach) {
  positive(reach, "reach between places of a seal", "mm");
  if (areas.size() != positions.size()) {
    throw std::invalid_argument("a seal has " + std::to_string(positions.size()) + " places and " +
                                std::to_string(areas.size()) + " areas");
  }
  const Cubes cubes(positions, reach);
  std::vector<SealPoint> places;
  for (std::size_t i = 0; i < positions.size(); ++i) {
    places.push_back({positions[i], areas[i], 0.0, {}, false, std::nullopt});
    cubes.for_each_near(positions[i], [&](int j) {
      if (j != static_cast<int>(i)) places.back().neighbours.push_back(j);
    });
  }
  for (const SealEdge& edge : edges) mark(edge, cubes, reach, places);
  return places;
}

}  // namespace crossgrain
