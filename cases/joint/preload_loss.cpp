// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/preload_loss.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include "cases/joint/stated_number.h"

namespace crossgrain {

double embedding_loss(double embedding, const JointCompliance& joint) {
  return not_negative(embedding, "embedding", "mm") /
         positive(joint.sum(), "give of a joint", "mm/N");
}

double usual_embedding(int clamped_pairs) {
  not_negative(clamped_pairs, "number of clamped pairs of faces", "-");
  return 1e-3 * (3.0 + 3.0 + 2.0 * clamped_pairs);
}

double kept_after_creep(const JointCompliance& fresh, const JointCompliance& aged) {
  positive(fresh.sum(), "give of a joint", "mm/N");
  if (aged.sum() >= fresh.sum() && std::isfinite(aged.sum())) return fresh.sum() / aged.sum();
  throw std::invalid_argument("a joint of " + std::to_string(fresh.sum()) +
                              " mm/N would be stiffer after creep, " + std::to_string(aged.sum()) +
                              " mm/N; give moduli after the time under load that are no greater "
                              "than the fresh ones");
}

double thermal_change(double warming, const std::vector<ClampedLayer>& layers,
                      double screw_expansion, const JointCompliance& joint) {
  double outgrown = 0.0;  // by the layers, for each kelvin [mm/K]
  for (const ClampedLayer& layer : layers) {
    positive(layer.thickness, "thickness of a clamped layer", "mm");
    outgrown += layer.thickness * (layer.expansion - screw_expansion);
  }
  const double change = warming * outgrown / positive(joint.sum(), "give of a joint", "mm/N");
  if (std::isfinite(change)) return change;
  throw std::invalid_argument(
      "the change of a screw's force by temperature is no number; give every expansion and the "
      "temperatures");
}

}  // namespace crossgrain
