// SPDX-License-Identifier: GPL-3.0-or-later
// How fast the error falls with the unknowns under the program's own refinement.
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRepPrimAPI_MakeRevol.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GC_MakeArcOfEllipse.hxx>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <gp_Elips.hxx>
#include <numbers>

#include "solver/loads/loads.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/notch_field.h"
#include "tests/verification/refined_passes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

// Rates do not depend on the size; the mesher is made for parts of this one.
constexpr double metre = 10.0;

void check_rate(const std::string& id, const std::string& what, const std::string& source,
                double target, const Tolerance& tolerance, double obtained) {
  check({Chapter::convergence, id, what, source, target, tolerance}, obtained);
}

const std::string full_rate =
    "exact: approximation by quadratic elements (Strang and Fix), error ~ h^2 ~ N^-2/3";
const Tolerance near_full_rate =
    absolute(0.1, "the mesher's scatter from pass to pass; linear elements would have −1/3");

double estimated(const RefinedPass& pass) { return pass.estimated; }

/// An L of 20 mm, 5 mm thick, under the tractions of the singular field; ends slide in their plane.
LoadedModel notched(const MeshedGeometry& part, const NotchField& exact, double E, double nu) {
  LoadedModel loaded;
  Model& model = loaded.model;
  model.mesh = part.mesh;
  model.field = same_everywhere(part.mesh, elastic_material(isotropic(E, nu)), skew_frame());
  std::vector<FaceId> ends = planes_facing(part.geometry, Point::UnitZ());
  const auto low = planes_facing(part.geometry, -Point::UnitZ());
  ends.insert(ends.end(), low.begin(), low.end());
  model.held = constraints_of(part.mesh, {held_along(ends, Point::UnitZ())});
  // The tractions balance, so nodes that keep the part in place carry nothing.
  const int kept = testing::nearest_node(part.mesh, {10, 10, 0});
  hold_nodes(model.held, {kept}, Point::UnitX());
  hold_nodes(model.held, {kept, testing::nearest_node(part.mesh, {-10, 10, 0})}, Point::UnitY());
  loaded.load = Eigen::VectorXd::Zero(part.mesh.unknowns());
  for (const Point& normal : {Point(1, 0, 0), Point(-1, 0, 0), Point(0, 1, 0), Point(0, -1, 0)})
    for (const FaceId face : planes_facing(part.geometry, normal))
      if (std::abs(part.geometry.face(face).centroid.dot(normal)) > 1.0)
        loaded.load += traction_load(
            part.mesh, {face}, [&](const Point& at) { return Point(exact.stress(at) * normal); });
  return loaded;
}

BOOST_AUTO_TEST_SUITE(refinement_rates)

// Of the L, half its outer width [mm], and its material [MPa].
constexpr double a = 10.0, E = 2000.0, nu = 0.3;
const std::string williams = "M. L. Williams, J. Appl. Mech. 19 (1952): λ = 0.54448";

/// An L of this thickness under Williams's field, and the energy that meshes of it fall short of.
class NotchedPart {
 public:
  explicit NotchedPart(double thickness)
      : file_(testing::cut(
            testing::block(2 * a, 2 * a, thickness, -a, -a, 0),
            {testing::block(2 * a, 2 * a, 3 * thickness, -2 * a, -2 * a, -thickness)})),
        energy_(exact_.energy(a, thickness)) {}

  double energy() const { return energy_; }
  double error(const RefinedPass& pass) const { return std::sqrt(energy_ - pass.energy); }
  std::vector<RefinedPass> refined(int passes) const {
    return refined_by_estimate(file_.import(), coarse(), model(), passes, 0.6);
  }
  std::vector<RefinedPass> even(const std::vector<double>& edges) const {
    return refined_evenly(file_.import(), coarse(), model(), edges);
  }
  double rate_of(const std::vector<RefinedPass>& passes) const {
    return rate(passes, [&](const RefinedPass& pass) { return error(pass); });
  }

 private:
  static MeshOptions coarse() {
    MeshOptions options;
    options.layers = 1;
    options.size = 5.0;
    return options;
  }
  ModelOfMesh model() const {
    return [&](const MeshedGeometry& part) { return notched(part, exact_, E, nu); };
  }

  NotchField exact_{E, nu};
  testing::StepFile file_;
  double energy_;
};

BOOST_AUTO_TEST_CASE(at_an_inner_edge_own_refinement_is_worth_more_than_even_meshes) {
  constexpr double t = 5.0;
  const NotchField exact(E, nu);
  BOOST_TEST((exact.stress({-3, 0, 0}) * Point::UnitY()).norm() < 1e-12);
  BOOST_TEST((exact.stress({0, -3, 0}) * Point::UnitX()).norm() < 1e-12);
  const NotchedPart prism(t);
  check_rate("L-shape energy",
             "prism under Williams's field, ν 0.3: strain energy times E / a^2λ t",
             "Szabó and Babuška, Finite Element Analysis (1991): 4.15454 (from memory)", 4.15454423,
             fraction(1e-6, "its digits and those of the integral"),
             prism.energy() * E / (std::pow(a, 2 * NotchField::lambda) * t));

  const auto own = prism.refined(10);
  const auto even = prism.even({5.0, 2.5, 1.25, 0.9});

  check_rate("L-shape own rate",
             "the same, refined by the own estimate: exponent of the true error in energy over the "
             "unknowns",
             williams + "; elements as long as wide need 1/h of them along the edge: −λ",
             -NotchField::lambda,
             absolute(0.135,
                      "from below: while the best sizes go as r^0.7 the count of the rings still "
                      "grows by a logarithm, −0.41 to −0.54; even meshes would be off by 0.36"),
             prism.rate_of(own));
  check_rate("L-shape even rate", "the same on even meshes", williams + ", h^λ: −λ/3",
             -NotchField::lambda / 3.0,
             absolute(0.05, "the regular rest falls faster; measured on 1 to 50 thousand unknowns"),
             prism.rate_of(even));
  check_rate("L-shape effectivity", "the same, last own mesh: estimated over true error in energy",
             "exact closed form", 1.0, within_factor(1.42, "0.7 to 1.4: good enough to print"),
             own.back().estimated / (std::sqrt(2.0) * prism.error(own.back())));
}

BOOST_AUTO_TEST_CASE(in_a_thin_wall_own_refinement_at_an_inner_edge_reaches_its_rate_sooner) {
  // A twentieth as thick as wide, as a printed wall is: fewer elements along the edge.
  const NotchedPart wall(1.0);

  auto own = wall.refined(10);
  // Until they have twice the first one's unknowns the meshes are those of the wall's thickness.
  const double first = own.front().unknowns;
  std::erase_if(own, [&](const RefinedPass& pass) { return pass.unknowns < 2.0 * first; });

  check_rate("L-wall own rate",
             "the L 1 mm thick: exponent, from twice the first mesh's unknowns on",
             williams + "; elements as long as wide need 1/h of them along the edge: −λ",
             -NotchField::lambda,
             absolute(0.1,
                      "the mesher's scatter from pass to pass, the fixed count away from the "
                      "edge; even meshes would be off by 0.36"),
             wall.rate_of(own));
}

/// LE1's quarter of an elliptic plate with an elliptic hole, z from 0 to half its thickness.
TopoDS_Shape elliptic_plate(double half_thickness) {
  const auto ellipse = [](double x, double y) {
    return gp_Elips(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1), gp_Dir(1, 0, 0)), x, y);
  };
  const gp_Pnt A(2 * metre, 0, 0), B(3.25 * metre, 0, 0), C(0, 2.75 * metre, 0), D(0, metre, 0);
  BRepBuilderAPI_MakeWire wire;
  wire.Add(BRepBuilderAPI_MakeEdge(
      GC_MakeArcOfEllipse(ellipse(2 * metre, metre), A, D, Standard_True).Value()));
  wire.Add(BRepBuilderAPI_MakeEdge(D, C));
  wire.Add(BRepBuilderAPI_MakeEdge(
      GC_MakeArcOfEllipse(ellipse(3.25 * metre, 2.75 * metre), B, C, Standard_True).Value()));
  wire.Add(BRepBuilderAPI_MakeEdge(B, A));
  return BRepPrimAPI_MakePrism(BRepBuilderAPI_MakeFace(wire.Wire()), gp_Vec(0, 0, half_thickness));
}

BOOST_AUTO_TEST_CASE(an_elliptic_plate_is_refined_at_the_full_rate) {
  const auto model_of = [](const MeshedGeometry& part) {
    LoadedModel loaded;
    loaded.model.mesh = part.mesh;
    loaded.model.field =
        same_everywhere(part.mesh, elastic_material(isotropic(210e3, 0.3)), skew_frame());
    std::vector<Support> symmetry;
    for (const Point& axis : {Point(1, 0, 0), Point(0, 1, 0), Point(0, 0, 1)})
      symmetry.push_back(held_along(planes_facing(part.geometry, -axis), axis));
    loaded.model.held = constraints_of(part.mesh, symmetry);
    for (const CadFace& face : part.geometry.faces)
      if (face.kind != SurfaceKind::plane && face.centroid.head<2>().norm() > 2 * metre)
        loaded.load = pressure_load(part.mesh, {face.id}, [](const Point&) { return -10.0; });
    return loaded;
  };
  MeshOptions options;
  options.layers = 1;
  options.size = 0.6 * metre;
  const testing::StepFile file(elliptic_plate(0.25 * metre));

  auto own = refined_by_estimate(file.import(), options, model_of, 9, 0.5);
  own.erase(own.begin(), own.begin() + 4);  // as thick as one element, a plane problem

  check_rate("LE1 own rate",
             "LE1 as a solid 0.5 m thick, at 1:100, refined by the own estimate: exponent of the "
             "estimated "
             "error in energy over the unknowns",
             full_rate, -2.0 / 3.0, near_full_rate, rate(own, estimated));
}

/// LE11's solid of revolution, a wedge of 0.5 rad from y = 0.
TopoDS_Shape taper() {
  const auto at = [](double r, double z) { return gp_Pnt(metre * r, 0, metre * z); };
  const auto on_arc = [&](double radius, double degrees) {
    const double angle = degrees * std::numbers::pi / 180.0;
    return at(radius * std::cos(angle), radius * std::sin(angle));
  };
  const auto inner_end = std::sqrt(0.5);
  BRepBuilderAPI_MakeWire wire;
  const auto line = [&](const gp_Pnt& from, const gp_Pnt& to) {
    wire.Add(BRepBuilderAPI_MakeEdge(from, to));
  };
  line(at(1.0, 0), at(1.4, 0));
  wire.Add(BRepBuilderAPI_MakeEdge(
      GC_MakeArcOfCircle(at(1.4, 0), on_arc(1.4, 15), on_arc(1.4, 30)).Value()));
  line(on_arc(1.4, 30), at(1.0, 1.39));
  line(at(1.0, 1.39), at(1.0, 1.79));
  line(at(1.0, 1.79), at(inner_end, 1.79));
  line(at(inner_end, 1.79), on_arc(1.0, 45));
  wire.Add(BRepBuilderAPI_MakeEdge(
      GC_MakeArcOfCircle(on_arc(1.0, 45), on_arc(1.0, 22.5), at(1.0, 0)).Value()));
  return BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(wire.Wire()),
                               gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), 0.5);
}

BOOST_AUTO_TEST_CASE(a_heated_solid_of_revolution_is_refined_at_the_full_rate) {
  const auto model_of = [](const MeshedGeometry& part) {
    LoadedModel loaded;
    Model& model = loaded.model;
    model.mesh = part.mesh;
    model.field = same_everywhere(
        part.mesh, elastic_material(isotropic(210e3, 0.3), Point::Constant(2.3e-4)), skew_frame());
    std::vector<Support> symmetry;
    for (const Point& axis : {Point(0, -1, 0), Point(-std::sin(0.5), std::cos(0.5), 0),
                              Point(0, 0, 1), Point(0, 0, -1)})
      symmetry.push_back(held_along(planes_facing(part.geometry, axis), axis));
    model.held = constraints_of(part.mesh, symmetry);
    loaded.heat.resize(part.mesh.node_count());
    for (Eigen::Index i = 0; i < loaded.heat.size(); ++i)
      loaded.heat[i] = (part.mesh.nodes.col(i).head<2>().norm() + part.mesh.nodes(2, i)) / metre;
    loaded.load = thermal_load(model.mesh, model.field, loaded.heat);
    return loaded;
  };
  MeshOptions options;
  options.layers = 1;
  options.size = 0.4 * metre;
  const testing::StepFile file(taper());

  const auto own = refined_by_estimate(file.import(), options, model_of, 7, 0.5);

  check_rate(
      "LE11 own rate",
      "LE11, a wedge of 0.5 rad, at 1:100, refined by the own estimate: exponent of the estimated "
      "error in energy over the unknowns",
      full_rate, -2.0 / 3.0, near_full_rate, rate(own, estimated));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
