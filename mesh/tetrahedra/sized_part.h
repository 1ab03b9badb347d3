// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/step/step_reader.h"
#include "mesh/tetrahedra/size_field.h"
#include "mesh/tetrahedra/wall_columns.h"
#include "mesh/tetrahedra/wall_layers.h"

namespace crossgrain {

/// A part under the ruler: where its walls are and which sizes they ask for.
class SizedPart {
 public:
  /// Measures the part. All of the arguments must outlive this object.
  SizedPart(const ReadStep& step, const MeshOptions& options, const Remedy& remedy);

  SizeField sizes() const;
  /// Points between the layers of the walls, for the mesher to keep.
  std::vector<InnerPoint> inner_points(const SizeField& sizes) const;
  /// Of the mesh that these sizes will lead to.
  double expected_unknowns(const SizeField& sizes) const;

  /// Ask for shorter edges where walls have too few layers.
  void shorten(const std::vector<WallCrossing>& crossings, const SizeField& sizes);
  /// Multiply every size so that there will be `excess` times fewer unknowns.
  void coarsen(double excess);
  /// By what every size has been multiplied so far [-].
  double coarsening() const { return coarsening_; }

 private:
  /// A remedy's least size holds for what is asked from outside too, size_min for points only.
  AskedSizes asked_sizes() const;

  const Geometry& geometry_;
  const MeshOptions& options_;
  const Remedy& remedy_;
  SizeRules rules_;
  std::vector<SurfaceRays> rays_;
  std::vector<SurfaceSample> samples_;
  std::vector<SizedPoint> shortened_;
  double coarsening_ = 1.0;
};

}  // namespace crossgrain
