// SPDX-License-Identifier: GPL-3.0-or-later
// Stress at the surface of parts that the program meshes itself, at its default sizes: two layers
// through the wall.
#include <Eigen/Geometry>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <functional>

#include "solver/elements/element_at_points.h"
#include "solver/loads/loads.h"
#include "solver/stress/bead_fit.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

constexpr double bead = 0.5;

/// Faces of a part for which `wanted` holds.
std::vector<FaceId> faces_where(const Geometry& geometry,
                                const std::function<bool(const CadFace&)>& wanted) {
  std::vector<FaceId> faces;
  for (const CadFace& face : geometry.faces)
    if (wanted(face)) faces.push_back(face.id);
  BOOST_TEST_REQUIRE(!faces.empty());
  return faces;
}

/// Flat faces that look along `normal`.
std::vector<FaceId> flat_faces(const Geometry& geometry, const Point& normal) {
  return faces_where(geometry, [&](const CadFace& face) {
    return face.kind == SurfaceKind::plane && face.axis.dot(normal) > 1.0 - 1e-9;
  });
}

/// Inner (hollow) or outer faces of a kind.
std::vector<FaceId> curved_faces(const Geometry& geometry, SurfaceKind kind, bool hollow) {
  return faces_where(
      geometry, [=](const CadFace& face) { return face.kind == kind && face.hollow == hollow; });
}

/// A part under a load whose stress is known exactly.
struct Known {
  std::vector<FaceId> surface;  ///< where the stress is looked at
  std::function<double(const Point&, const Vector6d&)> component;
  std::function<double(const Point&)> exact;  ///< of that component on the surface [MPa]
  double largest;                             ///< the largest of it on the surface [MPa]
};

Model model_of(const MeshedGeometry& part, const std::vector<Support>& held) {
  return {part.mesh,
          same_everywhere(part.mesh, elastic_material(isotropic(2000, 0.35)), skew_frame()),
          constraints_of(part.mesh, held)};
}

/// The largest of a component at the four points of an element's rule, where its stress is best.
double largest_inside(const Model& model, const ElementStress& stress, const Known& known) {
  const TetrahedronRule& rule = tetrahedron_rule(2);
  ElementAtPoints element(rule);
  double largest = 0.0;
  for (Eigen::Index t = 0; t < model.mesh.tetrahedron_count(); ++t) {
    element.move_to(model.mesh, t);
    for (Eigen::Index q = 0; q < rule.size(); ++q) {
      Eigen::Vector4d barycentric;
      barycentric << 1.0 - rule.points.col(q).sum(), rule.points.col(q);
      largest = std::max(
          largest, known.component(element.position(q), Vector6d(stress.of(t) * barycentric)));
    }
  }
  return largest;
}

struct OnSurface {
  double largest = 0.0;  ///< over the largest exact value
  double worst = 0.0;    ///< largest departure at any node, share of the largest exact value
};

OnSurface on_surface(const Model& model, const Answer& answer,
                     const Eigen::Matrix<double, 6, Eigen::Dynamic>& stress, const Known& known) {
  const std::vector<int> nodes = testing::nodes_on(model.mesh, known.surface);
  OnSurface found;
  for (std::size_t p = 0; p < answer.points.size(); ++p) {
    const int node = answer.points[p].node;
    if (!std::binary_search(nodes.begin(), nodes.end(), node)) continue;
    const Point at = model.mesh.nodes.col(node);
    const double value = known.component(at, stress.col(static_cast<Eigen::Index>(p)));
    found.largest = std::max(found.largest, value / known.largest);
    // Not std::max, which drops NaN.
    const double off = std::abs(value - known.exact(at)) / known.largest;
    if (!(off <= found.worst)) found.worst = off;
  }
  return found;
}

void check_surface(const std::string& id, const std::string& what, const std::string& source,
                   const Model& model, const Eigen::VectorXd& load, const Known& known, bool bent) {
  const Answer answer = solve(model, load);
  const ElementStress elements = element_stress(model.mesh, model.field, answer.displacement);
  const OnSurface nodal = on_surface(model, answer, answer.stress, known);
  const OnSurface felt =
      on_surface(model, answer, BeadFit(model.mesh, answer.points, {bead}).of(elements), known);
  // All as bounds of departures: a mesher's other version makes another mesh, whose last digits say
  // nothing.
  const auto row = [&](const std::string& name, const std::string& words, double bound,
                       const std::string& reason, double departure) {
    check({Chapter::surface_stress, id + " " + name, what + ": " + words, source, 0.0,
           absolute(bound, reason)},
          departure);
  };
  const std::string few_percent = "two layers through the wall, a mesh without structure";
  row("recovered", "largest recovered stress at the surface over the exact one, less 1", 0.03,
      few_percent, nodal.largest - 1.0);
  row("recovered anywhere",
      "recovered stress at the worst node of the surface, share of the largest exact one", 0.04,
      "one node of some hundreds, those on cut planes and edges among them", nodal.worst);
  row("felt", "largest stress that a bead of 0.5 feels there over the exact one, less 1", 0.03,
      few_percent, felt.largest - 1.0);
  row("felt anywhere",
      "what a bead of 0.5 feels at the worst node of the surface, share of the largest exact one",
      0.04, "one node of some hundreds, those on cut planes and edges among them", felt.worst);
  // In a bent wall of two layers stress falls from the surface to none a layer below; the points
  // lie 0.138 of an element's height under its side, and the height is between a half and a whole
  // layer.
  if (bent)
    row("inside", "largest stress at the elements' own points over the exact one, less 0.8964",
        0.0346, "what recovery is for: between 0.862 and 0.931 in layers of unequal height",
        largest_inside(model, elements, known) / known.largest - (1.0 - 0.75 * 0.1381966));
}

TopoDS_Shape without_negative(const TopoDS_Shape& shape, int axes) {
  constexpr double large = 200.0;
  std::vector<TopoDS_Shape> halves;
  for (int axis = 0; axis < axes; ++axis) {
    Point low = Point::Constant(-large);
    Point size = Point::Constant(2.0 * large);
    size[axis] = large;
    halves.push_back(testing::block(size.x(), size.y(), size.z(), low.x(), low.y(), low.z()));
  }
  return testing::cut(shape, halves);
}

BOOST_AUTO_TEST_SUITE(surface_stress)

BOOST_AUTO_TEST_CASE(a_pressed_bowl_shows_lame_s_stress_at_its_surface) {
  const double a = 36.0, b = 40.0, p = 1.0, cubes = b * b * b - a * a * a;
  const TopoDS_Shape bowl = testing::cut(testing::ball(b), {testing::ball(a)});
  const MeshedGeometry part = mesh_step(testing::StepFile(without_negative(bowl, 3)).import(), {});
  std::vector<Support> held;
  for (const Point& axis : {Point(1, 0, 0), Point(0, 1, 0), Point(0, 0, 1)})
    held.push_back(held_along(flat_faces(part.geometry, -axis), axis));
  const Model model = model_of(part, held);
  const auto inside = curved_faces(part.geometry, SurfaceKind::sphere, true);
  const double hoop = p * (a * a * a + b * b * b / 2.0) / cubes;

  check_surface("bowl", "sphere a 36 b 40, p 1", "Lamé, exact closed form", model,
                pressure_load(model.mesh, inside, [&](const Point&) { return p; }),
                {inside,
                 [](const Point& at, const Vector6d& s) {
                   return 0.5 * (s.head<3>().sum() - normal_stress(s, at.normalized()));
                 },
                 [&](const Point&) { return hoop; }, hoop},
                false);
}

BOOST_AUTO_TEST_CASE(a_bent_curved_bar_shows_golovin_s_stress_at_its_surface) {
  // Unit moment per unit of width, opening the bar; sides held: plane strain, of the same stress.
  const double a = 36.0, b = 40.0, width = 20.0;
  const double log = std::log(b / a), squares = b * b - a * a;
  const double N = squares * squares - 4.0 * a * a * b * b * log * log;
  const auto hoop = [=](double r) {
    return -4.0 / N *
           (-a * a * b * b / (r * r) * log + b * b * std::log(r / b) + a * a * std::log(a / r) +
            squares);
  };
  const MeshedGeometry part =
      mesh_step(testing::StepFile(without_negative(testing::tube(b, a, width), 2)).import(), {});
  const Point x = Point::UnitX(), y = Point::UnitY(), z = Point::UnitZ();
  const Model model = model_of(part, {held_along(flat_faces(part.geometry, -y), y),
                                      held_along(flat_faces(part.geometry, z), z),
                                      held_along(flat_faces(part.geometry, -z), z)});

  check_surface(
      "curved bar", "bar a 36 b 40 under end moments",
      "Golovin; Timoshenko and Goodier, Theory of Elasticity, art. 29, exact", model,
      traction_load(model.mesh, flat_faces(part.geometry, -x),
                    [&](const Point& at) { return Point(-hoop(at.y()), 0, 0); }),
      {curved_faces(part.geometry, SurfaceKind::cylinder, true),
       [](const Point& at, const Vector6d& s) { return normal_stress(s, hoop_frame(at).col(0)); },
       [&](const Point&) { return hoop(a); }, hoop(a)},
      true);
}

BOOST_AUTO_TEST_CASE(a_flat_strip_under_pressure_shows_its_bending_stress_at_its_surface) {
  // Pressure on the upper side, carried by shear at both ends; sides held: plane strain.
  const double l = 40.0, c = 2.0, p = 0.1, I = 2.0 * c * c * c / 3.0;
  const auto along = [=](double at, double down) {
    return p / (2.0 * I) *
           ((l * l - at * at) * down + 2.0 / 3.0 * down * down * down - 0.4 * c * c * down);
  };
  const Point x = Point::UnitX(), y = Point::UnitY(), z = Point::UnitZ();
  const MeshedGeometry part =
      mesh_step(testing::StepFile(testing::block(2 * l, 20, 2 * c, -l, 0, -c)).import(), {});
  const Model model = model_of(part, {held_along(flat_faces(part.geometry, y), y),
                                      held_along(flat_faces(part.geometry, -y), y)});
  Eigen::VectorXd load =
      pressure_load(model.mesh, flat_faces(part.geometry, z), [&](const Point&) { return p; });
  for (const double end : {-1.0, 1.0})
    load += traction_load(model.mesh, flat_faces(part.geometry, end * x), [&](const Point& at) {
      const double shear = p / (2.0 * I) * (c * c - at.z() * at.z()) * l;
      return Point(end * along(l, -at.z()), 0, shear);
    });

  check_surface(
      "strip", "strip 80 long, 4 thick, p 0.1",
      "Timoshenko and Goodier, Theory of Elasticity, art. 22, exact", model, load,
      {flat_faces(part.geometry, -z), [](const Point&, const Vector6d& s) { return s[0]; },
       [&](const Point& at) { return along(at.x(), c); }, along(0.0, c)},
      true);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
