// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <boost/test/unit_test.hpp>
#include <stdexcept>
#include <string>

namespace crossgrain::testing {

/// Whether calling `action` refuses bad input with a message that holds `part`.
/// Use as BOOST_TEST(refused([] { ... }, "part of the message")): prints the message met instead.
template <class Action>
boost::test_tools::assertion_result refused(Action action, const std::string& part) {
  boost::test_tools::assertion_result result(false);
  try {
    action();
    result.message() << "nothing was thrown; expected \"" << part << "\"";
  } catch (const std::invalid_argument& error) {
    result = std::string(error.what()).find(part) != std::string::npos;
    result.message() << "the message is \"" << error.what() << "\"; expected in it \"" << part
                     << "\"";
  }
  return result;
}

}  // namespace crossgrain::testing
