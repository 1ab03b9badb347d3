// SPDX-License-Identifier: GPL-3.0-or-later
// A8: what a distorted patch of elements with curved inner sides must reproduce to round-off.
#include <boost/test/unit_test.hpp>

#include "tests/verification/bar.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

constexpr double distortion = 0.15;  // of a cell
const Tolerance round_off =
    absolute(1e-9, "exact in the element's space; round-off times the condition of the matrix");

void check_patch(const std::string& id, const std::string& what, double obtained) {
  check({Chapter::patch, id, what, "exact: patch test (Irons)", 0.0, round_off}, obtained);
}

/// Largest departure from `expected` as a share of `scale`; NaN stays NaN.
double departure(const Answer& answer, const Vector6d& expected, double scale) {
  return (answer.stress.colwise() - expected).cwiseAbs().maxCoeff<Eigen::PropagateNaN>() / scale;
}

const OrthotropicConstants orthotropic_body{3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700};

void check_constant_stress(const std::string& id, const std::string& body,
                           const OrthotropicConstants& constants) {
  Vector6d stress;
  stress << 7.0, -3.0, 5.0, 2.0, -4.0, 1.5;  // every component, no two alike
  const Frame frame = skew_frame();

  const StressedBlock block =
      stressed_block(elastic_material(constants), frame, stress, distortion);

  check_patch(id + " stress", body + ": largest departure from constant stress, share of it",
              departure(block.answer, stress, 7.0));
  check_patch(id + " displacement", body + ": largest departure from a linear displacement",
              fitted_strain(block).misfit);
}

BOOST_AUTO_TEST_SUITE(patch)

BOOST_AUTO_TEST_CASE(a_distorted_isotropic_patch_carries_constant_stress) {
  check_constant_stress("A8 isotropic", "isotropic", isotropic(2000, 0.35));
}

BOOST_AUTO_TEST_CASE(a_distorted_turned_orthotropic_patch_carries_constant_stress) {
  check_constant_stress("A8 orthotropic", "turned orthotropic", orthotropic_body);
}

BOOST_AUTO_TEST_CASE(a_turned_orthotropic_block_warms_without_stress) {
  const Eigen::Vector3d expansion(2e-5, 5e-5, 2.5e-4);
  const double kelvin = 60.0;
  const Frame frame = skew_frame();

  const StressedBlock block =
      warmed_block(elastic_material(orthotropic_body, expansion), frame, kelvin, distortion);

  const Vector6d strain = strain_in_axes(fitted_strain(block).strain, frame);
  Vector6d expected = Vector6d::Zero();
  expected.head<3>() = kelvin * expansion;
  check_patch(
      "A8 warmed stress",
      "turned orthotropic block, free, ΔT 60 K: largest stress, share of E_1 α_3 ΔT",
      departure(block.answer, Vector6d::Zero(), orthotropic_body.E_1 * expected.maxCoeff()));
  check_patch("A8 warmed strain",
              "the same block: departure of the strain in material axes from α ΔT, share of it",
              (strain - expected).cwiseAbs().maxCoeff<Eigen::PropagateNaN>() / expected.maxCoeff());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
