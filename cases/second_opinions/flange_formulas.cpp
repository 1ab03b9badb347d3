// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/second_opinions/flange_formulas.h"

#include <Eigen/LU>
#include <cmath>
#include <numbers>

namespace crossgrain {
namespace {

using std::numbers::pi;

double moment_of_width(double moment, const RingSize& ring) {
  return moment / (2.0 * pi) / std::log(ring.outer / ring.inner);
}

}  // namespace

double turned_ring_stress(double moment, const RingSize& ring, double r) {
  return 6.0 * moment_of_width(moment, ring) / (ring.height * ring.height * r);
}

double ring_turn(double moment, const RingSize& ring, double E) {
  return 12.0 * moment_of_width(moment, ring) / (E * std::pow(ring.height, 3));
}

RingMotion ring_on_tube(double moment, double pressure, const RingSize& ring,
                        const TubeUnderRing& tube, double nu) {
  // All for each millimetre of the tube's circle, over E; unknowns u and theta.
  const double R = tube.radius, t = tube.wall, h = ring.height, plane = 1.0 - nu * nu;
  const double beta = std::pow(3.0 * plane, 0.25) / std::sqrt(R * t);
  const double edge = 2.0 * std::pow(beta, 3) * t * t * t / (12.0 * plane);
  const double middle = 0.5 * (ring.inner + ring.outer);
  const double free_widening = pressure * R * R / t * (tube.closed ? 1.0 - 0.5 * nu : 1.0);
  // The tube's end: w = u + theta h / 2, and one decay length on, w + theta / beta.
  const Eigen::Vector2d near(1.0, 0.5 * h), far(1.0, 0.5 * h + 1.0 / beta);
  Eigen::Matrix2d stiffness = edge * (near * near.transpose() + far * far.transpose());
  stiffness(0, 0) += (ring.outer - ring.inner) * h / (middle * R);
  stiffness(1, 1) += h * h * h * std::log(ring.outer / ring.inner) / (12.0 * R);
  Eigen::Vector2d load = edge * free_widening * (near + far);
  load += Eigen::Vector2d(pressure * h * ring.inner / R, moment / (2.0 * pi * R));
  const Eigen::Vector2d motion = stiffness.inverse() * load;
  return {motion[1], motion[0]};
}

double FlangeThrust::on_end() const {
  return closed_end ? pressure * pi * bore_radius * bore_radius : 0.0;
}

double FlangeThrust::on_face() const {
  return pressure * pi * (seal_radius * seal_radius - bore_radius * bore_radius);
}

double FlangeThrust::moment() const {
  return on_end() * (counter_radius - wall_radius) +
         on_face() * (counter_radius - 0.5 * (bore_radius + seal_radius));
}

}  // namespace crossgrain
