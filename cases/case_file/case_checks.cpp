// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_checks.h"

#include <algorithm>
#include <stdexcept>

#include "cases/case_file/case_sources.h"
#include "materials/card_file/card.h"
#include "materials/units/nearest_name.h"

namespace crossgrain {
namespace {

struct Named {
  std::string name;
  int line;
};

template <typename Spec>
void append(std::vector<Named>& names, const std::vector<Spec>& specs) {
  for (const Spec& spec : specs) names.push_back({spec.name, spec.place.line});
}

std::vector<Named> load_names(const CaseFile& case_file) {
  std::vector<Named> names;
  append(names, case_file.pressures);
  append(names, case_file.forces);
  append(names, case_file.accelerations);
  append(names, case_file.temperatures);
  append(names, case_file.bolts);
  return names;
}

template <typename Spec>
std::vector<Named> names_of(const std::vector<Spec>& specs) {
  std::vector<Named> names;
  append(names, specs);
  return names;
}

void refuse_twins(std::vector<Named> names, Problems& problems) {
  std::stable_sort(names.begin(), names.end(), [](const Named& a, const Named& b) {
    return std::pair(a.name, a.line) < std::pair(b.name, b.line);
  });
  for (std::size_t i = 1; i < names.size(); ++i) {
    if (names[i].name != names[i - 1].name) continue;
    problems.add(names[i].line, "the name '" + names[i].name + "' is taken by line " +
                                    std::to_string(names[i - 1].line) +
                                    "; give every load, bolt, gasket, support, load case and "
                                    "probe its own");
  }
}

/// Report a reference to a name that is not there.
void require_name(const std::string& name, const std::vector<Named>& known, int line,
                  const std::string& where, Problems& problems) {
  std::vector<std::string> names;
  for (const Named& candidate : known) {
    if (candidate.name == name) return;
    names.push_back(candidate.name);
  }
  const auto nearest = nearest_name(name, names);
  std::string list;
  for (const std::string& other : names) list += (list.empty() ? "'" : ", '") + other + "'";
  problems.add(line, where + ": nothing is named '" + name + "'; " +
                         (nearest        ? "did you mean '" + *nearest + "'?"
                          : list.empty() ? "the case has none"
                                         : "there are " + list));
}

void check_material(const BodySpec& body, const CaseFile& case_file, Problems& problems) {
  try {
    find_card(body.material, case_file.file.parent_path());
  } catch (const std::invalid_argument& error) {
    problems.add(body.place.line, std::string("[[body]] material: ") + error.what());
  }
}

void check_references(const CaseFile& case_file, Problems& problems) {
  const std::vector<Named> pressures = names_of(case_file.pressures);
  for (const GasketSpec& gasket : case_file.gaskets) {
    require_name(gasket.bolts, names_of(case_file.bolts), gasket.place.line, "[[gasket]] bolts",
                 problems);
    require_name(gasket.pressure, pressures, gasket.place.line, "[[gasket]] pressure", problems);
  }
  for (const LoadCaseSpec& load_case : case_file.load_cases) {
    for (const auto& [name, factor] : load_case.factors) {
      require_name(name, load_names(case_file), load_case.place.line, "[[load_case]] factors",
                   problems);
    }
    if (load_case.factors.empty()) {
      problems.add(load_case.place.line,
                   "[[load_case]] factors: empty; write { \"a load's name\" = 1.0 }");
    }
  }
  const HandCalculationSpec& hand = case_file.hand_calculation;
  if (hand.shape == HandShape::none && !hand.automatic) return;
  if (!hand.pressure.empty()) {
    require_name(hand.pressure, pressures, hand.place.line, "[hand_calculation] pressure",
                 problems);
  } else if (pressures.empty()) {
    problems.add(hand.place.line,
                 "[hand_calculation]: the case has no pressure to calculate with; add a "
                 "[[pressure]] or leave the table out");
  }
}

void check_carriers(const CaseFile& case_file, Problems& problems) {
  std::vector<Named> carriers = {{"plug", 0}, {"outside", 0}};
  append(carriers, case_file.gaskets);
  append(carriers, case_file.contacts);
  append(carriers, case_file.supports);
  for (const PressureLoad& load : case_file.pressures) {
    for (const auto& [opening, carrier] : load.carried_by) {
      require_name(carrier, carriers, load.place.line, "[[pressure]] carried_by " + opening,
                   problems);
      const auto& wetted = load.faces.wetted;
      if (!wetted) continue;
      std::vector<Named> openings;
      for (const std::string& name : wetted->stop_names) {
        openings.push_back({name, 0});
        // A port met in several loops opens as "taps 1", "taps 2", ...; which, the part decides.
        if (opening.starts_with(name + " ")) openings.push_back({opening, 0});
      }
      require_name(opening, openings, load.place.line, "[[pressure]] carried_by", problems);
    }
  }
}

}  // namespace

void check_bodies(const CaseFile& case_file, Problems& problems) {
  std::error_code ignored;
  for (auto body = case_file.bodies.begin(); body != case_file.bodies.end(); ++body) {
    const bool unclear = std::any_of(case_file.bodies.begin(), body, [&](const BodySpec& other) {
      return same_source(*body, other) &&
             (body->name.empty() || other.name.empty() || body->name == other.name);
    });
    if (unclear) {
      problems.add(body->place.line,
                   "[[body]]: of several bodies of one file each needs a name of its own, that of "
                   "its solid in the STEP file; `crossgrain inspect` lists them");
    }
    check_material(*body, case_file, problems);
    if (!std::filesystem::exists(body->step_file, ignored)) {
      problems.add(body->place.line, "[[body]] step_file: there is no file '" +
                                         body->step_file.string() +
                                         "'; give its path relative to the case file");
    }
  }
  const BodySpec& first = case_file.bodies.front();
  const auto& mesh_file = case_file.mesh.mesh_file;
  if (mesh_file && !std::filesystem::exists(*mesh_file, ignored)) {
    problems.add(first.place.line, "[mesh] file: there is no file '" + mesh_file->string() +
                                       "'; give its path relative to the case file");
  }
}

void check_case(const CaseFile& case_file, Problems& problems) {
  check_bodies(case_file, problems);
  std::vector<Named> names = load_names(case_file);
  append(names, case_file.contacts);
  append(names, case_file.gaskets);
  append(names, case_file.supports);
  refuse_twins(names, problems);
  refuse_twins(names_of(case_file.load_cases), problems);
  refuse_twins(names_of(case_file.probes), problems);
  check_references(case_file, problems);
  check_carriers(case_file, problems);
  if (load_names(case_file).empty()) {
    problems.add(1,
                 "nothing loads the part; add a [[pressure]], [[force]], [[acceleration]], "
                 "[[temperature_change]] or [[bolt]]");
  }
}

}  // namespace crossgrain
