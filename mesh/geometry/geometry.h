// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <array>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "mesh/geometry/ids.h"

namespace crossgrain {

/// Axis-aligned box [mm].
struct Box {
  Eigen::Vector3d low;
  Eigen::Vector3d high;
  double diagonal() const { return (high - low).norm(); }
};

/// A box that holds nothing, to be extended.
inline Box empty_box() {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  return {Eigen::Vector3d::Constant(infinity), Eigen::Vector3d::Constant(-infinity)};
}
inline void extend(Box& box, const Eigen::Vector3d& point) {
  box.low = box.low.cwiseMin(point);
  box.high = box.high.cwiseMax(point);
}
inline void extend(Box& box, const Box& other) {
  box.low = box.low.cwiseMin(other.low);
  box.high = box.high.cwiseMax(other.high);
}

enum class SurfaceKind { plane, cylinder, cone, sphere, torus, freeform };

/// An edge in a face's loop, and whether the loop runs along the edge's own direction.
struct LoopEdge {
  EdgeId edge;
  bool forward;
};

/// One CAD face. Normals point out of the body.
struct CadFace {
  FaceId id;
  BodyId body;
  SurfaceKind kind;
  double area;               ///< [mm^2]
  Eigen::Vector3d centroid;  ///< [mm]
  Box box;
  Eigen::Vector3d axis;       ///< plane: outward normal; cylinder, cone, torus: axis; else zero
  Eigen::Vector3d origin;     ///< a point of the plane or the axis; sphere and torus: centre [mm]
  double radius = 0.0;        ///< cylinder, sphere; cone: at origin; torus: of the ring [mm]
  double minor_radius = 0.0;  ///< torus: of the tube [mm]
  double half_angle = 0.0;    ///< cone: positive, the radius grows along the axis [rad]
  double turn = 0.0;          ///< cylinder, cone, sphere, torus: angle swept about the axis [rad]
  double along_low = 0.0;     ///< cylinder, cone: extent along the axis, from the origin [mm]
  double along_high = 0.0;
  bool hollow =
      false;  ///< curved face whose normal points towards its axis or centre (a bore, not a boss)
  std::string name;                             ///< from the STEP file; often empty
  std::optional<std::array<double, 3>> colour;  ///< sRGB 0..1
  /// Outer boundary first; each in order, with the face on its left seen from outside the body.
  std::vector<std::vector<LoopEdge>> loops;
  Eigen::Vector3d vector_area;  ///< integral of the outward normal [mm^2]
  double cone_volume =
      0.0;  ///< a third of the integral of x . n; sums to the volume over a closed surface [mm^3]
};

/// One CAD edge; `faces` has two entries on a sound solid (the same face twice on a seam).
struct CadEdge {
  EdgeId id;
  double length;                                       ///< [mm]
  Eigen::Vector3d middle;                              ///< at half the parameter range [mm]
  Eigen::Vector3d centroid = Eigen::Vector3d::Zero();  ///< of the curve [mm]
  std::vector<FaceId> faces;
  Eigen::Vector3d swept_area;  ///< half the integral of r x dr along the edge's direction [mm^2]
  std::optional<double> circle_radius;  ///< if the edge lies on a circle [mm]
  Eigen::Vector3d circle_centre = Eigen::Vector3d::Zero();
  Eigen::Vector3d circle_axis = Eigen::Vector3d::Zero();
  bool closed = false;
  bool degenerate = false;  ///< a pole: no length
  /// Points along it; chords stray from it by up to 0.2 % of its bend radius [mm].
  Eigen::Matrix3Xd course;
  /// Between its two faces, through the material: 90 on a block's edges, 270 at the bottom of a
  /// square pocket, 180 where faces meet smoothly or the edge has not two sides. The greatest along
  /// the edge [deg].
  double material_angle = 180.0;
};

struct Body {
  BodyId id;
  std::string name;          ///< of one body only, if the files allow it
  std::string name_in_file;  ///< as the STEP file has it
  std::size_t file = 0;      ///< which of the geometry's
  /// False for a solid of the file that this case leaves out: it keeps its ids, so that they stay
  /// those `inspect` prints, but no ray, choice of faces, cavity or mesh sees it.
  bool modelled = true;
  double volume;  ///< [mm^3]
  double area;    ///< [mm^2]
  Eigen::Vector3d centroid;
  Box box;
  std::vector<FaceId> faces;
  std::vector<std::vector<FaceId>> shells;  ///< outer shell first; each further one closes a cavity
  std::optional<std::array<double, 3>> colour;
};

/// Flat triangles on the CAD faces, fine enough for rays, projections and pictures, not for stress.
struct SurfaceTriangles {
  Eigen::Matrix3Xd points;     ///< [mm]
  Eigen::Matrix3Xi triangles;  ///< counter-clockwise from outside the body
  std::vector<FaceId> face_of_triangle;
};

/// A STEP file that was read.
struct ReadFile {
  std::string path;
  std::string declared_unit;  ///< "millimetre", "inch", "metre", ...
  double scale = 1.0;         ///< applied after import
};

/// Everything known of imported STEP files without their kernel. Bodies, faces and edges are stored
/// in id order.
struct Geometry {
  std::vector<ReadFile> files;
  std::vector<Body> bodies;
  std::vector<CadFace> faces;
  std::vector<CadEdge> edges;
  SurfaceTriangles surface;
  Box box;
  std::vector<std::string> warnings;  ///< stray faces dropped, implausible size, slivers, ...

  /// Of the file that a body came from.
  const std::string& path_of(const Body& body) const { return files.at(body.file).path; }
  const Body& body(BodyId id) const { return bodies.at(index(id)); }
  const CadFace& face(FaceId id) const { return faces.at(index(id)); }
  const CadEdge& edge(EdgeId id) const { return edges.at(index(id)); }
};

}  // namespace crossgrain
