// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/studies/printability.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "cases/studies/shadow_area.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

using Eigen::Vector3d;
constexpr double quarter_turn = std::numbers::pi / 2.0;

/// Triangles, each quadrilateral a CAD face of its own, one body unless told otherwise.
class Shape {
 public:
  FaceId quad(const Vector3d& a, const Vector3d& b, const Vector3d& c, const Vector3d& d) {
    const FaceId id{static_cast<std::int32_t>(geometry.faces.size() + 1)};
    CadFace face{};
    face.id = id;
    face.body = body;
    face.centroid = face.axis = face.origin = face.vector_area = Vector3d::Zero();
    face.box = {Vector3d::Zero(), Vector3d::Zero()};
    geometry.faces.push_back(face);
    triangle(id, a, b, c);
    triangle(id, a, c, d);
    return id;
  }

  /// Outward box, or with its sides turned inward the wall of a cavity. @return its upper face.
  FaceId box(const Vector3d& low, const Vector3d& high, bool cavity = false) {
    const auto at = [&](int x, int y, int z) {
      return Vector3d(x ? high[0] : low[0], y ? high[1] : low[1], z ? high[2] : low[2]);
    };
    const auto side = [&](Vector3d a, Vector3d b, Vector3d c, Vector3d d) {
      return cavity ? quad(d, c, b, a) : quad(a, b, c, d);
    };
    side(at(0, 0, 0), at(0, 1, 0), at(1, 1, 0), at(1, 0, 0));
    side(at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1));
    side(at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), at(1, 0, 1));
    side(at(1, 1, 0), at(0, 1, 0), at(0, 1, 1), at(1, 1, 1));
    side(at(0, 1, 0), at(0, 0, 0), at(0, 0, 1), at(0, 1, 1));
    return side(at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1));
  }

  Printability printed(const Vector3d& build, const std::vector<FaceId>& cavity = {},
                       double overhang_angle = quarter_turn / 2.0) {
    SurfaceTriangles& surface = geometry.surface;
    surface.points.resize(3, static_cast<Eigen::Index>(points.size()));
    for (std::size_t i = 0; i < points.size(); ++i) surface.points.col(i) = points[i];
    surface.triangles = Eigen::Matrix3Xi::NullaryExpr(
        3, static_cast<Eigen::Index>(points.size() / 3),
        [](Eigen::Index row, Eigen::Index column) { return static_cast<int>(3 * column + row); });
    std::vector<BodyId> bodies;
    for (int i = 1; i <= static_cast<int>(body); ++i) bodies.push_back(BodyId{i});
    return printability(geometry, bodies, build, overhang_angle, cavity);
  }

  Geometry geometry;
  BodyId body{1};

 private:
  void triangle(FaceId id, const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    points.insert(points.end(), {a, b, c});
    geometry.surface.face_of_triangle.push_back(id);
  }
  std::vector<Vector3d> points;
};

/// A cylinder's mantle and ends of many narrow facets, axis along y.
Shape lying_cylinder(double radius, double length, int facets) {
  Shape shape;
  const auto rim = [&](int i, double y) {
    const double angle = 2.0 * std::numbers::pi * i / facets;
    return Vector3d(radius * std::sin(angle), y, radius * std::cos(angle));
  };
  for (int i = 0; i < facets; ++i)
    shape.quad(rim(i, 0), rim(i + 1, 0), rim(i + 1, length), rim(i, length));
  return shape;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(printability_suite)

BOOST_AUTO_TEST_CASE(a_block_stands_on_its_foot_whichever_way_up) {
  Shape shape;
  shape.box({0, 0, 0}, {10, 20, 30});

  const Printability upright = shape.printed({0, 0, 2});
  BOOST_TEST(upright.height_mm == 30.0, tt::tolerance(1e-12));
  BOOST_TEST(upright.footprint_mm2 == 200.0, tt::tolerance(1e-12));
  BOOST_TEST(upright.plate_contact_mm2 == 200.0, tt::tolerance(1e-12));
  BOOST_TEST(upright.overhang_mm2 == 0.0);

  const Printability lying = shape.printed({-1, 0, 0});
  BOOST_TEST(lying.height_mm == 10.0, tt::tolerance(1e-12));
  BOOST_TEST(lying.footprint_mm2 == 600.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(a_block_on_its_edge_touches_the_plate_with_no_area) {
  Shape shape;
  shape.box({0, 0, 0}, {10, 20, 10});

  const Printability tilted = shape.printed({1, 0, 1});

  BOOST_TEST(tilted.height_mm == 10.0 * std::sqrt(2.0), tt::tolerance(1e-12));
  BOOST_TEST(tilted.footprint_mm2 == 200.0 * std::sqrt(2.0), tt::tolerance(1e-9));
  BOOST_TEST(tilted.plate_contact_mm2 == 0.0);
  // Both lower sides lie at 45 degrees, the overhang angle itself: they need no support.
  BOOST_TEST(tilted.overhang_mm2 == 0.0);
  BOOST_TEST(shape.printed({1, 0, 1}, {}, 0.8).overhang_mm2 == 400.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(the_roof_of_a_closed_cavity_is_trapped_overhang) {
  Shape shape;
  shape.box({0, 0, 0}, {20, 20, 20});
  const FaceId roof = shape.box({5, 6, 7}, {15, 14, 13}, true);

  const Printability hollow = shape.printed({0, 0, 1}, {roof});

  BOOST_TEST(hollow.overhang_mm2 == 80.0, tt::tolerance(1e-12));
  BOOST_TEST(hollow.trapped_overhang_mm2 == 80.0, tt::tolerance(1e-12));
  BOOST_TEST(hollow.footprint_mm2 == 400.0, tt::tolerance(1e-12));
  BOOST_TEST(shape.printed({0, 0, 1}).trapped_overhang_mm2 == 0.0);
}

BOOST_AUTO_TEST_CASE(a_lying_cylinder_overhangs_below_its_lower_quarter) {
  const int facets = 3600;
  Shape shape = lying_cylinder(10, 50, facets);

  const Printability lying = shape.printed({0, 0, 1});

  // 45 degrees to both sides of the bottom, less the facet that lies on the plate: its flat strip
  // is 0.01 mm high, sqrt(2 x 10 x 0.01) to both sides.
  const double arc = 10 * quarter_turn;
  const double on_plate = 2.0 * std::sqrt(0.2);
  BOOST_TEST(lying.overhang_mm2 + lying.plate_contact_mm2 == 50 * arc, tt::tolerance(4e-3));
  BOOST_TEST(lying.plate_contact_mm2 <= 50 * on_plate);
  BOOST_TEST(lying.footprint_mm2 == 50 * 20.0, tt::tolerance(1e-3));
  BOOST_TEST(lying.height_mm == 20.0, tt::tolerance(1e-5));
}

BOOST_AUTO_TEST_CASE(bodies_are_printed_apart) {
  Shape shape;
  shape.box({0, 0, 0}, {10, 10, 5});
  shape.body = BodyId{2};
  shape.box({0, 0, 5}, {10, 10, 30});

  const Printability both = shape.printed({0, 0, 1});

  BOOST_TEST(both.height_mm == 25.0, tt::tolerance(1e-12));
  BOOST_TEST(both.footprint_mm2 == 200.0, tt::tolerance(1e-12));
  BOOST_TEST(both.plate_contact_mm2 == 200.0, tt::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(shadows_that_overlap_count_once) {
  using P = Eigen::Vector2d;
  const FlatTriangle lower{P(0, 0), P(2, 0), P(0, 2)};
  const FlatTriangle upper{P(2, 2), P(0, 2), P(2, 0)};
  const FlatTriangle inside{P(0.5, 0.5), P(1.5, 0.5), P(0.5, 1.5)};

  BOOST_TEST(shadow_area({lower, upper}) == 4.0, tt::tolerance(1e-12));
  BOOST_TEST(shadow_area({lower, upper, inside, lower}) == 4.0, tt::tolerance(1e-12));
  // The midpoint rule is exact for straight sides within a triangle, and off by a line at corners.
  BOOST_TEST(shadow_area({inside}) == 0.5, tt::tolerance(1e-6));
  BOOST_TEST(shadow_area({}) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_direction_without_length_is_refused) {
  Shape shape;
  shape.box({0, 0, 0}, {1, 1, 1});

  BOOST_TEST(refused([&] { shape.printed({0, 0, 0}); }, "no usable length"));
}

BOOST_AUTO_TEST_SUITE_END()
