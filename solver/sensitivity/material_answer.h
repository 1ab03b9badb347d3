// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <span>
#include <vector>

#include "solver/error/quantity_error.h"
#include "solver/stress/bead_fit.h"

namespace crossgrain {

/// A weighted sum of stress over elements.
struct StressQuantity {
  std::span<const ElementShare> shares;
  Vector6d direction;  ///< what each stress component counts, global axes
};

/// What a quantity of a solution comes to when materials are others, without solving anew: the
/// displacement is sought in the span of the one that was solved for and of the one under the
/// quantity's own load, which are both known. Off by the square of the change, since the second
/// tells to first order what the first lacks; exact where the displacement keeps its shape, as when
/// a whole part's modulus changes.
/// One pass over the elements sums strain times strain by material; a material then costs nothing.
class MaterialAnswer {
 public:
  /// @param state    solved with `field`.
  /// @param counted  displacement under `stress_functional` of the quantity, same supports.
  /// @param added    what is stiff besides the elements, such as a joint in that state: work on
  ///                 either of both displacements of what resists the other [N mm].
  MaterialAnswer(const TetrahedronMesh& mesh, const MaterialField& field, const LoadedState& state,
                 const Eigen::VectorXd& counted, const StressQuantity& quantity,
                 const Eigen::Matrix2d& added = Eigen::Matrix2d::Zero());

  struct Answer {
    double quantity;        ///< [the direction's unit times MPa]
    Eigen::Vector2d parts;  ///< of both displacements in the one that is found; nominal (1, 0)
  };
  /// @param materials   in the place of the field's; what warmth does follows them.
  /// @param other_work  by how much the other loads change, as work on both displacements [N mm].
  Answer with(const std::vector<SolidMaterial>& materials,
              const Eigen::Vector2d& other_work = Eigen::Vector2d::Zero()) const;

 private:
  /// Of the elements of one material, in its axes. First and second: both displacements.
  struct Sums {
    std::array<Matrix6d, 3> strain_by_strain;  ///< first-first, first-second, second-second [mm^3]
    std::array<Matrix6d, 2> felt;              ///< what the quantity's direction meets of each
    Eigen::Matrix<double, 6, 2> warmed;        ///< strain of each times warmth [mm^3 K]
    Vector6d felt_warmth;                      ///< the direction times warmth [K]
  };
  class Pass;

  std::vector<Sums> sums_;  ///< by material
  Eigen::Matrix2d added_;
  Eigen::Vector2d work_;  ///< on each displacement, of loads that no warmth makes
};

}  // namespace crossgrain
