// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/cautions.h"

namespace crossgrain {

std::vector<std::string> usual_cautions(const Conditions& conditions) {
  std::vector<std::string> cautions;
  if (conditions.medium == Medium::gas) {
    cautions.push_back("Gas (" + conditions.medium_name +
                       ") stores hundreds of times the energy of a liquid at the same pressure: a "
                       "part that breaks throws fragments. Prove it with water first, keep people "
                       "out of the way, and do not rely on this calculation alone.");
  }
  const char* const usual[] = {
      "Printed plastic breaks brittly, between layers and without warning: fragments can fly.",
      "A part that passed its proof test can still break later: sustained load ruptures plastic in "
      "time (creep), changing load by fatigue.",
      "Moisture, temperature and chemicals change strength and stiffness; the figures hold for the "
      "stated conditions only.",
      "Strength is not tightness: extruded walls may weep at the seam and between beads long "
      "before "
      "they break, and no strength calculation sees that.",
      "Prove with water, all air bled, from behind a barrier; burst one print from the same spool "
      "and settings if others depend on it.",
      "Machines, spools and settings scatter more than the stated ranges; a data sheet's bars are "
      "not your part.",
      "This is no certification: local codes, and someone licensed to apply them, decide what may "
      "be put into use.",
  };
  cautions.insert(cautions.end(), std::begin(usual), std::end(usual));
  return cautions;
}

}  // namespace crossgrain
