// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_sections.h"

#include <Eigen/Geometry>
#include <array>
#include <utility>

#include "cases/case_file/face_choice_reader.h"

namespace crossgrain {
namespace {

std::optional<std::filesystem::path> optional_path(const CaseTable& table, std::string_view key,
                                                   const std::filesystem::path& folder) {
  const auto text = table.optional_text(key);
  if (!text) return std::nullopt;
  return folder / *text;
}

std::optional<PressureLoad::Head> read_head(const CaseTable& pressure) {
  const auto tables = pressure.tables("head");
  if (tables.empty()) return std::nullopt;
  const CaseTable table(*tables.front(), "head", pressure.problems());
  return PressureLoad::Head{table.quantity("density"), table.quantity("free_surface"),
                            table.direction("up")};
}

Placement read_placement(const CaseTable& body) {
  Placement placement;
  placement.shift = body.optional_three("shift").value_or(placement.shift);
  const auto tables = body.tables("turn");
  if (tables.empty()) return placement;
  const CaseTable turn(*tables.front(), "turn", body.problems());
  placement.axis = turn.direction("axis");
  placement.angle = turn.quantity("angle");
  placement.about = turn.optional_three("about").value_or(placement.about);
  return placement;
}

}  // namespace

BodySpec read_body(const CaseTable& table, const std::filesystem::path& folder) {
  BodySpec body;
  body.place = table.place();
  body.step_file = optional_path(table, "step_file", folder).value_or("");
  body.name = table.optional_text("name").value_or("");
  body.material = table.text("material");
  body.print_direction = table.direction("print_direction");
  body.scale = table.number("scale");
  body.placement = read_placement(table);
  body.bead_width = table.optional_quantity("bead_width");
  return body;
}

Conditions read_conditions(const CaseTable& table) {
  Conditions conditions;
  conditions.service.temperature_K = table.quantity("temperature");
  conditions.service.moisture =
      table.text("moisture") == "conditioned" ? Moisture::conditioned : Moisture::dry;
  conditions.service.duration_s = table.quantity("duration");
  conditions.service.cycles = table.number("cycles");
  conditions.medium_name = table.text("medium");
  const bool liquid = conditions.medium_name == "water" || conditions.medium_name == "oil" ||
                      conditions.medium_name == "liquid";
  conditions.medium = liquid ? Medium::liquid : Medium::gas;
  conditions.fluid_bulk_modulus = table.quantity("fluid_bulk_modulus");
  conditions.trapped_air_fraction = table.quantity("trapped_air");
  return conditions;
}

PressureLoad read_pressure(const CaseTable& table) {
  PressureLoad load;
  load.place = table.place();
  load.name = table.text("name");
  load.value = table.quantity("value");
  load.faces = required_faces(table, "faces");
  load.scales = table.yes_no("scales");
  load.head = read_head(table);
  load.carried_by = table.texts_by_name("carried_by");
  if (load.value == 0.0 && !load.head) {
    table.refuse("value", "a pressure of zero does nothing; give a value or a head");
  }
  return load;
}

ForceLoad read_force(const CaseTable& table) {
  ForceLoad load;
  load.place = table.place();
  load.name = table.text("name");
  load.faces = required_faces(table, "faces");
  load.force = table.three("force");
  load.moment = table.three("moment");
  load.scales = table.yes_no("scales");
  const bool given = table.has("force") || table.has("moment");
  if (!given) table.refuse_table("neither force nor moment; give one or both");
  if (given && table.problems().none() && load.force.isZero(0.0) && load.moment.isZero(0.0)) {
    table.refuse_table("force and moment are zero; give a value or leave the table out");
  }
  return load;
}

AccelerationLoad read_acceleration(const CaseTable& table) {
  return {table.place(), table.text("name"), table.three("acceleration"), table.yes_no("scales")};
}

TemperatureLoad read_temperature_change(const CaseTable& table) {
  TemperatureLoad load{table.place(), table.text("name"), table.quantity("change"),
                       table.yes_no("scales")};
  load.faces = read_face_choice(table, "faces");
  load.other_faces = read_face_choice(table, "other_faces");
  load.other_change = table.quantity("other_change");
  if (table.has("faces") != table.has("other_faces"))
    table.refuse_table(
        "heat flows from faces to other_faces; give both, or neither for a change of the whole "
        "part");
  if (table.has("other_change") && !table.has("other_faces"))
    table.refuse("other_change", "goes with other_faces; add them, or leave this out");
  return load;
}

SupportSpec read_support(const CaseTable& table) {
  SupportSpec support;
  support.place = table.place();
  support.name = table.text("name");
  support.faces = required_faces(table, "faces");
  const std::string hold = table.text("hold");
  support.hold = hold == "normal"      ? Hold::normal
                 : hold == "direction" ? Hold::direction
                                       : Hold::all;
  const auto direction = table.optional_direction("direction");
  if (direction) support.direction = *direction;
  if (support.hold == Hold::direction && !table.has("direction")) {
    table.refuse("hold", "along which direction? add direction = \"+z\"");
  }
  if (support.hold != Hold::direction && table.has("direction")) {
    table.refuse("direction", "goes with hold = \"direction\"; write that, or leave this out");
  }
  return support;
}

LoadCaseSpec read_load_case(const CaseTable& table) {
  return {table.place(), table.text("name"), table.numbers_by_name("factors")};
}

ProbeSpec read_probe(const CaseTable& table) {
  ProbeSpec probe;
  probe.place = table.place();
  probe.name = table.text("name");
  probe.point = table.optional_three("point");
  probe.line = table.optional_line("line");
  probe.samples = table.whole("samples");
  probe.faces = read_face_choice(table, "faces");
  if (table.has("point") + table.has("line") + table.has("faces") != 1) {
    table.refuse_table("where? give exactly one of point, line, faces");
  }
  if (table.has("samples") && !table.has("line")) {
    table.refuse("samples", "goes with line; add it or leave this out");
  }
  if (table.has("samples") && probe.samples < 2) {
    table.refuse("samples", "a line has two ends; give at least 2");
  }
  return probe;
}

Targets read_targets(const CaseTable& table) {
  Targets targets;
  targets.safety_factor = table.number("safety_factor");
  targets.proof_factor = table.number("proof_factor");
  targets.proof_duration_s = table.quantity("proof_duration");
  targets.criterion = table.text("criterion") == "maximum_stress" ? Criterion::maximum_stress
                                                                  : Criterion::interactive;
  return targets;
}

MeshOptions read_mesh(const CaseTable& table, const std::filesystem::path& folder) {
  MeshOptions mesh;
  mesh.layers = table.whole("layers");
  mesh.size = table.optional_quantity("size");
  mesh.size_min = table.optional_quantity("size_min");
  mesh.elements_per_turn = table.number("elements_per_turn");
  mesh.refinement = table.number("refinement");
  mesh.unknowns_max = table.whole("unknowns_max");
  mesh.deterministic = table.yes_no("deterministic");
  // Rounded up: a limit of half a second must not become none.
  mesh.time_limit = std::chrono::ceil<std::chrono::seconds>(
      std::chrono::duration<double>(table.optional_quantity("time_limit").value_or(1.0)));
  mesh.mesh_file = optional_path(table, "file", folder);
  mesh.write_msh = optional_path(table, "write_msh", folder);
  if (mesh.mesh_file && mesh.write_msh) {
    table.refuse("write_msh", "a mesh that is read with file is written already; leave one out");
  }
  if (mesh.size && mesh.size_min && !(*mesh.size_min <= *mesh.size)) {
    table.refuse("size_min", "greater than size; make it smaller");
  }
  return mesh;
}

Refining read_refining(const CaseTable& table) {
  constexpr double least = 1e-3, greatest = 0.5;
  Refining refining;
  refining.worst_place = table.yes_no("refine_worst_place");
  refining.error = table.optional_quantity("error");
  refining.passes_max = table.whole("passes_max");
  refining.seconds_max = table.quantity("refine_for");
  if (refining.error && !(*refining.error >= least && *refining.error <= greatest))
    table.refuse("error", "not between 0.1 % and 50 % of the factor");
  return refining;
}

SolverOptions read_solve(const CaseTable& table) {
  constexpr double least = 1e-13, greatest = 1e-3;
  SolverOptions solve;
  const auto method = table.text("method");
  solve.method = method == "direct"      ? SolverMethod::direct
                 : method == "iterative" ? SolverMethod::iterative
                                         : SolverMethod::automatic;
  solve.tolerance = table.number("tolerance");
  if (!(solve.tolerance >= least && solve.tolerance <= greatest))
    table.refuse("tolerance", "not between 1e-13, where round-off begins, and 1e-3");
  return solve;
}

HandCalculationSpec read_hand_calculation(const CaseTable& table) {
  constexpr std::array<std::pair<std::string_view, HandShape>, 8> shapes = {{
      {"thin_cylinder", HandShape::thin_cylinder},
      {"thick_cylinder", HandShape::thick_cylinder},
      {"thin_sphere", HandShape::thin_sphere},
      {"thick_sphere", HandShape::thick_sphere},
      {"clamped_round_panel", HandShape::clamped_round_panel},
      {"supported_round_panel", HandShape::supported_round_panel},
      {"clamped_rectangular_panel", HandShape::clamped_rectangular_panel},
      {"supported_rectangular_panel", HandShape::supported_rectangular_panel},
  }};
  HandCalculationSpec spec;
  spec.place = table.place();
  spec.pressure = table.optional_text("pressure").value_or("");
  spec.automatic = table.text("mode") == "auto";
  for (const std::string_view key : {"shape", "inner_radius", "wall", "length", "closed_ends"}) {
    if (spec.automatic && table.has(key))
      table.refuse(key,
                   "with mode = \"auto\" the part's own shapes count; leave out this key, or "
                   "the mode");
    const bool needed = key == "shape" || key == "inner_radius" || key == "wall";
    if (!spec.automatic && needed && !table.has(key))
      table.refuse_table("'" + std::string(key) +
                         "' is missing; add it, or leave shape and sizes "
                         "to the part with mode = \"auto\"");
  }
  if (spec.automatic) return spec;
  const std::string word = table.optional_text("shape").value_or("");
  for (const auto& [name, shape] : shapes) {
    if (name == word) spec.shape = shape;
  }
  spec.inner_radius = table.optional_quantity("inner_radius").value_or(0.0);
  spec.wall = table.optional_quantity("wall").value_or(0.0);
  spec.length = table.optional_quantity("length").value_or(0.0);
  spec.closed_ends = table.yes_no("closed_ends");
  const bool rectangular = spec.shape == HandShape::clamped_rectangular_panel ||
                           spec.shape == HandShape::supported_rectangular_panel;
  if (rectangular && !table.has("length")) {
    table.refuse("shape", "a rectangular panel needs its long side; add length = \"80 mm\"");
  }
  if (rectangular && spec.length > 0.0 && spec.length < 2.0 * spec.inner_radius) {
    table.refuse("length", "the long side is shorter than the short one, twice inner_radius; " +
                               std::string("exchange them"));
  }
  return spec;
}

DirectionsSpec read_directions(const CaseTable& table) {
  DirectionsSpec spec;
  for (const auto& [name, direction] : table.directions_by_name("named")) {
    spec.named.push_back({name, direction});
  }
  spec.overhang_angle = table.quantity("overhang_angle");
  constexpr double right_angle = 1.5707963267948966;
  if (table.has("overhang_angle") && spec.overhang_angle >= right_angle) {
    table.refuse("overhang_angle", "must be less than 90 deg; 45 deg is usual");
  }
  return spec;
}

}  // namespace crossgrain
