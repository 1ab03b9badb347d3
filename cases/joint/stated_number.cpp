// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/stated_number.h"

#include <cmath>
#include <sstream>
#include <stdexcept>

namespace crossgrain {
namespace {

[[noreturn]] void refuse(double value, std::string_view quantity, std::string_view unit,
                         const std::string& remedy) {
  std::ostringstream text;
  text << quantity << " of " << value << " " << unit << ": " << remedy;
  throw std::invalid_argument(text.str());
}

}  // namespace

double positive(double value, std::string_view quantity, std::string_view unit) {
  if (std::isfinite(value) && value > 0.0) return value;
  refuse(value, quantity, unit, "give a number greater than zero");
}

double not_negative(double value, std::string_view quantity, std::string_view unit) {
  if (std::isfinite(value) && value >= 0.0) return value;
  refuse(value, quantity, unit, "give a number that is not negative");
}

double within(double value, double low, double high, std::string_view quantity,
              std::string_view unit) {
  if (value >= low && value <= high) return value;
  std::ostringstream remedy;
  remedy << "give a number from " << low << " to " << high;
  refuse(value, quantity, unit, remedy.str());
}

void require_ring(double outer, double inner, std::string_view quantity) {
  positive(inner, std::string(quantity) + ": inner diameter", "mm");
  positive(outer, std::string(quantity) + ": outer diameter", "mm");
  if (outer > inner) return;
  std::ostringstream text;
  text << quantity << ": outer diameter " << outer << " mm is not greater than the inner one, "
       << inner << " mm; give the diameters of a ring";
  throw std::invalid_argument(text.str());
}

}  // namespace crossgrain
