// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <boost/test/unit_test.hpp>

namespace crossgrain::testing {

/// Whether two matrices or fields agree to a fraction of the largest expected entry; both must be
/// finite. Use as BOOST_TEST(near(obtained, expected, 1e-9)): prints both when they differ.
template <class Obtained, class Expected>
boost::test_tools::assertion_result near(const Eigen::MatrixBase<Obtained>& obtained,
                                         const Eigen::MatrixBase<Expected>& expected,
                                         double fraction) {
  boost::test_tools::assertion_result result(true);
  const bool same_shape = obtained.rows() == expected.rows() && obtained.cols() == expected.cols();
  const bool finite = obtained.allFinite() && expected.allFinite();
  const double scale = finite && expected.size() ? expected.cwiseAbs().maxCoeff() : 0.0;
  const double largest_difference =
      finite && same_shape && expected.size() ? (obtained - expected).cwiseAbs().maxCoeff() : 0.0;
  if (same_shape && finite && largest_difference <= fraction * scale) return result;
  result = false;
  result.message() << "largest difference " << largest_difference << ", allowed "
                   << fraction * scale << "\nobtained\n";
  if (obtained.size() <= 400) {
    result.message() << obtained << "\nexpected\n" << expected << "\n";
  } else {
    result.message() << obtained.rows() << " x " << obtained.cols() << ", expected "
                     << expected.rows() << " x " << expected.cols() << "\n";
  }
  return result;
}

}  // namespace crossgrain::testing
