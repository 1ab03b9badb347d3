// SPDX-License-Identifier: GPL-3.0-or-later
// What places count for the factor of joined bodies, held against the factor itself: on loads
// beside what is held it goes as one over them (common practice, no source: by its definition).
#include <boost/test/unit_test.hpp>

#include "cases/judgement/governing_place.h"
#include "cases/judgement/mesh_error.h"
#include "cases/loads/joint_states.h"
#include "tests/cases/screwed_bars.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

LayeredConstants crushed_by(double E_build, double Zc) {
  LayeredConstants constants = known();
  constants.E_build = exactly(E_build);
  constants.Zc = exactly(Zc);
  return constants;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(mesh_error_of_joined_bodies)

BOOST_AUTO_TEST_CASE(places_are_counted_with_the_joint_of_the_governing_state) {
  // Crushed by less than preload and push together, so that the push alone governs. Between the
  // bars a gasket, which is linear: a screw takes half of the push.
  ScrewedBars bars(crushed_by(1500.0, 13.0), crushed_by(2500.0, 26.0), 10.0, 12.0,
                   Bedding{.modulus = 100.0, .thickness = 1.0});
  const auto state = governing_state(bars.result, bars.sites);
  BOOST_TEST_REQUIRE(state.has_value());
  BOOST_TEST_REQUIRE(state->held_apart);
  const CaseResult& judged = bars.result.cases[state->load_case];
  const Eigen::VectorXd& push = bars.loading.joined->acting[0].nodal_forces;
  const auto counted_after = [&](const StiffnessAdditions& left) {
    bars.solver.set_additions(left);
    return estimate_mesh_error(*state, bars.model(), bars.loading, bars.solution, bars.field,
                               judged, GoverningPlace{}, bars.solver);
  };

  const auto estimate = counted_after({});

  // A push greater by a share lowers the factor by it; what is left is the linear solver's noise.
  BOOST_TEST(estimate.counted.dot(state->factor * push) == -state->factor, tolerance(1e-6));
  StiffnessAdditions rigid_screw =
      frozen_state(bars.mesh, *bars.loading.joined, bars.solution.joint_states, 1).stiffness;
  for (auto& spring : rigid_screw.springs) spring.stiffness *= 10.0;
  const auto other = counted_after(rigid_screw);
  BOOST_TEST(other.error.factor == estimate.error.factor, tolerance(1e-6));
}

BOOST_AUTO_TEST_SUITE_END()
