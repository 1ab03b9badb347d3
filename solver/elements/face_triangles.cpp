// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/face_triangles.h"

#include <map>
#include <stdexcept>
#include <string>

namespace crossgrain {

std::vector<int> triangles_on(const TetrahedronMesh& mesh, const std::vector<FaceId>& faces,
                              const char* wanted_for) {
  if (faces.empty()) throw std::invalid_argument(std::string(wanted_for) + ": no face is given");
  std::map<FaceId, bool> seen;
  for (FaceId face : faces) seen[face] = false;
  std::vector<int> triangles;
  for (int t = 0; t < mesh.triangle_count(); ++t) {
    const auto wanted = seen.find(mesh.face_of_triangle[t]);
    if (wanted == seen.end()) continue;
    wanted->second = true;
    triangles.push_back(t);
  }
  for (const auto& [face, found] : seen)
    if (!found)
      throw std::invalid_argument(std::string(wanted_for) + ": face " +
                                  std::to_string(number(face)) +
                                  " has no triangles in the mesh; choose a face of a meshed body");
  return triangles;
}

}  // namespace crossgrain
