// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tools/results/run_outputs.h"

namespace crossgrain::testing {

/// A run that nobody solved, whose every number is known: a bar of two bodies glued together, 2 x 1
/// x 1 cells on 20 x 10 x 10 mm. Body 1 (x < 10) is layered and printed along +Z, body 2 isotropic
/// along +X. Two load cases: "assembly" and the governing "working".
struct SyntheticRun {
  RunResult result;
  CaseFile case_file;
  MeshedGeometry meshed;
  Features features;
  MaterialField field;
  std::vector<StressPoint> points;
  std::vector<FaceId> cavity;

  SyntheticRun();
  RunOutputs outputs() const {
    return {result, case_file, meshed, features, field, points, cavity};
  }

  // What the fields of case `c` (0, 1) hold at a point of space.
  static Eigen::Vector3d displacement(const Eigen::Vector3d& x, int c);
  static Vector6d stress(const Eigen::Vector3d& x, int c);  ///< global axes, 11 22 33 23 13 12
  /// Interlayer factor; infinite for x = 0, where it means "no limit".
  static double interlayer_factor(const Eigen::Vector3d& x);
};

/// Names that would break a file, or act, where they are not made harmless: markup, quotes, line
/// breaks, formulas, broken UTF-8, characters that turn the writing.
extern const char* const hostile_name;

/// The same run with `hostile_name` in every name and sentence.
SyntheticRun hostile_run();

/// A fresh directory under the build tree, empty.
std::filesystem::path empty_directory(const std::string& name);

/// The whole content of a file.
/// @throws std::runtime_error if it cannot be read.
std::string content_of(const std::filesystem::path& file);

}  // namespace crossgrain::testing
