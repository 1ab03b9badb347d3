// SPDX-License-Identifier: GPL-3.0-or-later
// B8: a closed cylinder with a rigid end under pressure.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <complex>

#include "solver/loads/loads.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

/// Bending of a long cylindrical wall by a clamped end, shear in the wall included: radial
/// deflection w and rotation of the normal r, D r'' + S (w' - r) = 0, S (w' - r)' = K w - load.
class ClampedWall {
 public:
  /// @param free  deflection far from the end.  @param shear  stiffness S [N/mm].
  ClampedWall(double R, double t, double E, double nu, double shear, double free)
      : D_(E * t * t * t / (12.0 * (1.0 - nu * nu))), K_over_S_(E * t / (R * R) / shear) {
    const double K_over_D = E * t / (R * R) / D_;
    rate_ =
        std::sqrt(std::complex(K_over_S_ / 2.0, std::sqrt(K_over_D - K_over_S_ * K_over_S_ / 4.0)));
    // w = free + Re(share e^(-rate z)) with w = r = 0 at z = 0.
    const double D_over_S = D_ / shear;
    const auto turn = rate_ * (1.0 - D_over_S * K_over_S_) + D_over_S * std::pow(rate_, 3);
    share_ = -free * std::complex(1.0, turn.real() / turn.imag());
  }
  /// Moment per length, positive with the inside in tension.
  double moment(double z) const {
    return D_ * ((rate_ * rate_ - K_over_S_) * share_ * std::exp(-rate_ * z)).real();
  }

 private:
  double D_, K_over_S_;
  std::complex<double> rate_, share_;
};

BOOST_AUTO_TEST_SUITE(rigid_end)

BOOST_AUTO_TEST_CASE(the_clamped_wall_without_shear_is_the_handbook_s) {
  constexpr double R = 24.0, t = 2.0, E = 2000.0;
  const auto peak = [&](double nu) {
    const ClampedWall wall(R, t, E, nu, 1e12, R * R / (E * t) * (1.0 - nu / 2.0));
    return (R / (2.0 * t) + 6.0 * wall.moment(0.0) / (t * t)) / (R / t);
  };
  // Half of the handbook's last decimal.
  BOOST_TEST(std::abs(peak(0.3) - 2.04) < 5e-3);
  BOOST_TEST(std::abs(peak(0.35) - 2.025) < 5e-4);
}

void check_rigid_end(double nu) {
  constexpr double R = 24.0, t = 2.0, p = 1.0, E = 2000.0, length = 40.0;
  constexpr std::array<int, 3> cells{4, 1, 24};
  const double inner = R - t / 2.0, outer = R + t / 2.0;
  const CylinderSector shape{inner, outer, 0.05, length};
  // The first four cells a quarter of the wall, to have nodes half a wall and a wall from the end.
  const auto height = [&](double share) {
    const double cell = share * cells[2];
    if (cell <= 4.0) return cell * t / 4.0;
    return t + (length - t) * graded((cell - 4.0) / (cells[2] - 4.0), cells[2] - 4, 1.4);
  };
  Model model;
  model.mesh = testing::block_mesh(cells, [&](const Point& unit) {
    return shape.at(inner + t * unit.x(), unit.y(), height(unit.z()));
  });
  model.field = same_everywhere(model.mesh, elastic_material(isotropic(E, nu)), skew_frame());
  std::vector<Support> held = shape.symmetry();
  held.push_back({"rigid end", {bottom}, Hold::all});
  model.held = constraints_of(model.mesh, held);
  // The end's thrust on the wall.
  const double axial = p * inner * inner / (outer * outer - inner * inner);
  const Answer answer =
      solve(model, pressure_load(model.mesh, {bore}, [](const Point&) { return p; }) +
                       pressure_load(model.mesh, {top}, [&](const Point&) { return -axial; }));

  const double shear = 5.0 / 6.0 * E / (2.0 * (1.0 + nu)) * t;
  const ClampedWall wall(R, t, E, nu, shear, R / E * (p * inner / t - nu * axial));
  const auto row = [&](const std::string& id, const std::string& place, double z) {
    const bool is_soft = nu > 0.3;
    check({Chapter::plates, "B8 σz(" + id + ")" + (is_soft ? " ν 0.35" : ""),
           "closed cylinder R 24 t 2 ν " + std::string(is_soft ? "0.35" : "0.3") +
               ", rigid end, p 1: axial stress inside, " + place,
           "shell theory with shear in the wall (without shear: " +
               std::string(is_soft ? "2.025" : "2.04") +
               " p R / t at the end itself, handbook form, from memory)",
           axial + 6.0 * wall.moment(z) / (t * t),
           fraction(5e-2,
                    "R/t is 12: shell theory leaves out terms of t/R = 8 %; the handbook's wall, "
                    "pressed on its middle and without shear, has about a tenth more")},
          stress_at(model, answer, shape.at(inner, 1.0, z))[2]);
  };
  row("t/2", "half a wall from the end, whose own corner is singular", t / 2.0);
  row("t", "a wall from the end", t);
}

BOOST_AUTO_TEST_CASE(a_cylinder_is_bent_by_its_rigid_end_as_shell_theory_says) {
  for (const double nu : {0.3, 0.35}) check_rigid_end(nu);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
