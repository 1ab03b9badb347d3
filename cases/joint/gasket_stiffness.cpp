// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/gasket_stiffness.h"

#include "cases/joint/stated_number.h"
#include "solver/interface/bedding_curve.h"

namespace crossgrain {

double shape_factor(const GasketShape& shape) {
  positive(shape.width, "width of a gasket", "mm");
  positive(shape.thickness, "thickness of a gasket", "mm");
  return shape.width / ((shape.form == GasketForm::disc ? 4.0 : 2.0) * shape.thickness);
}

double apparent_modulus(const GasketShape& shape, double modulus, double bulk) {
  positive(modulus, "modulus of a gasket", "MPa");
  positive(bulk, "bulk modulus of a gasket", "MPa");
  const double S = shape_factor(shape);
  if (shape.faces == GasketFaces::slipping) return modulus;
  const double E_a = shape.form == GasketForm::disc ? modulus * (1.0 + 2.0 * S * S)
                                                    : 4.0 / 3.0 * modulus * (1.0 + S * S);
  return 1.0 / (1.0 / E_a + 1.0 / bulk);
}

double pressure_at_squeeze(double squeeze, double apparent_modulus) {
  positive(apparent_modulus, "modulus of a gasket", "MPa");
  within(squeeze, 0.0, 0.9, "squeeze of a gasket", "-");
  // Of a thickness of one: the law that the interface is solved with.
  return bedding_pressure({apparent_modulus, 1.0, true}, squeeze).pressure;
}

double squeeze_at_pressure(double pressure, double apparent_modulus) {
  not_negative(pressure, "pressure on a gasket", "MPa");
  double low = 0.0, high = 0.9;
  within(pressure, 0.0, pressure_at_squeeze(high, apparent_modulus), "pressure on a gasket", "MPa");
  // Halving: 60 steps reach the last bit, and the pressure grows all the way.
  for (int step = 0; step < 60; ++step) {
    const double middle = 0.5 * (low + high);
    (pressure_at_squeeze(middle, apparent_modulus) < pressure ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace crossgrain
