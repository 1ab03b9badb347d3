// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "materials/card_file/card.h"
#include "materials/conditions/constants.h"
#include "materials/elasticity/elastic_constants.h"
#include "materials/failure/failure.h"

namespace crossgrain {

enum class Moisture { dry, conditioned };

/// Under which a strength or a modulus is meant.
struct ServiceConditions {
  double temperature_K = 296.15;
  Moisture moisture = Moisture::dry;
  double duration_s = 360.0;  ///< how long the load stays on; 0.1 h is "short-term"
  double cycles = 1.0;
};

/// What the solver and the judge need of one material.
struct SolidMaterial {
  OrthotropicConstants elastic;
  Eigen::Vector3d thermal_expansion;  ///< along axes 1 2 3 [1/K]
  double density;                     ///< [tonne/mm^3]
  Strength strength;
};

/// A number that the card did not give, or gave on weak authority; listed in every output.
struct Assumption {
  std::string quantity;  ///< "G_build"
  double value;
  double low;
  double high;
  std::string unit;  ///< "MPa", "-"
  Standing standing;
  std::string rule;  ///< the rule in words, or the source
};

/// One factor on strength or modulus. Knock-downs multiply.
struct KnockDown {
  std::string cause;    ///< "temperature", "sustained load", "cycles"
  std::string applies;  ///< "strength", "modulus"
  double value;
  double low;
  double high;
  std::string rule;
};

/// A card brought to service conditions: the nominal set and the weak and strong ends of the
/// ranges. `low` and `high` bound the strengths; their elastic constants are the low and the high
/// elastic set.
struct MaterialAtConditions {
  std::string card;
  std::string title;
  SolidMaterial nominal;
  SolidMaterial low;
  SolidMaterial high;
  double
      sustained_modulus_MPa;  ///< smaller of E_layer, E_build after every knock-down; for buckling
  double bead_width_mm;
  std::vector<Assumption> assumptions;
  std::vector<KnockDown> knock_downs;
  /// What all of it was made of, before the knock-downs.
  SolidConstants constants = {};
};

/// Fill in what the card leaves out (design rules with ranges), apply knock-downs, check
/// admissibility.
/// @throws std::invalid_argument naming the card, the quantity and the remedy.
MaterialAtConditions material_at(const MaterialCard& card, const ServiceConditions& conditions);

}  // namespace crossgrain
