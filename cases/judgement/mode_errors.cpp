// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/mode_errors.h"

#include <algorithm>
#include <cmath>

#include "cases/judgement/factor_slope.h"
#include "cases/judgement/governing_place.h"
#include "solver/error/bead_error.h"

namespace crossgrain {
namespace {

// Fields recovered at one go share the fits' matrices; more would take memory that the solution
// has just given back.
constexpr std::size_t loads_at_once = 4;

/// The worst place of one mode in one load case.
struct ModePlace {
  ModeResult* mode;
  GoverningState state;
  std::vector<double> counts;  ///< of the elementary loads when the limit is reached
  Vector6d slope;
  BeadError error;
};

class ModePlaces {
 public:
  ModePlaces(const Geometry& geometry, const JudgedModel& model, const Loading& loading,
             const ElementarySolution& solution, const MaterialField& field)
      : geometry_(geometry), model_(model), loading_(loading), solution_(solution), field_(field) {}

  void add(Judgement& judgement, int load_case, bool held_apart) {
    for (ModeResult& mode : judgement.modes) {
      if (!mode.factor.value || !(*mode.factor.value > 0.0)) continue;
      const GoverningState state{load_case, site_of(model_.sites, mode), mode.mode,
                                 *mode.factor.value, held_apart};
      if (!sees_bead(geometry_, loading_.support_edges, model_, state.site)) continue;
      const StateStress stress(state, model_, loading_, solution_, field_);
      places_.push_back({&mode, state, state.at_limit(loading_.cases[load_case]),
                         factor_slope(state, stress),
                         BeadError(model_.sites.fit.shares(state.site))});
    }
  }

  void estimate() {
    const std::size_t loads = loading_.loads.size();
    for (std::size_t first = 0; first < loads; first += loads_at_once)
      take_loads(first, std::min(loads, first + loads_at_once));
    for (const ModePlace& place : places_) place.mode->mesh_error = place.error.along(place.slope);
  }

 private:
  void take_loads(std::size_t first, std::size_t last) {
    std::vector<ElementStress> own;
    for (std::size_t i = first; i < last; ++i) {
      std::vector<double> counts(loading_.loads.size(), 0.0);
      counts[i] = 1.0;
      const SumOfLoads load = sum_of_loads(counts, loading_, solution_);
      own.push_back(
          element_stress(model_.mesh, field_, load.displacement, load.temperature_change));
    }
    const std::vector<StressDoubt> doubts = stress_doubts(model_.mesh, model_.sites.points, own);
    for (ModePlace& place : places_)
      for (std::size_t i = first; i < last; ++i)
        if (place.counts[i] != 0.0) place.error.add(place.counts[i], doubts[i - first]);
  }

  const Geometry& geometry_;
  const JudgedModel& model_;
  const Loading& loading_;
  const ElementarySolution& solution_;
  const MaterialField& field_;
  std::vector<ModePlace> places_;
};

bool is_governing(const ModeResult& mode, const RunResult& result) {
  return result.governing && result.mesh_error && mode.mode == result.governing->mode &&
         mode.position == result.governing->position &&
         mode.factor.value == result.governing->factor.value;
}

void tell_governing(Judgement& judgement, const RunResult& result) {
  for (ModeResult& mode : judgement.modes)
    if (is_governing(mode, result)) mode.mesh_error = result.mesh_error->factor;
  if (!judgement.governing) return;
  const auto mode =
      std::ranges::find(judgement.modes, judgement.governing->mode, &ModeResult::mode);
  if (mode != judgement.modes.end()) judgement.governing->mesh_error = mode->mesh_error;
}

}  // namespace

void add_mode_errors(RunResult& result, const Geometry& geometry, const JudgedModel& model,
                     const Loading& loading, const ElementarySolution& solution,
                     const MaterialField& field) {
  ModePlaces places(geometry, model, loading, solution, field);
  for (std::size_t i = 0; i < result.cases.size(); ++i) {
    places.add(result.cases[i].all_loads, static_cast<int>(i), false);
    if (result.cases[i].scaling_loads.applies)
      places.add(result.cases[i].scaling_loads, static_cast<int>(i), true);
  }
  places.estimate();
  for (CaseResult& judged : result.cases) {
    tell_governing(judged.all_loads, result);
    tell_governing(judged.scaling_loads, result);
  }
}

}  // namespace crossgrain
