// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/story/cavity.h"

#include "cases/face_choice/face_choice.h"

namespace crossgrain {
namespace {

std::optional<WettedSurface> wetted_by(const PreparedCase& prepared, const PressureLoad& pressure) {
  return choose_faces(prepared.meshed.geometry, prepared.features, pressure.faces).wetted;
}

}  // namespace

std::optional<WettedSurface> pressurised_cavity(const PreparedCase& prepared) {
  for (const PressureLoad& pressure : prepared.case_file.pressures) {
    if (pressure.name == prepared.loading.leading_pressure) return wetted_by(prepared, pressure);
  }
  return std::nullopt;
}

std::vector<FaceId> cavity_faces(const PreparedCase& prepared) {
  std::vector<FaceId> faces;
  const auto add = [&faces](const WettedSurface& surface) {
    faces.insert(faces.end(), surface.faces.begin(), surface.faces.end());
  };
  for (const WettedSurface& cavity : closed_cavities(prepared.meshed.geometry)) add(cavity);
  for (const PressureLoad& pressure : prepared.case_file.pressures) {
    if (const auto wetted = wetted_by(prepared, pressure)) add(*wetted);
  }
  return faces;
}

}  // namespace crossgrain
