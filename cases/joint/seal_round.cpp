// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/joint/seal_round.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace crossgrain {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;

Eigen::Vector3d middle_of(const std::vector<SealPoint>& places) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  double area = 0.0;
  for (const SealPoint& place : places) {
    sum += place.area * place.position;
    area += place.area;
  }
  return sum / area;
}

/// Of the plane that fits best.
Eigen::Vector3d normal_of(const std::vector<SealPoint>& places, const Eigen::Vector3d& middle) {
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (const SealPoint& place : places) {
    const Eigen::Vector3d away = place.position - middle;
    spread += place.area * away * away.transpose();
  }
  const Eigen::Vector3d normal =
      Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread).eigenvectors().col(0);
  Eigen::Index largest = 0;
  normal.cwiseAbs().maxCoeff(&largest);
  return normal[largest] < 0.0 ? Eigen::Vector3d(-normal) : normal;
}

Eigen::Vector3d start_in_plane(const Eigen::Vector3d& normal) {
  // A seal that lies across x has no x in its plane.
  const Eigen::Vector3d axis =
      std::abs(normal.x()) < 0.9 ? Eigen::Vector3d::UnitX() : Eigen::Vector3d::UnitY();
  return (axis - axis.dot(normal) * normal).normalized();
}

}  // namespace

double SealRound::angle_of(const Eigen::Vector3d& position) const {
  const Eigen::Vector3d away = position - middle;
  const double angle = std::atan2(away.dot(quarter), away.dot(zero));
  return angle < 0.0 ? angle + turn : angle;
}

SealRound seal_round(const std::vector<SealPoint>& places, int stations) {
  if (places.empty()) throw std::invalid_argument("a seal without places has no round");
  SealRound round;
  round.middle = middle_of(places);
  const Eigen::Vector3d normal = normal_of(places, round.middle);
  round.zero = start_in_plane(normal);
  round.quarter = normal.cross(round.zero);
  const double step = turn / stations;
  round.stations.resize(static_cast<std::size_t>(stations));
  for (std::size_t i = 0; i < round.stations.size(); ++i)
    round.stations[i] = {(static_cast<double>(i) + 0.5) * step, {}, Eigen::Vector3d::Zero()};
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double angle = round.angle_of(places[i].position);
    auto& station = round.stations[static_cast<std::size_t>(angle / step) % round.stations.size()];
    station.places.push_back(static_cast<int>(i));
    station.position += places[i].position;
  }
  std::erase_if(round.stations, [](const auto& station) { return station.places.empty(); });
  for (auto& station : round.stations)
    station.position /= static_cast<double>(station.places.size());
  return round;
}

std::vector<double> contact_round(const SealRound& round, const std::vector<SealPoint>& places,
                                  double width) {
  const std::vector<double> averaged = averaged_contact(places, width);
  std::vector<double> contact;
  for (const auto& station : round.stations) {
    double greatest = 0.0;
    for (const int place : station.places) {
      const double here = averaged[static_cast<std::size_t>(place)];
      if (!(here <= greatest)) greatest = here;  // no number stays one
    }
    contact.push_back(greatest);
  }
  return contact;
}

}  // namespace crossgrain
