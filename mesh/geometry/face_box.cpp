// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/geometry/face_box.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepTools.hxx>
#include <BRepTopAdaptor_FClass2d.hxx>
#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <limits>
#include <vector>

#include "mesh/geometry/kernel_vectors.h"

namespace crossgrain {
namespace {

// Per unit of the parameter range; errors of the position go with its square.
constexpr double finest_step = 1e-5;

/// Walk from the best of the starting points towards every side of the box, halving the step.
/// @param point    the position at parameters.
/// @param allowed  whether parameters lie on the edge or face; asked as little as can be.
template <typename Parameters, typename Point, typename Allowed>
void add_extremes(Box& bound, const std::vector<Parameters>& starts,
                  const std::vector<Parameters>& directions, double first_step, const Point& point,
                  const Allowed& allowed) {
  for (int side = 0; side < 6; ++side) {
    const double sign = side < 3 ? -1.0 : 1.0;
    double top = -std::numeric_limits<double>::infinity();
    Parameters best = starts.front();
    const auto climb = [&](const Parameters& to) {
      const double height = sign * point(to)[side % 3];
      if (!(height > top) || !allowed(to)) {
        return false;
      }
      top = height;
      best = to;
      return true;
    };
    for (const Parameters& start : starts) {
      climb(start);
    }
    if (!std::isfinite(top)) {
      return;  // a sliver of a face: its edges bound it
    }
    for (double step = first_step; step > finest_step;) {
      bool climbed = false;
      for (const Parameters& direction : directions) {
        climbed = climb(best + step * direction) || climbed;
      }
      step = climbed ? step : 0.5 * step;
    }
    extend(bound, point(best));
  }
}

using Number = Eigen::Matrix<double, 1, 1>;

void add_edge(Box& bound, const TopoDS_Edge& edge) {
  if (BRep_Tool::Degenerated(edge) || !BRep_Tool::IsGeometric(edge)) {
    return;
  }
  const BRepAdaptor_Curve curve(edge);
  const double first = curve.FirstParameter(), range = curve.LastParameter() - first;
  extend(bound, vector_from(curve.Value(first)));
  extend(bound, vector_from(curve.Value(first + range)));
  if (curve.GetType() == GeomAbs_Line) {
    return;
  }
  constexpr int samples = 24;
  std::vector<Number> starts;
  for (int i = 0; i <= samples; ++i) {
    starts.push_back(Number(static_cast<double>(i) / samples));
  }
  add_extremes<Number>(
      bound, starts, {Number(-1.0), Number(1.0)}, 0.5 / samples,
      [&](const Number& t) { return vector_from(curve.Value(first + range * t[0])); },
      [](const Number& t) { return t[0] >= 0.0 && t[0] <= 1.0; });
}

void add_interior(Box& bound, const TopoDS_Face& face) {
  const BRepAdaptor_Surface surface(face, false);
  if (surface.GetType() == GeomAbs_Plane) {
    return;
  }
  double u_low = 0.0, u_high = 0.0, v_low = 0.0, v_high = 0.0;
  BRepTools::UVBounds(face, u_low, u_high, v_low, v_high);
  const BRepTopAdaptor_FClass2d inside(face, 1e-9);
  const auto parameters = [&](const Eigen::Vector2d& at) {
    return gp_Pnt2d(u_low + at[0] * (u_high - u_low), v_low + at[1] * (v_high - v_low));
  };
  constexpr int samples = 12;
  std::vector<Eigen::Vector2d> starts;
  for (int i = 0; i <= samples; ++i) {
    for (int j = 0; j <= samples; ++j) {
      starts.emplace_back(static_cast<double>(i) / samples, static_cast<double>(j) / samples);
    }
  }
  const Eigen::Vector2d u(1.0, 0.0), v(0.0, 1.0);
  add_extremes<Eigen::Vector2d>(
      bound, starts, {u, -u, v, -v}, 0.5 / samples,
      [&](const Eigen::Vector2d& at) {
        const gp_Pnt2d p = parameters(at);
        return vector_from(surface.Value(p.X(), p.Y()));
      },
      [&](const Eigen::Vector2d& at) {
        return at.minCoeff() >= 0.0 && at.maxCoeff() <= 1.0 &&
               inside.Perform(parameters(at)) != TopAbs_OUT;
      });
}

}  // namespace

Box box_of(const TopoDS_Face& face) {
  Box bound = empty_box();
  for (TopExp_Explorer edge(face, TopAbs_EDGE); edge.More(); edge.Next()) {
    add_edge(bound, TopoDS::Edge(edge.Current()));
  }
  add_interior(bound, face);
  return bound;
}

}  // namespace crossgrain
