// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/studies/direction_map.h"
#include "cases/studies/prints.h"
#include "cases/studies/trade_offs.h"

namespace crossgrain {

/// What a print's own bodies come to in something that was solved fully, its joint free, beside
/// what the map says of its direction there. Factors are the worse of those on all loads and on
/// pressure alone, straight on; absent: no limit found.
struct OwnFactor {
  std::string row;  ///< its name in the table of what was solved
  std::optional<double> factor;
  bool on_map = false;  ///< the map has that direction
  std::optional<double> mapped = {};
  double said = 0.0;        ///< by the map, of its error there, relative
  bool others_held = true;  ///< all others were printed as in the case, as the map has them
};

/// The row in which every print has the best direction of its map.
inline constexpr const char* best_of_each_print = "best of each";

/// A print, the map of its directions, and what solving some of them fully showed.
struct MappedPrint {
  Print print;
  DirectionMap map;
  std::vector<TradeOff> trade_offs;  ///< of the map's directions
  std::vector<OwnFactor> solved;
};

/// Hold a map against what its print came to. Where the others were printed as in the case the
/// map's errors are no less, anywhere, than what is shown of them.
/// @param direction  that the print had there, or its opposite.
/// @param solved     judged of the print's bodies alone.
void hold_against(MappedPrint& mapped, const std::string& row, const Eigen::Vector3d& direction,
                  bool others_held, const MappedFactors& solved);

}  // namespace crossgrain
