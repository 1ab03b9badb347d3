// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/point_tree.h"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point.hpp>
#include <boost/geometry/index/rtree.hpp>

namespace crossgrain {
namespace {

namespace index = boost::geometry::index;
using Point = boost::geometry::model::point<double, 3, boost::geometry::cs::cartesian>;
using Entry = std::pair<Point, int>;

Point point_of(const Eigen::Vector3d& x) { return Point(x.x(), x.y(), x.z()); }

}  // namespace

struct PointTree::Tree {
  index::rtree<Entry, index::quadratic<8>> entries;
};

PointTree::PointTree() : tree_(std::make_unique<Tree>()) {}
PointTree::~PointTree() = default;
PointTree::PointTree(PointTree&&) noexcept = default;

void PointTree::insert(const Eigen::Vector3d& point) {
  tree_->entries.insert({point_of(point), static_cast<int>(tree_->entries.size())});
}

void PointTree::nearest(const Eigen::Vector3d& place, unsigned count,
                        std::vector<Near>& found) const {
  found.clear();
  const Point point = point_of(place);
  for (auto entry = tree_->entries.qbegin(index::nearest(point, count));
       entry != tree_->entries.qend(); ++entry)
    found.push_back({entry->second, boost::geometry::distance(point, entry->first)});
}

bool PointTree::any_within(const Eigen::Vector3d& place, double distance) const {
  const auto entry = tree_->entries.qbegin(index::nearest(point_of(place), 1));
  return entry != tree_->entries.qend() &&
         boost::geometry::distance(point_of(place), entry->first) < distance;
}

}  // namespace crossgrain
