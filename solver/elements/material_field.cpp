// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/material_field.h"

#include <algorithm>
#include <stdexcept>
#include <string>

namespace crossgrain {
namespace {

void require(bool holds, const std::string& message) {
  if (!holds) throw std::invalid_argument("material field: " + message);
}

}  // namespace

void require_fits(const MaterialField& field, const TetrahedronMesh& mesh, Eigen::Index points) {
  const auto elements = mesh.tetrahedron_count();
  require(std::ssize(field.material_of_tetrahedron) == elements &&
              field.frame_of_point.rows() == elements,
          "made for " + std::to_string(field.material_of_tetrahedron.size()) +
              " elements, the mesh has " + std::to_string(elements));
  require(field.one_frame_per_element() || field.frame_of_point.cols() == points,
          "has frames for " + std::to_string(field.frame_of_point.cols()) +
              " points per element, the quadrature has " + std::to_string(points));
  for (int material : field.material_of_tetrahedron)
    require(material >= 0 && material < std::ssize(field.materials),
            "names material " + std::to_string(material) + " of " +
                std::to_string(field.materials.size()));
  require(elements == 0 || (field.frame_of_point.minCoeff() >= 0 &&
                            field.frame_of_point.maxCoeff() < std::ssize(field.frames)),
          "names a frame that is not there");
  for (const auto& material : field.materials)
    require(material.density > 0.0 && material.thermal_expansion.allFinite(),
            "needs a positive density and a finite thermal expansion; the density is " +
                std::to_string(material.density) + " tonne/mm^3");
}

std::vector<int> frames_of_bodies(const MaterialField& field, const TetrahedronMesh& mesh,
                                  const std::vector<BodyId>& bodies) {
  std::vector<char> used(field.frames.size(), 0);
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    if (std::ranges::find(bodies, mesh.body_of_tetrahedron[t]) != bodies.end())
      for (const int frame : field.frame_of_point.row(t)) used[frame] = 1;
  std::vector<int> frames;
  for (std::size_t i = 0; i < used.size(); ++i)
    if (used[i]) frames.push_back(static_cast<int>(i));
  return frames;
}

MaterialField with_frames_along(MaterialField field, const std::vector<int>& turning,
                                const Eigen::Vector3d& direction) {
  for (const int frame : turning) field.frames[frame] = frame_along(direction);
  return field;
}

MaterialField uniform_field(const TetrahedronMesh& mesh,
                            const std::vector<SolidMaterial>& material_of_body,
                            const std::vector<Frame>& frame_of_body) {
  MaterialField field{material_of_body, {}, frame_of_body, {}};
  field.material_of_tetrahedron.resize(mesh.tetrahedron_count());
  field.frame_of_point.resize(mesh.tetrahedron_count(), 1);
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    const auto body = index(mesh.body_of_tetrahedron[t]);
    require(body < material_of_body.size() && body < frame_of_body.size(),
            "body " + std::to_string(number(mesh.body_of_tetrahedron[t])) +
                " has no material or no frame");
    field.material_of_tetrahedron[t] = static_cast<int>(body);
    field.frame_of_point(t, 0) = static_cast<int>(body);
  }
  return field;
}

}  // namespace crossgrain
