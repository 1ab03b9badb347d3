// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cases/case_text.h"

#include <boost/test/unit_test.hpp>
#include <stdexcept>

namespace crossgrain::testing {

CaseFile case_from(const std::string& text) {
  const CaseFolder folder;
  return read_case(folder.write(text));
}

std::string refusal_of(const std::string& text) {
  const CaseFolder folder;
  try {
    read_case(folder.write(text));
  } catch (const std::invalid_argument& error) {
    std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    for (auto at = message.find(prefix); at != std::string::npos; at = message.find(prefix)) {
      message.erase(at, prefix.size());
    }
    return message;
  }
  return "";
}

bool says(const std::string& message, const std::string& part) {
  if (message.find(part) != std::string::npos) return true;
  BOOST_TEST_MESSAGE("expected: " << part << "\nobtained: " << message);
  return false;
}

}  // namespace crossgrain::testing
