// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/face_description.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRepBndLib.hxx>
#include <BRepGProp.hxx>
#include <BRepGProp_Domain.hxx>
#include <BRepGProp_Face.hxx>
#include <BRepGProp_Vinert.hxx>
#include <BRepTools.hxx>
#include <BRep_Tool.hxx>
#include <Eigen/Geometry>
#include <GProp_GProps.hxx>
#include <GeomAdaptor_Surface.hxx>
#include <GeomConvert.hxx>
#include <Geom_BSplineSurface.hxx>
#include <Geom_RectangularTrimmedSurface.hxx>
#include <ShapeCustom_Surface.hxx>
#include <Standard_Failure.hxx>
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "mesh/kernel_vectors.h"

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
    default:
      return false;
  }
}

/// Many writers export planes and cylinders as splines or swept curves.
bool set_recognised(CadFace& face, const TopoDS_Face& shape, const ParameterBox& box) {
  constexpr double tolerance = 1e-3;  // [mm] finer than any printer
  try {
    Handle(Geom_Surface) surface = BRep_Tool::Surface(shape);
    if (Handle(Geom_BSplineSurface)::DownCast(surface).IsNull()) {
      // A swept surface may be infinite.
      surface = GeomConvert::SurfaceToBSplineSurface(new Geom_RectangularTrimmedSurface(
          surface, box.u_low, box.u_high, box.v_low, box.v_high));
    }
    Handle(Geom_Surface) simple =
        ShapeCustom_Surface(surface).ConvertToAnalytical(tolerance, false);
    return !simple.IsNull() && set_elementary(face, GeomAdaptor_Surface(simple));
  } catch (const Standard_Failure&) {
    return false;  // stays freeform
  }
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

/// The same for a recognised surface, whose parameters are its spline's: from a grid of points.
void set_extent_from_points(CadFace& face, const TopoDS_Face& shape, const ParameterBox& box) {
  constexpr int steps = 40;
  if (face.kind == SurfaceKind::plane || face.kind == SurfaceKind::freeform) {
    return;
  }
  const BRepAdaptor_Surface surface(shape, false);
  const Eigen::Vector3d axis =
      face.kind == SurfaceKind::sphere ? Eigen::Vector3d::UnitZ() : face.axis;
  const Eigen::Vector3d x = axis.unitOrthogonal(), y = axis.cross(x);
  std::vector<double> angles;
  face.along_low = std::numeric_limits<double>::infinity();
  face.along_high = -face.along_low;
  for (int i = 0; i <= steps; ++i) {
    for (int j = 0; j <= steps; ++j) {
      const Eigen::Vector3d point =
          vector_from(surface.Value(box.u_low + (box.u_high - box.u_low) * i / steps,
                                    box.v_low + (box.v_high - box.v_low) * j / steps)) -
          face.origin;
      angles.push_back(std::atan2(point.dot(y), point.dot(x)));
      face.along_low = std::min(face.along_low, point.dot(axis));
      face.along_high = std::max(face.along_high, point.dot(axis));
    }
  }
  face.turn = covered_angle(std::move(angles), 2.0 * full_turn / steps);
  if (face.kind != SurfaceKind::cylinder && face.kind != SurfaceKind::cone) {
    face.along_low = face.along_high = 0.0;
  }
}

void set_integrals(CadFace& face, const TopoDS_Face& shape) {
  GProp_GProps surface;
  BRepGProp::SurfaceProperties(shape, surface);
  face.area = surface.Mass();
  face.centroid = vector_from(surface.CentreOfMass());
  // Not BRepGProp::VolumeProperties: for an open shell it measures from a point of its own choice.
  BRepGProp_Face patch(shape);
  BRepGProp_Domain boundary(shape);
  face.cone_volume = BRepGProp_Vinert(patch, boundary, gp_Pnt()).Mass();
}

}  // namespace

CadFace describe_face(const TopoDS_Face& shape) {
  CadFace face{};
  face.kind = SurfaceKind::freeform;
  face.axis = face.origin = face.vector_area = Eigen::Vector3d::Zero();
  ParameterBox box;
  BRepTools::UVBounds(shape, box.u_low, box.u_high, box.v_low, box.v_high);
  const BRepAdaptor_Surface surface(shape, false);
  if (set_elementary(face, surface)) {
    const bool axis_turned = face.kind == SurfaceKind::cone && surface.Cone().SemiAngle() < 0.0;
    set_extent(face, box, axis_turned);
  } else if (set_recognised(face, shape, box)) {
    set_extent_from_points(face, shape, box);
  }
  set_sides(face, shape, box);
  set_integrals(face, shape);
  face.box = box_of(shape);
  return face;
}

Box box_of(const TopoDS_Shape& shape) {
  Bnd_Box bound;
  BRepBndLib::AddOptimal(shape, bound, false, false);
  if (bound.IsVoid()) {
    return {Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
  }
  bound.SetGap(0.0);
  return {vector_from(bound.CornerMin()), vector_from(bound.CornerMax())};
}

}  // namespace crossgrain
