// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/geometry_words.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace crossgrain {

std::string words(SurfaceKind kind) {
  switch (kind) {
    case SurfaceKind::plane:
      return "plane";
    case SurfaceKind::cylinder:
      return "cylinder";
    case SurfaceKind::cone:
      return "cone";
    case SurfaceKind::sphere:
      return "sphere";
    case SurfaceKind::torus:
      return "torus";
    case SurfaceKind::freeform:
      break;
  }
  return "freeform";
}

std::string words(double number, int digits) {
  std::ostringstream text;
  text << std::fixed;
  if (!(std::abs(number) >= 1e-6 && std::abs(number) < 1e9)) {
    text.unsetf(std::ios::floatfield);
    text.precision(digits);
    text << number + 0.0;  // -0 reads as a riddle
    return text.str();
  }
  // The exponent after rounding: 9.9996 to four digits is 10, not 10.000.
  std::ostringstream scientific;
  scientific.precision(digits - 1);
  scientific << std::scientific << number;
  const int exponent = std::stoi(scientific.str().substr(scientific.str().find('e') + 1));
  text.precision(std::max(0, digits - 1 - exponent));
  text << number;
  std::string result = text.str();
  if (result.find('.') != std::string::npos) {
    result.erase(result.find_last_not_of('0') + 1);
    result.erase(result.find_last_not_of('.') + 1);
  }
  return result;
}

std::string words(const Eigen::Vector3d& v) {
  // A coordinate below a nanometre, or a millionth of the others, is rounding.
  double least = 1e-6;
  for (const double x : v)
    if (std::isfinite(x)) least = std::max(least, 1e-6 * std::abs(x));
  const auto clean = [&](double x) { return words(std::abs(x) <= least ? 0.0 : x); };
  return "(" + clean(v.x()) + ", " + clean(v.y()) + ", " + clean(v.z()) + ")";
}

std::string words(const Body& body) {
  return std::to_string(number(body.id)) + (body.name.empty() ? "" : " \"" + body.name + "\"");
}

std::string words(const CadFace& face) {
  return "face " + std::to_string(number(face.id)) +
         (face.name.empty() ? "" : " \"" + face.name + "\"") + " (" + words(face.kind) + " near " +
         words(face.centroid) + " mm)";
}

std::string words(const std::vector<FaceId>& faces) {
  constexpr std::size_t most = 5;
  std::string text = faces.size() == 1 ? "face " : "faces ";
  for (std::size_t i = 0; i < faces.size() && i < most; ++i) {
    text += (i > 0 ? ", " : "") + std::to_string(number(faces[i]));
  }
  if (faces.size() > most) {
    text += " and " + std::to_string(faces.size() - most) + " more";
  }
  return text + (faces.size() == 1 ? " is" : " are");
}

}  // namespace crossgrain
