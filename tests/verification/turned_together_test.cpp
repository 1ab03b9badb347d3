// SPDX-License-Identifier: GPL-3.0-or-later
// Mesh, load and print direction turned together: the answer turns with them and nothing else.
#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>

#include "materials/failure/failure.h"
#include "solver/loads/loads.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

struct Outcome {
  Eigen::Matrix3Xd displacement;
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress;  ///< material axes
  double energy;
  double factor;  ///< least over points and modes
};

/// A layered bend, clamped at one end, under pressure, a side force and its own weight, warmed.
Outcome outcome_turned_by(const Eigen::Matrix3d& Q) {
  const CylinderSector shape{20, 30, 1.0, 12};
  const Point build = Q * Point(0.3, -0.5, 0.8);
  SolidMaterial material = elastic_material({3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700},
                                            Point(2e-5, 4e-5, 2e-4));
  material.strength = LayeredStrength{60, 70, 30, 60, 25};
  Model model;
  const auto unturned = shape.map();
  model.mesh =
      testing::block_mesh({2, 4, 2}, [&](const Point& unit) { return Point(Q * unturned(unit)); });
  // The bead direction turns with the body; the build direction alone would leave it open.
  const Frame frame = frame_along(build, Q * Point(1, 0, 0));
  model.field = same_everywhere(model.mesh, material, frame);
  model.held = constraints_of(model.mesh, {{"clamp", {testing::eta_low}, Hold::all}});
  const Eigen::VectorXd heat = Eigen::VectorXd::Constant(model.mesh.node_count(), 5.0);
  const Eigen::VectorXd load = pressure_load(model.mesh, {bore}, [](const Point&) { return 2.0; }) +
                               spread_force(model.mesh, {testing::eta_high},
                                            Q * Point(100, -50, 80), Q * Point(50, 0, 300)) +
                               body_load(model.mesh, model.field, Q * Point(0, 0, -9.81e6)) +
                               thermal_load(model.mesh, model.field, heat);

  const Answer answer = solve(model, load, heat);

  Outcome outcome;
  outcome.displacement = answer.displacement.reshaped(3, model.mesh.node_count());
  outcome.stress = answer.stress;
  outcome.factor = 1e300;
  for (Eigen::Index i = 0; i < answer.stress.cols(); ++i) {
    const Vector6d stress = stress_in_material_axes(answer.stress.col(i), frame);
    outcome.stress.col(i) = stress;
    for (FailureMode mode : governing_modes(material.strength, Criterion::interactive)) {
      const auto multiplier = load_multiplier(mode, material.strength, Vector6d::Zero(), stress);
      if (multiplier) outcome.factor = std::min(outcome.factor, *multiplier);
    }
  }
  outcome.energy = strain_energy(model.mesh, model.field, answer.displacement, heat);
  return outcome;
}

/// Largest difference as a share of the largest expected entry.
template <class Matrix>
double difference(const Matrix& obtained, const Matrix& expected) {
  return (obtained - expected).cwiseAbs().template maxCoeff<Eigen::PropagateNaN>() /
         expected.cwiseAbs().maxCoeff();
}

BOOST_AUTO_TEST_SUITE(turned_together)

BOOST_AUTO_TEST_CASE(mesh_load_and_print_direction_turned_together_give_the_same_answer) {
  const Eigen::Matrix3d Q = Eigen::AngleAxisd(2.0, Point(1, 2, -1.5).normalized()).matrix();

  const Outcome straight = outcome_turned_by(Eigen::Matrix3d::Identity());
  const Outcome turned = outcome_turned_by(Q);

  const auto row = [](const std::string& id, const std::string& what, double obtained) {
    check({Chapter::invariance, "turned " + id,
           "layered bend under pressure, force, moment, weight and warmth, all turned together: " +
               what,
           "exact: invariance", 0.0, absolute(1e-9, "round-off times the condition of the matrix")},
          obtained);
  };
  row("displacement", "difference of displacement, share of the largest",
      difference<Eigen::Matrix3Xd>(turned.displacement, Q * straight.displacement));
  row("stress", "difference of stress in material axes, share of the largest",
      difference(turned.stress, straight.stress));
  row("energy", "difference of strain energy, share of it", turned.energy / straight.energy - 1.0);
  row("factor", "difference of the least load multiplier, share of it",
      turned.factor / straight.factor - 1.0);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
