// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/manufactured_solution.h"

#include <cmath>

#include "solver/elements/element_at_points.h"
#include "solver/loads/loads.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;

constexpr double c = 0.11;                  // [1/mm]
const Point amplitude(0.02, -0.03, 0.025);  // A_i [mm]
const Point along_y(0.15, 0.10, 0.13);      // a_i [1/mm]
const Point along_z(0.09, -0.14, 0.12);     // b_i [1/mm]
const Point offset(0.3, 0.9, -0.4);         // d_i

struct Waves {
  double sine, cosine;  // of c x
  double crest, flank;  // cosine and sine of a y + b z + d
  Waves(const Point& p, int i)
      : sine(std::sin(c * p.x())),
        cosine(std::cos(c * p.x())),
        crest(std::cos(along_y[i] * p.y() + along_z[i] * p.z() + offset[i])),
        flank(std::sin(along_y[i] * p.y() + along_z[i] * p.z() + offset[i])) {}
};

/// Row: derivatives of u_i by x y z.
Eigen::RowVector3d gradient(const Point& p, int i) {
  const Waves w(p, i);
  return amplitude[i] * Eigen::RowVector3d(c * w.cosine * w.crest, -along_y[i] * w.sine * w.flank,
                                           -along_z[i] * w.sine * w.flank);
}

/// Second derivatives of u_i.
Eigen::Matrix3d curvature(const Point& p, int i) {
  const Waves w(p, i);
  const double a = along_y[i], b = along_z[i];
  const double ss = -w.sine * w.crest, sc = -c * w.cosine * w.flank;
  Eigen::Matrix3d second;
  second << c * c * ss, a * sc, b * sc,  //
      a * sc, a * a * ss, a * b * ss,    //
      b * sc, a * b * ss, b * b * ss;
  return amplitude[i] * second;
}

Vector6d engineering(const Eigen::Matrix3d& gradient) {
  const Eigen::Matrix3d twice = gradient + gradient.transpose();
  Vector6d strain;
  strain << gradient(0, 0), gradient(1, 1), gradient(2, 2), twice(1, 2), twice(0, 2), twice(0, 1);
  return strain;
}

}  // namespace

Point ManufacturedSolution::displacement(const Point& position) const {
  Point u;
  for (int i = 0; i < 3; ++i) {
    const Waves w(position, i);
    u[i] = amplitude[i] * w.sine * w.crest;
  }
  return u;
}

Vector6d ManufacturedSolution::strain(const Point& position) const {
  Eigen::Matrix3d all;
  for (int i = 0; i < 3; ++i) all.row(i) = gradient(position, i);
  return engineering(all);
}

Vector6d ManufacturedSolution::stress(const Point& position) const {
  return stiffness_ * strain(position);
}

Point ManufacturedSolution::body_force(const Point& position) const {
  // Minus the divergence of the stress: column j of each derivative of the stress matrix.
  constexpr int voigt[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  Point divergence = Point::Zero();
  for (int j = 0; j < 3; ++j) {
    Eigen::Matrix3d gradient_change;  // derivative of the displacement gradient by x_j
    for (int i = 0; i < 3; ++i) gradient_change.row(i) = curvature(position, i).row(j);
    const Vector6d stress_change = stiffness_ * engineering(gradient_change);
    for (int i = 0; i < 3; ++i) divergence[i] += stress_change[voigt[i][j]];
  }
  return -divergence;
}

namespace {

constexpr int fine_degree = 6;  // integrates the body force beyond its own size

Eigen::VectorXd body_force_load(const TetrahedronMesh& mesh, const ManufacturedSolution& exact) {
  Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
  ElementAtPoints element(tetrahedron_rule(fine_degree));
  for (Eigen::Index t = 0; t < mesh.tetrahedron_count(); ++t) {
    element.move_to(mesh, t);
    for (Eigen::Index q = 0; q < element.size(); ++q) {
      const Eigen::Vector3d force = element.weight(q) * exact.body_force(element.position(q));
      for (int n = 0; n < 10; ++n)
        load.segment<3>(3 * mesh.tetrahedra(n, t)) += element.shape(q)[n] * force;
    }
  }
  return load;
}

Eigen::VectorXd side_tractions(const TetrahedronMesh& mesh, const ManufacturedSolution& exact) {
  constexpr int voigt[3][3] = {{0, 5, 4}, {5, 1, 3}, {4, 3, 2}};
  Eigen::VectorXd load = Eigen::VectorXd::Zero(mesh.unknowns());
  for (int side = 1; side <= 6; ++side) {
    const int axis = (side - 1) / 2;
    const double outward = side % 2 == 0 ? 1.0 : -1.0;
    load += traction_load(mesh, {FaceId{side}}, [&](const Eigen::Vector3d& x) {
      const Vector6d s = exact.stress(x);
      return Eigen::Vector3d(
          outward * Eigen::Vector3d(s[voigt[0][axis]], s[voigt[1][axis]], s[voigt[2][axis]]));
    });
  }
  return load;
}

}  // namespace

Eigen::VectorXd manufactured_load(const TetrahedronMesh& box, const ManufacturedSolution& exact) {
  return body_force_load(box, exact) + side_tractions(box, exact);
}

}  // namespace crossgrain::verification
