// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/starter_words.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace crossgrain {
namespace {

/// Six digits; a coordinate of a millionth of a millimetre is rounding.
std::string number_text(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g", std::abs(value) > 1e-6 ? value : 0.0);
  return text;
}

bool along_an_axis(const Eigen::Vector3d& direction) {
  return direction.cwiseAbs().maxCoeff() > 0.999999;
}

std::string written_ids(const CadFace& face, const std::string& narrow) {
  return "{ ids = [" + std::to_string(number(face.id)) + "]" + narrow + " }";
}

bool name_is_its_own(const Geometry& geometry, const CadFace& face) {
  if (face.name.empty()) return false;
  return std::count_if(geometry.faces.begin(), geometry.faces.end(), [&](const CadFace& other) {
           return other.name == face.name && geometry.body(other.body).modelled;
         }) == 1;
}

}  // namespace

std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      result += std::string("\\") + c;
    } else if (code < 0x20 || code == 0x7f) {
      char escape[8];
      std::snprintf(escape, sizeof escape, "\\u%04X", code);
      result += escape;
    } else {
      result += c;
    }
  }
  return result + "\"";
}

std::string quoted_length(double length) { return "\"" + number_text(length) + " mm\""; }

std::string written_point(const Eigen::Vector3d& point) {
  return "[" + quoted_length(point.x()) + ", " + quoted_length(point.y()) + ", " +
         quoted_length(point.z()) + "]";
}

std::string written_direction(const Eigen::Vector3d& direction) {
  if (!along_an_axis(direction)) {
    return "[" + number_text(direction.x()) + ", " + number_text(direction.y()) + ", " +
           number_text(direction.z()) + "]";
  }
  Eigen::Index axis = 0;
  direction.cwiseAbs().maxCoeff(&axis);
  return std::string("\"") + (direction[axis] > 0.0 ? '+' : '-') + static_cast<char>('x' + axis) +
         "\"";
}

std::string written_choice(const Geometry& geometry, const CadFace& face,
                           const std::string& narrow) {
  if (name_is_its_own(geometry, face)) return "{ name = " + quoted(face.name) + narrow + " }";
  if (face.kind == SurfaceKind::plane && along_an_axis(face.axis)) {
    return "{ plane = " + written_direction(face.axis) +
           ", at = " + quoted_length(face.centroid.dot(face.axis)) + narrow + " }";
  }
  return written_ids(face, narrow);
}

std::string written_choice_of_one(const Geometry& geometry, const CadFace& face,
                                  const std::string& narrow) {
  const bool alone =
      std::none_of(geometry.faces.begin(), geometry.faces.end(), [&](const CadFace& other) {
        return other.id != face.id && other.kind == SurfaceKind::plane &&
               geometry.body(other.body).modelled && other.axis.dot(face.axis) > 0.99999 &&
               std::abs((other.origin - face.origin).dot(face.axis)) < 0.05;
      });
  if (alone || name_is_its_own(geometry, face)) return written_choice(geometry, face, narrow);
  return written_ids(face, narrow);
}

std::string written_hole(double diameter, const Eigen::Vector3d& axis, const std::string& narrow) {
  return "{ hole = " + quoted_length(diameter) + ", axis = " + written_direction(axis) + narrow;
}

}  // namespace crossgrain
