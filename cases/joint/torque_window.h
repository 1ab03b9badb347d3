// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/joint/joint_line.h"

namespace crossgrain {

/// How one of the joint's lines answers to tightening, in one situation: pairs of preload and
/// value, ascending in preload, straight between them.
struct PreloadResponse {
  JointMode mode;
  std::string owner;
  std::string situation;  ///< "service after losses, 60 degC"
  double temperature_K;
  bool after_losses;
  struct Point {
    double preload;  ///< that was reached at assembly, over the nominal one [-]
    double value;
  };
  std::vector<Point> points;
  double limit;
};

/// Least and greatest preload over nominal that tightening by one torque gives.
struct PreloadScatter {
  double least;     ///< at most 1 [-]
  double greatest;  ///< at least 1 [-]
};

/// An end of the window.
struct TorqueBound {
  double torque;   ///< over the nominal one [-]
  JointMode mode;  ///< that sets it
  std::string owner;
  std::string situation;
  bool extrapolated;  ///< beyond the preloads that were solved for: confirm it there
};

/// Torques that seal with the least preload they may give and neither crush, yield nor pull with
/// the greatest.
struct TorqueWindow {
  std::optional<TorqueBound> lowest;   ///< none: nothing sets one
  std::optional<TorqueBound> highest;  ///< none: nothing sets one
  std::optional<JointMode> never;      ///< no torque at all satisfies this one
  bool empty() const;
};

/// The preload from which on a line that must be reached is, or up to which one that must be kept
/// is kept. Beyond the response's ends its last slope is followed, upwards to three times the
/// greatest preload.
struct PreloadBound {
  enum class Kind { at, always, never } kind;
  double preload;     ///< over nominal, if `at` [-]
  bool extrapolated;  ///< if `at`
};
/// @throws std::invalid_argument for less than two points, preloads that do not ascend or values
/// that are no numbers.
PreloadBound preload_bound(const PreloadResponse& response);

/// The intersection over all responses, that is over all situations and temperatures.
TorqueWindow torque_window(const std::vector<PreloadResponse>& responses,
                           const PreloadScatter& scatter);

/// The window of each temperature alone, ascending.
struct TemperatureWindow {
  double temperature_K;
  TorqueWindow window;
};
std::vector<TemperatureWindow> windows_by_temperature(const std::vector<PreloadResponse>& responses,
                                                      const PreloadScatter& scatter);

}  // namespace crossgrain
