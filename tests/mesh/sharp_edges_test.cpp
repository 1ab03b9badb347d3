// SPDX-License-Identifier: GPL-3.0-or-later
// Angles of material at edges: elementary geometry.
#include "mesh/features/sharp_edges.h"

#include <BRepFilletAPI_MakeFillet.hxx>
#include <BRepPrimAPI_MakeCone.hxx>
#include <BRep_Tool.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <map>
#include <numbers>

#include "tests/mesh/simple_parts.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;

namespace {

Geometry imported(const TopoDS_Shape& shape) { return import_step(StepFile(shape).import()); }

/// How many edges have which angle, in tenths of a degree.
std::map<long, int> angles(const Geometry& geometry) {
  std::map<long, int> counts;
  for (const CadEdge& edge : geometry.edges) ++counts[std::lround(10.0 * edge.material_angle)];
  return counts;
}

using Counts = std::map<long, int>;

/// 60 x 40 x 20 mm with a pocket of 20 x 20 mm, 10 mm deep.
TopoDS_Shape pocketed() { return cut(block(60, 40, 20), {block(20, 20, 10, 20, 10, 10)}); }

}  // namespace

BOOST_AUTO_TEST_SUITE(sharp_edges)

BOOST_AUTO_TEST_CASE(a_pocket_has_inner_edges_at_its_bottom_and_corners) {
  const Geometry geometry = imported(pocketed());

  // 12 of the block and 4 of the pocket's rim; 4 at its bottom and 4 upright.
  BOOST_TEST((angles(geometry) == Counts{{900, 16}, {2700, 8}}));
  for (const CadEdge& edge : geometry.edges) {
    const bool in_pocket = std::abs(edge.middle.x() - 30) < 10.1 &&
                           std::abs(edge.middle.y() - 20) < 10.1 && edge.middle.z() > 9.9 &&
                           edge.middle.z() < 19.9;
    BOOST_TEST((kind_of(edge) == (in_pocket ? EdgeKind::inner : EdgeKind::outer)));
  }
}

BOOST_AUTO_TEST_CASE(a_seam_is_smooth) {
  // Two rims each and a seam each, of the outer cylinder and the bore.
  BOOST_TEST((angles(imported(tube(20, 15, 30))) == Counts{{900, 4}, {1800, 2}}));
  for (const CadEdge& edge : imported(ball(10)).edges)
    BOOST_TEST((kind_of(edge) == EdgeKind::smooth));
}

BOOST_AUTO_TEST_CASE(oblique_faces_meet_at_their_angle) {
  // A cone that stands on a plate, 60 degrees steep, radius 12 mm at the bottom: 180 + 60 degrees
  // of material at its foot, 180 - 60 at its top.
  const double height = 5.0 * std::tan(std::numbers::pi / 3.0);
  const gp_Ax2 place(gp_Pnt(20, 20, 5), gp_Dir(0, 0, 1));
  const TopoDS_Shape cone = BRepPrimAPI_MakeCone(place, 12.0, 7.0, height).Shape();

  const auto counts = angles(imported(fuse(block(40, 40, 5), {cone})));

  BOOST_TEST((counts == Counts{{900, 12}, {1200, 1}, {1800, 1}, {2400, 1}}));
}

BOOST_AUTO_TEST_CASE(a_fillet_leaves_nothing_sharp_inside) {
  const TopoDS_Shape sharp = cut(block(60, 40, 40), {block(60, 34, 34, 0, 6, 6)});
  BOOST_TEST((angles(imported(sharp)) == Counts{{900, 17}, {2700, 1}}));
  BRepFilletAPI_MakeFillet fillet(sharp);
  const auto at_bend = [](const TopoDS_Vertex& vertex) {
    const gp_Pnt point = BRep_Tool::Pnt(vertex);
    return std::abs(point.Y() - 6) < 1e-6 && std::abs(point.Z() - 6) < 1e-6;
  };
  for (TopExp_Explorer edges(sharp, TopAbs_EDGE); edges.More(); edges.Next()) {
    const TopoDS_Edge edge = TopoDS::Edge(edges.Current());
    if (at_bend(TopExp::FirstVertex(edge)) && at_bend(TopExp::LastVertex(edge))) {
      fillet.Add(3.0, edge);
      break;  // the edge comes once for each of its faces
    }
  }

  const Counts after = angles(imported(parts::only_solid(fillet.Shape())));

  BOOST_TEST((after == Counts{{900, 19}, {1800, 2}}));
}

BOOST_AUTO_TEST_CASE(the_nearest_inner_edge_is_found_by_its_whole_course) {
  const Geometry geometry = imported(pocketed());
  const BodyId body = geometry.bodies[0].id;

  // 3 mm above the bottom edge x = 20 mm and 4 mm aside, near its end.
  const auto near = nearest_inner_edge(geometry, body, {24, 18, 13}, 6.0);

  BOOST_REQUIRE(near);
  BOOST_TEST(near->distance == 5.0, boost::test_tools::tolerance(1e-12));
  BOOST_TEST(geometry.edge(near->edge).middle.x() == 20.0);
  BOOST_TEST(geometry.edge(near->edge).middle.z() == 10.0);
  BOOST_TEST(!nearest_inner_edge(geometry, body, {24, 18, 13}, 4.9));
  BOOST_TEST(!nearest_inner_edge(geometry, body, {0, 0, 0}, 5.0));  // outer edges do not count

  // Round a pin on a plate, chords within 0.2 % of the radius.
  const Geometry pin = imported(fuse(block(40, 40, 5), {rod({20, 20, 5}, {0, 0, 1}, 20, 10)}));
  for (const double angle : {0.1, 1.0, 2.5, 4.0, 5.9}) {
    const Vector3d at(20 + 13 * std::cos(angle), 20 + 13 * std::sin(angle), 9);
    const auto foot = nearest_inner_edge(pin, pin.bodies[0].id, at, 10.0);
    BOOST_REQUIRE(foot);
    BOOST_TEST(std::abs(foot->distance - 5.0) < 0.02);
  }
}

BOOST_AUTO_TEST_SUITE_END()
