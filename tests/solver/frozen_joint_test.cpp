// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/interface/frozen_joint.h"

#include <boost/test/unit_test.hpp>

#include "tests/solver/pipe_under_pressure.h"
#include "tests/support/near.h"
#include "tests/support/screwed_blocks.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

struct Solved {
  JointSolution tight, working;
};

/// Screwed blocks of printed nylon, and a solver that takes any of their print directions.
struct PrintedBlocks {
  ScrewedBlocks blocks;
  StaticSolver solver;

  explicit PrintedBlocks(bool stiffens = false)
      : blocks(printed({0, 0, 1}), stiffens),
        solver(blocks.mesh, {}, {.method = SolverMethod::direct}) {}

  static MaterialField printed(const Eigen::Vector3d& lower) {
    return ScrewedBlocks::printed(printed_nylon(), lower, {1, 0, 0});
  }
  Solved solved(const Eigen::Vector3d& lower) {
    solver.set_material(printed(lower));
    JointSolver joint(blocks.mesh, solver, blocks.joint);
    Solved states;
    states.tight = joint.solve(blocks.tightened());
    states.working = joint.solve(blocks.working(states.tight), &states.tight);
    return states;
  }
  FrozenJoint frozen(const JointLoad& load, const JointSolution& solution) const {
    return frozen_joint(blocks.mesh, blocks.joint, load, solution);
  }
  Eigen::VectorXd answer(const FrozenJoint& joint, const Eigen::VectorXd& forces) {
    solver.set_additions(joint.stiffness);
    return solver.solve(forces);
  }
  double elongation(const Eigen::VectorXd& u) const {
    return along(screw_motions(blocks.joint.screws[0])[0], u);
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(frozen_joints)

// The last system of Newton's method, to what the iteration leaves.
BOOST_AUTO_TEST_CASE(a_frozen_joint_has_the_solution_that_it_was_frozen_at) {
  PrintedBlocks printed(true);
  const Solved states = printed.solved({0, 0, 1});
  const JointLoad tightened = printed.blocks.tightened();
  const JointLoad working = printed.blocks.working(states.tight);
  const FrozenJoint tight = printed.frozen(tightened, states.tight);
  const FrozenJoint loaded = printed.frozen(working, states.working);

  BOOST_TEST(near(printed.answer(tight, tight.forces), states.tight.displacement, 1e-6));
  BOOST_TEST(near(printed.answer(loaded, working.forces + loaded.forces),
                  states.working.displacement, 1e-6));
  BOOST_TEST(tight.by_lock().norm() == 0.0);
}

// Rubber of one slope that stays pressed makes a linear joint: nothing is lost by freezing it, if
// the screw is locked at what it comes to with the other body, too.
BOOST_AUTO_TEST_CASE(a_linear_joint_is_frozen_for_every_print_direction) {
  PrintedBlocks printed;
  const Solved before = printed.solved({0, 0, 1});
  const JointLoad working = printed.blocks.working(before.tight);
  const FrozenJoint tight = printed.frozen(printed.blocks.tightened(), before.tight);
  const FrozenJoint loaded = printed.frozen(working, before.working);
  const Solved expected = printed.solved({1, 2, 0.5});

  const Eigen::VectorXd u_tight = printed.answer(tight, tight.forces);
  const Eigen::VectorXd longer =
      Eigen::VectorXd::Constant(1, printed.elongation(u_tight) - before.tight.screws[0].elongation);
  const Eigen::VectorXd u_working =
      printed.answer(loaded, working.forces + loaded.forces + loaded.by_lock() * longer);

  BOOST_TEST(near(u_tight, expected.tight.displacement, 1e-6));
  BOOST_TEST(near(u_working, expected.working.displacement, 1e-6));
  // It counts, a thousand times what is asked above: locked as it was the screw would keep another
  // force.
  const Eigen::VectorXd locked_as_it_was = printed.answer(loaded, working.forces + loaded.forces);
  BOOST_TEST((locked_as_it_was - u_working).norm() > 1e-3 * u_working.norm());
}

BOOST_AUTO_TEST_SUITE_END()
