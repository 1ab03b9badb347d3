// SPDX-License-Identifier: GPL-3.0-or-later
// B9: the code's rule for flat covers. A design rule, no exact answer: its thickness is worked out
// as published, and what stress a solved cover of that thickness has is set beside the allowable
// stress that the rule believes in.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "cases/second_opinions/handbook_stress.h"
#include "mesh/meshing.h"
#include "solver/loads/loads.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using std::numbers::pi;

constexpr double d = 100.0, p = 0.4, S = 15.0, nu = 0.3;
constexpr double screw_circle = 120.0, lever = 0.5 * (screw_circle - d);
const double thrust = 0.25 * pi * d * d * p;

const std::string rule = "ASME BPVC VIII-1, UG-34, C = 0.3 (from memory, high confidence)";

/// t = d (C p / S E + 1.9 W h_G / (S E d^3))^(1/2), E = 1.
double thickness(double pull) {
  return d * std::sqrt(0.3 * p / S + 1.9 * pull * lever / (S * d * d * d));
}

void check_cover(const std::string& id, const std::string& what, double target,
                 const Tolerance& tolerance, double obtained) {
  check({Chapter::plates, id, what, rule, target, tolerance}, obtained);
}

/// A round cover under the fluid inside the seal, the seal's push and the screws' pull, which
/// balance; rings a millimetre wide.
/// @return the tension in the middle of the side away from the fluid.
double solved_stress(double t, double pull) {
  const double seal = d / 2.0, screws = screw_circle / 2.0, rim = screws + 2.0;
  const testing::StepFile file(parts::revolved_profile({{0, 0},
                                                        {seal - 0.5, 0},
                                                        {seal + 0.5, 0},
                                                        {rim, 0},
                                                        {rim, t},
                                                        {screws + 0.5, t},
                                                        {screws - 0.5, t},
                                                        {0, t}}));
  MeshOptions options;
  options.layers = 2;
  options.size = 6.0;
  const MeshedGeometry part = mesh_step(file.import(), options);
  Model model;
  model.mesh = part.mesh;
  model.field = same_everywhere(part.mesh, elastic_material(isotropic(2000, nu)), skew_frame());
  const auto ring = [&](double inner, double z) {
    std::vector<FaceId> faces;
    for (const CadFace& face : part.geometry.faces)
      if (face.kind == SurfaceKind::plane && std::abs(face.centroid.z() - z) < 1e-6 &&
          std::abs(face.area - pi * (std::pow(inner + 1.0, 2) - inner * inner)) < 1e-3 * face.area)
        faces.push_back(face.id);
    return faces;
  };
  const auto push = [&](const std::vector<FaceId>& faces, double force) {
    double area = 0.0;
    for (const FaceId face : faces) area += part.geometry.face(face).area;
    return pressure_load(part.mesh, faces, [=](const Point&) { return force / area; });
  };
  std::vector<FaceId> inside;
  for (const CadFace& face : part.geometry.faces)
    if (face.kind == SurfaceKind::plane && std::abs(face.centroid.z()) < 1e-6 &&
        std::abs(face.area - pi * std::pow(seal - 0.5, 2)) < 1e-3 * face.area)
      inside.push_back(face.id);
  BOOST_REQUIRE(inside.size() == 1u && ring(seal - 0.5, 0).size() == 1u &&
                ring(screws - 0.5, t).size() == 1u);
  // What balances needs no support; three nodes keep it in place.
  const int one = testing::nearest_node(part.mesh, {rim, 0, 0}),
            two = testing::nearest_node(part.mesh, {0, rim, 0}),
            three = testing::nearest_node(part.mesh, {-rim, 0, 0});
  hold_nodes(model.held, {one, two, three}, Point::UnitZ());
  hold_nodes(model.held, {one, three}, Point::UnitY());
  hold_nodes(model.held, {two}, Point::UnitX());
  const Eigen::VectorXd load = push(inside, thrust) + push(ring(seal - 0.5, 0), pull - thrust) +
                               push(ring(screws - 0.5, t), pull);
  const Answer answer = solve(model, load);
  const int middle = testing::nearest_node(part.mesh, {0, 0, t});
  return stress_at(model, answer, part.mesh.nodes.col(middle))[0];
}

BOOST_AUTO_TEST_SUITE(flat_covers)

BOOST_AUTO_TEST_CASE(the_rule_s_stress_is_the_one_its_thickness_was_made_for) {
  const Tolerance by_hand = fraction(1e-9, "closed form, the one turned round into the other");
  check_cover("B9 unbolted",
              "cover d 100, p 0.4, S E 15: stress by the rule at t = d (C p / S E)^½", S, by_hand,
              flat_cover_rule_stress(p, d, thickness(0.0)));
  const double pull = 1.2 * thrust, t = thickness(pull);
  check_cover(
      "B9 bolted",
      "the same with screws of W = 1.2 of the thrust, h_G 10: stress by the rule at t = d (C "
      "p / S E + 1.9 W h_G / (S E d³))^½",
      S, by_hand,
      flat_cover_rule_stress(p, d, t) + flat_cover_rule_screw_stress(pull, lever, d, t));
}

BOOST_AUTO_TEST_CASE(a_solved_cover_of_the_rule_s_thickness_has_about_the_rule_s_stress) {
  const Tolerance rule_of_design = fraction(
      0.1,
      "no exact answer: C = 0.3 rounds a supported plate's 0.309 (ν 0.3), 1.9 its 6 / π; the "
      "rim outside the seal, left out, takes off a twentieth to a tenth");
  const double pull = 1.2 * thrust;
  check_cover("B9 unbolted solved",
              "the first cover solved, ν 0.3, held at the seal: tension in its middle beside S E",
              S, rule_of_design, solved_stress(thickness(0.0), 0.0));
  check_cover(
      "B9 bolted solved",
      "the second solved, screws and seal outside the fluid: tension in its middle beside S "
      "E",
      S, rule_of_design, solved_stress(thickness(pull), pull));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
