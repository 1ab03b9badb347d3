// SPDX-License-Identifier: GPL-3.0-or-later
// Units, names, colours and numbering of what a STEP file holds.
#include <algorithm>
#include <fstream>
#include <sstream>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double exact = 1e-9;  // the STEP file's 15 digits

std::vector<parts::StepBody> cup_and_plate() {
  const TopoDS_Shape cup = cut(block(30, 30, 20), {rod({15, 15, 5}, {0, 0, 1}, 16, 30)});
  const TopoDS_Shape plate = block(30, 30, 4, 0, 0, 20);
  return {{cup,
           "cup",
           parts::Colour{0.8, 0.4, 0.2},
           {{parts::face_at(cup, {2, 2, 20}), "sealing face", parts::Colour{0.1, 0.6, 0.3}},
            {parts::face_at(cup, {15, 15, 5}), "floor", std::nullopt}}},
          {plate, "plate", std::nullopt, {}}};
}

std::string read_all(const std::filesystem::path& file) {
  std::ifstream stream(file);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

const CadFace& face_named(const Geometry& geometry, const std::string& name) {
  const auto found = std::find_if(geometry.faces.begin(), geometry.faces.end(),
                                  [&](const CadFace& face) { return face.name == name; });
  BOOST_REQUIRE((found != geometry.faces.end()));
  return *found;
}

StepSource with_bodies(const StepFile& file, const std::vector<std::string>& names) {
  StepSource options = file.import();
  options.bodies = names;
  return options;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(step_labels)

BOOST_AUTO_TEST_CASE(lengths_come_in_millimetres_whatever_the_unit_and_schema) {
  using parts::StepSchema;
  using parts::StepUnit;
  const struct {
    StepUnit unit;
    StepSchema schema;
    const char* declared;
  } cases[] = {{StepUnit::millimetre, StepSchema::AP214, "millimetre"},
               {StepUnit::inch, StepSchema::AP203, "inch"},
               {StepUnit::metre, StepSchema::AP242, "metre"},
               {StepUnit::inch, StepSchema::AP242, "inch"},
               {StepUnit::millimetre, StepSchema::AP203, "millimetre"}};
  for (const auto& [unit, schema, declared] : cases) {
    const StepFile file({{block(25.4, 50.8, 12.7), "block", {}, {}}}, unit, schema);

    const Geometry geometry = import_step(file.import());

    BOOST_TEST(geometry.files[0].declared_unit == declared);
    BOOST_TEST(near(geometry.box.high, Vector3d(25.4, 50.8, 12.7), exact));
    BOOST_TEST(geometry.warnings.empty());
  }
}

BOOST_AUTO_TEST_CASE(a_scale_multiplies_every_length) {
  const StepFile file(cut(block(30, 30, 20), {rod({15, 15, 5}, {0, 0, 1}, 16, 30)}));
  StepSource options = file.import();
  options.scale = 25.4;

  const Geometry plain = import_step(file.import()), scaled = import_step(options);

  BOOST_TEST(scaled.files[0].scale == 25.4);
  BOOST_TEST(near(scaled.box.high, Vector3d(25.4 * plain.box.high), exact));
  BOOST_TEST(scaled.bodies[0].volume == std::pow(25.4, 3) * plain.bodies[0].volume,
             tolerance(exact));
  for (std::size_t i = 0; i < plain.faces.size(); ++i) {
    BOOST_TEST(scaled.faces[i].radius == 25.4 * plain.faces[i].radius, tolerance(exact));
  }
}

BOOST_AUTO_TEST_CASE(a_scale_that_is_no_positive_number_is_refused) {
  const StepFile file(block(10, 20, 30));
  for (const double scale : {0.0, -1.0, std::nan(""), HUGE_VAL}) {
    StepSource options = file.import();
    options.scale = scale;
    BOOST_TEST(refused([&] { import_step(options); }, "must be a positive number"));
  }
}

BOOST_AUTO_TEST_CASE(bodies_and_faces_keep_their_names_and_colours) {
  const Geometry geometry = import_step(StepFile(cup_and_plate()).import());

  BOOST_REQUIRE_EQUAL(geometry.bodies.size(), 2u);
  BOOST_TEST(geometry.bodies[0].name == "cup");
  BOOST_TEST(geometry.bodies[1].name == "plate");
  BOOST_TEST(!geometry.bodies[1].colour.has_value());
  const CadFace& sealing = face_named(geometry, "sealing face");
  const CadFace& floor = face_named(geometry, "floor");
  BOOST_TEST(near(sealing.centroid, Vector3d(15, 15, 20), 1e-6));
  BOOST_TEST(near(floor.centroid, Vector3d(15, 15, 5), 1e-6));
  // The kernel keeps colours in single precision; a face without its own has its body's.
  BOOST_REQUIRE(sealing.colour && floor.colour);
  BOOST_TEST(near(Vector3d(sealing.colour->data()), Vector3d(0.1, 0.6, 0.3), 1e-6));
  BOOST_TEST(near(Vector3d(floor.colour->data()), Vector3d(0.8, 0.4, 0.2), 1e-6));
  for (const FaceId face : geometry.bodies[1].faces) {
    BOOST_TEST(!geometry.face(face).colour.has_value());
    BOOST_TEST(geometry.face(face).name.empty());
  }
}

BOOST_AUTO_TEST_CASE(names_may_hold_any_letter) {
  const StepFile file(cup_and_plate());
  std::string text = read_all(file.path());
  const std::string plain = "'floor'";
  // ISO 10303-21, 6.4.3: a character of ISO 10646 between \X2\ and \X0\.
  text.replace(text.find(plain), plain.size(), "'Geh\\X2\\00E4\\X0\\useboden'");
  std::ofstream(file.path()) << text;

  const Geometry geometry = import_step(file.import());

  BOOST_TEST(near(face_named(geometry, "Gehäuseboden").centroid, Vector3d(15, 15, 5), 1e-6));
}

BOOST_AUTO_TEST_CASE(numbers_run_through_the_bodies_in_the_order_of_the_file) {
  const Geometry geometry = import_step(StepFile(cup_and_plate()).import());

  int next = 1;
  for (const Body& body : geometry.bodies) {
    for (const FaceId face : body.faces) {
      BOOST_TEST(number(face) == next++);
      BOOST_TEST((geometry.face(face).id == face));
      BOOST_TEST((geometry.face(face).body == body.id));
    }
  }
  BOOST_TEST(geometry.faces.size() == 14u);
  for (std::size_t i = 0; i < geometry.edges.size(); ++i) {
    BOOST_TEST(index(geometry.edges[i].id) == i);
  }
}

BOOST_AUTO_TEST_CASE(bodies_that_are_not_modelled_keep_their_numbers) {
  const StepFile file(cup_and_plate());

  const Geometry geometry = import_step(with_bodies(file, {"plate"}));

  BOOST_TEST(!geometry.bodies[0].modelled);
  BOOST_TEST(geometry.bodies[1].modelled);
  BOOST_TEST(number(geometry.bodies[1].faces.front()) == 9);
}

BOOST_AUTO_TEST_CASE(a_body_name_that_nobody_or_several_have_is_refused) {
  const StepFile file(cup_and_plate());
  const StepFile twins(
      {{block(10, 10, 10), "foot", {}, {}}, {block(10, 10, 10, 20), "foot", {}, {}}});

  BOOST_TEST(refused([&] { import_step(with_bodies(file, {"lid"})); },
                     "no body is named \"lid\"; the bodies are \"cup\", \"plate\""));
  BOOST_TEST(refused([&] { import_step(with_bodies(twins, {"foot"})); },
                     "several bodies are named \"foot\""));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
