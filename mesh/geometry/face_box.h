// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to mesh/: shows the kernel's types.

#include <TopoDS_Face.hxx>

#include "mesh/geometry/geometry.h"

namespace crossgrain {

/// The tight box of a face, to about 1e-6 of its size. The kernel's quick box is loose by its
/// splines' poles and by the parts cut away; its tight one takes seconds a torus.
Box box_of(const TopoDS_Face& face);

}  // namespace crossgrain
