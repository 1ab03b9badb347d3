// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/tetrahedra/mesh_file.h"

#include <gmsh.h>

#include <Eigen/Geometry>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "mesh/tetrahedra/mesh_checks.h"
#include "mesh/tetrahedra/meshing_failure.h"
#include "mesh/tetrahedra/off_surface.h"

namespace crossgrain {
namespace {

namespace fs = std::filesystem;

constexpr const char* remedy =
    "; give a .msh that [mesh] write_msh wrote from the same STEP file, or leave [mesh] file out";

[[noreturn]] void refuse(const fs::path& file, const std::string& what) {
  throw std::invalid_argument(file.string() + ": " + what);
}

/// A full disk cuts the file short without a word from Gmsh.
bool ends_as_it_should(const fs::path& file) {
  constexpr std::string_view last = "$EndElements";
  std::ifstream stream(file, std::ios::binary | std::ios::ate);
  const auto size = static_cast<std::streamoff>(stream.tellg());
  constexpr std::streamoff tail = 32;
  if (!stream || size < tail) return false;
  std::string text(static_cast<std::size_t>(tail), '\0');
  stream.seekg(size - tail).read(text.data(), tail);
  return text.find(last) != std::string::npos;
}

double corner_area(const TetrahedronMesh& mesh, Eigen::Index t) {
  const Eigen::Vector3d a = mesh.nodes.col(mesh.triangles(0, t));
  const Eigen::Vector3d b = mesh.nodes.col(mesh.triangles(1, t));
  const Eigen::Vector3d c = mesh.nodes.col(mesh.triangles(2, t));
  return 0.5 * (b - a).cross(c - a).norm();
}

std::string differs(const std::string& what, double found, double expected, const char* unit) {
  std::ostringstream text;
  text.precision(5);
  text << "is not a mesh of this part: " << what << " measures " << found << " " << unit
       << " in it, in the STEP file " << expected << " " << unit << remedy;
  return text.str();
}

/// Faces and bodies must be as large as in CAD. Coarse meshes cut corners: a third of a small
/// round face may be missing.
void check_against(const Geometry& geometry, const TetrahedronMesh& mesh, const fs::path& file) {
  std::vector<double> areas(geometry.faces.size(), 0.0), volumes(geometry.bodies.size(), 0.0);
  for (Eigen::Index t = 0; t < mesh.triangle_count(); ++t)
    areas[index(mesh.face_of_triangle[static_cast<std::size_t>(t)])] += corner_area(mesh, t);
  for (Eigen::Index e = 0; e < mesh.tetrahedron_count(); ++e)
    volumes[index(mesh.body_of_tetrahedron[static_cast<std::size_t>(e)])] +=
        element_volume(mesh, e);
  const auto apart = [](double found, double expected, double share) {
    return !(std::abs(found - expected) <= share * expected);
  };
  for (const Body& body : geometry.bodies) {
    if (!body.modelled) continue;
    if (apart(volumes[index(body.id)], body.volume, 0.02))
      refuse(file, differs("body " + std::to_string(number(body.id)), volumes[index(body.id)],
                           body.volume, "mm^3"));
    for (const FaceId face : body.faces)
      if (apart(areas[index(face)], geometry.face(face).area, 0.4))
        refuse(file, differs("face " + std::to_string(number(face)), areas[index(face)],
                             geometry.face(face).area, "mm^2"));
  }
}

/// A dent in the surface is another part, and its stress another one.
void check_surface(const ConformalShape& shape, const TetrahedronMesh& mesh, const fs::path& file) {
  const auto off = node_off_surface(mesh, shape);
  if (!off) return;
  std::ostringstream text;
  text.precision(4);
  text << "is not a mesh of this part: a node at (" << off->position.x() << ", "
       << off->position.y() << ", " << off->position.z() << ") mm lies " << off->distance
       << " mm off face " << number(off->face) << remedy;
  refuse(file, text.str());
}

}  // namespace

fs::path unfinished(const fs::path& file) {
  return file.parent_path() / (file.stem().string() + ".unfinished.msh");
}

void write_mesh_file(const ExtractedMesh& extracted, const fs::path& file) {
  const fs::path part = unfinished(file);
  std::error_code error;
  try {
    for (std::size_t i = 0; i < extracted.node_tags.size(); ++i) {
      const Eigen::Vector3d at = extracted.mesh.nodes.col(static_cast<Eigen::Index>(i));
      gmsh::model::mesh::setNode(extracted.node_tags[i], {at.x(), at.y(), at.z()}, {});
    }
    gmsh::option::setNumber("Mesh.MshFileVersion", 4.1);
    gmsh::option::setNumber("Mesh.Binary", 1);
    gmsh::write(part.string());
  } catch (const std::string&) {
    // Said below: the file is not there, or not whole.
  }
  if (ends_as_it_should(part)) {
    fs::rename(part, file, error);
    if (!error) return;
  }
  fs::remove(part, error);
  refuse(file,
         "cannot be written; see to its folder and the room on its disk, or give another "
         "[mesh] write_msh");
}

TetrahedronMesh read_mesh_file(const fs::path& file, const ConformalShape& shape,
                               const Geometry& geometry) {
  // Gmsh says nothing about a file that is not there.
  if (!fs::is_regular_file(file)) refuse(file, std::string("there is no such file") + remedy);
  try {
    gmsh::open(file.string());
  } catch (const std::string& message) {
    refuse(file, "cannot be read as a mesh: " + message + remedy);
  }
  try {
    TetrahedronMesh mesh = extract_mesh(shape, 2).mesh;
    check_against(geometry, mesh, file);
    check_surface(shape, mesh, file);
    return mesh;
  } catch (const std::string& message) {
    refuse(file, "is not a mesh of this part: " + message + remedy);
  } catch (const MeshingFailure& failure) {
    refuse(file, std::string("is not a mesh of this part: ") + failure.what() + remedy);
  }
}

}  // namespace crossgrain
