// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/tools/synthetic_run.h"

#include <cmath>
#include <fstream>
#include <limits>
#include <numbers>
#include <set>
#include <sstream>
#include <stdexcept>

#include "tests/support/structured_mesh.h"

namespace crossgrain::testing {
namespace {

namespace fs = std::filesystem;

MaterialAtConditions layered_material() {
  MaterialAtConditions material;
  material.card = "petg";
  material.title = "PETG, generic";
  material.nominal.elastic = orthotropic({2000.0, 1500.0, 0.35, 0.35, 560.0});
  material.nominal.thermal_expansion = {6e-5, 6e-5, 8e-5};
  material.nominal.density = 1.27e-9;
  material.nominal.strength = LayeredStrength{30.0, 35.0, 15.0, 28.0, 9.0};
  material.low = material.high = material.nominal;
  material.sustained_modulus_MPa = 900.0;
  material.bead_width_mm = 0.45;
  material.assumptions = {
      {"Sz", 9.0, 6.75, 12.0, "MPa", Standing::estimated, "0.6 of Zt"},
      {"nu_12", 0.35, 0.3, 0.42, "-", Standing::estimated, "usual for polymers"}};
  material.knock_downs = {
      {"sustained load", "strength", 0.68, 0.6, 0.75, "-0.16 per decade of hours"}};
  return material;
}

MaterialAtConditions isotropic_material() {
  MaterialAtConditions material = layered_material();
  material.card = "aluminium";
  material.title = "Aluminium, generic";
  material.nominal.elastic = isotropic(70000.0, 0.33);
  material.nominal.strength = DuctileStrength{240.0};
  material.low = material.high = material.nominal;
  material.assumptions.clear();
  material.knock_downs.clear();
  return material;
}

Geometry bar_geometry() {
  Geometry geometry;
  geometry.files = {{"bar.step", "millimetre", 1.0}};
  geometry.bodies.resize(2);
  for (int id = 1; id <= 6; ++id) {
    CadFace face{};
    face.id = FaceId{id};
    face.body = BodyId{id == 2 ? 2 : 1};
    face.kind = SurfaceKind::plane;
    face.centroid = face.axis = face.origin = face.vector_area = Eigen::Vector3d::Zero();
    face.box = {Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
    geometry.faces.push_back(face);
  }
  geometry.faces[0].name = "inlet";
  return geometry;
}

std::vector<StressPoint> points_of(const TetrahedronMesh& mesh) {
  std::vector<StressPoint> points;
  for (const BodyId body : {BodyId{1}, BodyId{2}}) {
    std::map<int, int> tetrahedron_of_node;
    for (int t = 0; t < mesh.tetrahedron_count(); ++t) {
      if (mesh.body_of_tetrahedron[t] != body) continue;
      for (const int node : mesh.tetrahedra.col(t)) tetrahedron_of_node.emplace(node, t);
    }
    for (const auto& [node, tetrahedron] : tetrahedron_of_node)
      points.push_back({node, body, tetrahedron});
  }
  return points;
}

CaseFields fields_of(const SyntheticRun& run, int c) {
  CaseFields fields;
  const auto count = static_cast<Eigen::Index>(run.points.size());
  fields.displacement.resize(run.meshed.mesh.unknowns());
  for (int n = 0; n < run.meshed.mesh.node_count(); ++n) {
    fields.displacement.segment<3>(3 * n) =
        SyntheticRun::displacement(run.meshed.mesh.nodes.col(n), c);
  }
  fields.stress.resize(6, count);
  fields.overall.resize(count);
  fields.governing.resize(count);
  fields.factor[FailureMode::interlayer].resize(count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Vector3d x = run.meshed.mesh.nodes.col(run.points[i].node);
    fields.stress.col(i) = SyntheticRun::stress(x, c);
    fields.overall[i] = fields.factor[FailureMode::interlayer][i] =
        SyntheticRun::interlayer_factor(x);
    fields.governing[i] =
        std::isinf(fields.overall[i]) ? -1 : static_cast<int>(FailureMode::interlayer);
  }
  return fields;
}

ModeResult interlayer_result() {
  ModeResult mode;
  mode.mode = FailureMode::interlayer;
  mode.factor = {3.4, 2.6, 4.4};
  mode.position = {0.0, 5.0, 10.0};
  mode.body = "bowl";
  mode.face = FaceId{1};
  mode.stress << 1.0, 2.0, 3.0, 0.5, 0.25, 0.125;
  return mode;
}

/// Both ends of the bar as if they met: 1 MPa and 2 MPa in the first case, twice as much in the
/// second.
MeetingFaces lid_seal_of(const SyntheticRun& run, int c) {
  MeetingFaces seal{"lid seal", {}};
  for (const int side : {1, 2}) {
    double pressure = 0.0;
    for (int t = 0; t < run.meshed.mesh.triangle_count(); ++t) {
      if (run.meshed.mesh.face_of_triangle[t] != FaceId{side}) continue;
      pressure += c + 1.0;
      seal.triangles.push_back({t, side, 50.0, pressure, -0.1 * pressure, 0.25 * c,
                                c == 0 ? MeetingState::pressed : MeetingState::partly_open});
    }
  }
  return seal;
}

CaseResult case_result(const SyntheticRun& run, int c) {
  CaseResult result{};
  result.name = c == 0 ? "assembly" : "working";
  result.kind = c == 0 ? CaseKind::assembly : CaseKind::working;
  result.bound = c == 0 ? "" : "screws take none of the pressure";
  ModeResult interlayer = interlayer_result();
  if (c == 0) interlayer.factor = {8.0, 6.0, 10.0};
  ModeResult second = interlayer;
  second.mode = FailureMode::tsai_wu;
  second.factor = {};  // no limit found
  result.all_loads = {interlayer.factor, interlayer, {interlayer, second}, {}, {}, true, ""};
  result.scaling_loads = {{5.0, 4.0, 6.0}, interlayer, {interlayer}, {interlayer}, {}, true, ""};
  if (c == 1) result.leading_value_MPa = 0.4;
  if (c == 1) result.allowable_pressure_MPa = 0.45;
  result.displacement_max_mm = c == 0 ? 0.1 : 0.25;
  result.strain_energy_mJ = 12.5;
  result.fields = fields_of(run, c);
  result.meetings = {lid_seal_of(run, c)};
  return result;
}

void fill_case_file(CaseFile& asked) {
  asked.title = "Bar under pressure";
  BodySpec body{};
  body.step_file = "bar.step";
  body.material = "petg";
  body.print_direction = {0.0, 0.0, 1.0};
  asked.bodies = {body};
  PressureLoad pressure{};
  pressure.name = "working pressure";
  pressure.value = 0.4;
  asked.pressures = {pressure};
}

HandComparison compared_cylinder() {
  return {.shape = "cylindrical shell, bore 20 mm",
          .faces = {FaceId{1}, FaceId{2}},
          .formula = "p r / t",
          .inputs = {{"p", 0.4, "MPa"}, {"r", 10.0, "mm"}, {"t", 1.0, "mm"}, {"nu", 0.35, ""}},
          .hand_MPa = 4.0,
          .beside = {{"Lame at the bore", "p (b^2 + a^2) / (b^2 - a^2)", 4.2}},
          .from = {0.0, 5.0, 5.0},
          .to = {0.0, 5.0, 6.0},
          .membrane_MPa = 4.1,
          .surface_MPa = 5.0,
          .differs = "thick wall",
          .reason = "The wall is thick."};
}

/// Two screws and a seal of four stations, tightened and under pressure.
JointHistory two_states() {
  JointHistory history;
  history.groups = {{"lid screws", {{12.0, 0.0, 40.0}, {-12.0, 0.0, 40.0}}}};
  SealRound round{{0.0, 0.0, 40.0}, Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitY(), {}};
  for (int i = 0; i < 4; ++i) {
    const double angle = (i + 0.5) * 0.5 * std::numbers::pi;
    round.stations.push_back({angle, {i}, {9.0 * std::cos(angle), 9.0 * std::sin(angle), 40.0}});
  }
  history.seals = {{"lid seal", round}};
  const std::vector<double> tight = {0.9, 0.5, 0.9, 0.5}, opened = {0.6, 0.3, 0.6, 0.3};
  history.states = {
      {"tightening",
       PreloadLevel::least,
       0.67,
       296.15,
       0.0,
       {{800.0, 810.0}},
       {tight},
       {0.5},
       {1610.0},
       {{{0, 1, -0.2, -0.15, {0.0, 9.0, 40.0}}, {1, 0, -0.2, -0.14, {0.0, -9.0, 40.0}}}}},
      {"after losses",
       PreloadLevel::least,
       0.67,
       296.15,
       0.4,
       {{640.0, 655.0}},
       {opened},
       {0.6},
       {980.0},
       {{}}}};
  return history;
}

/// A joint that leaks with the least preload, its window empty.
JudgedJoint leaking_joint() {
  JudgedJoint joint;
  joint.groups = {{"lid screws", 8, {800.0, 1200.0, 1600.0}, 2000.0}};
  JointLine seal{};
  seal.mode = JointMode::seal_in_service;
  seal.owner = "lid seal";
  seal.value = 0.3;
  seal.limit = {0.6, LimitStanding::standard, "1.5 times the fluid's pressure"};
  seal.state = "after losses";
  seal.level = PreloadLevel::least;
  seal.place = Eigen::Vector3d(12.0, -3.5, 40.0);
  seal.note = "gives way first towards a screw hole";
  JointLine insert{};
  insert.mode = JointMode::pull_out;
  insert.owner = "lid screws";
  insert.value = 1700.0;
  insert.limit = {2000.0, LimitStanding::estimated, "low end of an estimate"};
  insert.state = "tightening";
  insert.level = PreloadLevel::greatest;
  joint.lines = {seal, insert};
  joint.responses = {{JointMode::seal_in_service,
                      "lid seal",
                      "after losses",
                      296.15,
                      true,
                      {{0.5, 0.1}, {1.0, 0.5}},
                      0.6}};
  joint.window = TorqueWindow{
      TorqueBound{1.6, JointMode::seal_in_service, "lid seal", "after losses", true},
      TorqueBound{0.9, JointMode::pull_out, "lid screws", "tightening", false}, std::nullopt};
  joint.by_temperature = {{296.15, *joint.window}};
  joint.openers = {{WindowOpener::more_screws, true, "about 15 in place of 8, evenly spread"}};
  joint.history = two_states();
  return joint;
}

void fill_result(RunResult& result) {
  result.title = "Bar under pressure";
  result.case_file = "bar.toml";
  result.program_version = "0.1.0";
  result.verdict = Verdict::marginal;
  result.verdict_sentence =
      "It may hold 0.4 MPa, but the range of the factor reaches below the 3 asked for.";
  result.cautions = {"Strength is not tightness: printed walls weep before they burst."};
  result.factor = {3.4, 2.6, 4.4};
  result.pressure_factor = {5.0, 4.0, 6.0};
  result.constant_effects = {
      {"petg",
       {"Sz", "shear strength between layers", "MPa", {9.0, 6.75, 12.0}, true},
       2.7,
       3.9,
       EffectBasis::judged},
      {"petg",
       {"E_build", "modulus", "MPa", {1500.0, 1200.0, 2000.0}, false},
       3.8,
       3.0,
       EffectBasis::foretold},
      {"petg",
       {"nu_12", "Poisson's ratio", "-", {0.35, 0.3, 0.42}, false},
       3.41,
       3.39,
       EffectBasis::foretold}};
  result.governing_case = "working (screws take none of the pressure)";
  result.governing = interlayer_result();
  result.working_pressure_MPa = 0.4;
  result.allowable_pressure_MPa = 0.45;
  result.allowable_limited_by = "layers pull or slide apart";
  result.proof_pressure_MPa = 0.6;
  result.proof_statement =
      "Fill with water, bleed the air, raise to the proof pressure, hold for 30 min.";
  result.cavity_volume_mm3 = 5e5;
  result.stored_energy = StoredEnergy{0.02, 0.3, 1.2};
  result.displacement_max_mm = 0.25;
  result.strain_energy_mJ = 12.5;
  result.body_names = {"bowl", "collar"};
  result.body_mass_g = {1.27, 2.7};
  result.print_directions = {{0.0, 0.0, 1.0}, {1.0, 0.0, 0.0}};
  result.materials = {layered_material(), isotropic_material()};
  result.reactions = {
      {"foot", "working (screws take none of the pressure)", {0.0, 0.0, 40.0}, {0.0, 100.0, 0.0}}};
  result.thrusts = {{"working pressure", "lid", {0.0, 0.0, 785.4}, "flange screws"}};
  result.probes = {{"mid-wall",
                    "working (screws take none of the pressure)",
                    {{5.0, 5.0, 5.0}},
                    {{0.1, 0.0, -0.2}},
                    {Vector6d::Ones()}}};
  result.hand_calculation =
      HandCalculationResult{"thin cylinder",
                            "p r / t",
                            4.0,
                            7.5,
                            "in-layer tensile strength",
                            {4.0, 3.0, 5.0},
                            {{"thin wall", "real shape", 0.45}},
                            "The real shape takes the most.",
                            {compared_cylinder()},
                            {{"flange screws", 8, 0.4, 70.0, 93.0, 36.5, 192.0, 5.26, 171.0, false,
                              600.0, 1.25, 1.4, ""}}};
  result.joint = leaking_joint();
  result.balance = {1e-12, 2e-12, 1e-13, 1e-4, 0.0};
  result.mesh_report.layers_min = 2;
  result.mesh_report.wall_min_mm = 3.0;
  result.mesh_report.remedies = {"a coarser surface mesh"};
  result.mesh_report.thin_places = {{FaceId{1}, {0.0, 5.0, 5.0}, 1.1, 1}};
  result.solve_report.method = "sparse Cholesky";
  result.seconds = {{"mesh", 1.5}};
  result.notes = {"One note."};
}

}  // namespace

Eigen::Vector3d SyntheticRun::displacement(const Eigen::Vector3d& x, int c) {
  return (c + 1) * Eigen::Vector3d(1e-3 * x.x(), 2e-3 * x.y(), -1e-3 * x.z());
}

Vector6d SyntheticRun::stress(const Eigen::Vector3d& x, int c) {
  Vector6d s;
  s << 1.0 + x.x(), 2.0 + x.y(), 3.0 + x.z(), 0.4, 0.3, -0.6;
  return (c + 1) * s;
}

double SyntheticRun::interlayer_factor(const Eigen::Vector3d& x) {
  return x.x() == 0.0 ? std::numeric_limits<double>::infinity() : 100.0 / x.x();
}

SyntheticRun::SyntheticRun() {
  const BlockMap map = [](const Eigen::Vector3d& xi) -> Eigen::Vector3d {
    return xi.cwiseProduct(Eigen::Vector3d(20.0, 10.0, 10.0));
  };
  meshed.geometry = bar_geometry();
  meshed.mesh = block_mesh({2, 1, 1}, map,
                           [](const Eigen::Vector3d& xi) { return BodyId{xi.x() < 0.5 ? 1 : 2}; });
  points = points_of(meshed.mesh);
  field.materials = {layered_material().nominal, isotropic_material().nominal};
  field.frames = {frame_along({0.0, 0.0, 1.0}), frame_along({1.0, 0.0, 0.0})};
  field.frame_of_point.resize(meshed.mesh.tetrahedron_count(), 1);
  for (int t = 0; t < meshed.mesh.tetrahedron_count(); ++t) {
    const int body = number(meshed.mesh.body_of_tetrahedron[t]) - 1;
    field.material_of_tetrahedron.push_back(body);
    field.frame_of_point(t, 0) = body;
  }
  fill_case_file(case_file);
  fill_result(result);
  for (int c = 0; c < 2; ++c) result.cases.push_back(case_result(*this, c));
}

// The pieces are split where a hexadecimal escape would swallow the next letter.
const char* const hostile_name =
    "=HYPERLINK(\"x\") \"quote' <script>alert(1)</script> & ]]> | a\nb\r\n# c `d` **e** "
    "[f](http://g) \x80\xff\xc3"
    "\xe2\x80\xae"
    "reversed \x01\x1b[31m \xed\xa0\x80 $x$";

SyntheticRun hostile_run() {
  SyntheticRun run;
  RunResult& r = run.result;
  const std::string name = hostile_name;
  run.meshed.geometry.faces[0].name = name;
  run.case_file.title = run.case_file.pressures[0].name = run.case_file.bodies[0].name = name;
  run.case_file.conditions.medium_name = name;
  run.case_file.conditions.medium = Medium::gas;
  r.title = r.case_file = r.verdict_sentence = r.allowable_limited_by = r.proof_statement = name;
  r.distrust = r.warnings = r.cautions = r.notes = r.mesh_report.remedies = {name};
  r.governing_case = name;
  r.governing->body = name;
  for (std::size_t i = 0; i < r.cases.size(); ++i) r.cases[i].name = r.cases[i].bound = name;
  for (CaseResult& c : r.cases) {
    for (ModeResult& mode : c.all_loads.modes) mode.body = name;
  }
  r.body_names = {name, name};
  r.materials[0].title = r.materials[0].card = r.materials[0].assumptions[0].rule = name;
  r.materials[0].knock_downs[0].cause = name;
  r.reactions[0].name = r.thrusts[0].opening = r.thrusts[0].carried_by = r.probes[0].name = name;
  HandComparison& compared = r.hand_calculation->comparisons[0];
  compared.shape = compared.formula = compared.differs = compared.reason = name;
  compared.inputs[0].symbol = compared.inputs[0].unit = name;
  r.hand_calculation->screw_forces[0].screws = r.hand_calculation->screw_forces[0].differs = name;
  JudgedJoint& joint = *r.joint;
  joint.groups[0].name = joint.openers[0].words = name;
  for (JointLine& line : joint.lines) {
    line.owner = line.state = line.note = line.limit.source = name;
  }
  joint.responses[0].owner = joint.responses[0].situation = name;
  joint.history.groups[0].name = joint.history.seals[0].name = name;
  for (auto& state : joint.history.states) state.situation = name;
  for (CaseResult& c : r.cases) c.meetings[0].name = name;
  joint.window->lowest->owner = joint.window->highest->situation = name;
  r.hand_calculation->sentence = r.hand_calculation->shape = r.hand_calculation->chain[0].from =
      name;
  return run;
}

fs::path empty_directory(const std::string& name) {
  const fs::path directory = fs::path(CROSSGRAIN_TEST_OUTPUT) / name;
  fs::remove_all(directory);
  fs::create_directories(directory);
  return directory;
}

std::string content_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace crossgrain::testing
