// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>

namespace crossgrain {

/// The mesher could not mesh what is otherwise sound input; another remedy may help.
struct MeshingFailure : std::runtime_error {
  using std::runtime_error::runtime_error;
};

}  // namespace crossgrain
