// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/glue_groups.h"

#include <BRepExtrema_DistShapeShape.hxx>
#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "mesh/geometry/geometry_words.h"
#include "mesh/step/apart_bodies.h"

namespace crossgrain {
namespace {

bool boxes_near(const Body& a, const Body& b, double reach) {
  return ((a.box.low - b.box.high).array() < reach).all() &&
         ((b.box.low - a.box.high).array() < reach).all();
}

bool shapes_near(const TopoDS_Shape& a, const TopoDS_Shape& b, double reach) {
  const BRepExtrema_DistShapeShape search(a, b);
  return !search.IsDone() || search.Value() < reach;
}

/// For each body the first of its group.
class Groups {
 public:
  explicit Groups(std::size_t count) : first_(count) {
    std::iota(first_.begin(), first_.end(), std::size_t{0});
  }
  std::size_t first(std::size_t i) const { return first_[i]; }
  void join(std::size_t i, std::size_t j) {
    const std::size_t kept = std::min(first_[i], first_[j]);
    const std::size_t dropped = std::max(first_[i], first_[j]);
    std::replace(first_.begin(), first_.end(), dropped, kept);
  }

 private:
  std::vector<std::size_t> first_;
};

void require_parted(const Groups& groups, const std::vector<BodyShape>& bodies,
                    const Geometry& geometry, const std::vector<KeptApart>& apart) {
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (std::size_t j = i + 1; j < bodies.size(); ++j) {
      if (groups.first(i) == groups.first(j) && kept_apart(apart, bodies[i].body, bodies[j].body))
        throw std::invalid_argument(
            "bodies " + words(geometry.body(bodies[i].body)) + " and " +
            words(geometry.body(bodies[j].body)) +
            " are to be kept apart, but others that touch both are glued to them: state a contact "
            "with those, too");
    }
  }
}

}  // namespace

std::vector<std::vector<BodyShape>> glue_groups(const std::vector<BodyShape>& bodies,
                                                const Geometry& geometry,
                                                const std::vector<KeptApart>& apart) {
  const double reach = 1e-6 * geometry.box.diagonal();
  Groups groups(bodies.size());
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (std::size_t j = i + 1; j < bodies.size(); ++j) {
      const Body &a = geometry.body(bodies[i].body), &b = geometry.body(bodies[j].body);
      if (kept_apart(apart, a.id, b.id) || !boxes_near(a, b, reach)) continue;
      // Near boxes join bodies that never meet, which only matters where some are kept apart.
      if (apart.empty() || shapes_near(bodies[i].shape, bodies[j].shape, reach)) groups.join(i, j);
    }
  }
  require_parted(groups, bodies, geometry, apart);

  std::vector<std::vector<BodyShape>> parted(bodies.size());
  for (std::size_t i = 0; i < bodies.size(); ++i) parted[groups.first(i)].push_back(bodies[i]);
  parted.erase(std::remove_if(parted.begin(), parted.end(),
                              [](const std::vector<BodyShape>& group) { return group.empty(); }),
               parted.end());
  return parted;
}

}  // namespace crossgrain
