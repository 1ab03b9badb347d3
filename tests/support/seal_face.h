// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

#include "cases/joint/leak_path.h"

namespace crossgrain::test {

/// What a place of a face is, by its position [mm].
struct FaceRule {
  std::function<bool(double, double)> there = [](double, double) { return true; };
  std::function<double(double, double)> contact;  ///< [MPa]
  std::function<bool(double, double)> wetted;
  std::function<std::optional<SealExit>(double, double)> exit;
};

/// Places of a square grid, -half to half both ways, `across` to a side, each with its up to eight
/// neighbours: a fluid passes corners, too.
inline std::vector<SealPoint> seal_face(double half, int across, const FaceRule& rule) {
  const double step = 2.0 * half / (across - 1);
  std::vector<int> index(across * across, -1);
  std::vector<SealPoint> points;
  const auto at = [&](int i) { return -half + i * step; };
  for (int j = 0; j < across; ++j) {
    for (int i = 0; i < across; ++i) {
      const double x = at(i), y = at(j);
      if (!rule.there(x, y)) continue;
      index[j * across + i] = static_cast<int>(points.size());
      points.push_back(
          {{x, y, 0.0}, step * step, rule.contact(x, y), {}, rule.wetted(x, y), rule.exit(x, y)});
    }
  }
  for (int j = 0; j < across; ++j) {
    for (int i = 0; i < across; ++i) {
      if (index[j * across + i] < 0) continue;
      for (int dj = -1; dj <= 1; ++dj) {
        for (int di = -1; di <= 1; ++di) {
          const int u = i + di, v = j + dj;
          if ((di == 0 && dj == 0) || u < 0 || v < 0 || u >= across || v >= across) continue;
          if (index[v * across + u] < 0) continue;
          points[index[j * across + i]].neighbours.push_back(index[v * across + u]);
        }
      }
    }
  }
  return points;
}

}  // namespace crossgrain::test
