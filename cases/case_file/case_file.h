// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cases/joint/gasket_stiffness.h"
#include "cases/joint/preload.h"
#include "materials/conditions/material.h"
#include "materials/failure/failure.h"
#include "mesh/meshing.h"
#include "solver/static_solver.h"
#include "solver/supports/supports.h"

namespace crossgrain {

/// Line of the case file that a thing came from, for messages: "case.toml:12".
struct Place {
  std::string file;
  int line = 0;
};

/// What the user says to pick faces. Exactly one of the ways is filled in; `body` and `count`
/// narrow and check it (not in a list).
struct FaceChoice {
  Place place;
  std::string text;  ///< as written, for messages

  struct HoleChoice {
    double diameter;                      ///< [mm], within 1 %
    std::optional<Eigen::Vector3d> axis;  ///< unit, either sense
    enum class Part { wall, floor, seat } part = Part::wall;
  };
  struct PlaneChoice {
    Eigen::Vector3d normal;  ///< unit, outward
    double at;               ///< position along the normal [mm]
  };
  /// Everything a fluid touches: from a point in it, or entering through a port.
  struct WettedChoice {
    std::optional<Eigen::Vector3d> point;  ///< [mm]
    std::shared_ptr<FaceChoice> through;   ///< a face of the cavity (the port's bore)
    std::vector<FaceChoice>
        stops;  ///< dry faces at ports and seal lines; each one's faces are not entered
    std::vector<std::string> stop_names;
  };
  std::optional<HoleChoice> hole;
  std::optional<PlaneChoice> plane;
  std::optional<WettedChoice> wetted;
  std::optional<std::string> name;              ///< of a face, or a body (all its faces)
  std::optional<std::array<double, 3>> colour;  ///< sRGB 0..1
  std::vector<int> ids;
  bool everything_outside = false;     ///< all faces of the outer shells (external pressure) ...
  std::shared_ptr<FaceChoice> except;  ///< ... but these
  std::vector<FaceChoice> any_of;      ///< a list of choices: all their faces together
  std::optional<std::string> body;
  std::optional<int> count;  ///< faces, or holes, expected
};

struct BodySpec {
  Place place;
  std::filesystem::path step_file;
  std::string name;                 ///< of the solid in the STEP file, or "" for all solids
  std::string material;             ///< card name or path
  Eigen::Vector3d print_direction;  ///< unit
  double scale = 1.0;
  Placement placement;
  std::optional<double> bead_width;  ///< [mm]; default the card's
};

enum class Medium { liquid, gas };

struct Conditions {
  ServiceConditions service;
  Medium medium = Medium::liquid;
  std::string medium_name = "water";
  double fluid_bulk_modulus = 2200.0;  ///< [MPa]; for stored energy
  double trapped_air_fraction = 0.02;  ///< of the cavity's volume left unbled; for stored energy
};

struct PressureLoad {
  Place place;
  std::string name;
  double value;  ///< gauge [MPa]; negative is a vacuum
  FaceChoice faces;
  bool scales = true;
  struct Head {           ///< adds density * g * depth below the free surface
    double density;       ///< [tonne/mm^3]
    double free_surface;  ///< position along `up` [mm]
    Eigen::Vector3d up;   ///< the service up direction, not the print direction
  };
  std::optional<Head> head;
  /// Who carries the thrust of each opening, by opening name: "plug" (default: in the port's own
  /// bore wall), "outside" (something that does not touch the part), or the name of a gasket or
  /// support.
  std::map<std::string, std::string> carried_by;
};

struct ForceLoad {
  Place place;
  std::string name;
  FaceChoice faces;
  Eigen::Vector3d force = Eigen::Vector3d::Zero();   ///< [N]
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< [N mm]
  bool scales = true;
};

struct AccelerationLoad {
  Place place;
  std::string name;
  Eigen::Vector3d acceleration;  ///< [mm/s^2]
  bool scales = false;
};

struct TemperatureLoad {
  Place place;
  std::string name;
  double change;  ///< of the whole part, or of `faces` [K]
  bool scales = false;
  /// Faces that are kept at the change, and others that are kept at another: what lies between
  /// takes the temperature that settles by conduction. None: the whole part changes alike.
  std::optional<FaceChoice> faces = {};
  std::optional<FaceChoice> other_faces = {};
  double other_change = 0.0;  ///< [K]
};

/// A group of equal screws.
struct BoltSpec {
  Place place;
  std::string name;
  FaceChoice thread;  ///< the walls of the threaded holes or inserts: each hole is one screw
  std::optional<FaceChoice>
      head_seat;               ///< plane under the heads; none: the head sits on another part
  double head_diameter = 0.0;  ///< outer diameter of the head's or washer's annulus [mm]
  std::string size;            ///< "M5"
  double preload_min, preload_nominal, preload_max;  ///< per screw [N], scatter included
  std::string preload_source;                        ///< how the preload was found, in words
  std::optional<double> torque;                      ///< that gave the preload [N mm]
  std::optional<TighteningFriction> friction;        ///< with a torque
  // What makes it a spring between bodies that are both modelled.
  double modulus = 205000.0;              ///< of the screw [MPa]
  double expansion = 1.2e-5;              ///< of the screw [1/K]
  double insert_expansion = 1.9e-5;       ///< of an insert [1/K]
  std::optional<double> embedding;        ///< that flattens out after tightening [mm]
  double creep_loss = 0.45;               ///< share of the preload that time takes [-]
  std::string strength_class;             ///< "8.8"
  std::optional<double> length;           ///< below the head [mm]
  std::optional<double> insert_diameter;  ///< outer, of a threaded insert [mm]
  std::optional<double> insert_length;    ///< [mm]
  std::optional<double> pull_out;         ///< short-term, of an insert at room temperature [N]
  std::optional<double> boss_diameter;    ///< of the plastic round the insert [mm]
};

enum class ContactKind { tied, unilateral };

/// Two bodies' faces that meet, and are not glued.
struct ContactSpec {
  Place place;
  std::string name;
  FaceChoice faces;
  FaceChoice mate;
  ContactKind kind = ContactKind::unilateral;
  double clearance = 0.0;  ///< on top of what is drawn; negative: an interference [mm]
};

/// A flat seal, between this part and one that is not modelled or, with `mate`, between two bodies.
struct GasketSpec {
  Place place;
  std::string name;
  FaceChoice faces;      ///< pressed by the gasket
  std::string bolts;     ///< the group that presses it
  std::string pressure;  ///< the pressure that relieves it

  /// Faces of the other body, and what lies between.
  struct Between {
    FaceChoice mate;
    GasketShape shape;
    double modulus;                         ///< E of the gasket's material [MPa]
    std::optional<double> hardness;         ///< Shore A, where the modulus came from it
    std::optional<double> stop_squeeze;     ///< from here on a stop takes what more there is [mm]
    double clearance = 0.0;                 ///< before it touches [mm]
    double expansion = 2e-4;                ///< of its thickness [1/K]
    std::optional<double> seating;          ///< contact that it needs to be seated, y [MPa]
    std::optional<double> contact_ratio;    ///< of contact to fluid pressure, m [-]
    std::optional<double> seating_squeeze;  ///< share of its thickness [-]
    double seal_margin = 0.5;               ///< of contact over the fluid's pressure [-]
  };
  std::optional<Between> between;
};

struct SupportSpec {
  Place place;
  std::string name;
  FaceChoice faces;
  Hold hold = Hold::all;
  Eigen::Vector3d direction = Eigen::Vector3d::Zero();
};

struct LoadCaseSpec {
  Place place;
  std::string name;
  std::map<std::string, double> factors;  ///< by load name
};

struct ProbeSpec {
  Place place;
  std::string name;
  std::optional<Eigen::Vector3d> point;                             ///< [mm]
  std::optional<std::pair<Eigen::Vector3d, Eigen::Vector3d>> line;  ///< [mm]
  int samples = 11;                                                 ///< on a line
  std::optional<FaceChoice> faces;  ///< mean, least and greatest over faces
};

struct Targets {
  double safety_factor = 3.0;  ///< common practice, no source
  double proof_factor = 1.5;   ///< proof pressure / working pressure
  double proof_duration_s = 1800.0;
  Criterion criterion = Criterion::interactive;
};

/// When a run makes a finer mesh by itself.
struct Refining {
  bool worst_place = true;      ///< round the weakest places until a bead is resolved
  std::optional<double> error;  ///< until the governing factor's estimated error is this part of it
  int passes_max = 6;           ///< meshes, the first included
  double seconds_max = 600.0;   ///< no further mesh is begun after this time [s]
};

enum class HandShape {
  none,
  thin_cylinder,
  thick_cylinder,
  thin_sphere,
  thick_sphere,
  clamped_round_panel,
  supported_round_panel,
  clamped_rectangular_panel,
  supported_rectangular_panel
};

struct HandCalculationSpec {
  Place place;
  bool automatic = false;  ///< what the part offers; nothing else but `pressure` is set then
  HandShape shape = HandShape::none;
  double inner_radius = 0.0;  ///< cylinder, sphere; panel: radius or half the short side [mm]
  double wall = 0.0;          ///< [mm]
  double length = 0.0;        ///< cylinder: between ends, for buckling; panel: long side [mm]
  bool closed_ends = true;
  std::string pressure;  ///< which load; default the first
};

struct NamedDirection {
  std::string name;
  Eigen::Vector3d direction;
};

struct DirectionsSpec {
  std::vector<NamedDirection> named;           ///< none: all of them, on a map
  double overhang_angle = 0.7853981633974483;  ///< from horizontal, below which a down-facing
                                               ///< surface needs support [rad]
};

/// A case file, read and checked for form; nothing geometric is resolved yet.
struct CaseFile {
  /// Whether bodies are joined by faces that can part, so that superposition does not hold.
  bool joined() const {
    return !contacts.empty() ||
           std::ranges::any_of(gaskets, [](const GasketSpec& g) { return g.between.has_value(); });
  }
  std::filesystem::path file;
  std::string title;
  std::vector<BodySpec> bodies;
  Conditions conditions;
  std::vector<PressureLoad> pressures;
  std::vector<ForceLoad> forces;
  std::vector<AccelerationLoad> accelerations;
  std::vector<TemperatureLoad> temperatures;
  std::vector<BoltSpec> bolts;
  std::vector<ContactSpec> contacts;
  std::vector<GasketSpec> gaskets;
  std::vector<SupportSpec> supports;
  std::vector<LoadCaseSpec> load_cases;
  std::vector<ProbeSpec> probes;
  Targets targets;
  MeshOptions mesh;
  Refining refining;
  SolverOptions solve;  ///< threads are the caller's business
  HandCalculationSpec hand_calculation;
  DirectionsSpec directions;
};

/// Read a case file.
/// @throws std::invalid_argument "case.toml:12: ..." naming the key, the value and the remedy;
/// unknown keys are errors
///         that suggest the nearest known one.
CaseFile read_case(const std::filesystem::path& file);

/// The bodies of a case file alone, while what loads and holds them is still to be written.
/// @throws std::invalid_argument as read_case does, for what it says of bodies and for keys that
/// there are not.
CaseFile read_bodies_of_case(const std::filesystem::path& file);

/// The reference of every key, as Markdown, from the parser's own table.
std::string case_key_reference();

}  // namespace crossgrain
