// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/simple_shapes/bore_runs.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace crossgrain {
namespace {

constexpr int stations = 41;
constexpr int spokes = 24;
constexpr double share_of_even_spokes = 0.75;

class BoreReader {
 public:
  BoreReader(const PressedBody& part, const HoleWall& bore)
      : part_(part), bore_(bore), x_(bore.axis.unitOrthogonal()), y_(bore.axis.cross(x_)) {}

  BoreStation at(double along) const {
    BoreStation station{along, {}, 0.0, false};
    std::vector<double> walls;
    for (int i = 0; i < spokes; ++i) {
      const double angle = 2.0 * std::numbers::pi * (i + 0.25) / spokes;
      const auto reading = spoke(along, std::cos(angle) * x_ + std::sin(angle) * y_);
      if (!reading || !reading->square) continue;
      station.readings.push_back(*reading);
      walls.push_back(reading->thickness);
    }
    station.wall = median_of(walls);
    const auto like = std::count_if(walls.begin(), walls.end(),
                                    [&](double wall) { return even(wall, station.wall); });
    station.ring = static_cast<double>(like) >= share_of_even_spokes * spokes;
    return station;
  }

 private:
  std::optional<WallReading> spoke(double along, const Eigen::Vector3d& outward) const {
    // From just within the bore: something else may stand in its middle.
    const double step = 0.02 * bore_.radius;
    const Eigen::Vector3d on_bore = bore_.at(along) + bore_.radius * outward;
    const auto hit = part_.rays.first_hit(on_bore - step * outward, outward);
    const bool there = hit && hit->distance < 2.0 * step && hit->from_outside &&
                       std::binary_search(bore_.faces.begin(), bore_.faces.end(), hit->face);
    if (!there) return std::nullopt;
    return read_wall(part_.geometry, part_.rays, on_bore, outward);
  }

  const PressedBody& part_;
  const HoleWall& bore_;
  Eigen::Vector3d x_, y_;
};

std::vector<BoreRun> even_runs(const std::vector<BoreStation>& all) {
  std::vector<BoreRun> runs;
  const double half = 0.5 * (all[1].along - all[0].along);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].ring) continue;
    const bool goes_on =
        !runs.empty() && runs.back().last + 1 == i && even(runs.back().wall, all[i].wall);
    if (!goes_on) runs.push_back({i, i, all[i].along - half, 0.0, all[i].wall});
    runs.back().last = i;
    runs.back().high = all[i].along + half;
  }
  return runs;
}

}  // namespace

std::vector<BoreStation> bore_stations(const PressedBody& part, const HoleWall& bore) {
  const BoreReader reader(part, bore);
  std::vector<BoreStation> all;
  for (int i = 0; i < stations; ++i)
    all.push_back(reader.at(bore.low + (bore.high - bore.low) * (i + 0.5) / stations));
  return all;
}

std::optional<BoreRun> run_that_counts(const std::vector<BoreStation>& stations) {
  const std::vector<BoreRun> runs = even_runs(stations);
  double longest = 0.0;
  for (const BoreRun& run : runs) longest = std::max(longest, run.length());
  std::optional<BoreRun> best;
  for (const BoreRun& run : runs)
    if (run.length() >= 0.5 * longest && (!best || run.wall < best->wall)) best = run;
  return best;
}

}  // namespace crossgrain
