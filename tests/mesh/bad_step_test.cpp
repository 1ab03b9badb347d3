// SPDX-License-Identifier: GPL-3.0-or-later
// What is wrong with a STEP file is said, with the file and the remedy.
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeSolid.hxx>
#include <BRepBuilderAPI_Sewing.hxx>
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Solid.hxx>
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

Geometry import(const std::filesystem::path& file) {
  StepSource options;
  options.step_file = file;
  return import_step(options);
}

std::string read_all(const std::filesystem::path& file) {
  std::ifstream stream(file);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

/// The faces of a shape without their solid, all or all but the last.
TopoDS_Shape loose_faces(const TopoDS_Shape& shape, bool all) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (TopExp_Explorer face(shape, TopAbs_FACE); face.More();) {
    const TopoDS_Shape current = face.Current();
    face.Next();
    if (all || face.More()) builder.Add(compound, current);
  }
  return compound;
}

TopoDS_Shape together(const std::vector<TopoDS_Shape>& shapes) {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  for (const TopoDS_Shape& shape : shapes) builder.Add(compound, shape);
  return compound;
}

/// A solid whose shell lacks a face, as careless writers make.
TopoDS_Shape open_block() {
  BRepBuilderAPI_Sewing sewing;
  sewing.Add(loose_faces(block(30, 20, 10), false));
  sewing.Perform();
  return BRepBuilderAPI_MakeSolid(TopoDS::Shell(sewing.SewedShape())).Solid();
}

bool warned(const Geometry& geometry, const std::string& part) {
  return std::any_of(geometry.warnings.begin(), geometry.warnings.end(),
                     [&](const std::string& w) { return w.find(part) != std::string::npos; });
}

/// Of a file that should give none.
std::string all_warnings(const Geometry& geometry) {
  std::string all;
  for (const std::string& warning : geometry.warnings) all += warning + "\n";
  return all;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(bad_step)

BOOST_AUTO_TEST_CASE(what_is_no_step_file_is_refused_by_its_name_and_what_it_is) {
  const TemporaryDirectory directory;
  const auto picture = directory.file("photo.step", "\x89PNG and so on");

  BOOST_TEST(
      refused([&] { import(directory.path() / "nowhere.step"); }, "nowhere.step: no such file"));
  BOOST_TEST(refused([&] { import(directory.path()); }, ": is a directory"));
  BOOST_TEST(refused([&] { import(directory.file("void.step", "")); }, "void.step: is empty"));
  BOOST_TEST(refused([&] { import(picture); }, "photo.step: is not a STEP file"));
  BOOST_TEST(refused([&] { import(picture); }, "export the part as STEP"));
}

BOOST_AUTO_TEST_CASE(a_truncated_file_is_refused) {
  const StepFile whole(tube(15, 10, 40));
  const std::string text = read_all(whole.path());
  const TemporaryDirectory directory;
  for (const double share : {0.1, 0.5, 0.99}) {
    const auto length = static_cast<std::size_t>(share * static_cast<double>(text.size()));
    const auto file = directory.file("part.step", text.substr(0, length));
    BOOST_TEST(refused([&] { import(file); }, "part.step: is cut short"));
  }
}

BOOST_AUTO_TEST_CASE(a_file_that_lost_its_middle_is_refused) {
  const StepFile whole(tube(15, 10, 40));
  const std::string text = read_all(whole.path());
  const TemporaryDirectory directory;
  const std::string head = text.substr(0, text.find("DATA;") + 6);
  const auto hollow = directory.file("hollow.step", head + "ENDSEC;\nEND-ISO-10303-21;\n");
  const auto garbled = directory.file("garbled.step", head + text.substr(text.size() / 2));

  BOOST_TEST(refused([&] { import(hollow); }, "hollow.step: "));
  BOOST_TEST(refused([&] { import(garbled); }, "garbled.step: "));
}

BOOST_AUTO_TEST_CASE(surfaces_that_do_not_close_are_refused) {
  const StepFile file(loose_faces(block(30, 20, 10), false));

  BOOST_TEST(refused([&] { import_step(file.import()); },
                     "part.step: holds no solid body, only 5 surfaces that do not close: 4 edges "
                     "have a face on one side only, the first at ("));
}

BOOST_AUTO_TEST_CASE(surfaces_that_close_are_sewn_and_said_to_be) {
  const StepFile file(loose_faces(block(30, 20, 10), true));

  const Geometry geometry = import_step(file.import());

  BOOST_TEST(geometry.bodies.front().volume == 6000.0, tolerance(1e-9));
  BOOST_TEST(geometry.faces.size() == 6u);
  BOOST_TEST(geometry.edges.size() == 12u);
  BOOST_TEST(warned(geometry, "holds surfaces only; 6 faces sewn to 1 solid"));
}

BOOST_AUTO_TEST_CASE(curves_alone_are_refused) {
  const StepFile file(BRepBuilderAPI_MakeEdge(gp_Pnt(0, 0, 0), gp_Pnt(10, 0, 0)).Edge());

  BOOST_TEST(refused([&] { import_step(file.import()); }, "holds no solid body and no surface"));
}

BOOST_AUTO_TEST_CASE(an_open_solid_is_refused_with_the_place_of_the_gap) {
  const StepFile tray({{open_block(), "tray", {}, {}}});
  const StepFile both(
      {{block(30, 20, 10, 0, 0, 50), "lid", {}, {}}, {open_block(), "tray", {}, {}}});
  StepSource lid_only = both.import();
  lid_only.bodies = {"lid"};

  BOOST_TEST(refused([&] { import_step(tray.import()); },
                     "body 1 \"tray\" is open: 4 edges have a face on one side only"));
  // The last face of a block is its top.
  BOOST_TEST(refused([&] { import_step(tray.import()); }, ", 10) mm on face "));
  BOOST_TEST(refused([&] { import_step(both.import()); }, "body 2 \"tray\" is open: 4 edges"));
  BOOST_TEST(import_step(lid_only).bodies.size() == 2u);
}

BOOST_AUTO_TEST_CASE(faces_and_curves_outside_the_solid_are_dropped_and_said_to_be) {
  TopExp_Explorer stray(block(5, 5, 5, 100), TopAbs_FACE);
  const TopoDS_Shape line = BRepBuilderAPI_MakeEdge(gp_Pnt(50, 0, 0), gp_Pnt(60, 0, 0)).Edge();
  const StepFile file(together({block(30, 20, 10), stray.Current(), line}));

  const Geometry geometry = import_step(file.import());

  BOOST_TEST(geometry.faces.size() == 6u);
  BOOST_TEST(near(geometry.box.high, Vector3d(30, 20, 10), 1e-9));
  BOOST_TEST(warned(geometry, "1 face that belongs to no solid dropped"));
  BOOST_TEST(warned(geometry, "1 curve outside the solids"));
}

BOOST_AUTO_TEST_CASE(a_solid_inside_out_is_turned) {
  const TopoDS_Shape turned = block(30, 20, 10).Reversed();

  const Geometry geometry = import_step(StepFile(turned).import());

  BOOST_TEST(geometry.bodies.front().volume == 6000.0, tolerance(1e-9));
  for (const CadFace& face : geometry.faces) {
    BOOST_TEST(face.axis.dot(face.centroid - geometry.bodies.front().centroid) > 0.0);
  }
}

BOOST_AUTO_TEST_CASE(bodies_that_overlap_are_named_with_what_they_share) {
  const StepFile file(
      {{block(30, 20, 10), "base", {}, {}}, {block(30, 20, 10, 28, 0, 0), "arm", {}, {}}});
  StepSource one = file.import();
  one.bodies = {"base"};

  const Geometry both = import_step(file.import()), alone = import_step(one);

  BOOST_TEST(warned(both, "bodies 1 \"base\" and 2 \"arm\" overlap by 400 mm^3 near (29, 10, 5)"));
  BOOST_TEST(all_warnings(alone).empty());
}

BOOST_AUTO_TEST_CASE(bodies_that_only_touch_are_none_the_worse) {
  const StepFile file(
      {{cut(block(30, 30, 10), {rod({15, 15, -1}, {0, 0, 1}, 12, 20)}), "plate", {}, {}},
       {block(30, 30, 10, 30, 0, 0), "neighbour", {}, {}},
       {rod({15, 15, 0}, {0, 0, 1}, 12, 10), "pin", {}, {}}});

  BOOST_TEST(all_warnings(import_step(file.import())).empty());
}

BOOST_AUTO_TEST_CASE(an_implausible_size_offers_a_scale) {
  const Geometry small = import_step(StepFile(block(5, 2, 1)).import());
  const Geometry large = import_step(StepFile(block(3000, 200, 100)).import());
  const Geometry usual = import_step(StepFile(block(300, 20, 10)).import());

  BOOST_TEST(warned(small, "5 x 2 x 1 mm over all, implausibly small"));
  BOOST_TEST(warned(small, "scale = 25.4"));
  BOOST_TEST(warned(large, "3000 x 200 x 100 mm over all, implausibly large"));
  BOOST_TEST(warned(large, "0.03937"));
  BOOST_TEST(all_warnings(usual).empty());
}

/// A step across the top of a block leaves an upright strip of a face with two short edges.
Geometry stepped_block(double step) {
  return import_step(
      StepFile(cut(block(30, 20, 10), {block(30, 10, 5, 0, -1, 10 - step)})).import());
}

BOOST_AUTO_TEST_CASE(slivers_and_tiny_edges_are_named) {
  const Geometry fine = stepped_block(0.004), coarse = stepped_block(0.02);

  const auto sliver = std::find_if(fine.faces.begin(), fine.faces.end(),
                                   [](const CadFace& face) { return face.area < 1.0; });
  BOOST_REQUIRE((sliver != fine.faces.end()));
  BOOST_TEST(warned(fine, "face " + std::to_string(number(sliver->id)) + " is a sliver"));
  BOOST_TEST(warned(fine, "2 edges are shorter than 0.01 mm, the first at ("));
  BOOST_TEST(warned(fine, ", 9, 9.998) mm; meshing may fail there"));
  BOOST_TEST(all_warnings(coarse).empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
