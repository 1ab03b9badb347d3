// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Shape.hxx>

#include "mesh/geometry/geometry.h"
#include "mesh/step/import_options.h"

namespace crossgrain {

/// STEP files as the kernel's shape and as plain data.
struct ReadStep {
  /// A compound of the solids alone, in millimetres times the scale. A solid's place in the
  /// compound is its body's; a face's place among the faces first met when walking solid by solid
  /// is its own, and edges likewise: the order in which Gmsh numbers what it is handed.
  TopoDS_Shape shape;
  Geometry geometry;
  std::vector<KeptApart> apart;
};

/// Read STEP files in this process. The kernel may crash or hang on bad files: call it in a child.
/// @throws std::invalid_argument naming the file, what is wrong with it and the remedy.
ReadStep read_step(const ImportOptions& options);

}  // namespace crossgrain
