// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cases/case_file/case_file.h"
#include "cases/joint/judged_joint.h"
#include "cases/loads/load_cases.h"
#include "materials/conditions/constant_ends.h"
#include "mesh/features/features.h"
#include "mesh/meshing.h"
#include "solver/static_solver.h"
#include "solver/stress/stress_recovery.h"

namespace crossgrain {

/// A factor and the range that estimated constants and scatter leave it. Absent: no limit found.
/// Without a range low and high are the value.
struct FactorRange {
  std::optional<double> value;
  std::optional<double> low;
  std::optional<double> high;
};

/// The worst point of one mode.
struct ModeResult {
  FailureMode mode;
  FactorRange factor;
  Eigen::Vector3d position = Eigen::Vector3d::Zero();  ///< [mm]
  std::string body;
  std::optional<FaceId> face;          ///< nearest CAD face if the point lies on one
  Vector6d stress = Vector6d::Zero();  ///< at multiplier 1, material axes [MPa]
  std::string stress_basis = "bead";   ///< fitted over a bead width; "raw": the nodal value
  /// The factor may be off by so much for the mesh, as far as the stress round the place tells.
  /// Absent: not known.
  std::optional<double> mesh_error = {};
};

/// How the mesh sees the place that governs.
struct GoverningPlace {
  double bead_width_mm;
  double mean_edge_mm;               ///< of the elements within two bead widths
  bool resolved;                     ///< edges of half a bead width or less in the mean
  std::optional<EdgeId> inner_edge;  ///< within two bead widths: stress has no limit there
  /// Elsewhere on this face, or on one of its shape, the mesh is as fine as that: the factor of the
  /// same mode there, the nearest to the governing one.
  std::optional<double> resolved_alike;
  std::optional<ModeResult> raw;  ///< the worst by the stress at the nodes, in the same load case
  /// Of a support, or one at which the stress at nodes has grown from mesh to mesh; within two bead
  /// widths, and nearer than any inner edge.
  std::optional<EdgeId> other_edge = {};

  /// Whether the mesh sees what a bead feels there. Away from edges without limit stress varies no
  /// faster than the shape, and the error's estimate says how well the mesh follows.
  bool converged() const { return (!inner_edge && !other_edge) || resolved || resolved_alike; }
};

/// A bead width from an artificial support or load stress counts again, but elements there are so
/// long that nothing is judged, and at the support itself the factor is below the governing one.
struct HiddenZone {
  ModeResult at_support;
  double mean_edge_mm;  ///< of the elements within two bead widths
  double bead_width_mm;
};

/// The stress at the nodes along a CAD edge, judged as the governing factor is.
struct RawAtEdge {
  double factor;        ///< the least along it
  double mean_edge_mm;  ///< of the elements there
};

/// An edge at which the stress at the nodes grows without limit as elements shrink.
struct GrowingEdge {
  EdgeId edge;
  RawAtEdge before, now;  ///< on an earlier mesh and on the last one
  double exponent;        ///< stress goes with the elements' size to the power of minus this
};

/// How far the mesh may have led the result astray, estimated.
struct MeshError {
  double energy;  ///< energy norm of the error over the solution's, where the governing factor is
  double factor;  ///< the governing factor is off by no more than this, as far as can be told
};

/// How the factors at a constant's ends were found.
enum class EffectBasis {
  judged,    ///< stress does not depend on it: every place was judged anew
  foretold,  ///< from the nominal solution, at the governing place
  solved,    ///< by solving and judging every place anew
};

/// What one number of a material does to the safety factor when it goes through its range by
/// itself, all others being nominal.
struct ConstantEffect {
  std::string card;                       ///< of the material
  RangedConstant constant;                ///< its range as far as a solid can have it
  std::optional<double> at_low, at_high;  ///< the factor at its ends; absent: no limit found
  EffectBasis basis;
};

/// One mesh of a run that refines.
struct MeshPass {
  Eigen::Index unknowns;
  std::optional<ModeResult> governing;
  std::optional<MeshError> error;                 ///< none if nothing governs
  std::optional<GoverningPlace> place;            ///< what this mesh is like there
  double seconds;                                 ///< meshing, solving, judging, estimating
  std::map<EdgeId, RawAtEdge> raw_at_edges = {};  ///< of the governing body
};

/// A factor over modes: the least of them.
struct Judgement {
  FactorRange factor;
  std::optional<ModeResult> governing;
  std::vector<ModeResult> modes;            ///< governing modes, and tsai_wu as a second opinion
  std::vector<ModeResult> near_artificial;  ///< worst near artificial supports, reported apart
  std::vector<ModeResult> under_heads;      ///< worst of what screws' heads crush, likewise
  bool applies = true;  ///< false: no load scales, so there is no pressure factor to speak of
  std::string
      limited_by;  ///< what caps the factor when no mode does ("the gasket is relieved: ...")
};

/// Values kept for the fields of one load case.
struct CaseFields {
  Eigen::VectorXd displacement;                     ///< unknowns [mm], at multiplier 1
  Eigen::Matrix<double, 6, Eigen::Dynamic> stress;  ///< 6 x stress points [MPa], global axes
  std::map<FailureMode, Eigen::VectorXd>
      factor;                 ///< per stress point, on all loads; infinity: no limit
  Eigen::VectorXd overall;    ///< per stress point
  Eigen::VectorXi governing;  ///< FailureMode as int, -1 none
};

/// How a factor on the scaling loads was followed where a joint answers them.
struct FollowedWay {
  std::optional<double> straight_line;  ///< the factor by the state at multiple 1 alone
  double multiple;                      ///< of the scaling loads, in the state that was solved last
  std::string unsettled;  ///< why the factor is still the straight line's; empty: it is not
};

/// What most of a face has come to: of points that press, stop or carry nothing.
enum class MeetingState { open, partly_open, pressed, on_stop, tied };
inline constexpr MeetingState every_meeting_state[] = {
    MeetingState::open, MeetingState::partly_open, MeetingState::pressed, MeetingState::on_stop,
    MeetingState::tied};
/// Stable name for files: "partly_open".
std::string_view name_of(MeetingState state);

/// What became of a triangle of a face that meets another, each the mean over what of it meets.
struct MeetingTriangle {
  int triangle;           ///< of the mesh
  int side;               ///< 1: of `faces` in the case, 2: of their mate
  double area;            ///< that meets the other face [mm^2]
  double pressure;        ///< between the faces, the fluid's not counted [MPa]
  double gap;             ///< negative: squeezed, or pressed into each other [mm]
  double fluid_pressure;  ///< of the fluid that has come there [MPa]
  MeetingState state;
};

/// Both faces of a contact or a gasket in a load case.
struct MeetingFaces {
  std::string name;
  std::vector<MeetingTriangle> triangles;
};

struct CaseResult {
  std::string name;
  CaseKind kind;
  std::string bound;
  Judgement all_loads;
  Judgement scaling_loads;                       ///< with the held ones held: the pressure factor
  std::optional<FollowedWay> followed;           ///< of joined bodies, where the factor was least
  std::optional<double> leading_value_MPa;       ///< the leading pressure in this case, if it acts
  std::optional<double> allowable_pressure_MPa;  ///< of the leading pressure, at the target factor
  std::optional<double> allowable_pressure_low_MPa;  ///< with the low ends of the constants
  std::optional<double> allowable_pressure_high_MPa;
  std::string allowable_limited_by;   ///< mode in words, or why the model ends
  std::vector<std::string> distrust;  ///< stresses that are not numbers, and where
  double displacement_max_mm;
  double strain_energy_mJ;
  CaseFields fields;
  std::vector<MeetingFaces> meetings = {};  ///< of joined bodies: contacts, then gaskets
};

struct SupportReaction {
  std::string name;
  std::string load_case;
  Eigen::Vector3d force;   ///< [N]
  Eigen::Vector3d moment;  ///< about the origin [N mm]
};

struct ProbeResult {
  std::string name;
  std::string load_case;
  std::vector<Eigen::Vector3d> positions;
  std::vector<Eigen::Vector3d> displacement;
  std::vector<Vector6d> stress;
};

/// What a body is in the mesh, beside what CAD and its card say.
struct BodyBalance {
  std::string name;
  double volume_mm3, cad_volume_mm3;
  double mass_g, cad_mass_g;

  double volume_error() const { return std::abs(volume_mm3 - cad_volume_mm3) / cad_volume_mm3; }
  double mass_error() const { return std::abs(mass_g - cad_mass_g) / cad_mass_g; }
};

/// Not a number until it has been checked, and so distrusted.
struct BalanceReport {
  double force_error = not_checked;  ///< |applied + reacted| / largest applied force
  double moment_error = not_checked;
  double residual = not_checked;            ///< relative, of the solve
  double volume_error = not_checked;        ///< mesh against CAD, all bodies together, fraction
  double carried_by_inertia = not_checked;  ///< fraction of the load
  /// Error of the solve by its energy norm, over the solution's; where the solver missed its
  /// tolerance.
  std::optional<double> energy_error = {};
  std::vector<BodyBalance> bodies = {};

  static constexpr double not_checked = std::numeric_limits<double>::quiet_NaN();
};

/// One step of the chain from the hand calculation to the full answer; the product of all ratios is
/// the whole.
struct ChainStep {
  std::string from, to;  ///< "thin wall", "thick wall", ...
  double ratio;          ///< factor(to) / factor(from)
};

/// A number that went into a formula.
struct HandInput {
  std::string symbol;
  double value;
  std::string unit;  ///< "MPa", "mm", or "" of a plain number
};

/// What another rule makes of the same piece.
struct HandBeside {
  std::string words;    ///< whose value, and what it means beside the first
  std::string formula;  ///< with its source
  double value_MPa;
};

/// A textbook's value of a piece of the part, beside the same quantity of the field at the same
/// place: the normal stress along a line straight through the wall, as mean and linear part.
struct HandComparison {
  std::string shape;          ///< and the place on it, in words
  std::vector<FaceId> faces;  ///< that it was recognised by
  std::string formula;        ///< with its source
  std::vector<HandInput> inputs;
  double hand_MPa;
  std::vector<HandBeside> beside;
  Eigen::Vector3d from, to;  ///< the line, from the pressed surface [mm]
  double membrane_MPa;       ///< of the field
  double surface_MPa;        ///< membrane and bending, on the surface that the formula speaks of
  std::string differs;       ///< which assumption breaks, in a few words; empty within 15 %
  std::string reason;        ///< the same with its numbers
};

/// What one screw carries of the fluid's thrust on the lid, besides its preload.
struct HandScrewForce {
  std::string screws;
  int count;
  double pressure_MPa;
  double seal_diameter_mm;   ///< middle of the gasket
  double circle_mm;          ///< diameter of the screw circle
  double pitch_mm;           ///< from screw to screw along the circle
  double hand_N;             ///< p pi / 4 G^2 / n
  double hand_N_per_mm;      ///< the same per length of the circle
  double joint_N;            ///< in this analysis: of joined bodies as solved, else at most
  bool solved;               ///< the joint was: else the screws take between none and joint_N
  double preload_N;          ///< nominal
  double hand_opening_MPa;   ///< by which all of the nominal preload is used up, by hand
  double joint_opening_MPa;  ///< and with the fluid's thrust of this analysis
  std::string differs;       ///< in words; empty within 15 %
};

struct HandCalculationResult {
  std::string shape;             ///< in words
  std::string formula;           ///< with its source
  double stress_MPa;             ///< the number it gives
  double safety_factor;          ///< on the strength such a calculation uses
  std::string strength;          ///< which strength, in words
  FactorRange isotropic_with_Z;  ///< the trade's shortcut: isotropic analysis with Z values
  std::vector<ChainStep> chain;
  std::string sentence;  ///< names the largest step
  /// What was recognised of the part, if the case asked for that.
  std::vector<HandComparison> comparisons;
  std::vector<HandScrewForce> screw_forces;
};

struct BucklingResult {
  bool applies = false;  ///< net external pressure on some body
  bool checked = false;
  std::optional<double> critical_pressure_MPa;
  std::optional<double> factor;
  std::string statement;
};

struct StoredEnergy {
  double fluid_J = 0.0;
  double wall_J = 0.0;
  double unbled_air_J = 0.0;
  double total_J() const { return fluid_J + wall_J + unbled_air_J; }
};

enum class Verdict { pass, marginal, fail, not_trusted };

struct RunResult {
  std::string title;
  std::string case_file;
  std::string program_version;
  Verdict verdict;
  std::string verdict_sentence;
  std::vector<std::string> distrust;  ///< reasons, first first
  std::vector<std::string> warnings;
  std::vector<std::string> cautions;
  Targets targets;
  FactorRange factor;                            ///< the worst over cases, on all loads
  FactorRange pressure_factor;                   ///< the worst over cases, scaling loads alone
  std::vector<ConstantEffect> constant_effects;  ///< the greatest first
  std::string governing_case;
  std::optional<ModeResult> governing;
  std::optional<GoverningPlace> governing_place;
  std::optional<MeshError> mesh_error;
  std::optional<HiddenZone> hidden_zone;
  std::vector<MeshPass> mesh_passes;               ///< the last is the one that counts
  std::vector<GrowingEdge> growing_edges;          ///< between these passes
  std::optional<double> extrapolated_factor = {};  ///< of passes with one place, to no error
  std::string refining_ended;                      ///< why there was no further pass, in words
  std::optional<double> working_pressure_MPa;
  std::optional<double> allowable_pressure_MPa;  ///< the least over cases
  std::optional<double> allowable_pressure_low_MPa;
  std::optional<double> allowable_pressure_high_MPa;
  std::string allowable_limited_by;
  std::optional<double> proof_pressure_MPa;
  bool proof_breaks_limit = false;
  std::string proof_statement;
  std::optional<double> cavity_volume_mm3;
  std::optional<StoredEnergy> stored_energy;  ///< none if the cavity is not known
  double displacement_max_mm = 0.0;
  double strain_energy_mJ = 0.0;
  std::vector<CaseResult> cases;
  std::vector<MaterialAtConditions> materials;    ///< one per body
  std::vector<Eigen::Vector3d> print_directions;  ///< one per body
  std::vector<std::string> body_names;
  std::vector<double> body_mass_g;
  std::vector<SupportReaction> reactions;
  std::vector<OpeningThrust> thrusts;
  std::vector<ProbeResult> probes;
  std::optional<HandCalculationResult> hand_calculation;
  std::optional<JudgedJoint> joint;  ///< none without bodies that are joined
  BucklingResult buckling;
  BalanceReport balance;
  MeshReport mesh_report;
  SolveReport solve_report;
  std::map<std::string, double> seconds;  ///< by stage
  std::vector<std::string> notes;
};

/// A load case of a direction that was solved.
struct DirectionCase {
  std::string load_case;                       ///< its title
  FactorRange factor;                          ///< on all loads
  std::optional<FactorRange> pressure_factor;  ///< on the scaling loads alone; none if none scales
};

/// How a body is printed.
struct BodyDirection {
  BodyId body;
  Eigen::Vector3d build;  ///< from the plate to the nozzle, any length
};

/// What became of two faces that meet when a body was printed another way, as shares of the area
/// where they meet.
struct JointChange {
  std::string state;    ///< of the joint
  std::string meeting;  ///< the contact or the gasket
  double opened;        ///< pressed before, carries nothing now
  double closed;        ///< the other way round
  double stop;          ///< has come upon a stop, or left it
};

/// One row of the table of directions.
struct DirectionRow {
  std::string name;
  Eigen::Vector3d direction;  ///< of all bodies
  FactorRange factor;         ///< the worse of the factor on all loads and the pressure factor
  std::optional<ModeResult> governing;
  std::string governing_case;
  /// What the mesh may make of the factor; nothing: no limit, or not to be told.
  std::optional<double> mesh_error;
  std::optional<double> allowable_pressure_MPa;
  double displacement_max_mm;
  double height_mm;             ///< of the part standing on the plate
  double footprint_mm2;         ///< area of the shadow on the plate
  double plate_contact_mm2;     ///< flat area that lies on the plate
  double overhang_mm2;          ///< steeper than the overhang angle, plate contact not counted
  double trapped_overhang_mm2;  ///< of it, inside closed or wetted cavities
  std::vector<std::string> distrust = {};  ///< why this row is not to be relied on
  std::vector<DirectionCase> cases = {};   ///< proof tests among them
  /// Every body's own direction; empty: all stand along `direction`.
  std::vector<BodyDirection> of_bodies = {};
  /// Against the case as it is, the greatest of each contact and gasket.
  std::vector<JointChange> joint_changes = {};
};

}  // namespace crossgrain
