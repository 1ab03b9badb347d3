// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <BRepAdaptor_Surface.hxx>
#include <BRepLProp_SLProps.hxx>
#include <TopoDS_Face.hxx>
#include <array>
#include <cstddef>
#include <map>
#include <vector>

#include "mesh/geometry/surface_rays.h"
#include "mesh/tetrahedra/mesh_sizes.h"

namespace crossgrain {

/// Looks at one CAD face, patch by patch, at points as close as the sizes wanted there.
class FaceSampler {
 public:
  /// @param spacing  distance of the points, as a share of the edge length wanted [-].
  /// @param most     stop when there are so many samples.
  FaceSampler(const TopoDS_Face& face, const CadFace& description, const SurfaceRays& rays,
              const SizeRules& rules, double spacing, std::size_t most,
              std::vector<SurfaceSample>& samples);

  /// The whole face, which must be triangulated.
  void take_face();

 private:
  struct Corner {
    Eigen::Vector2d uv;
    Eigen::Vector3d point;
  };
  using Patch = std::array<Corner, 3>;
  using Cell = std::array<int, 4>;

  /// Halve a patch until it is small enough. @param wanted  edge length round it [mm].
  void take(const Patch& patch, double wanted, int depth);
  /// The sample that stands for a patch: an earlier one that is near enough, or a new one.
  const SurfaceSample& sample_of(const Patch& patch, double wanted);
  SurfaceSample look_at(const Patch& patch);
  void measure_wall(SurfaceSample& sample) const;

  const TopoDS_Face& face_;
  BRepAdaptor_Surface surface_;
  const CadFace& description_;
  const SurfaceRays& rays_;
  const SizeRules& rules_;
  double spacing_;
  std::size_t most_;
  std::vector<SurfaceSample>& samples_;
  std::map<Cell, std::size_t> sample_in_cell_;
  bool reversed_;
  BRepLProp_SLProps properties_;
};

}  // namespace crossgrain
