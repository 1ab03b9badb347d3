// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "materials/elasticity/tensor.h"

namespace crossgrain {

/// Strengths of a printed solid, all positive [MPa]. Letters as in DEVELOPERS.md: X in the layer,
/// Z along the build direction, t tension, c compression, Sz shear between layers.
struct LayeredStrength {
  double Xt;
  double Xc;
  double Zt;
  double Zc;
  double Sz;
};

/// Yield strength of a ductile isotropic solid, judged by von Mises stress [MPa].
struct DuctileStrength {
  double yield;
};

/// Tensile strength of a brittle isotropic solid, judged by the largest principal stress [MPa].
struct BrittleStrength {
  double tensile;
};

using Strength = std::variant<LayeredStrength, DuctileStrength, BrittleStrength>;

enum class FailureMode {
  interlayer,            ///< layers pulled or slid apart: (<s33>/Zt)^2 + (t13^2+t23^2)/Sz^2
  in_layer_tension,      ///< (<sI>/Xt)^2 + (t13^2+t23^2)/Sz^2
  in_layer_compression,  ///< -sII / Xc, sII the smaller principal stress of the in-layer block
  build_compression,     ///< -s33 / Zc
  yielding,              ///< von Mises / yield
  brittle_tension,       ///< largest principal stress / tensile strength
  tsai_wu,               ///< second opinion, never part of the overall factor
  maximum_stress,        ///< selectable instead of the interactive forms
};

/// The stable name used in results ("interlayer", "in_layer_tension", ...).
std::string_view name_of(FailureMode mode);
/// Words for a reader ("layers pull apart", ...).
std::string_view words_for(FailureMode mode);

/// Which family of criteria judges layered material.
enum class Criterion { interactive, maximum_stress };

/// The modes that the overall factor takes the least of, for that kind of strength.
std::vector<FailureMode> governing_modes(const Strength& strength, Criterion criterion);

/// Failure index of one stress state: 1 at the limit, quadratic modes give the left side of their
/// inequality.
/// @param stress  [MPa], material axes.
double failure_index(FailureMode mode, const Strength& strength, const Vector6d& stress);

/// A stress that is shorter, as a vector of its six components, is inside the limit whatever it is.
/// @return [MPa]; 0 if no such length is known.
double safe_length(FailureMode mode, const Strength& strength);

/// The least multiplier >= 0 at which held + multiplier * scaling reaches the limit, going up from
/// 0. Every mode's admissible set is convex and contains the origin, so the crossing is unique.
/// @param held, scaling  [MPa], material axes.
/// @return 0 if the held stress alone is at or past the limit; nullopt if no crossing exists ("no
/// limit found").
/// @throws std::invalid_argument if a stress or a strength is not finite, or the mode does not fit
/// the strength.
std::optional<double> load_multiplier(FailureMode mode, const Strength& strength,
                                      const Vector6d& held, const Vector6d& scaling);

/// One stress state a column.
using StressColumns = Eigen::Ref<const Eigen::Matrix<double, 6, Eigen::Dynamic>>;

/// load_multiplier for many points of one strength; infinity where it finds no limit.
/// @param held, scaling  6 x points [MPa], material axes.
Eigen::VectorXd load_multipliers(FailureMode mode, const Strength& strength,
                                 const StressColumns& held, const StressColumns& scaling);

}  // namespace crossgrain
