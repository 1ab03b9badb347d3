// SPDX-License-Identifier: GPL-3.0-or-later
// Against closed forms of the resultant.
#include "solver/loads/loads.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <limits>

#include "tests/solver/example_materials.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using boost::test_tools::tolerance;

namespace {

const std::vector<FaceId> all_sides{xi_low, xi_high, eta_low, eta_high, zeta_low, zeta_high};

TetrahedronMesh wavy_block() {
  return block_mesh({3, 2, 2}, [](const Eigen::Vector3d& u) {
    return Eigen::Vector3d(5.0 * u.x() + 0.2 * std::sin(5.0 * u.y()),
                           4.0 * u.y() + 0.2 * std::sin(4.0 * u.z()),
                           3.0 * u.z() + 0.2 * std::sin(6.0 * u.x()));
  });
}

/// A flat plate of 10 x 8 x 1 mm.
TetrahedronMesh plate() { return box_mesh({4, 4, 1}, {10.0, 8.0, 1.0}); }

double volume_of(const TetrahedronMesh& mesh) {
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  const Eigen::VectorXd weight = body_load(mesh, field, Eigen::Vector3d::UnitX());
  return resultant(mesh, weight).force.x() / plain_solid().density;
}

template <class Call>
void require_refused(const Call& call, const std::string& words) {
  BOOST_CHECK_EXCEPTION(call(), std::invalid_argument, [&](const auto& error) {
    BOOST_TEST_MESSAGE(error.what());
    return std::string(error.what()).find(words) != std::string::npos;
  });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(loads)

BOOST_AUTO_TEST_CASE(uniform_pressure_all_round_has_no_resultant_on_any_curved_mesh) {
  const auto mesh = wavy_block();

  const auto load = pressure_load(mesh, all_sides, [](const auto&) { return 0.4; });

  const double size = load.reshaped(3, mesh.node_count()).colwise().norm().sum();
  BOOST_TEST(size > 10.0);
  BOOST_TEST(resultant(mesh, load).force.norm() < 1e-13 * size);
  BOOST_TEST(resultant(mesh, load).moment.norm() < 1e-12 * size);
}

BOOST_AUTO_TEST_CASE(hydrostatic_pressure_all_round_is_the_buoyancy_of_the_mesh) {
  const auto mesh = wavy_block();
  const double water = 9.81e-6;  // N/mm^3

  const auto load =
      pressure_load(mesh, all_sides, [&](const auto& x) { return water * (7.0 - x.z()); });

  // Archimedes; the surface rule is exact for a pressure linear in position.
  const Eigen::Vector3d buoyancy(0.0, 0.0, water * volume_of(mesh));
  BOOST_TEST(near(resultant(mesh, load).force, buoyancy, 1e-11));
}

BOOST_AUTO_TEST_CASE(pressure_pushes_into_the_body) {
  const auto load = pressure_load(plate(), {zeta_high}, [](const auto&) { return 0.5; });

  const auto sum = resultant(plate(), load, {5.0, 4.0, 1.0});

  BOOST_TEST(near(sum.force, Eigen::Vector3d(0.0, 0.0, -40.0), 1e-13));
  BOOST_TEST(sum.moment.norm() < 1e-11);
}

BOOST_AUTO_TEST_CASE(traction_is_integrated_over_position) {
  const auto load = traction_load(plate(), {zeta_high}, [](const Eigen::Vector3d& x) {
    return Eigen::Vector3d(x.y(), 2.0, x.x() * x.x());
  });

  // Over 10 x 8: mean y = 4, mean x^2 = 100 / 3.
  BOOST_TEST(
      near(resultant(plate(), load).force, 80.0 * Eigen::Vector3d(4.0, 2.0, 100.0 / 3.0), 1e-13));
}

BOOST_AUTO_TEST_CASE(moments_of_a_flat_face_are_those_of_the_rectangle) {
  const auto face = face_moments(plate(), {zeta_high});

  BOOST_TEST(face.area == 80.0, tolerance(1e-13));
  BOOST_TEST(near(face.centroid, Eigen::Vector3d(5.0, 4.0, 1.0), 1e-13));
  const Eigen::Vector3d second(80.0 * 100.0 / 12.0, 80.0 * 64.0 / 12.0, 0.0);
  BOOST_TEST(near(face.second_moment, Eigen::Matrix3d(second.asDiagonal()), 1e-13));
}

BOOST_AUTO_TEST_CASE(a_force_and_moment_are_spread_without_loss_over_a_curved_face) {
  const auto mesh = wavy_block();
  const std::vector<FaceId> faces{xi_high, eta_low};
  const Eigen::Vector3d force(10.0, -20.0, 30.0), moment(-5.0, 40.0, 15.0);

  const auto load = spread_force(mesh, faces, force, moment);

  const auto sum = resultant(mesh, load, face_moments(mesh, faces).centroid);
  BOOST_TEST(near(sum.force, force, 1e-12));  // round-off
  BOOST_TEST(near(sum.moment, moment, 1e-12));
  const auto loaded = nodes_on(mesh, faces);
  for (int node = 0; node < mesh.node_count(); ++node)
    if (!std::binary_search(loaded.begin(), loaded.end(), node))
      BOOST_TEST(load.segment<3>(3 * node).norm() == 0.0);
}

BOOST_AUTO_TEST_CASE(an_annulus_inside_few_triangles_keeps_the_force_and_nearly_its_area) {
  // A screw head's seat of 5.5 to 8.5 mm diameter on a plate whose triangles are 2.5 mm wide.
  const auto mesh = plate();
  const Eigen::Vector3d centre(5.0, 4.0, 1.0);
  const auto annulus = [&](const Eigen::Vector3d& x) {
    const double r = (x - centre).norm();
    return r > 1.75 && r < 3.5 ? 1.0 : 0.0;
  };
  const Eigen::Vector3d force(0.0, 0.0, -3000.0), moment(100.0, 50.0, -70.0);

  const auto face = face_moments(mesh, {zeta_high}, annulus);
  const auto load = spread_force(mesh, {zeta_high}, force, moment, annulus);

  // Triangles are divided 64-fold along the circles: 0.04 mm of 1.75 mm, and errors cancel.
  BOOST_TEST(face.area == M_PI * (3.5 * 3.5 - 1.75 * 1.75), tolerance(2e-3));
  BOOST_TEST((face.centroid - centre).norm() < 5e-3);
  const auto sum = resultant(mesh, load, face.centroid);
  BOOST_TEST(near(sum.force, force, 1e-12));
  // Round-off of 3000 N on an arm of 5 mm.
  BOOST_TEST((sum.moment - moment).norm() < 1e-12 * 3000.0 * 5.0);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_applied_is_refused) {
  const auto mesh = plate();
  const auto one = [](const auto&) { return 1.0; };
  const Eigen::Vector3d force(1.0, 0.0, 0.0), none = Eigen::Vector3d::Zero();

  require_refused([&] { pressure_load(mesh, {FaceId{9}}, one); },
                  "pressure: face 9 has no triangles in the mesh");
  require_refused([&] { pressure_load(mesh, {}, one); }, "no face is given");
  require_refused(
      [&] {
        pressure_load(mesh, {xi_low},
                      [](const auto&) { return std::numeric_limits<double>::quiet_NaN(); });
      },
      "pressure is nan at (");
  require_refused(
      [&] { spread_force(mesh, {xi_low}, force, none, [](const auto&) { return 0.0; }); },
      "no area is left of the chosen faces");
  require_refused(
      [&] { spread_force(mesh, {xi_low}, force, none, [](const auto&) { return -1.0; }); },
      "it must be zero or positive");
  require_refused(
      [&] { spread_force(mesh, {xi_low}, force * std::numeric_limits<double>::infinity(), none); },
      "must be finite numbers");
  const auto field = uniform_field(mesh, {plain_solid()}, {Frame::Identity()});
  require_refused([&] { thermal_load(mesh, field, Eigen::VectorXd::Ones(3)); },
                  "one finite number for each node");
}

BOOST_AUTO_TEST_CASE(a_thin_line_of_area_cannot_carry_a_moment_about_itself) {
  // A strip a millionth as wide as long.
  const auto strip = box_mesh({1, 1, 1}, {10.0, 1e-5, 1.0});

  require_refused(
      [&] { spread_force(strip, {zeta_high}, Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitX()); },
      "no extent across the moment's axis");
}

BOOST_AUTO_TEST_SUITE_END()
