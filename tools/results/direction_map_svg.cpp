// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/direction_map_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "tools/results/number_text.h"
#include "tools/results/svg_parts.h"

namespace crossgrain {
namespace {

using Eigen::Index;

constexpr double radius = 300.0, centre_x = 340.0, centre_y = 350.0;
constexpr int cells = 120;  // across the disc: finer than a thousand directions

/// From weakest to strongest.
constexpr std::array<std::array<double, 3>, 5> stops = {
    {{68, 1, 84}, {59, 82, 139}, {33, 145, 140}, {94, 201, 98}, {253, 231, 37}}};

std::string colour(double share) {
  const double at = std::clamp(share, 0.0, 1.0) * (stops.size() - 1);
  const std::size_t below = std::min<std::size_t>(static_cast<std::size_t>(at), stops.size() - 2);
  std::array<int, 3> mixed{};
  for (int i = 0; i < 3; ++i)
    mixed[i] = static_cast<int>(
        std::lround(stops[below][i] + (at - below) * (stops[below + 1][i] - stops[below][i])));
  return fmt::format("#{:02x}{:02x}{:02x}", mixed[0], mixed[1], mixed[2]);
}

/// In the unit disc.
Eigen::Vector2d projected(Eigen::Vector3d n) {
  if (n.z() < 0.0) n = -n;
  return n.head<2>() / std::sqrt(1.0 + n.z());
}

Eigen::Vector3d direction_at(const Eigen::Vector2d& p) {
  const double z = 1.0 - p.squaredNorm(), length = std::sqrt(1.0 + z);
  return {p.x() * length, p.y() * length, z};
}

/// What the colours span. Without a limit anywhere: nothing.
struct Scale {
  double least = HUGE_VAL, greatest = -HUGE_VAL;
  double share(const std::optional<double>& factor) const {
    if (!factor || greatest <= least) return 1.0;
    return (*factor - least) / (greatest - least);
  }
};

Scale scale_of(const DirectionMap& map) {
  Scale scale;
  for (const auto& factors : map.factors) {
    if (!factors.worst()) continue;
    scale.least = std::min(scale.least, *factors.worst());
    scale.greatest = std::max(scale.greatest, *factors.worst());
  }
  return scale;
}

std::string disc(const DirectionMap& map, const Scale& scale) {
  const double side = 2.0 * radius / cells;
  std::string out = "<g shape-rendering=\"crispEdges\" clip-path=\"url(#disc)\">\n";
  for (int row = 0; row < cells; ++row)
    for (int column = 0; column < cells; ++column) {
      const Eigen::Vector2d p((column + 0.5) * 2.0 / cells - 1.0, 1.0 - (row + 0.5) * 2.0 / cells);
      if (p.norm() > 1.0 + 2.0 / cells) continue;
      const Eigen::Vector3d n = direction_at(p.norm() > 1.0 ? p.normalized() : p);
      Index nearest = 0;
      (map.directions.transpose() * n).cwiseAbs().maxCoeff(&nearest);
      out += fmt::format(
          "<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" fill=\"{}\"/>\n",
          centre_x - radius + column * side, centre_y - radius + row * side, side + 0.05,
          side + 0.05, colour(scale.share(map.factors[nearest].worst())));
    }
  return out + "</g>\n";
}

constexpr double name_width = 200.0, name_height = 18.0;

/// Names that would lie on each other are moved down.
std::string marks(const std::vector<MarkedDirection>& marked) {
  std::string out;
  std::vector<Eigen::Vector2d> taken;
  for (const auto& [name, direction] : marked) {
    const Eigen::Vector2d p = projected(direction.normalized());
    const double x = centre_x + radius * p.x(), y = centre_y - radius * p.y();
    const bool left = p.x() > 0.3;  // the name stays on the disc
    double name_y = y + 5.0;
    for (bool moved = true; moved;) {
      moved = false;
      for (const auto& other : taken)
        // Below the other one by the very sum that it is moved to: a difference rounds.
        if (std::abs(other.x() - x) < name_width && name_y < other.y() + name_height &&
            other.y() < name_y + name_height) {
          name_y = other.y() + name_height;
          moved = true;
        }
    }
    taken.emplace_back(x, name_y);
    out += fmt::format(
        "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"6\" fill=\"none\" stroke=\"#000\" "
        "stroke-width=\"4\"/><circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"6\" fill=\"none\" "
        "stroke=\"#fff\" stroke-width=\"2\"/>\n",
        x, y, x, y);
    out += svg_text(left ? x - 12.0 : x + 12.0, name_y, name,
                    std::string("class=\"mark\" text-anchor=\"") + (left ? "end" : "start") + "\"");
  }
  return out;
}

std::string legend(const Scale& scale) {
  constexpr double x = 690.0, top = 110.0, height = 440.0;
  constexpr int steps = 44;
  std::string out = svg_text(x, top - 24.0, "safety factor");
  for (int i = 0; i < steps; ++i)
    out += fmt::format("<rect x=\"{}\" y=\"{:.1f}\" width=\"24\" height=\"{:.1f}\" fill=\"{}\"/>\n",
                       x, top + i * height / steps, height / steps + 0.3,
                       colour(1.0 - (i + 0.5) / steps));
  if (scale.greatest < scale.least) return out + svg_text(x + 32.0, top + 12.0, "no limit found");
  for (int i = 0; i <= 4; ++i)
    out += svg_text(x + 32.0, top + i * height / 4.0 + 5.0,
                    number_text(scale.greatest - i * (scale.greatest - scale.least) / 4.0));
  return out;
}

}  // namespace

std::string direction_map_svg(const DirectionMap& map, const std::vector<MarkedDirection>& marked) {
  const Scale scale = scale_of(map);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 820 700\" "
         "font-family=\"sans-serif\" font-size=\"15\">\n"
         "<title>Worst safety factor by print direction</title>\n"
         "<style>.mark{fill:#000;stroke:#fff;stroke-width:4px;paint-order:stroke;"
         "stroke-linejoin:round;font-weight:bold}</style>\n"
         "<rect width=\"820\" height=\"700\" fill=\"#fff\"/>\n" +
         fmt::format("<clipPath id=\"disc\"><circle cx=\"{}\" cy=\"{}\" r=\"{}\"/></clipPath>\n",
                     centre_x, centre_y, radius) +
         disc(map, scale) +
         fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"none\" stroke=\"#000\"/>\n",
                     centre_x, centre_y, radius) +
         svg_text(centre_x + radius + 8.0, centre_y + 5.0, "x") +
         svg_text(centre_x, centre_y - radius - 10.0, "y", "text-anchor=\"middle\"") +
         svg_text(centre_x, centre_y - 8.0, "z", "class=\"mark\" text-anchor=\"middle\"") +
         marks(marked) + legend(scale) +
         svg_text(
             20.0, 685.0,
             "Equal areas of the half-sphere of build directions, seen from z; a direction and its "
             "opposite are equally strong.",
             "font-size=\"13\"") +
         "</svg>\n";
}

}  // namespace crossgrain
