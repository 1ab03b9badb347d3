// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of the error's estimate: recovery, the energy of a difference, a quantity's own load,
// sizes that follow.
#include <Eigen/LU>
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/error/error_energy.h"
#include "solver/error/patch_recovery.h"
#include "solver/error/stress_functional.h"
#include "solver/error/wanted_sizes.h"
#include "tests/solver/solved.h"
#include "tests/support/imposed_stress.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;
using Eigen::Vector3d;
namespace tt = boost::test_tools;

namespace {

MaterialField printed(const TetrahedronMesh& mesh) {
  const SolidMaterial material{{3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700},
                               Vector3d::Zero(),
                               1e-9,
                               DuctileStrength{50.0}};
  return uniform_field(mesh, {material, material},
                       {frame_along({1, 2, 3}), frame_along({0, 0, 1})});
}

/// Six unequal linear components.
Vector6d linear_stress(const Vector3d& at) {
  Vector6d stress;
  for (int k = 0; k < 6; ++k) stress[k] = 1.0 + k + (k - 2.0) * at.x() + 0.5 * k * at.y() - at.z();
  return stress;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(error_of_the_mesh)

BOOST_AUTO_TEST_CASE(a_linear_stress_is_recovered_as_it_is_even_in_a_corner_of_one_element) {
  const auto mesh = box_mesh({3, 1, 2}, {3.0, 0.5, 2.0});
  const auto points = stress_points(mesh);
  const ElementStress stress = imposed_stress(mesh, linear_stress);

  const auto recovered = recovered_over_patches(mesh, points, {&stress}).front();

  for (std::size_t p = 0; p < points.size(); ++p)
    BOOST_TEST(near(recovered.col(static_cast<Eigen::Index>(p)),
                    linear_stress(mesh.nodes.col(points[p].node)), 1e-6));
}

BOOST_AUTO_TEST_CASE(bodies_are_recovered_apart) {
  auto mesh = box_mesh({4, 2, 2}, {4.0, 2.0, 2.0});
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    double x = 0.0;
    for (int k = 0; k < 4; ++k) x += 0.25 * mesh.nodes(0, mesh.tetrahedra(k, t));
    if (x > 2.0) mesh.body_of_tetrahedron[t] = BodyId{2};
  }
  ElementStress stress = imposed_stress(mesh, linear_stress);
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t)
    if (mesh.body_of_tetrahedron[t] == BodyId{2})
      stress.at_corners.middleCols<4>(4 * t).array() += 100.0;
  const auto points = stress_points(mesh);

  const auto recovered = recovered_over_patches(mesh, points, {&stress}).front();

  for (std::size_t p = 0; p < points.size(); ++p) {
    const double jump = points[p].body == BodyId{2} ? 100.0 : 0.0;
    BOOST_TEST(near(recovered.col(static_cast<Eigen::Index>(p)),
                    linear_stress(mesh.nodes.col(points[p].node)) + Vector6d::Constant(jump),
                    1e-5));
  }
}

BOOST_AUTO_TEST_CASE(the_energy_of_a_constant_difference_is_that_of_a_constant_stress) {
  const auto mesh = box_mesh({2, 2, 2}, {2.0, 3.0, 1.0});
  const auto field = printed(mesh);
  const auto points = stress_points(mesh);
  EstimatedStress one{imposed_stress(mesh, linear_stress), {}}, other = one;
  one.elements.volumes = other.elements.volumes =
      Eigen::VectorXd::Constant(mesh.tetrahedron_count(), 6.0 / mesh.tetrahedron_count());
  Vector6d by, or_by;
  by << 1, 2, -3, 0.5, 4, -1;
  or_by << 2, 0, 1, -1, 0.3, 2;
  one.recovered.resize(6, std::ssize(points));
  for (std::size_t p = 0; p < points.size(); ++p)
    one.recovered.col(static_cast<Eigen::Index>(p)) = linear_stress(mesh.nodes.col(points[p].node));
  other.recovered = one.recovered.colwise() + or_by;
  one.recovered.colwise() += by;

  const double energy = error_energy(mesh, field, points, one, other).sum();

  const Matrix6d compliance =
      rotate_stiffness(stiffness(field.materials[0].elastic), field.frames[0]).inverse();
  BOOST_TEST(energy == 6.0 * by.dot(compliance * or_by), tt::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(the_work_of_a_quantity_s_load_is_the_quantity) {
  const auto mesh = box_mesh({3, 2, 2}, {3.0, 2.0, 2.0});
  const auto field = printed(mesh);
  const auto points = stress_points(mesh);
  const BeadFit fit(mesh, {points[7]}, {1.3});
  Vector6d direction;
  direction << 1, -2, 0.5, 3, -1, 2;
  Eigen::VectorXd displacement(mesh.unknowns());
  for (Eigen::Index i = 0; i < displacement.size(); ++i) displacement[i] = std::sin(1.0 + 7.0 * i);

  const double work = stress_functional(mesh, field, fit.shares(0), direction).dot(displacement);

  const double quantity = direction.dot(fit.of(element_stress(mesh, field, displacement)).col(0));
  BOOST_TEST(work == quantity, tt::tolerance(1e-10));
}

BOOST_AUTO_TEST_CASE(equal_shares_ask_for_equally_shorter_edges) {
  const auto mesh = box_mesh({4, 4, 4}, {4.0, 4.0, 4.0});
  const Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.tetrahedron_count(), 1.0);

  // A sixteenth of the error with the fourth power: half as long.
  const auto sizes = wanted_sizes(mesh, shares, {shares.sum() / 16.0, 1e9});

  const double edge = mean_edge(mesh, 0);
  BOOST_REQUIRE(!sizes.empty());
  for (const SizedPoint& point : sizes) BOOST_TEST(point.size == 0.5 * edge, tt::tolerance(1e-6));
}

BOOST_AUTO_TEST_CASE(elements_are_put_where_the_error_is_and_no_more_than_allowed) {
  const auto mesh = box_mesh({8, 2, 2}, {8.0, 2.0, 2.0});
  Eigen::VectorXd shares = Eigen::VectorXd::Constant(mesh.tetrahedron_count(), 1e-9);
  for (Eigen::Index t = 0; t < shares.size(); ++t)
    if (mesh.nodes(0, mesh.tetrahedra(0, t)) < 1.5) shares[t] = 1.0;
  const auto count = static_cast<double>(mesh.tetrahedron_count());
  const auto elements_of = [&](const std::vector<SizedPoint>& sizes) {
    double sum = 0.0;
    for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
      Vector3d middle = Vector3d::Zero();
      for (int k = 0; k < 4; ++k) middle += 0.25 * mesh.nodes.col(mesh.tetrahedra(k, t));
      const auto nearest = std::ranges::min_element(
          sizes, {}, [&](const SizedPoint& p) { return (p.point - middle).squaredNorm(); });
      sum += std::pow(mean_edge(mesh, t) / nearest->size, 3);
    }
    return sum;
  };

  const auto free = wanted_sizes(mesh, shares, {0.01 * shares.sum(), 1e9});
  const auto bounded = wanted_sizes(mesh, shares, {0.01 * shares.sum(), 2.0 * count});

  const auto size_at = [](const std::vector<SizedPoint>& sizes, double x) {
    return std::ranges::min_element(sizes, {},
                                    [&](const SizedPoint& p) { return std::abs(p.point.x() - x); })
        ->size;
  };
  BOOST_TEST(size_at(free, 0.5) < 0.4 * size_at(free, 7.5));
  BOOST_TEST(elements_of(free) > 2.0 * count);
  // Foretold are twice as many; the finest of each cube counts for its neighbours too: 2.9 were
  // found on this small mesh.
  BOOST_TEST(elements_of(bounded) < 3.2 * count);
}

BOOST_AUTO_TEST_SUITE_END()
