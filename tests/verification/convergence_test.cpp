// SPDX-License-Identifier: GPL-3.0-or-later
// Order of convergence on a manufactured anisotropic solution.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "solver/elements/element_at_points.h"
#include "tests/support/structured_mesh.h"
#include "tests/verification/check_table.h"
#include "tests/verification/manufactured_solution.h"
#include "tests/verification/model.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

const Point size(10.0, 8.0, 6.0);
constexpr int fine_degree = 6;  // integrates the errors and the body force beyond their own size

struct Errors {
  double displacement;      ///< L2, share of the exact field's
  double energy;            ///< energy norm of the error, share of the exact field's
  double recovered_stress;  ///< L2, share of the exact field's
  double tip;               ///< displacement along z at the far corner [mm]
  Vector6d corner_stress;   ///< there [MPa]
};

/// The first three of Errors, integrated over the body.
void integrate_errors(const Model& model, const Answer& answer, const ManufacturedSolution& exact,
                      Errors& errors) {
  ElementAtPoints element(tetrahedron_rule(fine_degree));
  double u_error = 0.0, u_size = 0.0, s_error = 0.0, s_size = 0.0, energy = 0.0;
  for (Eigen::Index t = 0; t < model.mesh.tetrahedron_count(); ++t) {
    element.move_to(model.mesh, t);
    const auto u = nodal_vectors(model.mesh, t, answer.displacement);
    Eigen::Matrix<double, 6, 10> s;  // one body: the stress points are the nodes in order
    for (int n = 0; n < 10; ++n) s.col(n) = answer.stress.col(model.mesh.tetrahedra(n, t));
    for (Eigen::Index q = 0; q < element.size(); ++q) {
      const Point x = element.position(q);
      const double w = element.weight(q);
      const Vector6d stress = exact.stress(x);
      u_error += w * (u * element.shape(q) - exact.displacement(x)).squaredNorm();
      u_size += w * exact.displacement(x).squaredNorm();
      s_error += w * (s * element.shape(q) - stress).squaredNorm();
      s_size += w * stress.squaredNorm();
      energy += 0.5 * w * stress.dot(exact.strain(x));
    }
  }
  errors.displacement = std::sqrt(u_error / u_size);
  errors.recovered_stress = std::sqrt(s_error / s_size);
  // The clamp is homogeneous and the loads are exact, so the energy of the error is what the
  // answer's energy lacks.
  errors.energy =
      std::sqrt((energy - strain_energy(model.mesh, model.field, answer.displacement)) / energy);
}

Errors errors_on(int cells_along, const SolidMaterial& material, const Frame& frame) {
  // Smoothly uneven cells with curved sides; the outside stays a box.
  const auto map = [](const Point& unit) {
    const double bulge = 0.08 * std::sin(3.1 * unit.x()) * std::sin(3.1 * unit.y());
    const double fade = unit.z() * (1.0 - unit.z());
    return Point(size.cwiseProduct(unit + Point(0, 0, bulge * fade * 4.0)));
  };
  const ManufacturedSolution exact(rotate_stiffness(stiffness(material.elastic), frame));
  Model model;
  model.mesh = testing::block_mesh({cells_along, cells_along, cells_along}, map);
  model.field = same_everywhere(model.mesh, material, frame);
  model.held = constraints_of(model.mesh, {{"clamp", {testing::xi_low}, Hold::all}});
  const Answer answer = solve(model, manufactured_load(model.mesh, exact));
  Errors errors;
  integrate_errors(model, answer, exact, errors);
  errors.tip = displacement_at(model, answer, size).z();
  errors.corner_stress = stress_at(model, answer, size);
  return errors;
}

void check_order(const std::string& id, const std::string& what, double target,
                 const Tolerance& tolerance, double obtained) {
  check({Chapter::convergence, id, what,
         "exact: approximation by quadratic elements (Strang and Fix); manufactured solution",
         target, tolerance},
        obtained);
}

BOOST_AUTO_TEST_SUITE(convergence)

BOOST_AUTO_TEST_CASE(displacement_converges_with_order_three_and_stress_with_order_two) {
  const SolidMaterial material =
      elastic_material({3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700});
  const Frame frame = skew_frame();
  const ManufacturedSolution exact(rotate_stiffness(stiffness(material.elastic), frame));

  const Errors coarse = errors_on(6, material, frame);
  const Errors fine = errors_on(12, material, frame);

  const auto order = [](double at_h, double at_half_h) { return std::log2(at_h / at_half_h); };
  check_order("order of displacement", "L2 error of the displacement, 6³ to 12³ cells", 3.0,
              absolute(0.2, "from above: 3.17 here, 3.10 from 10³ to 20³ cells; a lost order is 1"),
              order(coarse.displacement, fine.displacement));
  check_order("order of stress", "energy norm of the error, 6³ to 12³ cells", 2.0,
              absolute(0.1, "from below: 1.93 here, 1.96 from 10³ to 20³ cells"),
              order(coarse.energy, fine.energy));
  check_order("order of recovered stress", "L2 error of the recovered stress, 6³ to 12³ cells", 2.0,
              absolute(0.3, "averaging gains on even meshes"),
              order(coarse.recovered_stress, fine.recovered_stress));
  check_order("limit of displacement", "displacement along z at the far corner, 12³ cells [mm]",
              exact.displacement(size).z(), fraction(1e-3, "third order, 12 cells along"),
              fine.tip);
  check_order("limit of stress", "stress yy at the far corner, 12³ cells", exact.stress(size)[1],
              fraction(1e-2, "second order, 12 cells along"), fine.corner_stress[1]);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
