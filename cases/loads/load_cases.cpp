// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/loads/load_cases.h"

#include <algorithm>

#include "cases/case_file/case_place.h"
#include "cases/loads/case_combinations.h"
#include "cases/loads/joint_cases.h"
#include "cases/loads/joint_loads.h"
#include "cases/loads/pressure_loads.h"
#include "cases/loads/support_edges.h"
#include "mesh/geometry/geometry_words.h"
#include "solver/heat/steady_temperature.h"

namespace crossgrain {
namespace {

/// Faces smaller than this carry a force as a point would: a couple of beads across (common
/// practice, no source) [mm^2].
constexpr double point_like_area = 4.0;

constexpr double zero_celsius_K = 273.15;
constexpr double room_temperature_K = 296.15;  ///< 23 degC, at which parts are put together

class LoadingBuilder {
 public:
  LoadingBuilder(const CaseFile& case_file, const Geometry& geometry, const Features& features,
                 const TetrahedronMesh& mesh, const MaterialField& field)
      : case_file_(case_file),
        geometry_(geometry),
        features_(features),
        mesh_(mesh),
        field_(field) {}

  Loading build() {
    add_supports();
    add_pressures();
    add_forces();
    add_accelerations();
    add_temperatures();
    if (case_file_.joined()) {
      loading_.joined =
          join_bodies(case_file_, geometry_, features_, mesh_, field_, std::move(loading_.loads));
      combine_joint_cases(case_file_, loading_);
      note_tightness();
    } else {
      add_joints();
      loading_.joints = roles_.joints;
      loading_.cases = combine_cases(case_file_, loading_, roles_);
    }
    return std::move(loading_);
  }

 private:
  ChosenFaces choose(const FaceChoice& choice) const {
    return choose_faces(geometry_, features_, choice);
  }

  std::size_t add(ElementaryLoad load) {
    loading_.loads.push_back(std::move(load));
    return loading_.loads.size() - 1;
  }

  /// Stress near a held face is not real, unless the face only slides: that is a plane of symmetry.
  /// Where it ends in the middle of a surface it is none.
  void add_supports() {
    std::vector<FaceId> held, sliding, fixed;
    for (const auto& spec : case_file_.supports) {
      Support support{spec.name, choose(spec.faces).faces, spec.hold, spec.direction};
      for (const FaceId face : support.faces) {
        held.push_back(face);
        (slides(spec, geometry_.face(face)) ? sliding : fixed).push_back(face);
      }
      loading_.supports.push_back(std::move(support));
    }
    loading_.artificial = fixed;
    loading_.artificial_edges = edges_without_limit(geometry_, sliding, held, HeldFace::sliding);
    loading_.support_edges = edges_without_limit(geometry_, fixed, held, HeldFace::fixed);
    loading_.support_edges.insert(loading_.support_edges.end(), loading_.artificial_edges.begin(),
                                  loading_.artificial_edges.end());
  }

  static bool slides(const SupportSpec& spec, const CadFace& face) {
    if (spec.hold == Hold::normal) return true;
    return spec.hold == Hold::direction && face.kind == SurfaceKind::plane &&
           std::abs(face.axis.dot(spec.direction)) > 1.0 - 1e-6;
  }

  void add_pressures() {
    for (const auto& spec : case_file_.pressures) {
      auto assembled = told_at(spec.place, "[[pressure]] '" + spec.name + "'", [&] {
        return assemble_pressure(spec, case_file_, geometry_, features_, mesh_);
      });
      for (const auto& thrust : assembled.thrusts) list_thrust(spec, thrust);
      for (auto& note : assembled.notes) loading_.notes.push_back(std::move(note));
      if (!loading_.leading_pressure && spec.scales && assembled.value_MPa != 0.0) {
        loading_.leading_pressure = spec.name;
        loading_.working_pressure_MPa = assembled.value_MPa;
      }
      add(assembled.load);
      pressures_.push_back(std::move(assembled));
    }
  }

  void list_thrust(const PressureLoad& spec, const FluidThrust& thrust) {
    loading_.thrusts.push_back(
        {spec.name, thrust.opening.name, thrust.wrench.force, carrier_words(thrust.carried_by)});
  }

  std::string carrier_words(const std::string& carrier) const {
    if (carrier == "plug") return "the plug, held by the bore wall round it";
    if (carrier == "outside") return "something outside that does not touch the part";
    if (std::ranges::find(case_file_.contacts, carrier, &ContactSpec::name) !=
        case_file_.contacts.end())
      return "the body beyond contact '" + carrier + "'";
    const auto gasket = std::ranges::find(case_file_.gaskets, carrier, &GasketSpec::name);
    if (gasket == case_file_.gaskets.end()) return "support '" + carrier + "'";
    return gasket->between ? "the body beyond gasket '" + carrier + "'"
                           : "the lid on gasket '" + carrier + "' and its screws";
  }

  void add_forces() {
    for (const auto& spec : case_file_.forces) {
      const auto faces = choose(spec.faces).faces;
      ElementaryLoad load;
      load.name = spec.name;
      load.scales = spec.scales;
      load.nodal_forces = told_at(spec.place, "[[force]] '" + spec.name + "'", [&] {
        return spread_force(mesh_, faces, spec.force, spec.moment);
      });
      load.resultant = resultant(mesh_, load.nodal_forces);
      if (face_moments(mesh_, faces).area < point_like_area) {
        loading_.artificial.insert(loading_.artificial.end(), faces.begin(), faces.end());
      }
      add(std::move(load));
    }
  }

  void add_accelerations() {
    for (const auto& spec : case_file_.accelerations) {
      ElementaryLoad load;
      load.name = spec.name;
      load.scales = spec.scales;
      load.acceleration = spec.acceleration;
      load.nodal_forces = body_load(mesh_, field_, spec.acceleration);
      load.resultant = resultant(mesh_, load.nodal_forces);
      add(std::move(load));
    }
  }

  void add_temperatures() {
    for (const auto& spec : case_file_.temperatures) {
      ElementaryLoad load;
      load.name = spec.name;
      load.scales = spec.scales;
      load.temperature_change = temperature_change(spec);
      note_warmth(spec);
      load.nodal_forces = thermal_load(mesh_, field_, load.temperature_change);
      load.resultant = resultant(mesh_, load.nodal_forces);
      add(std::move(load));
    }
  }

  /// Strengths are those of one temperature, whatever a load case adds to it.
  void note_warmth(const TemperatureLoad& spec) {
    const double warmest = std::max(spec.change, spec.faces ? spec.other_change : spec.change);
    const double judged_at = case_file_.conditions.service.temperature_K;
    if (!(warmest > 0.0) || judged_at >= room_temperature_K + warmest) return;
    loading_.notes.push_back("temperature change '" + spec.name +
                             "' warms a part that was made at " +
                             words(room_temperature_K - zero_celsius_K) + " degC to " +
                             words(room_temperature_K + warmest - zero_celsius_K) +
                             " degC; strengths are judged at the temperature of [conditions], " +
                             words(judged_at - zero_celsius_K) + " degC");
  }

  /// By node [K].
  Eigen::VectorXd temperature_change(const TemperatureLoad& spec) const {
    if (!spec.faces) return Eigen::VectorXd::Constant(mesh_.node_count(), spec.change);
    return told_at(spec.place, "[[temperature_change]] '" + spec.name + "'", [&] {
      return steady_temperature(mesh_, {{choose(*spec.faces).faces, spec.change},
                                        {choose(*spec.other_faces).faces, spec.other_change}});
    });
  }

  /// Faces that only press have no limit at which they leak.
  void note_tightness() {
    const auto between = [](const GasketSpec& gasket) { return gasket.between.has_value(); };
    const auto opens = [](const ContactSpec& contact) {
      return contact.kind == ContactKind::unilateral;
    };
    if (std::ranges::any_of(case_file_.gaskets, between) || case_file_.pressures.empty() ||
        std::ranges::none_of(case_file_.contacts, opens))
      return;
    loading_.notes.emplace_back(
        "No gasket lies between the joined bodies: whether they are tight is not judged. A fluid "
        "comes between faces that it borders wherever they press on each other less than it does.");
  }

  void add_joints() {
    for (const auto& spec : case_file_.bolts) {
      std::optional<Eigen::Vector3d> lid_normal;
      for (const auto& gasket : case_file_.gaskets) {
        if (gasket.bolts != spec.name) continue;
        if (lid_normal) {
          throw std::invalid_argument(at(gasket.place) + "[[gasket]] '" + gasket.name +
                                      "' bolts: '" + spec.name +
                                      "' presses another gasket already and how it shares its pull "
                                      "is not known; give each gasket its own group");
        }
        lid_normal = gasket_normal(gasket, choose(gasket.faces).faces, geometry_);
      }
      auto group = told_at(spec.place, "[[bolt]] '" + spec.name + "'", [&] {
        return assemble_screws(spec, lid_normal, geometry_, features_, mesh_);
      });
      for (const auto& gasket : case_file_.gaskets) {
        if (gasket.bolts == spec.name) add_gasket(gasket, group);
      }
      group.preload.resultant = resultant(mesh_, group.preload.nodal_forces);
      roles_.preloads.push_back(
          {spec.name, add(std::move(group.preload)), group.least, group.greatest});
    }
  }

  void add_gasket(const GasketSpec& spec, ScrewGroup& group) {
    const auto pressure = std::ranges::find(pressures_, spec.pressure,
                                            [](const AssembledPressure& p) { return p.load.name; });
    if (pressure == pressures_.end()) {
      throw std::invalid_argument(at(spec.place) + "[[gasket]] '" + spec.name +
                                  "' pressure: nothing is named '" + spec.pressure + "'");
    }
    auto joint = assemble_gasket(spec, group, *pressure, geometry_, features_, mesh_);
    const std::size_t relief = add(std::move(joint.relief));
    const std::size_t share = add(std::move(joint.share));
    roles_.joints.push_back(
        {joint.name, joint.bolts, joint.pressure, relief, share, joint.closing_N, joint.opening_N});
    loading_.notes.push_back("gasket '" + joint.name + "': the screws '" + joint.bolts +
                             "' press it with " + words(joint.closing_N) +
                             " N at nominal preload, the fluid pushes the lid off with " +
                             words(joint.opening_N) + " N at the working pressure");
  }

  const CaseFile& case_file_;
  const Geometry& geometry_;
  const Features& features_;
  const TetrahedronMesh& mesh_;
  const MaterialField& field_;
  std::vector<AssembledPressure> pressures_;
  LoadRoles roles_;
  Loading loading_;
};

}  // namespace

Loading assemble_loading(const CaseFile& case_file, const Geometry& geometry,
                         const Features& features, const TetrahedronMesh& mesh,
                         const MaterialField& field) {
  return LoadingBuilder(case_file, geometry, features, mesh, field).build();
}

}  // namespace crossgrain
