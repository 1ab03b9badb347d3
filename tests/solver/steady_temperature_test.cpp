// SPDX-License-Identifier: GPL-3.0-or-later
// Temperature between kept faces: against the closed forms of a slab and a tube (heat conduction,
// any textbook).
#include "solver/heat/steady_temperature.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/joined_blocks.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

BOOST_AUTO_TEST_SUITE(heat)

BOOST_AUTO_TEST_CASE(it_falls_evenly_through_a_slab) {
  const TetrahedronMesh slab = box_mesh({3, 2, 2}, {12.0, 5.0, 4.0});

  const Eigen::VectorXd change = steady_temperature(slab, {{{xi_low}, 30.0}, {{xi_high}, -6.0}});

  // A straight line is among the elements' own functions.
  for (Eigen::Index n = 0; n < slab.node_count(); ++n)
    BOOST_TEST(std::abs(change[n] - (30.0 - 3.0 * slab.nodes(0, n))) < 1e-7);
}

BOOST_AUTO_TEST_CASE(it_falls_as_the_logarithm_through_a_pipes_wall_and_the_more_truly_the_finer) {
  double off[2] = {};
  for (const int across : {1, 2}) {
    const TetrahedronMesh pipe = quarter_pipe(across);
    const Eigen::VectorXd change = steady_temperature(pipe, {{{eta_low}, 40.0}, {{eta_high}, 0.0}});
    for (Eigen::Index n = 0; n < pipe.node_count(); ++n) {
      const double radius = pipe.nodes.col(n).head<2>().norm();
      const double expected = 40.0 * std::log(26.0 / radius) / std::log(26.0 / 20.0);
      off[across - 1] = std::max(off[across - 1], std::abs(change[n] - expected));
    }
  }
  // What a parabola along the longest edge, a diagonal h of 6 sqrt 2 mm, may miss of a curve whose
  // third derivative is 40 / ln 1.3 * 2 / r^3 at the bore: that times h^3 / (72 sqrt 3).
  BOOST_TEST(off[0] < 40.0 / std::log(1.3) * 2.0 / 8000.0 * std::pow(6.0 * std::sqrt(2.0), 3) /
                          (72.0 * std::sqrt(3.0)));
  // At least as h^2.5 from h to h / 2.
  BOOST_TEST(off[1] < off[0] / 5.6);
}

BOOST_AUTO_TEST_CASE(an_edge_of_two_kept_faces_has_their_mean) {
  const TetrahedronMesh slab = box_mesh({2, 2, 2}, {4.0, 4.0, 4.0});

  const Eigen::VectorXd change = steady_temperature(slab, {{{xi_low}, 10.0}, {{zeta_low}, 20.0}});

  // The iteration ends at 1e-10.
  BOOST_TEST(change[nearest_node(slab, {0.0, 2.0, 0.0})] == 15.0, tolerance(1e-9));
  BOOST_TEST(change[nearest_node(slab, {0.0, 2.0, 4.0})] == 10.0, tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(a_body_without_a_kept_face_is_refused) {
  const TetrahedronMesh both =
      two_bodies(box_mesh({1, 1, 1}, {1.0, 1.0, 1.0}), box_mesh({1, 1, 1}, {1.0, 1.0, 1.0}));

  BOOST_TEST(refused(
      [&] {
        steady_temperature(both, {{{xi_low}, 10.0}});
      },
      "has no face whose temperature is kept"));
  BOOST_TEST(refused([&] { steady_temperature(both, {{{FaceId{77}}, 10.0}}); }, "77"));
}

BOOST_AUTO_TEST_SUITE_END()
