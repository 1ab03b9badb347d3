// SPDX-License-Identifier: GPL-3.0-or-later
// Which places are not judged like others.
#include "cases/judgement/stress_sites.h"

#include <boost/test/unit_test.hpp>

#include "tests/support/joined_blocks.h"

namespace crossgrain::testing {
namespace {

BOOST_AUTO_TEST_SUITE(sites_of_stress)

BOOST_AUTO_TEST_CASE(under_a_head_is_its_own_body_as_deep_as_the_head_is_wide_from_its_axis) {
  // Two blocks of 20 mm, one on the other; a head of 8 mm on top, beads of 1 mm.
  TetrahedronMesh upper = box_mesh({20, 20, 10}, {20.0, 20.0, 20.0});
  upper.nodes.row(2).array() += 20.0;
  const TetrahedronMesh mesh =
      two_bodies(box_mesh({4, 4, 4}, {20.0, 20.0, 20.0}), std::move(upper));
  Geometry geometry;
  geometry.bodies.resize(2);
  const HeadSeat head{mesh.body_of_tetrahedron.back(), {10.0, 10.0, 40.0}, {0.0, 0.0, 1.0}, 4.0};

  const StressSites sites = stress_sites(mesh, geometry, {{}, {}, {head}}, {1.0, 1.0});

  Eigen::Index under = 0;
  for (Eigen::Index i = 0; i < sites.positions.cols(); ++i) {
    const Eigen::Vector3d x = sites.positions.col(i);
    const bool expected = (x.head<2>() - Eigen::Vector2d(10.0, 10.0)).norm() <= 5.0 && x.z() >= 36;
    BOOST_TEST_REQUIRE((sites.under_head[i] != 0) == expected);
    under += sites.under_head[i];
    BOOST_TEST_REQUIRE((sites.group_of(i, FailureMode::build_compression) ==
                        (expected ? SiteGroup::under_heads : SiteGroup::judged)));
    BOOST_TEST_REQUIRE((sites.group_of(i, FailureMode::interlayer) == SiteGroup::judged));
  }
  BOOST_TEST(under > 50);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::testing
