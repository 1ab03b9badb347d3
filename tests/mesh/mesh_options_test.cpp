// SPDX-License-Identifier: GPL-3.0-or-later
// What the user asks of the mesh: a bound on unknowns, a limit of time; and stopping.
#include <sys/wait.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cerrno>

#include "mesh/tetrahedra/mesh_extent.h"
#include "mesh/tetrahedra/tetrahedron_sides.h"
#include "mesh/worker/worker_cancel.h"
#include "tests/mesh/simple_parts.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

bool any_holds(const std::vector<std::string>& texts, const std::string& part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& t) { return t.find(part) != std::string::npos; });
}

/// Takes minutes, not seconds.
MeshOptions endless() {
  MeshOptions options;
  options.size = 0.3;
  options.unknowns_max = 2'000'000'000;
  return options;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(mesh_options)

BOOST_AUTO_TEST_CASE(the_unknowns_are_bounded_and_what_it_took_is_said) {
  const StepFile file(tube(20, 15, 60));
  const MeshedGeometry free = mesh_step(file.import(), {});
  MeshOptions options;
  options.unknowns_max = static_cast<int>(free.mesh.unknowns() / 3);

  const MeshedGeometry bounded = mesh_step(file.import(), options);

  BOOST_TEST(!any_holds(free.report.remedies, "unknowns_max"));
  BOOST_TEST(bounded.mesh.unknowns() <= options.unknowns_max);
  // What is allowed is used: sizes grow no further than they must.
  BOOST_TEST(bounded.mesh.unknowns() > options.unknowns_max / 3);
  BOOST_TEST(any_holds(bounded.report.remedies, "every size times "));
  BOOST_TEST(any_holds(bounded.report.remedies, "unknowns_max"));
}

BOOST_AUTO_TEST_CASE(a_bound_that_no_mesh_keeps_is_refused) {
  const StepFile file(tube(20, 15, 60));
  MeshOptions options;
  options.unknowns_max = 100;

  BOOST_TEST(refused([&] { mesh_step(file.import(), options); }, "raise [mesh] unknowns_max"));
}

BOOST_AUTO_TEST_CASE(unknowns_are_told_from_the_straight_mesh) {
  const StepFile file(tube(20, 15, 60));
  const TetrahedronMesh curved = mesh_step(file.import(), {}).mesh;
  // Without the middles: corners come in the first four rows.
  TetrahedronMesh straight = curved;
  std::vector<bool> corner(static_cast<std::size_t>(curved.node_count()), false);
  for (Eigen::Index e = 0; e < curved.tetrahedron_count(); ++e)
    for (int i = 0; i < 4; ++i) corner[static_cast<std::size_t>(curved.tetrahedra(i, e))] = true;
  straight.nodes.resize(3, std::count(corner.begin(), corner.end(), true));

  // Exact for a tube: its Euler characteristic is 0.
  BOOST_TEST(unknowns_when_curved(straight) == curved.unknowns());
}

BOOST_AUTO_TEST_CASE(the_time_limit_ends_meshing_with_the_stage_and_what_was_tried) {
  const StepFile file(block(200, 200, 200));
  MeshOptions options = endless();
  options.time_limit = std::chrono::seconds(2);

  BOOST_TEST(
      refused([&] { mesh_step(file.import(), options); }, "as asked: was not done after 1 s"));
  BOOST_TEST(waitpid(-1, nullptr, WNOHANG) == -1);
  BOOST_TEST(errno == ECHILD);
}

BOOST_AUTO_TEST_CASE(a_cancelled_job_ends_its_child) {
  const StepFile file(block(200, 200, 200));
  bool told = false;
  const auto stop = [&](const std::string&, double) {
    if (!told) cancel_mesh_worker();
    told = true;
  };

  BOOST_CHECK_EXCEPTION(mesh_step(file.import(), endless(), stop), std::runtime_error,
                        [](const std::runtime_error& error) {
                          return std::string(error.what()) == "meshing was cancelled";
                        });
  BOOST_TEST(told);
  BOOST_TEST(waitpid(-1, nullptr, WNOHANG) == -1);
  BOOST_TEST(errno == ECHILD);
}

BOOST_AUTO_TEST_SUITE_END()
