// SPDX-License-Identifier: GPL-3.0-or-later
// A7: the straight cantilever, slender enough to lock elements that cannot bend.
#include <boost/test/unit_test.hpp>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

BOOST_AUTO_TEST_SUITE(slender_cantilever)

BOOST_AUTO_TEST_CASE(a_slender_cantilever_gives_way_to_each_load_as_published) {
  const double length = 6.0, depth = 0.2, thickness = 0.1;
  Model model;
  model.mesh = testing::box_mesh({48, 2, 2}, {length, depth, thickness});
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(1e7, 0.3)), skew_frame());
  model.held = constraints_of(model.mesh, {{"root", {testing::xi_low}, Hold::all}});
  const int tip = testing::nearest_node(model.mesh, {length, depth / 2, thickness / 2});

  const auto row = [&](const std::string& id, const std::string& what, int axis, double target) {
    const Eigen::VectorXd load =
        spread_force(model.mesh, {testing::xi_high}, Point::Unit(axis), Point::Zero());
    check({Chapter::standard_benchmarks, "A7 " + id,
           "cantilever 6 × 0.2 × 0.1, E 1e7 ν 0.3, unit force at its tip: " + what,
           "MacNeal and Harder, Finite Elem. Anal. Des. 1 (1985) 3–20 (from memory, beam theory)",
           target, fraction(1e-2, "the target is of beam theory; a clamped root is 0.3 % stiffer")},
          solve(model, load).displacement[3 * tip + axis]);
  };
  row("extension", "along it", 0, 3.0e-5);
  row("in plane", "across its depth", 1, 0.1081);
  row("out of plane", "across its thickness", 2, 0.4321);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
