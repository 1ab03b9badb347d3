// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/directions_page.h"

#include "cases/case_file/case_sources.h"
#include "tools/results/direction_map_text.h"
#include "tools/results/page_about.h"
#include "tools/results/page_html.h"
#include "tools/results/page_surface.h"

namespace crossgrain {
namespace {

/// Of every direction of a map what the map shows of it.
Json map_json(const MappedPrint& mapped, const std::string& files) {
  const DirectionMap& map = mapped.map;
  Json bodies = Json::array();
  for (const BodyId body : mapped.print.bodies) bodies.push_back(number(body));
  Json nodes = Json::array();
  for (std::size_t d = 0; d < map.factors.size(); ++d) {
    const MappedFactors& factors = map.factors[d];
    const TradeOff& row = mapped.trade_offs[d];
    nodes.push_back(
        {{"up", json_vector(row.up)},
         {"factor", json_number(factors.worst())},
         {"mode", factors.governing ? Json(name_of(*factors.governing)) : Json(nullptr)},
         {"error", map.errors[d]},
         {"unbeaten", row.unbeaten},
         {"print", print_json(row.print)}});
  }
  return {{"print", mapped.print.name},
          {"bodies", std::move(bodies)},
          {"files", files},
          {"nodes", std::move(nodes)},
          {"reliance", map_reliance(map)}};
}

Json maps_json(const std::vector<MappedPrint>& maps) {
  const std::vector<std::string> files = map_files(maps);
  Json all = Json::array();
  for (std::size_t i = 0; i < maps.size(); ++i) all.push_back(map_json(maps[i], files[i]));
  return all;
}

Json joint_json(const DirectionOutputs& outputs) {
  Json remarks = Json::array();
  for (const auto& [row, words] : joint_remarks(outputs))
    remarks.push_back({{"row", row}, {"words", words}});
  return remarks;
}

/// With every body's print direction in the case.
Json standing_json(const DirectionOutputs& outputs) {
  Json plate =
      plate_json(outputs.geometry, outputs.cavity, outputs.case_file.directions.overhang_angle);
  const std::vector<Body>& bodies = outputs.geometry.bodies;
  const auto specs = spec_of_body(outputs.case_file, outputs.geometry);
  auto stands = plate["bodies"].begin();
  for (std::size_t i = 0; i < bodies.size(); ++i)
    if (bodies[i].modelled) (*stands++)["print_direction"] = json_vector(specs[i]->print_direction);
  return plate;
}

}  // namespace

std::string directions_page(const DirectionOutputs& outputs, const std::string& directions,
                            const ReadingUnits& units) {
  const std::vector<PackedArray> arrays = surface_arrays(outputs.geometry);
  const Json about = {{"case_file", outputs.case_file.file.string()},
                      {"pressure_unit", pressure_unit_json(units)},
                      {"modes", modes_json()},
                      {"faces", faces_json(outputs.geometry, outputs.features)},
                      {"plate", standing_json(outputs)},
                      {"maps", maps_json(outputs.maps)},
                      {"joint", joint_json(outputs)},
                      {"arrays", arrays_json(arrays)}};
  return page_html("directions",
                   {{"directions", directions}, {"page", finished(about, NotANumber::refused)}},
                   arrays);
}

}  // namespace crossgrain
