// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/elasticity/elastic_constants.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <boost/test/unit_test.hpp>
#include <limits>
#include <numbers>

#include "materials/elasticity/frame.h"
#include "tests/support/near.h"
#include "tests/support/refusal.h"

using namespace crossgrain;
using crossgrain::testing::near;
using crossgrain::testing::refused;
namespace tt = boost::test_tools;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// Axis 1 at an angle from global x towards y, the build axis beside it in the same plane.
Frame layer_at(double angle) {
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  Frame frame;
  frame << c, 0, -s,  //
      s, 0, c,        //
      0, -1, 0;
  return frame;
}

/// Axis 1 at an angle from global x, axis 2 in the same plane, the build axis along z.
Frame bead_at(double angle) { return Frame(Eigen::AngleAxisd(angle, Eigen::Vector3d::UnitZ())); }

/// Strains of a bar pulled along global x with 1 MPa.
Vector6d pulled_along_x(const OrthotropicConstants& constants, const Frame& frame) {
  return rotate_stiffness(stiffness(constants), frame).inverse().col(0);
}

const TransverselyIsotropicConstants printed{
    .E_layer = 2500, .E_build = 2000, .nu_12 = 0.3, .nu_13 = 0.35, .G_build = 750};

}  // namespace

BOOST_AUTO_TEST_SUITE(elastic_constants)

BOOST_AUTO_TEST_CASE(stiffness_is_the_inverse_of_compliance_and_positive_definite) {
  const OrthotropicConstants constants{7541, 3920, 3100, 0.40, 0.33, 0.28, 900, 1100, 1268};

  const Matrix6d C = stiffness(constants);

  // Rounding of one 3 x 3 inverse.
  BOOST_TEST(near(C * compliance(constants), Matrix6d::Identity(), 1e-13));
  BOOST_TEST(near(C, C.transpose(), 0.0));
  BOOST_TEST(Eigen::SelfAdjointEigenSolver<Matrix6d>(C).eigenvalues()[0] > 0.0);
}

// Off-axis modulus 1/Ex = c^4/E1 + s^4/E2 + (1/G12 - 2 nu12/E1) s^2 c^2: Jones, Mechanics of
// Composite Materials, 2nd ed., section 2.8 (from memory); constants of printed bars quoted by
// Casavola et al., Mater. Des. 90 (2016) 453-458 and Ferreira et al., Composites B 124 (2017)
// 88-100 (from memory).
BOOST_AUTO_TEST_CASE(bar_cut_across_the_beads_has_the_handbook_modulus) {
  struct Set {
    OrthotropicConstants constants;
    std::array<double, 5> moduli;  // 15 30 45 60 75 degrees
  };
  const Set sets[] = {
      {{1790, 1150, 1300, .34, .3, .3, 400, 400, 808}, {1838.8, 1888.9, 1749.8, 1460.1, 1229.9}},
      {{7541, 3920, 3000, .40, .3, .3, 900, 900, 1268}, {6279.8, 4576.3, 3737.4, 3574.5, 3769.0}}};

  for (const Set& set : sets)
    for (int i = 0; i < 5; ++i)
      // The values are quoted to 0.1 MPa.
      BOOST_TEST(
          1.0 / pulled_along_x(set.constants, bead_at(15.0 * (i + 1) * degree))[0] == set.moduli[i],
          tt::tolerance(4e-5));
}

BOOST_AUTO_TEST_CASE(bar_tilted_against_the_layers_has_the_handbook_modulus) {
  const double moduli[] = {2203.86, 2047.78, 1985.11};  // 30 45 60 degrees

  for (int i = 0; i < 3; ++i)
    // Six digits are quoted.
    BOOST_TEST(1.0 / pulled_along_x(orthotropic(printed), layer_at((30 + 15 * i) * degree))[0] ==
                   moduli[i],
               tt::tolerance(3e-6));
}

// The modulus is even in the angle; these two are not, and tell a rotation from its transpose.
BOOST_AUTO_TEST_CASE(tilted_bar_narrows_and_shears_to_the_proper_side) {
  const Vector6d strain = pulled_along_x(orthotropic(printed), layer_at(30 * degree));

  BOOST_TEST(strain[1] == -1.6875e-4, tt::tolerance(1e-4));  // five and four digits are quoted
  BOOST_TEST(strain[5] == -7.650e-5, tt::tolerance(1e-4));
}

// 1/E = (1 - l^2)^2/E_layer + l^4/E_build + l^2 (1 - l^2) (1/G - 2 nu_13/E_layer), l the cosine to
// the build axis: Lekhnitskii, Anisotropic Plates (1968), chapter 1 (from memory).
BOOST_AUTO_TEST_CASE(bar_along_a_skew_direction_has_the_modulus_of_its_angle_to_the_build_axis) {
  const Frame frame = frame_along(Eigen::Vector3d(1, 2, 3));
  const Eigen::Vector3d bar = Eigen::Vector3d(2, -1, 4).normalized();
  const double l = bar.dot(Eigen::Vector3d(1, 2, 3).normalized());
  Vector6d stress;
  stress << bar[0] * bar[0], bar[1] * bar[1], bar[2] * bar[2], bar[1] * bar[2], bar[0] * bar[2],
      bar[0] * bar[1];

  const Matrix6d S = rotate_stiffness(stiffness(orthotropic(printed)), frame).inverse();
  const double obtained = stress.dot(S * stress);

  const double expected = (1 - l * l) * (1 - l * l) / 2500 + l * l * l * l / 2000 +
                          l * l * (1 - l * l) * (1.0 / 750 - 2 * 0.35 / 2500);
  BOOST_TEST(obtained == expected, tt::tolerance(1e-12));  // rounding of a 6 x 6 inverse
}

BOOST_AUTO_TEST_CASE(turning_an_isotropic_solid_changes_nothing) {
  const Matrix6d C = stiffness(isotropic(2000, 0.35));

  BOOST_TEST(near(rotate_stiffness(C, frame_along(Eigen::Vector3d(1, -2, 0.5))), C, 1e-14));
  // Lame's constants: lambda = E nu / ((1 + nu)(1 - 2 nu)), mu = E / (2 (1 + nu)).
  BOOST_TEST(C(0, 1) == 2000 * 0.35 / (1.35 * 0.30), tt::tolerance(1e-14));
  BOOST_TEST(C(3, 3) == 2000 / 2.7, tt::tolerance(1e-15));
}

BOOST_AUTO_TEST_CASE(constants_that_store_negative_energy_are_refused_with_the_inequality) {
  OrthotropicConstants c = orthotropic(printed);
  const auto with = [&](auto change) {
    OrthotropicConstants changed = c;
    change(changed);
    return [changed] { require_admissible(changed); };
  };
  using Constants = OrthotropicConstants;
  const double nan = std::numeric_limits<double>::quiet_NaN();

  BOOST_CHECK_NO_THROW(require_admissible(c));
  BOOST_TEST(refused(with([](Constants& x) { x.E_3 = -1; }), "E_3 > 0 fails, E_3 = -1"));
  BOOST_TEST(refused(with([](Constants& x) { x.G_13 = 0; }), "G_13 > 0 fails"));
  BOOST_TEST(refused(with([&](Constants& x) { x.E_1 = nan; }), "E_1 > 0 fails"));
  BOOST_TEST(refused(with([&](Constants& x) { x.nu_23 = nan; }), "nu_23^2 < E_2/E_3 fails"));
  BOOST_TEST(refused(with([](Constants& x) { x.nu_12 = 1.1; }), "nu_12^2 < E_1/E_2 fails"));
  BOOST_TEST(refused(with([](Constants& x) { x.nu_13 = 1.2; }), "it is not nu_31"));
  BOOST_TEST(refused(with([](Constants& x) { x.nu_12 = x.nu_13 = x.nu_23 = 0.6; }),
                     "2 nu_12 nu_23 nu_31 > 0 fails, it is -"));
}

// MacNeal & Harder, Finite Elem. Anal. Des. 1 (1985) 3-20, use nu 0.49 to 0.4999 to show locking.
BOOST_AUTO_TEST_CASE(nearly_incompressible_solids_are_refused) {
  BOOST_CHECK_NO_THROW(require_admissible(isotropic(1000, 0.49)));
  BOOST_CHECK_NO_THROW(require_admissible(isotropic(1000, 0.495)));
  BOOST_TEST(refused([] { require_admissible(isotropic(1000, 0.4951)); }, "incompressible"));
  BOOST_TEST(refused([] { require_admissible(isotropic(1000, 0.5001)); }, "> 0 fails"));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(frame)

BOOST_AUTO_TEST_CASE(frame_has_the_build_direction_third_and_is_a_proper_rotation) {
  const Eigen::Vector3d builds[] = {{0, 0, 1}, {0, 0, -5}, {1, 0, 0}, {1, 1, 1}, {1e-9, 2, 3}};

  for (const Eigen::Vector3d& build : builds) {
    const Frame frame = frame_along(build);
    BOOST_TEST(near(frame.transpose() * frame, Frame::Identity(), 1e-15));
    BOOST_TEST(frame.determinant() == 1.0, tt::tolerance(1e-14));
    BOOST_TEST(near(frame.col(2), build.normalized(), 1e-15));
  }
  BOOST_TEST(near(frame_along(Eigen::Vector3d(0, 0, 2)), Frame::Identity(), 0.0));
}

BOOST_AUTO_TEST_CASE(bead_lies_in_the_layer_as_near_as_it_can_to_the_wish) {
  const Frame frame = frame_along(Eigen::Vector3d(0, 0, 1), Eigen::Vector3d(3, 4, 7));

  BOOST_TEST(near(frame.col(0), Eigen::Vector3d(0.6, 0.8, 0.0), 1e-15));
}

BOOST_AUTO_TEST_CASE(directions_without_length_are_refused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Eigen::Vector3d z(0, 0, 1);

  BOOST_TEST(refused([] { frame_along(Eigen::Vector3d::Zero()); }, "no usable length"));
  BOOST_TEST(refused([&] { frame_along(Eigen::Vector3d(0, nan, 1)); }, "no usable length"));
  BOOST_TEST(refused([&] { frame_along(z, Eigen::Vector3d(0, 0, 3)); }, "is parallel"));
  BOOST_TEST(refused([&] { rotate_stiffness(stiffness(isotropic(1, 0)), -Frame::Identity()); },
                     "not a proper rotation"));
}

BOOST_AUTO_TEST_CASE(stress_turned_into_material_axes_and_back_is_the_same) {
  const Frame frame = frame_along(Eigen::Vector3d(1, 2, 3), Eigen::Vector3d(0, 1, 0));
  const Vector6d stress{{3, -1, 4, 1, -5, 9}};

  const Vector6d material = stress_in_material_axes(stress, frame);

  BOOST_TEST(near(stress_rotation(frame) * material, stress, 1e-14));
  const Eigen::Vector3d n = frame.col(2);
  Eigen::Matrix3d tensor;
  tensor << 3, 9, -5, 9, -1, 1, -5, 1, 4;
  BOOST_TEST(material[2] == n.dot(tensor * n), tt::tolerance(1e-13));  // Cauchy's relation
}

BOOST_AUTO_TEST_CASE(free_expansion_strains_a_stiff_frame_without_stress_of_its_own) {
  const Frame frame = frame_along(Eigen::Vector3d(1, 2, 3));
  const Vector6d strain = thermal_strain_per_kelvin(Eigen::Vector3d(2e-5, 2e-5, 2.5e-4), frame);

  const Eigen::Vector3d n = frame.col(2);  // elongation along the build axis is its CTE
  const double along = n[0] * n[0] * strain[0] + n[1] * n[1] * strain[1] + n[2] * n[2] * strain[2] +
                       n[1] * n[2] * strain[3] + n[0] * n[2] * strain[4] + n[0] * n[1] * strain[5];
  BOOST_TEST(along == 2.5e-4, tt::tolerance(1e-13));
  BOOST_TEST(strain.head<3>().sum() == 2.9e-4, tt::tolerance(1e-13));
}

BOOST_AUTO_TEST_SUITE_END()
