// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/stored_energy.h"

#include <cmath>
#include <stdexcept>

namespace crossgrain {
namespace {

constexpr double atmosphere = 0.101325;  // MPa
constexpr double mJ = 1e-3;              // J

}  // namespace

double gas_energy(double pressure, double volume) {
  if (pressure < 0.0) return -pressure * volume;
  const double absolute = pressure + atmosphere;
  return 2.5 * absolute * volume * (1.0 - std::pow(atmosphere / absolute, 0.286));
}

double liquid_energy(double pressure, double volume, double bulk_modulus) {
  return pressure * pressure * volume / (2.0 * bulk_modulus);
}

StoredEnergy stored_energy(const Conditions& conditions, double pressure, double cavity_volume,
                           double wall_strain_energy) {
  if (!std::isfinite(pressure) || !(cavity_volume >= 0.0) || !std::isfinite(cavity_volume) ||
      !(wall_strain_energy >= 0.0))
    throw std::invalid_argument(
        "stored energy: pressure, cavity volume and strain energy must be finite, and the last two "
        "not negative");
  if (conditions.medium == Medium::gas)
    return {.fluid_J = gas_energy(pressure, cavity_volume) * mJ,
            .wall_J = wall_strain_energy * mJ,
            .unbled_air_J = 0.0};
  if (!(conditions.fluid_bulk_modulus > 0.0))
    throw std::invalid_argument("stored energy: the fluid's bulk modulus must be positive");
  const double air = conditions.trapped_air_fraction * cavity_volume;
  return {
      .fluid_J = liquid_energy(pressure, cavity_volume - air, conditions.fluid_bulk_modulus) * mJ,
      .wall_J = wall_strain_energy * mJ,
      .unbled_air_J = gas_energy(pressure, air) * mJ};
}

}  // namespace crossgrain
