// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/elements/quadrature.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace crossgrain {
namespace {

/// Points that renumbering the corners turns into one another, by one of them in barycentric
/// coordinates. Weights are fractions of the whole; equal coordinates are written equal.
template <int corners>
struct Orbit {
  double weight;
  std::array<double, corners> point;
};

template <class Rule, int corners>
Rule rule_of(int degree, const std::vector<Orbit<corners>>& orbits, double measure) {
  std::vector<std::array<double, corners>> points;
  std::vector<double> weights;
  for (auto [weight, point] : orbits) {
    std::sort(point.begin(), point.end());
    do {
      points.push_back(point);
      weights.push_back(weight * measure);
    } while (std::next_permutation(point.begin(), point.end()));
  }
  Rule rule;
  rule.degree = degree;
  rule.points.resize(corners - 1, points.size());
  rule.weights = Eigen::Map<Eigen::VectorXd>(weights.data(), weights.size());
  for (std::size_t q = 0; q < points.size(); ++q)
    for (int i = 1; i < corners; ++i) rule.points(i - 1, q) = points[q][i];
  return rule;
}

Orbit<4> three_equal(double weight, double a) { return {weight, {a, a, a, 1.0 - 3.0 * a}}; }
Orbit<4> two_pairs(double weight, double a) { return {weight, {a, a, 0.5 - a, 0.5 - a}}; }
Orbit<4> two_equal(double weight, double a, double b) {
  return {weight, {a, a, b, 1.0 - 2.0 * a - b}};
}

// Degree 2 is the classical one. Degree 5: N. J. Walkington, Quadrature on simplices of arbitrary
// dimension (2000); degree 6: P. Keast, Comput. Methods Appl. Mech. Eng. 55 (1986) 339-348; degree
// 8 has the structure given by F. D. Witherden and P. E. Vincent, Comput. Math. Appl. 69 (2015)
// 1232-1241. Numbers: the moment equations solved again in extended precision.
TetrahedronRule make_rule(int degree) {
  constexpr double volume = 1.0 / 6.0;
  const auto make = [&](const std::vector<Orbit<4>>& orbits) {
    return rule_of<TetrahedronRule, 4>(degree, orbits, volume);
  };
  switch (degree) {
    case 2:
      return make({three_equal(0.25, 0.1381966011250105152)});
    case 5:
      return make({three_equal(0.0734930431163619496, 0.0927352503108912265),
                   three_equal(0.1126879257180158509, 0.3108859192633006098),
                   two_pairs(0.0425460207770814664, 0.0455037041256496494)});
    case 6:
      return make({three_equal(0.0100772110553206427, 0.0406739585346113525),
                   three_equal(0.0399227502581674905, 0.2146028712591520322),
                   three_equal(0.0553571815436547228, 0.3223378901422755101),
                   two_equal(0.0482142857142857147, 0.0636610018750175255, 0.2696723314583158076)});
    case 8:
      return make({three_equal(0.0039800505679544946, 0.0320132281791004542),
                   three_equal(0.0369980162665980325, 0.3150039106964756393),
                   three_equal(0.0218633729041635416, 0.0907526413336778824),
                   three_equal(0.0581968199357843488, 0.1836504863940417437),
                   two_pairs(0.0345600517312964644, 0.0614769037124753422),
                   two_equal(0.0073280663608465808, 0.0224975774087201027, 0.7246638802738685455),
                   two_equal(0.0183791545486717145, 0.2055685475145231264, 0.5734358712384606859)});
    default:
      throw std::logic_error("tetrahedron rule not tabulated");
  }
}

// D. A. Dunavant, Int. J. Numer. Methods Eng. 21 (1985) 1129-1148; solved again as above.
TriangleRule make_surface_rule() {
  const auto two_same = [](double weight, double a) {
    return Orbit<3>{weight, {a, a, 1.0 - 2.0 * a}};
  };
  constexpr double a = 0.0531450498448169466, b = 0.3103524510337844066;
  return rule_of<TriangleRule, 3>(6,
                                  {two_same(0.1167862757263793680, 0.2492867451709104199),
                                   two_same(0.0508449063702068174, 0.0630890144915022287),
                                   {0.0828510756183735740, {a, b, 1.0 - a - b}}},
                                  0.5);
}

}  // namespace

const TetrahedronRule& tetrahedron_rule(int degree) {
  static const std::map<int, TetrahedronRule> rules = [] {
    std::map<int, TetrahedronRule> all;
    for (int known : {2, 5, 6, 8}) all.emplace(known, make_rule(known));
    return all;
  }();
  const auto found = rules.find(degree);
  if (found != rules.end()) return found->second;
  throw std::invalid_argument("there are tetrahedron rules of degree 2, 5, 6 and 8, not " +
                              std::to_string(degree));
}

const TetrahedronRule& stiffness_rule() { return tetrahedron_rule(8); }

const TriangleRule& surface_rule() {
  static const TriangleRule rule = make_surface_rule();
  return rule;
}

}  // namespace crossgrain
