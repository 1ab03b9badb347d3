// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

#include "cases/case_file/case_file.h"
#include "tests/support/temporary_file.h"

namespace crossgrain::testing {

/// A folder for one case file, with an (empty) part.step beside it; gone afterwards.
class CaseFolder {
 public:
  CaseFolder() { folder_.file("part.step", ""); }

  const std::filesystem::path& path() const { return folder_.path(); }
  /// Write case.toml and give its path.
  std::filesystem::path write(const std::string& text) const {
    return folder_.file("case.toml", text);
  }

 private:
  TemporaryDirectory folder_;
};

/// One body on lines 1 to 4.
inline const std::string one_body = R"([[body]]
step_file = "part.step"
material = "petg"
print_direction = "+z"
)";

/// One body and one pressure, lines 5 to 8.
inline const std::string small_case = one_body + R"([[pressure]]
name = "working"
value = "0.4 MPa"
faces = { wetted_at = ["0 mm", "0 mm", "20 mm"] }
)";

/// Read this text as case.toml.
CaseFile case_from(const std::string& text);

/// What the reader says against this text, its folder left off so that lines begin with
/// "case.toml"; "" if it reads.
std::string refusal_of(const std::string& text);

/// For BOOST_TEST: whether `part` is in `message`; prints both.
bool says(const std::string& message, const std::string& part);

}  // namespace crossgrain::testing
