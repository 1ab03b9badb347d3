// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/check_table.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <utility>
#include <vector>

namespace crossgrain::verification {
namespace {

struct Row {
  Check check;
  double obtained;
};

std::vector<Row>& rows() {
  static std::vector<Row> kept;
  return kept;
}

const std::vector<std::pair<Chapter, const char*>> chapters = {
    {Chapter::patch, "Patch tests and other answers that the elements hold exactly"},
    {Chapter::standard_benchmarks, "Published benchmarks"},
    {Chapter::cylinders_and_spheres, "Isotropic cylinders and spheres under pressure"},
    {Chapter::wound_cylinders, "Cylinders with the strong axis along the hoop"},
    {Chapter::off_axis_bars, "Bars pulled off the material axes"},
    {Chapter::plates, "Plates and shells"},
    {Chapter::stress_concentrations, "Round holes"},
    {Chapter::surface_stress, "Stress at the surface, on meshes of default size"},
    {Chapter::bead_fit, "Stress as a bead feels it"},
    {Chapter::error_estimates, "What the program says of its own error"},
    {Chapter::criteria, "Failure criteria"},
    {Chapter::screws, "Screws and what they clamp"},
    {Chapter::gaskets, "Gaskets"},
    {Chapter::contact, "Bodies that press on each other"},
    {Chapter::convergence, "Order of convergence"},
    {Chapter::invariance, "Turned together"},
    {Chapter::same_mesh, "The same mesh in a general-purpose library"},
    {Chapter::trade_facts, "Trade facts"},
};

const char* head =
    R"(# Checks against the outside

Every row is a value known from outside this project, computed anew by the test program `test_verification`. The test
`verification_table` compares this file with what the program writes: letter by letter, the obtained values to a tenth of
their tolerance (another processor may lead to another mesh). To write it again, from the root:

    CROSSGRAIN_VERIFICATION_TABLE=tests/VERIFICATION.md build/release/tests/verification/test_verification

Units are mm, N, MPa unless the row says otherwise. Obtained values are rounded to four significant digits, so that the
last bits of a machine do not show; a value whose target is zero is given as the bound that it keeps.
)";

/// Four significant digits; nudged off ties (a target of 1.6875 is one), which round-off would
/// decide otherwise on another machine.
std::string rounded(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", value * (1.0 + 1e-7));
  return text;
}

std::string shortest(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.7g", value);
  return text;
}

std::string words(const Tolerance& tolerance) {
  switch (tolerance.kind) {
    case Tolerance::Kind::fraction:
      return tolerance.size < 1e-4 ? shortest(tolerance.size) + " of it"
                                   : shortest(100.0 * tolerance.size) + " %";
    case Tolerance::Kind::absolute:
      return "± " + shortest(tolerance.size);
    case Tolerance::Kind::factor:
      return "× or ÷ " + shortest(tolerance.size);
  }
  throw std::logic_error("unknown kind of tolerance");
}

bool within(const Check& check, double obtained) {
  const double size = check.tolerance.size;
  switch (check.tolerance.kind) {
    case Tolerance::Kind::fraction:
      return std::abs(obtained - check.target) <= size * std::abs(check.target);
    case Tolerance::Kind::absolute:
      return std::abs(obtained - check.target) <= size;
    case Tolerance::Kind::factor:
      return obtained >= check.target / size && obtained <= check.target * size;
  }
  return false;
}

std::string obtained_words(const Row& row) {
  if (row.check.target == 0.0 && within(row.check, row.obtained))
    return "below " + shortest(row.check.tolerance.size);
  return rounded(row.obtained);
}

void write_chapter(std::ostream& out, Chapter chapter, const char* title) {
  out << "\n## " << title << "\n\n"
      << "| id | check | source | target | obtained | tolerance | why this tolerance |\n"
      << "|---|---|---|---|---|---|---|\n";
  for (const Row& row : rows()) {
    if (row.check.chapter != chapter) continue;
    out << "| " << row.check.id << " | " << row.check.what << " | " << row.check.source << " | "
        << shortest(row.check.target) << " | " << obtained_words(row) << " | "
        << words(row.check.tolerance) << " | " << row.check.tolerance.reason << " |\n";
  }
}

/// Writes the table after the last test, if the environment names a file for it.
struct TableWriter {
  void teardown() {
    const char* file = std::getenv("CROSSGRAIN_VERIFICATION_TABLE");
    if (!file) return;
    std::ofstream out(file);
    out << head;
    for (const auto& [chapter, title] : chapters) write_chapter(out, chapter, title);
    out.close();
    if (!out) throw std::runtime_error(std::string("cannot write ") + file);
  }
};
BOOST_TEST_GLOBAL_FIXTURE(TableWriter);

}  // namespace

Tolerance fraction(double size, std::string reason) {
  return {size, Tolerance::Kind::fraction, std::move(reason)};
}

Tolerance absolute(double size, std::string reason) {
  return {size, Tolerance::Kind::absolute, std::move(reason)};
}

Tolerance within_factor(double size, std::string reason) {
  return {size, Tolerance::Kind::factor, std::move(reason)};
}

void check(const Check& check, double obtained) {
  const bool known = std::any_of(rows().begin(), rows().end(),
                                 [&](const Row& row) { return row.check.id == check.id; });
  if (known) throw std::logic_error("two checks are called " + check.id);
  rows().push_back({check, obtained});
  // NaN fails both: every comparison with it is false.
  BOOST_TEST(std::isfinite(obtained), check.id << ": " << obtained << " is not finite");
  BOOST_TEST(within(check, obtained), check.id << ": obtained " << obtained << ", target "
                                               << check.target << ", tolerance "
                                               << words(check.tolerance));
}

}  // namespace crossgrain::verification
