// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "cases/face_choice/face_choice.h"
#include "mesh/meshing.h"
#include "tests/cases/case_text.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

// The example parts, whose dimensions are those of the program that makes them (tools/parts).
using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;
using std::numbers::pi;

namespace {

struct Part {
  Geometry geometry;
  Features features;
};

/// An example part, imported once.
const Part& example(const std::string& name) {
  static std::map<std::string, Part> parts;
  const auto known = parts.find(name);
  if (known != parts.end()) return known->second;
  const auto file =
      std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "examples" / name / (name + ".step");
  Part part{import_step(StepSource{file, 1.0,
                                   name == "filter-housing" ? std::vector<std::string>{"bowl"}
                                                            : std::vector<std::string>{}}),
            {}};
  part.features = find_features(part.geometry);
  return parts[name] = part;
}

ChosenFaces chosen(const Part& part, const std::string& text) {
  const std::string pressure = "[[pressure]]\nname = \"p\"\nvalue = \"1 bar\"\nfaces = ";
  return choose_faces(part.geometry, part.features,
                      case_from(one_body + pressure + text).pressures[0].faces);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(wetted_choice)

BOOST_AUTO_TEST_CASE(water_in_the_bowl_ends_at_the_seal_line) {
  const ChosenFaces wet = chosen(
      example("filter-housing"),
      R"({ wetted_at = ["0 mm", "0 mm", "-40 mm"], seal_lines = [{ name = "gasket edge", faces = { name = "gasket ring" } }] })");

  // Bore of radius 30 mm down to z = -82 mm, its corner rounded by 8 mm (Pappus: the corner's area
  // times the way of its centroid), capped flat at z = 0.
  const double corner = (1.0 - pi / 4.0) * 8.0 * 8.0;
  const double from_corner = 8.0 * (10.0 - 3.0 * pi) / (12.0 - 3.0 * pi);  // of its centroid
  const double volume = pi * 30.0 * 30.0 * 82.0 - corner * 2.0 * pi * (30.0 - from_corner);
  BOOST_REQUIRE(wet.wetted.has_value());
  BOOST_REQUIRE(wet.wetted->openings.size() == 1u);
  BOOST_TEST(wet.wetted->openings[0].name == "gasket edge");
  // Exact surfaces: what is left is the kernel's quadrature.
  BOOST_TEST(
      near(wet.wetted->openings[0].vector_area, Eigen::Vector3d(0, 0, pi * 33.0 * 33.0), 1e-6));
  BOOST_TEST(wet.wetted->volume == volume, tolerance(1e-5));
}

BOOST_AUTO_TEST_CASE(one_face_of_many_in_a_plane_is_stop_enough) {
  // The plane holds three rings of the flange; the water meets the inmost only.
  const ChosenFaces wet = chosen(
      example("filter-housing"),
      R"({ wetted_at = ["0 mm", "0 mm", "-40 mm"], seal_lines = [{ name = "flange", faces = { plane = "+z", at = "0 mm" } }] })");

  BOOST_REQUIRE(wet.wetted->openings.size() == 1u);
  BOOST_TEST(
      near(wet.wetted->openings[0].vector_area, Eigen::Vector3d(0, 0, pi * 30.0 * 30.0), 1e-6));
}

BOOST_AUTO_TEST_CASE(a_forgotten_seal_line_is_named_by_the_way_out) {
  BOOST_TEST(refused(
      [] { chosen(example("filter-housing"), R"({ wetted_at = ["0 mm", "0 mm", "-40 mm"] })"); },
      "case.toml:8: { wetted_at = [\"0 mm\", \"0 mm\", \"-40 mm\"] }: the fluid gets out of the "
      "body: "));
}

BOOST_AUTO_TEST_CASE(a_point_in_the_material_holds_no_fluid) {
  BOOST_TEST(refused(
      [] { chosen(example("filter-housing"), R"({ wetted_at = ["33 mm", "0 mm", "-40 mm"] })"); },
      "lies in the material of body 1 \"bowl\"; give a point in the fluid"));
}

BOOST_AUTO_TEST_CASE(three_ports_of_the_tee_carry_their_names_and_areas) {
  const Part& tee = example("pipe-tee");
  const std::string ports = R"(ports = [
  { name = "in", faces = { name = "inlet" } }, { name = "out", faces = { name = "outlet" } },
  { name = "side", faces = { name = "branch" } }] })";

  const ChosenFaces at = chosen(tee, R"({ wetted_at = ["0 mm", "0 mm", "0 mm"], )" + ports);
  const ChosenFaces through = chosen(tee, R"({ wetted_through = { hole = "18 mm" }, )" + ports);

  BOOST_TEST((at.faces == through.faces));
  std::map<std::string, Eigen::Vector3d> areas;
  for (const Opening& opening : at.wetted->openings) areas[opening.name] = opening.vector_area;
  BOOST_REQUIRE(areas.size() == 3u);
  BOOST_TEST(near(areas.at("in"), Eigen::Vector3d(-pi * 121.0, 0, 0), 1e-6));
  BOOST_TEST(near(areas.at("out"), Eigen::Vector3d(pi * 121.0, 0, 0), 1e-6));
  BOOST_TEST(near(areas.at("side"), Eigen::Vector3d(0, 0, pi * 81.0), 1e-6));
}

BOOST_AUTO_TEST_CASE(a_port_met_by_nothing_is_named) {
  BOOST_TEST(refused(
      [] {
        chosen(example("pipe-tee"), R"({ wetted_at = ["0 mm", "0 mm", "0 mm"], ports = [
  { name = "in", faces = { name = "inlet" } }, { name = "out", faces = { name = "outlet" } },
  { name = "side", faces = { name = "branch" } }, { name = "drain", faces = { ids = [1] } }] })");
      },
      "drain"));
}

BOOST_AUTO_TEST_CASE(two_holes_of_one_cavity_are_one_way_in) {
  // The taps are four holes of 3/8 in that all meet the gallery.
  const ChosenFaces wet = chosen(example("manifold-block"),
                                 R"({ wetted_through = { hole = "0.375 in", axis = "z" }, ports = [
  { name = "inlet", faces = { name = "inlet face" } },
  { name = "taps", faces = { name = "tap face" } }] })");

  BOOST_TEST(wet.wetted->openings.size() == 5u);
}

BOOST_AUTO_TEST_CASE(holes_that_are_no_cavity_are_not_taken_for_one) {
  // The two mounting holes are two ways through the block; a fluid fills one of them, from its
  // head's seat in the counterbore down to the underside.
  BOOST_TEST(refused(
      [] {
        chosen(example("manifold-block"), R"({ wetted_through = { hole = "0.25 in" }, ports = [
  { name = "seats", faces = { plane = "+z", at = "1.25 in" } },
  { name = "bottom", faces = { plane = "-z", at = "0 mm" } }] })");
      },
      "wetted_through chose faces of more than one cavity"));
}

BOOST_AUTO_TEST_CASE(the_same_cavity_twice_is_refused) {
  const std::string tee = R"({ wetted_at = ["0 mm", "0 mm", "0 mm"], ports = [
  { faces = { name = "inlet" } }, { faces = { name = "outlet" } }, { faces = { name = "branch" } }] })";
  BOOST_TEST(refused([&] { chosen(example("pipe-tee"), "[" + tee + ", " + tee + "]"); },
                     "two of the choices find the same cavity; leave one out"));
}

BOOST_AUTO_TEST_SUITE_END()
