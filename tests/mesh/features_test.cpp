// SPDX-License-Identifier: GPL-3.0-or-later
// Holes, seats and patterns of parts whose drills are known.
#include "mesh/features/features.h"

#include <BRepPrimAPI_MakeCone.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "mesh/meshing.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/near.h"

namespace crossgrain::testing {
namespace {

using boost::test_tools::tolerance;
using Eigen::Vector3d;

constexpr double exact = 1e-9;  // the STEP file's 15 digits

struct Found {
  Geometry geometry;
  Features features;
};

Found look_at(const std::vector<parts::StepBody>& bodies) {
  Found found{import_step(StepFile(bodies).import()), {}};
  found.features = find_features(found.geometry);
  return found;
}

Found look_at(const TopoDS_Shape& part) { return look_at({{part, "part", {}, {}}}); }

const Hole& only_hole(const Found& found) {
  BOOST_REQUIRE_EQUAL(found.features.holes.size(), 1u);
  return found.features.holes.front();
}

TopoDS_Shape cone(const Vector3d& from, const Vector3d& axis, double d1, double d2, double height) {
  return BRepPrimAPI_MakeCone(
             gp_Ax2(gp_Pnt(from.x(), from.y(), from.z()), gp_Dir(axis.x(), axis.y(), axis.z())),
             d1 / 2, d2 / 2, height)
      .Shape();
}

/// Holes on a circle about the middle of a disc.
std::vector<TopoDS_Shape> drills_round(int count, int leave_out, double radius, double diameter) {
  std::vector<TopoDS_Shape> drills;
  for (int i = leave_out; i < count; ++i) {
    const double angle = 2 * M_PI * i / count;
    drills.push_back(
        rod({radius * std::cos(angle), radius * std::sin(angle), 12}, {0, 0, -1}, diameter, 8));
  }
  return drills;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(features)

BOOST_AUTO_TEST_CASE(a_through_hole_has_a_mouth_on_the_plus_side) {
  const Found found = look_at(cut(block(40, 30, 20), {rod({10, 12, -1}, {0, 0, 1}, 6, 40)}));

  const Hole& hole = only_hole(found);
  BOOST_TEST(hole.id == 1);
  BOOST_TEST(hole.through);
  BOOST_TEST(hole.diameter == 6.0, tolerance(exact));
  BOOST_TEST(hole.depth == 20.0, tolerance(exact));
  BOOST_TEST(near(hole.axis, Vector3d(0, 0, 1), exact));
  BOOST_TEST(near(hole.mouth, Vector3d(10, 12, 20), exact));
  BOOST_TEST(!hole.floor.has_value());
  BOOST_TEST(!hole.counterbore_diameter.has_value());
  BOOST_REQUIRE(hole.seat.has_value());
  BOOST_TEST(found.geometry.face(hole.seat->face).centroid.z() == 20.0, tolerance(exact));
  BOOST_TEST(hole.seat->inner_diameter == 6.0, tolerance(exact));
  BOOST_TEST(found.features.patterns.empty());
}

BOOST_AUTO_TEST_CASE(a_blind_hole_has_a_floor_and_an_axis_out_of_its_mouth) {
  const Vector3d slant = Vector3d(0.6, 0, -0.8);
  const Found flat = look_at(cut(block(40, 30, 20), {rod({10, 12, 8}, {0, -1, 0}, 6, 40)}));
  const Found drilled =
      look_at(cut(block(40, 30, 20), {rod({10, 12, 20}, {0, 0, -1}, 6, 10),
                                      cone({10, 12, 10}, {0, 0, -1}, 6, 0, 1.8)}));
  const Found oblique =
      look_at(cut(block(80, 60, 40), {rod(Vector3d(20, 30, 40) - 10 * slant, slant, 8, 30)}));

  BOOST_TEST(!only_hole(flat).through);
  BOOST_TEST(near(only_hole(flat).axis, Vector3d(0, -1, 0), exact));
  BOOST_TEST(near(only_hole(flat).mouth, Vector3d(10, 0, 8), exact));
  BOOST_TEST(only_hole(flat).depth == 12.0, tolerance(exact));
  BOOST_TEST(flat.geometry.face(*only_hole(flat).floor).centroid.y() == 12.0, tolerance(exact));
  BOOST_TEST(!only_hole(drilled).through);
  BOOST_TEST(only_hole(drilled).depth == 10.0, tolerance(exact));  // of the cylinder
  BOOST_TEST((drilled.geometry.face(*only_hole(drilled).floor).kind == SurfaceKind::cone));
  BOOST_TEST(!only_hole(oblique).through);
  BOOST_TEST(near(only_hole(oblique).axis, Vector3d(-slant), exact));
  BOOST_TEST(!only_hole(oblique).seat.has_value());  // no plane across the axis
}

BOOST_AUTO_TEST_CASE(a_counterbore_belongs_to_its_hole) {
  const Found found = look_at(cut(block(40, 30, 20), {rod({10, 12, -1}, {0, 0, 1}, 5.5, 40),
                                                      rod({10, 12, -1}, {0, 0, 1}, 10, 7)}));

  const Hole& hole = only_hole(found);
  BOOST_TEST(hole.diameter == 5.5, tolerance(exact));
  BOOST_TEST(hole.depth == 14.0, tolerance(exact));
  BOOST_TEST(hole.through);
  BOOST_TEST(*hole.counterbore_diameter == 10.0, tolerance(exact));
  BOOST_TEST(hole.counterbore_depth == 6.0, tolerance(exact));
  BOOST_TEST(near(hole.axis, Vector3d(0, 0, -1), exact));  // out of the end with the seat
  BOOST_TEST(near(hole.mouth, Vector3d(10, 12, 0), exact));
  BOOST_TEST(found.geometry.face(hole.seat->face).centroid.z() == 6.0, tolerance(exact));
  BOOST_TEST(hole.seat->inner_diameter == 5.5, tolerance(exact));
  BOOST_TEST(*hole.seat->outer_diameter == 10.0, tolerance(exact));
}

BOOST_AUTO_TEST_CASE(a_chamber_with_an_outlet_is_two_holes) {
  const Found found = look_at(cut(block(60, 60, 80), {rod({30, 30, 10}, {0, 0, 1}, 50, 80),
                                                      rod({30, 30, -1}, {0, 0, 1}, 8, 40)}));

  BOOST_REQUIRE_EQUAL(found.features.holes.size(), 2u);
  for (const Hole& hole : found.features.holes) {
    BOOST_TEST(hole.through == (hole.diameter < 10));
    BOOST_TEST(!hole.counterbore_diameter.has_value());
  }
}

BOOST_AUTO_TEST_CASE(a_seat_lies_beyond_a_chamfer) {
  const Found found = look_at(cut(block(40, 30, 20), {rod({10, 12, 5}, {0, 0, 1}, 6, 40),
                                                      cone({10, 12, 19}, {0, 0, 1}, 6, 8, 1)}));

  const Hole& hole = only_hole(found);
  BOOST_TEST(hole.depth == 14.0, tolerance(exact));
  BOOST_REQUIRE(hole.seat.has_value());
  BOOST_TEST(hole.seat->inner_diameter == 8.0, tolerance(exact));
  BOOST_TEST(found.geometry.face(hole.seat->face).centroid.z() == 20.0, tolerance(exact));
  BOOST_TEST(near(hole.mouth, Vector3d(10, 12, 20), exact));
}

BOOST_AUTO_TEST_CASE(a_hole_split_in_halves_or_by_a_cross_hole_is_one) {
  const std::vector<TopoDS_Shape> crossed = {rod({20, 15, -1}, {0, 0, 1}, 6, 60),
                                             rod({-1, 15, 25}, {1, 0, 0}, 6, 60)};
  const std::vector<TopoDS_Shape> grooved = {rod({20, 15, -1}, {0, 0, 1}, 6, 60),
                                             rod({20, 15, 20}, {0, 0, 1}, 10, 4)};
  const Found cross = look_at(cut(block(40, 30, 50), crossed));
  const Found groove = look_at(cut(block(40, 30, 50), grooved));

  BOOST_REQUIRE_EQUAL(cross.features.holes.size(), 2u);
  std::vector<double> depths = {cross.features.holes[0].depth, cross.features.holes[1].depth};
  std::sort(depths.begin(), depths.end());
  BOOST_TEST(depths[0] == 40.0, tolerance(exact));
  BOOST_TEST(depths[1] == 50.0, tolerance(exact));
  BOOST_TEST(only_hole(groove).depth == 50.0, tolerance(exact));
  BOOST_TEST(only_hole(groove).wall.size() == 2u);
}

BOOST_AUTO_TEST_CASE(the_holes_of_a_fork_are_two) {
  const TopoDS_Shape fork =
      cut(block(40, 30, 50), {block(40, 10, 40, 0, 10, 10), rod({20, -1, 40}, {0, 1, 0}, 6, 60)});

  const Found found = look_at(fork);

  BOOST_TEST(found.features.holes.size() == 2u);
}

BOOST_AUTO_TEST_CASE(a_drill_from_either_side_makes_two_holes) {
  const Found found = look_at(cut(block(40, 30, 50), {rod({20, 15, -1}, {0, 0, 1}, 6, 11),
                                                      rod({20, 15, 40}, {0, 0, 1}, 6, 11)}));

  BOOST_REQUIRE_EQUAL(found.features.holes.size(), 2u);
  for (const Hole& hole : found.features.holes) {
    BOOST_TEST(!hole.through);
    BOOST_TEST(hole.depth == 10.0, tolerance(exact));
  }
}

BOOST_AUTO_TEST_CASE(bosses_fillets_slots_grooves_and_voids_are_no_holes) {
  const TopoDS_Shape boss = fuse(block(40, 30, 10), {rod({20, 15, 0}, {0, 0, 1}, 12, 30)});
  const TopoDS_Shape slot =
      cut(block(40, 30, 10), {rod({15, 15, -1}, {0, 0, 1}, 8, 20),
                              rod({25, 15, -1}, {0, 0, 1}, 8, 20), block(10, 8, 20, 15, 11, -1)});
  const TopoDS_Shape ring =
      cut(block(40, 40, 10),
          {cut(rod({20, 20, 7}, {0, 0, 1}, 30, 10), {rod({20, 20, 7}, {0, 0, 1}, 24, 10)})});
  const TopoDS_Shape hollow = cut(block(40, 40, 40), {rod({20, 20, 10}, {0, 0, 1}, 10, 20)});

  for (const TopoDS_Shape& part : {boss, slot, ring, hollow}) {
    BOOST_TEST(look_at(part).features.holes.empty());
  }
}

BOOST_AUTO_TEST_CASE(a_screw_in_a_hole_does_not_hide_it) {
  const Found found =
      look_at({{cut(block(40, 30, 20), {rod({10, 12, -1}, {0, 0, 1}, 6, 40)}), "plate", {}, {}},
               {rod({10, 12, -5}, {0, 0, 1}, 6, 40), "pin", {}, {}}});

  BOOST_TEST(only_hole(found).depth == 20.0, tolerance(exact));
}

BOOST_AUTO_TEST_CASE(eight_holes_round_a_bore_are_a_ring) {
  auto drills = drills_round(8, 0, 46.5, 6.4);
  drills.push_back(rod({0, 0, 4}, {0, 0, 1}, 60, 20));
  drills.push_back(rod({0, 52, 4}, {0, 0, 1}, 3, 20));  // another size
  const Found found = look_at(cut(rod({0, 0, 0}, {0, 0, 1}, 120, 12), drills));

  BOOST_TEST(found.features.holes.size() == 10u);
  BOOST_REQUIRE_EQUAL(found.features.patterns.size(), 1u);
  const HolePattern& pattern = found.features.patterns.front();
  BOOST_TEST(pattern.ring);
  BOOST_TEST(pattern.holes.size() == 8u);
  BOOST_TEST(pattern.diameter == 6.4, tolerance(exact));
  BOOST_TEST(pattern.ring_diameter == 93.0, tolerance(exact));
  BOOST_TEST(pattern.pitch == 93.0 * std::sin(M_PI / 8), tolerance(exact));
  BOOST_TEST((pattern.centre - Vector3d(0, 0, 12)).norm() < 1e-6);
  BOOST_TEST(near(pattern.axis, Vector3d(0, 0, 1), exact));
  for (const int id : pattern.holes) {
    const Hole& hole = found.features.holes[static_cast<std::size_t>(id - 1)];
    BOOST_TEST(hole.depth == 8.0, tolerance(exact));
    BOOST_TEST(!hole.through);
  }
}

BOOST_AUTO_TEST_CASE(a_ring_may_lack_a_hole_but_not_half_of_them) {
  const auto with_bore = [](std::vector<TopoDS_Shape> drills) {
    drills.push_back(rod({0, 0, 4}, {0, 0, 1}, 30, 20));
    return cut(rod({0, 0, 0}, {0, 0, 1}, 120, 12), drills);
  };

  const Found most = look_at(with_bore(drills_round(8, 1, 46.5, 6.4)));
  const Found half = look_at(with_bore(drills_round(8, 4, 46.5, 6.4)));

  BOOST_REQUIRE_EQUAL(most.features.patterns.size(), 1u);
  BOOST_TEST(most.features.patterns.front().holes.size() == 7u);
  BOOST_TEST(most.features.patterns.front().ring);
  BOOST_TEST(half.features.patterns.empty());
}

BOOST_AUTO_TEST_CASE(equal_holes_in_line_are_a_row) {
  std::vector<TopoDS_Shape> drills;
  for (const double x : {10.0, 22.0, 34.0, 46.0})
    drills.push_back(rod({x, 15, -1}, {0, 0, 1}, 5, 20));
  const Found found = look_at(cut(block(60, 30, 10), drills));

  BOOST_REQUIRE_EQUAL(found.features.patterns.size(), 1u);
  const HolePattern& row = found.features.patterns.front();
  BOOST_TEST(!row.ring);
  BOOST_TEST(row.holes.size() == 4u);
  BOOST_TEST(row.pitch == 12.0, tolerance(exact));
  BOOST_TEST(near(row.centre, Vector3d(28, 15, 10), exact));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
