// SPDX-License-Identifier: GPL-3.0-or-later
// Loads whose exact answer is a stress linear in position, hence a quadratic displacement, which
// straight-sided elements hold exactly. Turned orthotropic blocks, free of supports.
#include <boost/test/unit_test.hpp>
#include <functional>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

const Point size(30.0, 12.0, 10.0);
constexpr double density = 1.2e-9;  // [tonne/mm^3]
constexpr double gravity = 9.81e6;  // a thousand times the earth's, for a weight that tells
constexpr double weight = density * gravity;  // [N/mm^3]

Model free_block() {
  SolidMaterial material = elastic_material({3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700},
                                            Point(2e-5, 5e-5, 2.5e-4));
  material.density = density;
  Model model;
  model.mesh = testing::box_mesh({3, 2, 2}, size);
  model.field = same_everywhere(model.mesh, material, skew_frame());
  return model;
}

/// Largest departure from the expected stress as a share of `scale`; NaN stays NaN.
double departure(const Model& model, const Answer& answer,
                 const std::function<Vector6d(const Point&)>& expected, double scale) {
  Eigen::VectorXd departures(answer.stress.cols());
  for (Eigen::Index i = 0; i < answer.stress.cols(); ++i) {
    const Point x = model.mesh.nodes.col(answer.points[i].node);
    departures[i] =
        (answer.stress.col(i) - expected(x)).cwiseAbs().maxCoeff<Eigen::PropagateNaN>() / scale;
  }
  return departures.maxCoeff<Eigen::PropagateNaN>();
}

void check_exact(const std::string& id, const std::string& what, const std::string& source,
                 double obtained) {
  check({Chapter::patch, id, what + ": largest departure of stress, share of the largest stress",
         source, 0.0, absolute(1e-9, "exact in the element's space; round-off")},
        obtained);
}

BOOST_AUTO_TEST_SUITE(linear_stress)

BOOST_AUTO_TEST_CASE(a_hanging_block_is_stretched_by_what_hangs_below) {
  const Model model = free_block();
  const double carried = weight * size.z();

  const Answer answer = solve(model, body_load(model.mesh, model.field, Point(0, 0, -gravity)) +
                                         pressure_load(model.mesh, {testing::zeta_high},
                                                       [&](const Point&) { return -carried; }));

  check_exact("A8 hanging", "turned orthotropic block hanging by its top",
              "exact: Timoshenko and Goodier, Theory of Elasticity, prism under its own weight",
              departure(
                  model, answer,
                  [](const Point& x) {
                    Vector6d stress = Vector6d::Zero();
                    stress[2] = weight * x.z();
                    return stress;
                  },
                  carried));
}

BOOST_AUTO_TEST_CASE(a_block_afloat_in_a_fluid_of_its_own_density_is_squeezed_as_the_fluid) {
  const Model model = free_block();
  const double surface = 25.0;  // above the bottom [mm]
  const auto head = [&](const Point& x) { return weight * (surface - x.z()); };
  std::vector<FaceId> all;
  for (int side = 1; side <= 6; ++side) all.push_back(FaceId{side});

  const Answer answer = solve(model, body_load(model.mesh, model.field, Point(0, 0, -gravity)) +
                                         pressure_load(model.mesh, all, head));

  check_exact("A8 afloat", "block of the fluid's density under its head on all sides",
              "exact: hydrostatics (Archimedes)",
              departure(
                  model, answer,
                  [&](const Point& x) {
                    Vector6d stress = Vector6d::Zero();
                    stress.head<3>().setConstant(-head(x));
                    return stress;
                  },
                  weight * surface));
}

BOOST_AUTO_TEST_CASE(moments_spread_over_the_ends_bend_a_block_as_saint_venant_says) {
  const Model model = free_block();
  // About y and z at once, and a pull: sigma_x = F/A + M_y (z - c)/I_y - M_z (y - c)/I_z.
  const double pull = 240.0, about_y = 700.0, about_z = -500.0;
  const double area = size.y() * size.z();
  const double I_y = area * size.z() * size.z() / 12.0, I_z = area * size.y() * size.y() / 12.0;
  const Point force(pull, 0, 0), moment(0, about_y, about_z);

  const Answer answer =
      solve(model, spread_force(model.mesh, {testing::xi_high}, force, moment) +
                       spread_force(model.mesh, {testing::xi_low}, -force, -moment));

  const auto expected = [&](const Point& x) {
    Vector6d stress = Vector6d::Zero();
    stress[0] = pull / area + about_y * (x.z() - size.z() / 2.0) / I_y -
                about_z * (x.y() - size.y() / 2.0) / I_z;
    return stress;
  };
  check_exact("A8 bent", "turned orthotropic block under end moments and a pull",
              "exact: pure bending (handbook form)",
              departure(model, answer, expected, expected(size)[0]));
}

BOOST_AUTO_TEST_CASE(a_block_warmed_linearly_warps_without_stress) {
  const Model model = free_block();
  const Eigen::VectorXd heat = model.mesh.nodes.transpose() * Point(2.0, -3.0, 4.0);  // [K]

  const Answer answer = solve(model, thermal_load(model.mesh, model.field, heat), heat);

  check_exact("A8 warmed linearly",
              "turned orthotropic block, free, ΔT linear in position "
              "(against E_1 α_3 ΔT)",
              "exact: Boley and Weiner, Theory of Thermal Stresses, linear temperature",
              departure(
                  model, answer, [](const Point&) { return Vector6d(Vector6d::Zero()); },
                  3000 * 2.5e-4 * heat.cwiseAbs().maxCoeff()));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
