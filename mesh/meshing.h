// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <chrono>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "mesh/geometry.h"
#include "mesh/tetrahedron_mesh.h"

namespace crossgrain {

/// Where a STEP file comes from and how it is read.
struct ImportOptions {
  std::filesystem::path step_file;
  double scale = 1.0;
  /// Names of the solids to model; empty: all. The others keep their ids but are not modelled.
  /// A name that no solid has, or that several have, is an error that lists the names there are.
  std::vector<std::string> bodies;
};

/// A ball in which elements must not exceed a size.
struct SizeBall {
  Eigen::Vector3d centre;
  double radius;  ///< [mm]
  double size;    ///< [mm]
};

struct MeshOptions {
  int layers = 2;                   ///< elements through every wall
  std::optional<double> size;       ///< largest edge [mm]; default from the box
  std::optional<double> size_min;   ///< smallest edge [mm]
  double elements_per_turn = 12.0;  ///< on curved faces, per 2 pi
  double refinement = 1.0;          ///< divides every size
  bool deterministic = true;
  std::vector<SizeBall> balls;
  std::chrono::seconds time_limit{600};
  std::optional<std::filesystem::path>
      mesh_file;  ///< a .msh of the same geometry, read in place of meshing
  std::optional<std::filesystem::path> write_msh;  ///< keep the mesh as .msh
};

/// A place where the wall holds fewer elements than asked for.
struct ThinPlace {
  FaceId face;
  Eigen::Vector3d position;  ///< [mm]
  double wall;               ///< [mm]
  int layers;
};

struct MeshReport {
  std::vector<std::string> remedies;  ///< rungs of the ladder that were climbed, in words
  int curved_elements_straightened = 0;
  double min_scaled_jacobian = 0.0;
  double volume_mm3 = 0.0;  ///< of the mesh
  double cad_volume_mm3 = 0.0;
  int layers_min = 0;        ///< 1st percentile by area
  double wall_min_mm = 0.0;  ///< 1st percentile by area
  std::vector<ThinPlace> thin_places;
  double seconds_gmsh = 0.0;
  double seconds_total = 0.0;
};

struct MeshedGeometry {
  Geometry geometry;
  TetrahedronMesh mesh;
  MeshReport report;
};

/// Called about twice a second with the stage in words and the share done (0..1, or negative if
/// unknown).
using Progress = std::function<void(const std::string& stage, double share)>;

/// Import a STEP file in a child process. Never lets the kernel's abort or hang reach the caller.
/// @throws std::invalid_argument naming the file, what is wrong with it and the remedy.
Geometry import_step(const ImportOptions& options);

/// Import and mesh in a child process, with its time limit and its ladder of remedies.
/// @throws std::invalid_argument naming the file and the face on which meshing failed when the
/// whole ladder fails.
MeshedGeometry mesh_step(const ImportOptions& import, const MeshOptions& options,
                         const Progress& progress = {});

/// The child's side. The parent starts its own program (/proc/self/exe) again with a worker's
/// arguments, so every program that imports or meshes, the tests' included, calls this first thing
/// in main().
/// @return the exit status to end with, or nullopt if the arguments are not a worker's.
std::optional<int> run_as_mesh_worker(int argc, char** argv);

/// Ends a running child; safe in a signal handler.
void cancel_mesh_worker() noexcept;

}  // namespace crossgrain
