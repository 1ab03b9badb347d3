// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/named_shape.h"

#include "cases/second_opinions/shell_formulas.h"

namespace crossgrain {

HandCalculationSpec named_shape(const SimpleShape& shape) {
  HandCalculationSpec spec;
  spec.inner_radius = shape.radius;
  spec.wall = shape.wall;
  spec.length = shape.length;
  switch (shape.kind) {
    case ShapeKind::cylinder:
      spec.shape = taken_as_thin(shape) ? HandShape::thin_cylinder : HandShape::thick_cylinder;
      break;
    case ShapeKind::sphere:
      spec.shape = HandShape::thin_sphere;
      break;
    case ShapeKind::round_plate:
      spec.shape =
          shape.held_by_walls ? HandShape::clamped_round_panel : HandShape::supported_round_panel;
      break;
    case ShapeKind::rectangular_plate:
      spec.shape = shape.held_by_walls ? HandShape::clamped_rectangular_panel
                                       : HandShape::supported_rectangular_panel;
      break;
  }
  return spec;
}

}  // namespace crossgrain
