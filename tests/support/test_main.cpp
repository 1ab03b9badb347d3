// SPDX-License-Identifier: GPL-3.0-or-later
#define BOOST_TEST_NO_MAIN
#include <boost/test/unit_test.hpp>

#include "mesh/worker/worker_child.h"

int main(int argc, char** argv) {
  if (const auto status = crossgrain::run_as_mesh_worker(argc, argv)) return *status;
  return boost::unit_test::unit_test_main([] { return true; }, argc, argv);
}
