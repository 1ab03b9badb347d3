// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/apart_bodies.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "mesh/geometry/geometry_words.h"
#include "mesh/step/body_overlap.h"

namespace crossgrain {
namespace {

// As a share of the part's size: what placing bodies costs by rounding.
constexpr double rounding = 1e-6;

const Body& body_of(const Geometry& geometry, BodyId id) {
  if (number(id) < 1 || index(id) >= geometry.bodies.size())
    throw std::invalid_argument("body " + std::to_string(number(id)) +
                                " is to be kept apart, but bodies are numbered 1 to " +
                                std::to_string(geometry.bodies.size()));
  const Body& body = geometry.body(id);
  if (!body.modelled)
    throw std::invalid_argument("body " + words(body) +
                                " is to be kept apart from another, but the case leaves it out");
  return body;
}

void require_pair(const KeptApart& pair, const Geometry& geometry) {
  const Body &a = body_of(geometry, pair.first), &b = body_of(geometry, pair.second);
  if (a.id == b.id)
    throw std::invalid_argument("body " + words(a) + " cannot be kept apart from itself");
  if (!(pair.interference >= 0.0) || !std::isfinite(pair.interference))
    throw std::invalid_argument("bodies " + words(a) + " and " + words(b) +
                                ": an interference of " + words(pair.interference) +
                                " mm must be zero or positive");
}

}  // namespace

const KeptApart* kept_apart(const std::vector<KeptApart>& apart, BodyId a, BodyId b) {
  const auto found = std::find_if(apart.begin(), apart.end(), [&](const KeptApart& pair) {
    return (pair.first == a && pair.second == b) || (pair.first == b && pair.second == a);
  });
  return found == apart.end() ? nullptr : &*found;
}

void require_apart(const std::vector<KeptApart>& apart, const std::vector<LabelledSolid>& solids,
                   const Geometry& geometry) {
  for (const KeptApart& pair : apart) {
    require_pair(pair, geometry);
    const Body &a = geometry.body(pair.first), &b = geometry.body(pair.second);
    if (!may_overlap(a, b)) continue;
    const TopoDS_Solid &first = solids[index(a.id)].solid, &second = solids[index(b.id)].solid;
    const auto found = overlap_of(first, second);
    if (!found)
      throw std::invalid_argument("bodies " + words(a) + " and " + words(b) +
                                  ": the CAD kernel cannot tell whether they overlap; mend their "
                                  "faces that meet in CAD");
    if (!overlap(a, b, *found)) continue;
    const double depth = overlap_depth(*found, first, second);
    if (!(depth <= std::max(1.001 * pair.interference, rounding * geometry.box.diagonal())))
      throw std::invalid_argument(
          overlap_words(a, b, *found) + ", " + words(depth) + " mm deep, where " +
          words(pair.interference) +
          " mm are allowed: place them so that they only touch, or state this interference if "
          "they are pressed together");
  }
}

}  // namespace crossgrain
