// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry_words.h"

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

std::string words(double number) {
  std::ostringstream text;
  text.precision(4);
  text << number;
  return text.str();
}

std::string words(const Eigen::Vector3d& v) {
  // A coordinate a millionth of the others is rounding and would read as a riddle.
  const double least = 1e-6 * v.cwiseAbs().maxCoeff();
  const auto clean = [&](double x) { return words(std::abs(x) > least ? x : 0.0); };
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
