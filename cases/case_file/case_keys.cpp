// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_keys.h"

#include <algorithm>
#include <cassert>

#include "materials/units/nearest_name.h"

namespace crossgrain {
namespace {

constexpr std::string_view must = "required";
constexpr std::string_view may = "";

ValueForm plain(KeyType type) { return {type}; }
ValueForm quantity(Dimension dimension, Range range = Range::any) {
  return {KeyType::quantity, dimension, range};
}
ValueForm three(Dimension dimension, Range range = Range::any) {
  return {KeyType::three_quantities, dimension, range};
}
ValueForm number(Range range) { return {KeyType::number, Dimension::fraction, range}; }
ValueForm whole(Range range) { return {KeyType::whole_number, Dimension::fraction, range}; }
ValueForm one_of(std::vector<std::string_view> words) {
  return {KeyType::word, Dimension::fraction, Range::any, std::move(words)};
}

const ValueForm plain_text = plain(KeyType::text);
const ValueForm yes_or_no = plain(KeyType::yes_no);
const ValueForm a_direction = plain(KeyType::direction);
const ValueForm face_choice = plain(KeyType::faces);
const ValueForm sub_table = plain(KeyType::table);
const ValueForm sub_tables = plain(KeyType::tables);

using D = Dimension;
using R = Range;

// One row a key reads as the table it is.
// clang-format off
std::vector<CaseKeyTable> tables_of_the_case() {
  return {
    {"", "Top of the file", "", {
      {"title", plain_text, "(the file's name)", "What the case is about; heads every output."},
      {"body", sub_tables, must, "The solids and what they are made of."},
      {"conditions", sub_table, may, "Temperature, moisture, time under load, fluid."},
      {"pressure", sub_tables, may, "Pressure or vacuum on faces."},
      {"force", sub_tables, may, "Force and moment on faces."},
      {"acceleration", sub_tables, may, "Gravity or another acceleration of the whole part."},
      {"temperature_change", sub_tables, may, "Warming or cooling of the part, or of faces of it."},
      {"bolt", sub_tables, may, "Groups of equal screws."},
      {"contact", sub_tables, may, "Faces of two bodies that meet and are not glued."},
      {"gasket", sub_tables, may, "Flat seals that the screws press."},
      {"support", sub_tables, may, "Faces that are held."},
      {"load_case", sub_tables, may, "Combinations of loads beyond those made by themselves."},
      {"probe", sub_tables, may, "Places whose values are listed."},
      {"targets", sub_table, may, "What the part must reach."},
      {"mesh", sub_table, may, "How finely the part is divided."},
      {"solve", sub_table, may, "How the equations are solved."},
      {"hand_calculation", sub_table, may, "The simple shape to compare with."},
      {"directions", sub_table, may, "Print directions for `crossgrain directions`."},
    }},
    {"body", "[[body]]",
     "One solid of a STEP file, in its place. At least one. All lengths, points and directions of the case are those of the bodies in their places.", {
      {"step_file", plain_text, must, "The STEP file, relative to the case file."},
      {"name", plain_text, "(all solids of the file)", "Name of the solid in the STEP file."},
      {"material", plain_text, must, "A card's name (`crossgrain material` lists them) or the path of a card."},
      {"print_direction", a_direction, must, "From the plate to the nozzle while it is printed, as the body lies in its place."},
      {"scale", number(R::positive), "1", "Multiplies every length of the STEP file, for a file whose unit is wrong."},
      {"turn", sub_table, may, "Turns the file's bodies into their place, before they are shifted."},
      {"shift", three(D::length), "(none)", "Shifts the file's bodies into their place. Entries of one file that differ in `scale`, `turn` or `shift` are bodies of their own."},
      {"bead_width", quantity(D::length, R::positive), "(the card's)", "Width of the extruded bead: stress is judged over it."},
    }},
    {"turn", "turn = { ... } in [[body]]", "A turn about an axis, right-handed.", {
      {"axis", a_direction, must, "Its direction."},
      {"angle", quantity(D::angle), must, "How far."},
      {"about", three(D::length), "(the STEP file's origin)", "A point of the axis."},
    }},
    {"conditions", "[conditions]", "What the part lives in.", {
      {"temperature", quantity(D::temperature), "23 degC", "Of the material while it is loaded."},
      {"moisture", one_of({"dry", "conditioned"}), "dry", "`conditioned`: after taking up water from air or the fluid."},
      {"duration", quantity(D::duration, R::positive), "6 min", "How long the load stays on; strength falls with it."},
      {"cycles", number(R::at_least_one), "1", "How often the load comes and goes."},
      {"medium", one_of({"water", "oil", "liquid", "air", "nitrogen", "carbon_dioxide", "gas"}), "water", "The fluid; a gas stores far more energy and the report says so first."},
      {"fluid_bulk_modulus", quantity(D::pressure, R::positive), "2200 MPa", "Stiffness of a liquid in compression, for the stored energy (water, from memory)."},
      {"trapped_air", quantity(D::fraction, R::share), "2 %", "Share of the cavity left unbled, for the stored energy (common practice, no source)."},
    }},
    {"pressure", "[[pressure]]", "A fluid's pressure, always normal to the faces.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"value", quantity(D::pressure), must, "Above the surrounding air; negative is a vacuum."},
      {"faces", face_choice, must, "The faces it pushes on."},
      {"scales", yes_or_no, "true", "Whether the safety factor multiplies it."},
      {"head", sub_table, may, "Adds the weight of the liquid above."},
      {"carried_by", plain(KeyType::texts_by_name), "(the gasket or contact whose faces it borders, else `plug`)", "Who takes the thrust on each opening, by its name: `plug` (screwed or glued into the port itself), `outside` (something that does not touch the part), or the name of a gasket, a contact or a support."},
    }},
    {"head", "head = { ... } in [[pressure]]", "Hydrostatic head: density × g × depth is added to the pressure.", {
      {"density", quantity(D::density, R::positive), must, "Of the liquid."},
      {"free_surface", quantity(D::length), must, "Height of its surface, measured along `up` from the STEP file's origin."},
      {"up", a_direction, must, "Up in service, which need not be the print direction."},
    }},
    {"force", "[[force]]", "A force, a moment or both, spread over faces without stiffening them.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"faces", face_choice, must, "The faces it is spread over."},
      {"force", three(D::force), may, "Along x, y, z."},
      {"moment", three(D::torque), may, "About x, y, z through the middle of the faces."},
      {"scales", yes_or_no, "true", "Whether the safety factor multiplies it."},
    }},
    {"acceleration", "[[acceleration]]", "Pulls on the mass of every body.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"acceleration", three(D::acceleration, R::not_zero), must, "Along x, y, z; gravity on a part that stands along z is [\"0 m/s^2\", \"0 m/s^2\", \"-9.81 m/s^2\"]."},
      {"scales", yes_or_no, "false", "Whether the safety factor multiplies it."},
    }},
    {"temperature_change", "[[temperature_change]]", "Change against the state without stress: of the whole part alike, or of faces, between which heat flows by conduction alone.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"change", quantity(D::temperature_change, R::not_zero), must, "Positive is warmer."},
      {"faces", face_choice, "(the whole part)", "Faces that are kept at the change, such as the wetted ones: the most that a fluid's temperature can do to them."},
      {"other_faces", face_choice, "(needed with `faces`)", "Faces that are kept at `other_change`, such as those in the open air. Every body needs some; where they share an edge with `faces` it has the mean."},
      {"other_change", quantity(D::temperature_change), "0 K", "Of `other_faces`."},
      {"scales", yes_or_no, "false", "Whether the safety factor multiplies it."},
    }},
    {"bolt", "[[bolt]]", "A group of equal screws. Give `preload`, or `torque` with `friction`.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"thread", face_choice, must, "The walls of the threaded holes or inserts; each hole is one screw."},
      {"head_seat", face_choice, "(the head sits on another part)", "The faces under the heads."},
      {"size", plain_text, must, "M3 to M10, coarse thread."},
      {"head_diameter", quantity(D::length, R::positive), "(the socket head's of that size)", "Outer diameter of the ring that presses: the head's or the washer's."},
      {"preload", quantity(D::force, R::positive), may, "Nominal, per screw."},
      {"torque", quantity(D::torque, R::positive), may, "Tightening torque per screw."},
      {"friction", number(R::positive), may, "Coefficient in the thread and under the head; a dry steel screw 0.15 to 0.25 (common practice, no source)."},
      {"head_friction", number(R::positive), "(as `friction`)", "Coefficient under the head, if it differs."},
      {"tightening", one_of({"torque_wrench", "by_feel"}), "torque_wrench", "Sets the scatter that goes with `torque`."},
      {"scatter", number(R::at_least_one), "(2 with a torque wrench, 4 by feel, 1 with `preload`)", "Greatest preload over least."},
      {"class", plain_text, "4.8", "Strength class of the screws, ISO 898-1 or ISO 3506-1; the default is the weakest in use."},
      {"length", quantity(D::length, R::positive), may, "Of the screw below its head: whether it bottoms in its hole."},
      {"insert_diameter", quantity(D::length, R::positive), "(the hole's)", "Outer diameter of the threaded insert."},
      {"insert_length", quantity(D::length, R::positive), "(the hole's depth)", "Of the insert."},
      {"pull_out", quantity(D::force, R::positive), "(estimated)", "Force that pulls the insert out at room temperature within minutes; measure it on a print of the same profile."},
      {"boss_diameter", quantity(D::length, R::positive), may, "Of the plastic round the insert."},
      {"modulus", quantity(D::pressure, R::positive), "205 GPa", "Of the screw, where both bodies are modelled and it is a spring between them (steel)."},
      {"expansion", quantity(D::thermal_expansion), "12e-6 1/K", "Of the screw, per kelvin (steel)."},
      {"insert_expansion", quantity(D::thermal_expansion), "19e-6 1/K", "Of the insert, per kelvin (brass, from memory)."},
      {"embedding", quantity(D::length, R::not_negative), "(of metal faces of that joint)", "Depth that flattens out under the head, in the thread and between the bodies."},
      {"creep_loss", quantity(D::fraction, R::share), "45 %", "Share of the preload that time takes (plastics without metal limiters 30 to 60 %, from memory)."},
    }},
    {"contact", "[[contact]]", "Faces of two bodies that meet. Their meshes need not match. Where these bodies touch besides, they pass through each other, and a run warns of it.", {
      {"name", plain_text, must, "Heads its results."},
      {"faces", face_choice, must, "Of the one body."},
      {"mate", face_choice, must, "Of the other."},
      {"kind", one_of({"tied", "unilateral"}), "unilateral", "`unilateral`: presses and opens, slides without friction; a fluid at its edge comes in where it presses less than the fluid; `tied`: moves as one."},
      {"clearance", quantity(D::length), "0 mm", "Between them beyond what is drawn; negative for an interference, as in a press fit."},
    }},
    {"gasket", "[[gasket]]", "A flat seal between this part and one that is not modelled or, with `mate`, between two bodies.", {
      {"name", plain_text, must, "Other tables refer to it."},
      {"faces", face_choice, must, "What it lies on."},
      {"bolts", plain_text, must, "Name of the [[bolt]] group that presses it."},
      {"pressure", plain_text, must, "Name of the [[pressure]] that relieves it."},
      {"mate", face_choice, "(the lid is not modelled)", "What it lies on at the other body; it then is a bedding that presses and opens."},
      {"thickness", quantity(D::length, R::positive), "(needed with `mate`)", "Unloaded."},
      {"hardness", number(R::positive), "(`hardness` or `modulus` with `mate`)", "Shore A, 20 to 96; gives the modulus (Gent, from memory)."},
      {"modulus", quantity(D::pressure, R::positive), "(from the hardness)", "Of the gasket's material."},
      {"form", one_of({"ring", "strip", "disc"}), "ring", "Sets how its shape stiffens it."},
      {"width", quantity(D::length, R::positive), "(needed with `mate`)", "Of the ring between its circles or of the strip; a disc's diameter."},
      {"bonded", yes_or_no, "true", "Whether its faces are held (glued, or rough and dry); slipping ones let it flow and are not stiffened."},
      {"stop_squeeze", quantity(D::length, R::positive), may, "Squeeze at which a stop, a groove's shoulder or a limiter, takes what more there is."},
      {"clearance", quantity(D::length, R::not_negative), "0 mm", "Before it touches both faces."},
      {"expansion", quantity(D::thermal_expansion), "2e-4 1/K", "Of its thickness, per kelvin (rubber, from memory)."},
      {"m", number(R::positive), "(by the hardness)", "Contact over fluid pressure that it needs in service, ASME VIII-1 Appendix 2."},
      {"seating_pressure", quantity(D::pressure, R::positive), "(by the hardness)", "Contact that it needs to be seated, y of ASME VIII-1 Appendix 2."},
      {"seating_squeeze", quantity(D::fraction, R::share), "(20 %)", "Share of its thickness that it must be squeezed by at assembly (flat soft gaskets 20 to 30 %, from memory)."},
      {"seal_margin", quantity(D::fraction, R::positive), "50 %", "Of the contact over the fluid's pressure in service."},
    }},
    {"support", "[[support]]", "Faces that are held. None at all: the loads must balance among themselves.", {
      {"name", plain_text, must, "Reactions are listed under it."},
      {"faces", face_choice, must, "The faces held."},
      {"hold", one_of({"all", "normal", "direction"}), "all", "`all` motion, only `normal` to the faces (they slide), or only along `direction`."},
      {"direction", a_direction, may, "With `hold = \"direction\"`."},
    }},
    {"load_case", "[[load_case]]", "A combination of loads. Assembly, working and proof cases are made without being asked for.", {
      {"name", plain_text, must, "Heads its results."},
      {"factors", plain(KeyType::numbers_by_name), must, "Load name = multiplier; loads left out do not act."},
    }},
    {"probe", "[[probe]]", "A place whose displacement and stress are listed. Give `point`, `line` or `faces`.", {
      {"name", plain_text, must, "Heads its results."},
      {"point", three(D::length), may, "x, y, z."},
      {"line", ValueForm{KeyType::two_points, D::length}, may, "Its two ends."},
      {"samples", whole(R::positive), "11", "Points on the line, ends included."},
      {"faces", face_choice, may, "Mean, least and greatest over them."},
    }},
    {"targets", "[targets]", "What the part must reach.", {
      {"safety_factor", number(R::positive), "3", "Least factor on all loads (common practice, no source)."},
      {"proof_factor", number(R::positive), "1.5", "Proof pressure over working pressure (common practice, no source)."},
      {"proof_duration", quantity(D::duration, R::positive), "30 min", "How long the proof pressure is held."},
      {"criterion", one_of({"interactive", "maximum_stress"}), "interactive", "How layered material is judged."},
    }},
    {"mesh", "[mesh]", "How finely the part is divided.", {
      {"layers", whole(R::positive), "2", "Elements through every wall."},
      {"size", quantity(D::length, R::positive), "(from the part's size)", "Longest edge."},
      {"size_min", quantity(D::length, R::positive), "(from the part's size)", "Shortest edge."},
      {"elements_per_turn", number(R::positive), "12", "On curved faces, round a full turn."},
      {"refinement", number(R::positive), "1", "Divides every size."},
      {"unknowns_max", whole(R::positive), "3000000", "Most unknowns (three a node) that the mesh may have: every size grows until it has no more, and the summary says so."},
      {"deterministic", yes_or_no, "true", "The same mesh every time; false is faster."},
      {"time_limit", quantity(D::duration, R::positive), "10 min", "After which meshing is given up."},
      {"refine_worst_place", yes_or_no, "true", "Where an inner edge or one of a support governs, or a support hides what is weak beside it, meshes again, finer round the weakest places, until elements there are half a bead wide; then while the factor's estimated error is more than a quarter of it. false: one mesh, unless `error` is given."},
      {"error", quantity(D::fraction, R::positive), "(25 %)", "Meshes again, finer wherever the governing factor's error comes from, until its estimate is this part of the factor: `\"3 %\"`."},
      {"passes_max", whole(R::positive), "6", "Most meshes of one run, the first included."},
      {"refine_for", quantity(D::duration, R::positive), "10 min", "No further mesh is begun after this time."},
      {"file", plain_text, may, "A `.msh` of the same STEP file, read in place of meshing; relative to the case file."},
      {"write_msh", plain_text, may, "Keeps the mesh as `.msh`; relative to the case file."},
    }},
    {"solve", "[solve]", "How the equations are solved. What was done stands in the summary.", {
      {"method", one_of({"automatic", "direct", "iterative"}), "automatic", "`direct`: sparse Cholesky; `iterative`: conjugate gradients with p-multigrid; `automatic`: direct for small parts."},
      {"tolerance", number(R::positive), "1e-9", "Relative residual at which iterations end; above 1e-8 the verdict calls the result not trustworthy."},
    }},
    {"hand_calculation", "[hand_calculation]", "The simple shape that a hand calculation would take the part for, or `mode = \"auto\"` alone.", {
      {"mode", one_of({"named", "auto"}), "named", "`named`: the shape that is named here; `auto`: what the part's faces offer (cylinders, domes, flat panels and covers, with their walls; flanges and screw circles of round gaskets), each beside the field at its own place."},
      {"shape", one_of({"thin_cylinder", "thick_cylinder", "thin_sphere", "thick_sphere", "clamped_round_panel", "supported_round_panel", "clamped_rectangular_panel", "supported_rectangular_panel"}), "(needed unless the mode is auto)", "The formula."},
      {"inner_radius", quantity(D::length, R::positive), "(needed unless the mode is auto)", "Of the cylinder or sphere; of a round panel; half the short side of a rectangular one."},
      {"wall", quantity(D::length, R::positive), "(needed unless the mode is auto)", "Wall or panel thickness."},
      {"length", quantity(D::length, R::positive), "(needed for a rectangular panel only)", "Of a cylinder between its ends, for buckling; long side of a rectangular panel."},
      {"closed_ends", yes_or_no, "true", "Whether the pressure also stretches the cylinder."},
      {"pressure", plain_text, "(the first)", "Name of the [[pressure]]."},
    }},
    {"directions", "[directions]", "Print directions for `crossgrain directions`.", {
      {"named", plain(KeyType::directions_by_name), "(a map of all directions)", "Name = direction, of every body. Without names every print has a map of its own, the others held: bodies that are glued and share a `print_direction` are one print, others are printed separately."},
      {"overhang_angle", quantity(D::angle, R::positive), "45 deg", "From the horizontal; a flatter face that looks down needs support."},
    }},
    {"faces", "faces = { ... }", "A choice of faces. Exactly one way of choosing; a list of choices takes all of them together.", {
      {"hole", quantity(D::length, R::positive), may, "Holes of this diameter (within 1 %)."},
      {"axis", plain(KeyType::axis), may, "With `hole`: only those along it."},
      {"part", one_of({"wall", "floor", "seat"}), "wall", "With `hole`: its cylinder, its blind end, or the flat ring a screw head sits on."},
      {"plane", a_direction, may, "Flat faces with this outward normal, at `at`."},
      {"at", quantity(D::length), may, "With `plane`: position along the normal from the origin; a face that looks to -z at z = -5 mm is at \"5 mm\"."},
      {"wetted_at", three(D::length), may, "Everything a fluid touches that fills the space at this point."},
      {"wetted_through", face_choice, may, "Everything a fluid touches that comes in by this face, a port's bore."},
      {"ports", sub_tables, may, "With `wetted_...`: where the fluid comes and goes."},
      {"seal_lines", sub_tables, may, "With `wetted_...`: where a seal keeps the fluid in."},
      {"name", plain_text, may, "A face's name in the STEP file, or a body's: all its faces."},
      {"colour", plain_text, may, "Faces of this colour in the STEP file: \"#cc3300\"."},
      {"ids", plain(KeyType::whole_numbers), may, "Face numbers of `crossgrain inspect`; they change when the part is edited."},
      {"outside", yes_or_no, may, "`true`: every face of the outer skin but those of `except`."},
      {"except", face_choice, may, "With `outside`: the faces that are not meant, such as the wetted ones."},
      {"body", plain_text, may, "Only faces of this body, by the name that `crossgrain inspect` shows."},
      {"count", whole(R::positive), may, "How many holes or faces must be found."},
    }},
    {"port", "ports = [{ ... }], seal_lines = [{ ... }]", "Where the wetted surface ends.", {
      {"name", plain_text, "(`port 1`, `seal line 1`)", "Its thrust is listed under it."},
      {"faces", face_choice, must, "The dry face just beyond the edge; the fluid does not enter it."},
    }},
  };
}
// clang-format on

std::vector<std::string> names_of(const CaseKeyTable& table) {
  std::vector<std::string> names;
  for (const CaseKey& key : table.keys) names.emplace_back(key.name);
  return names;
}

}  // namespace

bool CaseKey::required() const { return fallback == must; }

std::string CaseKeyTable::label() const {
  return name.empty() ? "" : std::string(heading.substr(0, heading.find(" =")));
}

const std::vector<CaseKeyTable>& case_key_tables() {
  static const std::vector<CaseKeyTable> tables = tables_of_the_case();
  return tables;
}

const CaseKeyTable& case_key_table(std::string_view name) {
  const auto& tables = case_key_tables();
  const auto it = std::find_if(tables.begin(), tables.end(),
                               [name](const CaseKeyTable& table) { return table.name == name; });
  assert(it != tables.end());
  return *it;
}

std::string suggestion_for(std::string_view unknown, const CaseKeyTable& table) {
  if (const auto nearest = nearest_name(unknown, names_of(table))) {
    return "did you mean '" + *nearest + "'?";
  }
  for (const CaseKeyTable& other : case_key_tables()) {
    for (const CaseKey& key : other.keys) {
      if (key.name == unknown) {
        return "it belongs " +
               (other.name.empty() ? "at the top of the file" : "in " + other.label());
      }
    }
  }
  std::string list;
  for (const std::string& name : names_of(table)) list += (list.empty() ? "" : ", ") + name;
  return "the keys here are " + list;
}

}  // namespace crossgrain
