// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_criteria.h"

#include <algorithm>

#include "cases/joint/gasket_stiffness.h"
#include "cases/joint/stated_number.h"

namespace crossgrain {

GasketConstants rubber_gasket_constants(double shore_A) {
  within(shore_A, 0.0, 100.0, "hardness", "Shore A");
  if (shore_A < 75.0) return {0.5, 0.0};
  return {1.0, 1.38};
}

double contact_in_service(double pressure, double m, double margin) {
  not_negative(pressure, "pressure of the fluid", "MPa");
  not_negative(m, "gasket factor m", "-");
  not_negative(margin, "margin over the fluid's pressure", "-");
  return std::max(2.0 * m, 1.0 + margin) * pressure;
}

AssemblyContact contact_at_assembly(double y, std::optional<double> squeeze,
                                    double apparent_modulus) {
  not_negative(y, "seating stress y", "MPa");
  if (!squeeze && y > 0.0) {
    return {y, LimitStanding::standard, "seating stress y (ASME VIII-1 Appendix 2)"};
  }
  const double squeezed = pressure_at_squeeze(
      positive(squeeze.value_or(0.2), "squeeze of a gasket", "-"), apparent_modulus);
  if (!squeeze) {
    return {squeezed, LimitStanding::memory,
            "squeeze of 20 %, usual for flat soft gaskets; state the maker's"};
  }
  if (y > squeezed)
    return {y, LimitStanding::standard, "seating stress y, above the stated squeeze"};
  return {squeezed, LimitStanding::given, "the stated squeeze"};
}

}  // namespace crossgrain
