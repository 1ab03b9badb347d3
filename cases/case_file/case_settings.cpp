// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_settings.h"

#include <sstream>

namespace crossgrain {
namespace {

class Settings {
 public:
  void add(const std::string& name, const std::string& value) { all_.emplace_back(name, value); }
  void add(const std::string& name, double value, const char* unit) {
    std::ostringstream text;
    text.precision(6);
    text << value;
    if (*unit != '\0') text << " " << unit;
    add(name, text.str());
  }
  void add(const std::string& name, const Eigen::Vector3d& v, const char* unit) {
    std::ostringstream text;
    text.precision(6);
    text << "(" << v[0] << ", " << v[1] << ", " << v[2] << ")";
    if (*unit != '\0') text << " " << unit;
    add(name, text.str());
  }
  CaseSettings all() { return std::move(all_); }

 private:
  CaseSettings all_;
};

const char* words(bool yes) { return yes ? "yes" : "no"; }

const char* words(Hold hold) {
  switch (hold) {
    case Hold::all:
      return "all motion";
    case Hold::direction:
      return "one direction";
    default:
      return "normal to its surface";
  }
}

void add_bodies(Settings& settings, const CaseFile& case_file) {
  for (const auto& body : case_file.bodies) {
    const std::string head = body.name.empty() ? "body" : "body '" + body.name + "'";
    settings.add(head + ": STEP file", body.step_file.filename().string());
    settings.add(head + ": material", body.material);
    settings.add(head + ": print direction", body.print_direction, "");
    settings.add(head + ": scale", body.scale, "");
    if (body.placement.angle != 0.0) {
      settings.add(head + ": turn, axis", body.placement.axis, "");
      settings.add(head + ": turn, angle", body.placement.angle * 180.0 / M_PI, "deg");
      settings.add(head + ": turn, about", body.placement.about, "mm");
    }
    if (!body.placement.shift.isZero(0.0)) {
      settings.add(head + ": shift", body.placement.shift, "mm");
    }
    if (body.bead_width) settings.add(head + ": bead width", *body.bead_width, "mm");
  }
}

void add_conditions(Settings& settings, const Conditions& conditions) {
  settings.add("temperature", conditions.service.temperature_K - 273.15, "degC");
  settings.add("moisture", conditions.service.moisture == Moisture::dry ? "dry" : "conditioned");
  settings.add("duration", conditions.service.duration_s / 3600.0, "h");
  settings.add("cycles", conditions.service.cycles, "");
  settings.add("medium", conditions.medium_name);
}

void add_pressures(Settings& settings, const CaseFile& case_file) {
  for (const auto& load : case_file.pressures) {
    const std::string head = "pressure '" + load.name + "'";
    settings.add(head, load.value, "MPa");
    settings.add(head + ": faces", load.faces.text);
    settings.add(head + ": scales", words(load.scales));
    if (load.head) {
      settings.add(head + ": head, density", load.head->density * 1e12, "kg/m^3");
      settings.add(head + ": head, free surface", load.head->free_surface, "mm");
      settings.add(head + ": head, up", load.head->up, "");
    }
    for (const auto& [opening, carrier] : load.carried_by) {
      settings.add(head + ": " + opening + " carried by", carrier);
    }
  }
}

void add_other_loads(Settings& settings, const CaseFile& case_file) {
  for (const auto& load : case_file.forces) {
    const std::string head = "force '" + load.name + "'";
    settings.add(head + ": faces", load.faces.text);
    settings.add(head, load.force, "N");
    settings.add(head + ": moment", load.moment, "N mm");
    settings.add(head + ": scales", words(load.scales));
  }
  for (const auto& load : case_file.accelerations) {
    settings.add("acceleration '" + load.name + "'", load.acceleration, "mm/s^2");
    settings.add("acceleration '" + load.name + "': scales", words(load.scales));
  }
  for (const auto& load : case_file.temperatures) {
    settings.add("temperature change '" + load.name + "'", load.change, "K");
    if (load.faces) {
      settings.add("temperature change '" + load.name + "': faces", load.faces->text);
      settings.add("temperature change '" + load.name + "': other_faces", load.other_faces->text);
      settings.add("temperature change '" + load.name + "': other_change", load.other_change, "K");
    }
    settings.add("temperature change '" + load.name + "': scales", words(load.scales));
  }
}

void add_joint(Settings& settings, const CaseFile& case_file) {
  for (const auto& bolt : case_file.bolts) {
    const std::string head = "screws '" + bolt.name + "'";
    settings.add(head + ": thread", bolt.thread.text);
    settings.add(head + ": size", bolt.size);
    settings.add(head + ": least preload", bolt.preload_min, "N");
    settings.add(head + ": nominal preload", bolt.preload_nominal, "N");
    settings.add(head + ": greatest preload", bolt.preload_max, "N");
    if (!bolt.head_seat) continue;
    settings.add(head + ": head seat", bolt.head_seat->text);
    settings.add(head + ": head diameter", bolt.head_diameter, "mm");
  }
  for (const auto& gasket : case_file.gaskets) {
    settings.add("gasket '" + gasket.name + "'", gasket.faces.text);
    settings.add("gasket '" + gasket.name + "': bolts", gasket.bolts);
    settings.add("gasket '" + gasket.name + "': pressure", gasket.pressure);
  }
  for (const auto& support : case_file.supports) {
    settings.add("support '" + support.name + "'", support.faces.text);
    settings.add("support '" + support.name + "': holds", words(support.hold));
    if (support.hold != Hold::direction) continue;
    settings.add("support '" + support.name + "': direction", support.direction, "");
  }
}

void add_cases_and_targets(Settings& settings, const CaseFile& case_file) {
  for (const auto& load_case : case_file.load_cases) {
    for (const auto& [load, factor] : load_case.factors) {
      settings.add("load case '" + load_case.name + "': " + load, factor, "");
    }
  }
  const auto& targets = case_file.targets;
  settings.add("target safety factor", targets.safety_factor, "");
  settings.add("target proof factor", targets.proof_factor, "");
  settings.add("proof duration", targets.proof_duration_s / 60.0, "min");
  settings.add("criterion",
               targets.criterion == Criterion::interactive ? "interactive" : "maximum stress");
}

void add_refining(Settings& settings, const Refining& refining) {
  settings.add("mesh: refine the worst place", words(refining.worst_place));
  if (refining.error) settings.add("mesh: error asked for", 100.0 * *refining.error, "%");
  settings.add("mesh: most passes", refining.passes_max, "");
}

void add_mesh(Settings& settings, const MeshOptions& mesh) {
  settings.add("mesh: layers through the wall", mesh.layers, "");
  settings.add("mesh: refinement", mesh.refinement, "");
  settings.add("mesh: elements per turn", mesh.elements_per_turn, "");
  if (mesh.size) settings.add("mesh: largest size", *mesh.size, "mm");
  if (mesh.size_min) settings.add("mesh: smallest size", *mesh.size_min, "mm");
  if (mesh.mesh_file) settings.add("mesh: read from", mesh.mesh_file->filename().string());
}

void add_solve(Settings& settings, const SolverOptions& solve) {
  settings.add("solve: method", solve.method == SolverMethod::direct      ? "direct"
                                : solve.method == SolverMethod::iterative ? "iterative"
                                                                          : "automatic");
  settings.add("solve: tolerance", solve.tolerance, "");
}

}  // namespace

CaseSettings case_settings(const CaseFile& case_file) {
  Settings settings;
  add_bodies(settings, case_file);
  add_conditions(settings, case_file.conditions);
  add_pressures(settings, case_file);
  add_other_loads(settings, case_file);
  add_joint(settings, case_file);
  add_cases_and_targets(settings, case_file);
  add_mesh(settings, case_file.mesh);
  add_refining(settings, case_file.refining);
  add_solve(settings, case_file.solve);
  return settings.all();
}

}  // namespace crossgrain
