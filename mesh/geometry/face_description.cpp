// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/face_description.h"

#include <Adaptor3d_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepGProp_Face.hxx>
#include <BRepTools.hxx>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <vector>

#include "mesh/geometry/face_box.h"
#include "mesh/geometry/kernel_vectors.h"
#include "mesh/geometry/surface_recognition.h"

namespace crossgrain {
namespace {

constexpr double full_turn = 2.0 * M_PI;

struct ParameterBox {
  double u_low, u_high, v_low, v_high;
};

void set_axis(CadFace& face, const gp_Ax3& position) {
  face.axis = vector_from(position.Direction());
  face.origin = vector_from(position.Location());
}

void set_cone(CadFace& face, const gp_Cone& cone) {
  face.kind = SurfaceKind::cone;
  set_axis(face, cone.Position());
  face.radius = cone.RefRadius();
  face.half_angle = std::abs(cone.SemiAngle());
  if (cone.SemiAngle() < 0.0) {
    face.axis = -face.axis;
  }
}

/// A circle turned about an axis in its plane is a torus, however the file writes it.
/// @return false if the turned curve is another.
bool set_turned_circle(CadFace& face, const Adaptor3d_Surface& surface) {
  if (surface.BasisCurve()->GetType() != GeomAbs_Circle) return false;
  const gp_Circ circle = surface.BasisCurve()->Circle();
  const Eigen::Vector3d normal = vector_from(circle.Axis().Direction());
  const Eigen::Vector3d axis = vector_from(surface.AxeOfRevolution().Direction());
  const Eigen::Vector3d to_centre =
      vector_from(circle.Location()) - vector_from(surface.AxeOfRevolution().Location());
  const Eigen::Vector3d off_axis = to_centre - to_centre.dot(axis) * axis;
  constexpr double tolerance = 1e-6;  // [mm] what the kernel takes for the same point, and a little
  const bool one_plane =
      std::abs(normal.dot(axis)) < 1e-9 && std::abs(normal.dot(off_axis)) < tolerance;
  if (!one_plane || off_axis.norm() < tolerance) return false;
  face.kind = SurfaceKind::torus;
  face.axis = axis;
  face.origin = vector_from(circle.Location()) - off_axis;
  face.radius = off_axis.norm();
  face.minor_radius = circle.Radius();
  return true;
}

/// @return false for anything but the five elementary surfaces.
bool set_elementary(CadFace& face, const Adaptor3d_Surface& surface) {
  switch (surface.GetType()) {
    case GeomAbs_Plane:
      face.kind = SurfaceKind::plane;
      set_axis(face, surface.Plane().Position());
      return true;
    case GeomAbs_Cylinder:
      face.kind = SurfaceKind::cylinder;
      set_axis(face, surface.Cylinder().Position());
      face.radius = surface.Cylinder().Radius();
      return true;
    case GeomAbs_Cone:
      set_cone(face, surface.Cone());
      return true;
    case GeomAbs_Sphere:
      face.kind = SurfaceKind::sphere;
      face.origin = vector_from(surface.Sphere().Location());
      face.radius = surface.Sphere().Radius();
      return true;
    case GeomAbs_Torus:
      face.kind = SurfaceKind::torus;
      set_axis(face, surface.Torus().Position());
      face.radius = surface.Torus().MajorRadius();
      face.minor_radius = surface.Torus().MinorRadius();
      return true;
    case GeomAbs_SurfaceOfRevolution:
      return set_turned_circle(face, surface);
    default:
      return false;
  }
}

/// Points and normals of a grid over the parameters, which may reach beyond the face's edges.
SampledSurface sample(const TopoDS_Face& shape, const ParameterBox& box, int steps) {
  const BRepGProp_Face surface(shape);
  Eigen::Matrix3Xd points(3, (steps + 1) * (steps + 1)), normals(3, (steps + 1) * (steps + 1));
  for (int i = 0; i <= steps; ++i) {
    for (int j = 0; j <= steps; ++j) {
      gp_Pnt point;
      gp_Vec normal;
      surface.Normal(box.u_low + (box.u_high - box.u_low) * i / steps,
                     box.v_low + (box.v_high - box.v_low) * j / steps, point, normal);
      points.col(i * (steps + 1) + j) = vector_from(point);
      normals.col(i * (steps + 1) + j) = vector_from(normal);
    }
  }
  // At a pole one derivative is rounding or nothing, and so is the normal's direction.
  const Eigen::VectorXd lengths = normals.colwise().norm().transpose();
  const double least = 1e-6 * lengths.maxCoeff();
  SampledSurface sampled{points, normals};
  Eigen::Index count = 0;
  for (Eigen::Index i = 0; i < points.cols(); ++i) {
    if (lengths[i] > least) {
      sampled.points.col(count) = points.col(i);
      sampled.normals.col(count++) = normals.col(i) / lengths[i];
    }
  }
  sampled.points.conservativeResize(Eigen::NoChange, count);
  sampled.normals.conservativeResize(Eigen::NoChange, count);
  return sampled;
}

bool set_recognised(CadFace& face, const SampledSurface& sampled) {
  constexpr double tolerance = 1e-3;  // [mm] finer than any printer
  if (sampled.points.cols() < 9) {
    return false;
  }
  const auto found = recognise(sampled, tolerance);
  if (!found) {
    return false;
  }
  face.kind = found->kind;
  face.axis = found->axis;
  face.origin = found->origin;
  face.radius = found->radius;
  face.half_angle = found->half_angle;
  return true;
}

/// The direction from the axis, centre or tube centre to a point of a curved face.
Eigen::Vector3d outward_of_curve(const CadFace& face, const Eigen::Vector3d& point) {
  const Eigen::Vector3d from_origin = point - face.origin;
  const Eigen::Vector3d radial = from_origin - from_origin.dot(face.axis) * face.axis;
  if (face.kind == SurfaceKind::torus) {
    return from_origin - face.radius * radial.normalized();
  }
  return radial;  // a sphere's axis is zero
}

void set_sides(CadFace& face, const TopoDS_Face& shape, const ParameterBox& box) {
  gp_Pnt point;
  gp_Vec normal;
  BRepGProp_Face(shape).Normal(0.5 * (box.u_low + box.u_high), 0.5 * (box.v_low + box.v_high),
                               point, normal);
  const Eigen::Vector3d outward = vector_from(normal).normalized();
  if (face.kind == SurfaceKind::plane) {
    face.axis = outward;
  } else if (face.kind != SurfaceKind::freeform) {
    face.hollow = outward.dot(outward_of_curve(face, vector_from(point))) < 0.0;
  }
}

/// The turn that angles cover; a gap below `seam` counts as covered.
double covered_angle(std::vector<double> angles, double seam) {
  std::sort(angles.begin(), angles.end());
  double gap = angles.front() + full_turn - angles.back();
  for (std::size_t i = 1; i < angles.size(); ++i) {
    gap = std::max(gap, angles[i] - angles[i - 1]);
  }
  return gap < seam ? full_turn : full_turn - gap;
}

/// The extent round and along the axis, from the parameters of an elementary surface.
void set_extent(CadFace& face, const ParameterBox& box, bool axis_turned) {
  if (face.kind == SurfaceKind::plane || face.kind == SurfaceKind::freeform) {
    return;
  }
  face.turn = box.u_high - box.u_low;
  // A cone's second parameter runs along its side.
  const double along = face.kind == SurfaceKind::cone ? std::cos(face.half_angle) : 1.0;
  if (face.kind == SurfaceKind::cylinder || face.kind == SurfaceKind::cone) {
    face.along_low = along * (axis_turned ? -box.v_high : box.v_low);
    face.along_high = along * (axis_turned ? -box.v_low : box.v_high);
  }
}

/// The same for a recognised surface, whose parameters are its spline's.
void set_extent(CadFace& face, const Eigen::Matrix3Xd& points, int steps) {
  if (face.kind == SurfaceKind::plane) {
    return;
  }
  const Eigen::Vector3d axis =
      face.kind == SurfaceKind::sphere ? Eigen::Vector3d::UnitZ() : face.axis;
  const Eigen::Vector3d x = axis.unitOrthogonal(), y = axis.cross(x);
  const Eigen::Matrix3Xd spokes = points.colwise() - face.origin;
  std::vector<double> angles;
  for (const auto& spoke : spokes.colwise()) {
    angles.push_back(std::atan2(spoke.dot(y), spoke.dot(x)));
  }
  face.turn = covered_angle(std::move(angles), 2.0 * full_turn / steps);
  if (face.kind != SurfaceKind::sphere) {
    const Eigen::RowVectorXd along = axis.transpose() * spokes;
    face.along_low = along.minCoeff();
    face.along_high = along.maxCoeff();
  }
}

}  // namespace

CadFace describe_face(const TopoDS_Face& shape) {
  CadFace face{};
  face.kind = SurfaceKind::freeform;
  face.axis = face.origin = face.centroid = face.vector_area = Eigen::Vector3d::Zero();
  ParameterBox box;
  BRepTools::UVBounds(shape, box.u_low, box.u_high, box.v_low, box.v_high);
  const BRepAdaptor_Surface surface(shape, false);
  if (set_elementary(face, surface)) {
    const bool axis_turned = face.kind == SurfaceKind::cone && surface.Cone().SemiAngle() < 0.0;
    set_extent(face, box, axis_turned);
  } else {
    constexpr int steps = 24;
    const SampledSurface sampled = sample(shape, box, steps);
    if (set_recognised(face, sampled)) {
      set_extent(face, sampled.points, steps);
    }
  }
  set_sides(face, shape, box);
  face.box = box_of(shape);
  return face;
}

}  // namespace crossgrain
