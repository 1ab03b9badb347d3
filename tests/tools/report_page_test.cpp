// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/report_page.h"

#include <boost/test/unit_test.hpp>

#include "tests/tools/synthetic_run.h"
#include "tools/results/page_arrays.h"
#include "tools/results/page_fields.h"
#include "tools/results/page_html.h"
#include "tools/results/page_sums.h"
#include "tools/results/summary_json.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

std::string base64_of(const std::string& text) { return base64({text.begin(), text.end()}); }

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

std::string page_of(const SyntheticRun& run) {
  return report_page(run.outputs(), summary_json(run.outputs()), {});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(report_page_suite)

BOOST_AUTO_TEST_CASE(base64_is_the_standards) {  // RFC 4648, section 10: test vectors
  BOOST_TEST(base64_of("") == "");
  BOOST_TEST(base64_of("f") == "Zg==");
  BOOST_TEST(base64_of("fo") == "Zm8=");
  BOOST_TEST(base64_of("foo") == "Zm9v");
  BOOST_TEST(base64_of("foob") == "Zm9vYg==");
  BOOST_TEST(base64_of("fooba") == "Zm9vYmE=");
  BOOST_TEST(base64_of("foobar") == "Zm9vYmFy");
}

BOOST_AUTO_TEST_CASE(vertices_are_the_stress_points_and_corners_come_first) {
  const SyntheticRun run;

  const PageMesh mesh = page_mesh(run.outputs());

  BOOST_TEST(mesh.point_of_vertex.size() == run.points.size());
  BOOST_TEST(mesh.corners + mesh.middle_ends.size() == run.points.size());
  BOOST_TEST(mesh.tetrahedra.size() ==
             static_cast<std::size_t>(run.meshed.mesh.tetrahedron_count()));
  BOOST_TEST(mesh.surface.size() == static_cast<std::size_t>(run.meshed.mesh.triangle_count()));
  // Edges of the bar are straight: each middle lies half way between its ends.
  const auto place = [&](std::size_t vertex) -> Eigen::Vector3d {
    return run.meshed.mesh.nodes.col(run.points[mesh.point_of_vertex[vertex]].node);
  };
  for (std::size_t i = 0; i < mesh.middle_ends.size(); ++i) {
    const auto& [a, b] = mesh.middle_ends[i];
    BOOST_TEST((place(mesh.corners + i) - 0.5 * (place(a) + place(b))).norm() < 1e-9);
    BOOST_TEST(
        (run.points[mesh.point_of_vertex[a]].body == run.points[mesh.point_of_vertex[b]].body));
  }
}

BOOST_AUTO_TEST_CASE(each_surface_triangle_is_the_tetrahedrons_side_on_its_cad_face) {
  const SyntheticRun run;
  const PageMesh mesh = page_mesh(run.outputs());

  std::map<int, int> triangles_of_face;
  for (std::size_t i = 0; i < mesh.surface.size(); ++i)
    ++triangles_of_face[number(mesh.face_of_surface[i])];

  std::map<int, int> expected;
  for (const FaceId face : run.meshed.mesh.face_of_triangle) ++expected[number(face)];
  BOOST_TEST((triangles_of_face == expected));
  for (const std::uint32_t code : mesh.surface) BOOST_TEST(code / 4 < mesh.tetrahedra.size());
}

BOOST_AUTO_TEST_CASE(rounding_is_no_coarser_than_the_bits_allow) {
  const SyntheticRun run;
  const PageMesh mesh = page_mesh(run.outputs());

  for (const PackedArray& array : page_factors(run.outputs(), mesh, 1, {12, true})) {
    BOOST_TEST(array.count == run.points.size());
    // 16 doublings in 14 bits.
    if (array.name == "1.log2_factor") BOOST_TEST(array.step < 16.0 / 16000.0);
  }
  for (const PackedArray& array : page_stresses(run.outputs(), mesh, 1, {12, true})) {
    BOOST_TEST(array.count == run.points.size());
    // The range of the bar's displacements is below 100.
    if (array.name == "1.z") BOOST_TEST(array.step < 100.0 / 4000.0);
  }
}

BOOST_AUTO_TEST_CASE(cases_that_are_sums_of_others_are_told_by_what_they_count) {
  const SyntheticRun run;
  std::vector<CaseResult> cases;
  const auto add = [&](double a, double b) {
    CaseResult sum = run.result.cases[0];
    const Eigen::Index stresses = sum.fields.stress.cols();
    for (Eigen::Index i = 0; i < stresses; ++i) {
      const double x = static_cast<double>(i) / static_cast<double>(stresses);
      sum.fields.stress.col(i).setConstant(a * x + b * x * x);
    }
    sum.fields.displacement.setConstant(1e-3 * (a - b));
    cases.push_back(std::move(sum));
  };
  add(1.0, 0.0);
  add(1.0, 1.0);
  add(0.0, 0.0);
  add(-2.0, 5.0);

  const CaseSums sums = sums_of_cases(cases);

  BOOST_TEST(sums.carried.size() == 2U);
  BOOST_TEST_REQUIRE(sums.counts.cols() == 4);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    Eigen::MatrixXd told = Eigen::MatrixXd::Zero(6, cases[i].fields.stress.cols());
    for (std::size_t k = 0; k < sums.carried.size(); ++k)
      told += sums.counts(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(i)) *
              cases[sums.carried[k]].fields.stress;
    BOOST_TEST((told - cases[i].fields.stress).lpNorm<Eigen::Infinity>() < 1e-9);
  }
}

BOOST_AUTO_TEST_CASE(a_case_that_is_not_a_sum_or_not_a_number_is_carried_itself) {
  const SyntheticRun run;
  std::vector<CaseResult> cases = {run.result.cases[0], run.result.cases[0]};
  // A hundredth of one stress is more than rounding.
  cases[1].fields.stress(2, 3) += 0.01 * cases[1].fields.stress.lpNorm<Eigen::Infinity>();
  BOOST_TEST(sums_of_cases(cases).carried.size() == 2U);
  cases[1] = cases[0];
  BOOST_TEST(sums_of_cases(cases).carried.size() == 1U);
  cases[1].fields.stress(0, 0) = std::numeric_limits<double>::quiet_NaN();
  BOOST_TEST(sums_of_cases(cases).carried.size() == 2U);
}

BOOST_AUTO_TEST_CASE(hostile_names_open_no_element) {
  const std::string plain = page_of(SyntheticRun());
  const std::string hostile = page_of(hostile_run());

  BOOST_TEST(count_of(hostile, "<") == count_of(plain, "<"));
  BOOST_TEST(count_of(hostile, "</script") == count_of(plain, "</script"));
}

BOOST_AUTO_TEST_CASE(which_constant_to_measure_is_said_in_the_units_asked_for) {
  SyntheticRun run;
  const auto page = [&] {
    return report_page(run.outputs(), summary_json(run.outputs()), {PressureUnit::bar});
  };
  // Two of three constants move the factor by more than a hundredth.
  BOOST_TEST(count_of(page(), "\"known\": ") == 2U);
  BOOST_TEST(count_of(page(), "\"known\": \"67.5 to 120 bar\"") == 1U);
  BOOST_TEST(count_of(page(), "\"factor\": \"about 3.8 to 3\"") == 1U);
  run.result.constant_effects.clear();
  BOOST_TEST(count_of(page(), "\"constants\": null") == 1U);
}

BOOST_AUTO_TEST_CASE(a_page_fetches_nothing_and_says_so_itself) {
  const std::string page = page_of(SyntheticRun());

  BOOST_TEST(page.find("default-src 'none'; script-src 'sha256-") != std::string::npos);
  BOOST_TEST(page.find("unsafe-inline") == std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
