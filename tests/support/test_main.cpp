// SPDX-License-Identifier: GPL-3.0-or-later
#define BOOST_TEST_NO_MAIN
#include <boost/test/unit_test.hpp>

int main(int argc, char** argv) {
  return boost::unit_test::unit_test_main([] { return true; }, argc, argv);
}
