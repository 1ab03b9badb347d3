// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/report_page.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include "cases/studies/printability.h"
#include "tools/results/constants_words.h"
#include "tools/results/page_about.h"
#include "tools/results/page_fields.h"
#include "tools/results/page_html.h"
#include "tools/results/page_sums.h"
#include "tools/results/page_surface.h"

namespace crossgrain {
namespace {

// Where even values at the corners alone are too many the page is as large as it is.
constexpr PagePrecision finest = {13, true};
constexpr int least_bits = 9;
constexpr int bits_at_corners = 10;

Json joint_modes_json() {
  Json modes = Json::array();
  for (int i = 0; i <= static_cast<int>(JointMode::screw_pitch); ++i) {
    const auto mode = static_cast<JointMode>(i);
    modes.push_back({{"name", name_of(mode)}, {"words", words(mode)}});
  }
  return modes;
}

/// Which constant to measure, in words; null if there is nothing to say.
Json constants_json(const RunResult& result, const ReadingUnits& units) {
  const auto words = constants_words(result, units);
  if (!words) return nullptr;
  Json rows = Json::array();
  for (const ConstantsWords::Row& row : words->rows)
    rows.push_back(
        {{"name", row.name}, {"known", row.known}, {"factor", row.factor}, {"how", row.how}});
  return {{"before", words->before},
          {"name", words->name},
          {"after", words->after},
          {"rows", std::move(rows)},
          {"notes", words->notes}};
}

/// The modelled bodies, in the order of summary.json, with how many tetrahedra each has.
Json bodies_json(const RunOutputs& outputs, const PageMesh& mesh) {
  Json bodies = Json::array();
  for (const Body& body : outputs.meshed.geometry.bodies) {
    if (!body.modelled) continue;
    bodies.push_back({{"tetrahedra", mesh.tetrahedra_of_body[index(body.id)]}});
  }
  return bodies;
}

/// How each modelled body stands on the plate.
Json stands_json(const RunOutputs& outputs) {
  const double overhang_angle = outputs.case_file.directions.overhang_angle;
  const Geometry& geometry = outputs.meshed.geometry;
  Json out = plate_json(geometry, outputs.cavity, overhang_angle);
  for (std::size_t i = 0; i < out["bodies"].size(); ++i) {
    Json& body = out["bodies"][i];
    const BodyId id{body["id"].get<int>()};
    body["print"] = print_json(printability(geometry, {id}, outputs.result.print_directions.at(i),
                                            overhang_angle, outputs.cavity));
  }
  return out;
}

Json sums_json(const CaseSums& sums) {
  Json out = Json::array();
  for (Eigen::Index i = 0; i < sums.counts.cols(); ++i) {
    Json sum = Json::array();
    for (Eigen::Index k = 0; k < sums.counts.rows(); ++k) {
      const double count = sums.counts(k, i);
      if (count != 0.0)
        sum.push_back({{"carried", sums.carried[static_cast<std::size_t>(k)]}, {"count", count}});
    }
    out.push_back(std::move(sum));
  }
  return out;
}

std::vector<PackedArray> all_arrays(const RunOutputs& outputs, const PageMesh& mesh,
                                    const CaseSums& sums, const PagePrecision& precision) {
  std::vector<PackedArray> arrays = page_shape(outputs, mesh, precision.middles);
  const auto add = [&](std::vector<PackedArray> more) {
    std::move(more.begin(), more.end(), std::back_inserter(arrays));
  };
  for (std::size_t i = 0; i < outputs.result.cases.size(); ++i)
    add(page_factors(outputs, mesh, i, precision));
  for (const std::size_t i : sums.carried) add(page_stresses(outputs, mesh, i, precision));
  add(surface_arrays(outputs.meshed.geometry));
  return arrays;
}

/// What to try after a page that was too large: of the bits that are left out none packs well.
std::optional<PagePrecision> coarser(const PagePrecision& precision, std::size_t excess,
                                     std::size_t values) {
  if (!precision.middles) return std::nullopt;
  if (precision.bits == least_bits) return PagePrecision{bits_at_corners, false};
  const double of_one_bit = static_cast<double>(values) / 8.0 * 4.0 / 3.0;  // in base64
  const int fewer = static_cast<int>(std::ceil(static_cast<double>(excess) / of_one_bit));
  return PagePrecision{std::max(least_bits, precision.bits - std::max(1, fewer)), true};
}

}  // namespace

std::string report_page(const RunOutputs& outputs, const std::string& summary,
                        const ReadingUnits& units) {
  const PageMesh mesh = page_mesh(outputs);
  const CaseSums sums = sums_of_cases(outputs.result.cases);
  Json about = {{"governing_case", governing_case_index(outputs.result)},
                {"pressure_unit", pressure_unit_json(units)},
                {"modes", modes_json()},
                {"joint_modes", joint_modes_json()},
                {"faces", faces_json(outputs.meshed.geometry, outputs.features)},
                {"bodies", bodies_json(outputs, mesh)},
                {"constants", constants_json(outputs.result, units)},
                {"sums", sums_json(sums)},
                {"plate", stands_json(outputs)}};
  const std::size_t values =
      mesh.point_of_vertex.size() * (outputs.result.cases.size() + 9 * sums.carried.size());
  std::string page;
  for (std::optional<PagePrecision> precision = finest; precision;
       precision = coarser(*precision, page.size() - page_size_wanted, values)) {
    const std::vector<PackedArray> arrays = all_arrays(outputs, mesh, sums, *precision);
    about["bits"] = precision->bits;
    about["middles"] = precision->middles;
    about["arrays"] = arrays_json(arrays);
    page = page_html(
        "report", {{"summary", summary}, {"page", finished(about, NotANumber::refused)}}, arrays);
    if (page.size() <= page_size_wanted) break;
  }
  return page;
}

}  // namespace crossgrain
