// SPDX-License-Identifier: GPL-3.0-or-later
// Files that others drew, and parts of ours that are hard to mesh in the same ways.
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GeomConvert.hxx>
#include <Geom_BSplineCurve.hxx>
#include <Geom_TrimmedCurve.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <gp_Circ.hxx>
#include <numbers>

#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;
using Eigen::Vector3d;

namespace {

StepSource real_part(const std::string& name) {
  StepSource options;
  options.step_file =
      std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "tests" / "mesh" / "real_parts" / name;
  return options;
}

/// As some CAD programs write a rod: its rim two half circles that are splines.
TopoDS_Shape rod_of_spline_halves(double radius, double length) {
  const gp_Circ rim(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), radius);
  const auto half = [&](double from, double to) {
    const Handle(Geom_TrimmedCurve) arc = GC_MakeArcOfCircle(rim, from, to, true).Value();
    return BRepBuilderAPI_MakeEdge(GeomConvert::CurveToBSplineCurve(arc)).Edge();
  };
  using std::numbers::pi;
  BRepBuilderAPI_MakeWire wire(half(0, pi), half(pi, 2 * pi));
  BRepBuilderAPI_MakeFace end(wire.Wire());
  return BRepPrimAPI_MakePrism(end.Face(), gp_Vec(0, 0, length)).Shape();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(real_parts)

BOOST_AUTO_TEST_CASE(a_disc_by_others_is_read_and_meshed) {
  const MeshedGeometry disc = mesh_step(real_part("nist_ftc_11_asme1_rb.stp"), {});

  BOOST_TEST(disc.geometry.bodies.size() == 1u);
  BOOST_TEST(disc.geometry.faces.size() == 6u);
  BOOST_TEST(disc.geometry.box.high.x() - disc.geometry.box.low.x() == 63.0, tolerance(1e-6));
  BOOST_TEST(disc.report.remedies.empty());
  BOOST_TEST(disc.report.layers_min >= 2);
  BOOST_TEST(disc.report.volume_mm3 == disc.report.cad_volume_mm3, tolerance(1e-3));
}

BOOST_AUTO_TEST_CASE(a_large_thin_sheet_by_others_is_known_in_inches) {
  const Geometry sheet = import_step(real_part("nist_ctc_03_asme1_rc.stp"));

  BOOST_TEST(sheet.bodies.size() == 1u);
  BOOST_TEST(sheet.faces.size() == 139u);
  BOOST_TEST(sheet.files[0].declared_unit.find("inch") != std::string::npos);
  // 0.075 in of sheet between the two largest faces.
  std::vector<const CadFace*> largest;
  for (const CadFace& face : sheet.faces) largest.push_back(&face);
  std::sort(largest.begin(), largest.end(),
            [](const CadFace* a, const CadFace* b) { return a->area > b->area; });
  BOOST_TEST(std::abs(largest[0]->centroid.z() - largest[1]->centroid.z()) == 0.0751 * 25.4,
             tolerance(1e-4));
}

BOOST_AUTO_TEST_CASE(a_large_thin_sheet_keeps_within_the_unknowns_allowed) {
  // Two layers in every place would take millions of unknowns.
  const StepFile file(block(400, 300, 1.5));
  MeshOptions options;
  options.unknowns_max = 60'000;

  const MeshedGeometry sheet = mesh_step(file.import(), options);

  BOOST_TEST(sheet.mesh.unknowns() <= options.unknowns_max);
  BOOST_TEST(sheet.report.remedies.size() == 1u);
  BOOST_TEST(sheet.report.volume_mm3 == 400.0 * 300.0 * 1.5, tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(a_rod_of_spline_halves_is_known_to_the_mesher) {
  // Of such faces the kernel's adaptive integral misses the area by more than a hundredth.
  const StepFile file(rod_of_spline_halves(5.0, 40.0));

  const MeshedGeometry round = mesh_step(file.import(), {});

  BOOST_TEST(round.report.remedies.empty());
  BOOST_TEST(round.report.volume_mm3 == std::numbers::pi * 25.0 * 40.0, tolerance(1e-3));
}

BOOST_AUTO_TEST_SUITE_END()
