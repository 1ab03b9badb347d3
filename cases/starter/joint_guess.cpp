// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/starter/joint_guess.h"

#include <algorithm>
#include <iterator>
#include <set>

#include "cases/starter/meeting_words.h"

namespace crossgrain {
namespace {

/// Of the largest body's volume; screws, inserts and washers have less.
constexpr double least_share = 0.02;
/// Of the hole's diameter: how far a thread's axis may be off that of the hole above it.
constexpr double off_axis = 0.1;

bool has(const std::vector<BodyId>& bodies, BodyId body) {
  return std::ranges::find(bodies, body) != bodies.end();
}

const Body& largest_of(const Geometry& geometry) {
  return *std::ranges::max_element(geometry.bodies, {}, &Body::volume);
}

std::vector<BodyId> hanging_together(const Geometry& geometry,
                                     const std::vector<TouchingFaces>& touching) {
  const Body& largest = largest_of(geometry);
  std::vector<BodyId> bodies{largest.id};
  const auto join = [&](FaceId from, FaceId to) {
    const BodyId body = geometry.face(to).body;
    if (has(bodies, geometry.face(from).body) && !has(bodies, body) &&
        geometry.body(body).volume >= least_share * largest.volume)
      bodies.push_back(body);
  };
  for (std::size_t before = 0; before < bodies.size();) {
    before = bodies.size();
    for (const TouchingFaces& pair : touching) {
      join(pair.first, pair.second);
      join(pair.second, pair.first);
    }
    if (bodies.size() == before) break;
  }
  return bodies;
}

bool told_apart(const Geometry& geometry, const std::vector<BodyId>& bodies) {
  return std::ranges::all_of(bodies, [&](BodyId id) {
    const std::string& name = geometry.body(id).name;
    return !name.empty() && std::ranges::count(geometry.bodies, name, &Body::name) == 1;
  });
}

/// The flat face at the hole's end that `out` points out of.
std::optional<FaceId> seat_towards(const Eigen::Vector3d& out, const Hole& hole,
                                   const Geometry& geometry) {
  const auto looks_out = [&](FaceId face) {
    return geometry.face(face).kind == SurfaceKind::plane &&
           geometry.face(face).axis.dot(out) > 0.999;
  };
  if (hole.seat && looks_out(hole.seat->face)) return hole.seat->face;
  for (const FaceId wall : hole.wall)
    for (const auto& loop : geometry.face(wall).loops)
      for (const LoopEdge& edge : loop)
        for (const FaceId beside : geometry.edge(edge.edge).faces)
          if (looks_out(beside)) return beside;
  return std::nullopt;
}

/// A clearance hole of another body, and where a head sits on it.
struct HoleOver {
  const Hole* hole;
  FaceId head_seat;
};

std::optional<HoleOver> hole_over(const Hole& thread, const Geometry& geometry,
                                  const Features& features, const std::vector<BodyId>& bodies) {
  for (const Hole& hole : features.holes) {
    const Eigen::Vector3d between = hole.mouth - thread.mouth;
    const double off = (between - between.dot(thread.axis) * thread.axis).norm();
    if (hole.body == thread.body || !has(bodies, hole.body) || !hole.through ||
        std::abs(hole.axis.dot(thread.axis)) < 0.999 || off > off_axis * thread.diameter)
      continue;
    const auto seat = seat_towards(thread.axis, hole, geometry);
    if (seat && (geometry.face(*seat).origin - thread.mouth).dot(thread.axis) > 0.0)
      return HoleOver{&hole, *seat};
  }
  return std::nullopt;
}

/// @param taken  gets the walls of all holes that such a screw goes through.
std::vector<JoiningScrews> joining_screws(const Geometry& geometry, const Features& features,
                                          const std::vector<BodyId>& bodies,
                                          std::vector<FaceId>& taken) {
  std::vector<JoiningScrews> found;
  for (const BodyId body : bodies) {
    for (const ScrewGuess& screws : guess_screws(features, body, {})) {
      if (!screws.threaded) continue;
      std::vector<HoleOver> over;
      for (const Hole& hole : screws.holes)
        if (const auto seated = hole_over(hole, geometry, features, bodies))
          over.push_back(*seated);
      if (over.size() < screws.holes.size()) continue;
      found.push_back({screws, over.front().head_seat});
      for (const Hole& hole : screws.holes) std::ranges::copy(hole.wall, std::back_inserter(taken));
      for (const auto& [hole, seat] : over)
        std::ranges::copy(hole->wall, std::back_inserter(taken));
    }
  }
  return found;
}

void add_meetings(const Geometry& geometry, const std::vector<TouchingFaces>& touching,
                  JointGuess& guess) {
  std::set<FaceId> wet;
  for (const auto& cavity : guess.cavities)
    if (cavity) wet.insert(cavity->wetted.faces.begin(), cavity->wetted.faces.end());
  for (const TouchingFaces& pair : touching) {
    const CadFace &first = geometry.face(pair.first), &second = geometry.face(pair.second);
    if (!has(guess.bodies, first.body) || !has(guess.bodies, second.body) ||
        wet.contains(first.id) || wet.contains(second.id))
      continue;
    if (!leaves_room(pair))
      guess.contacts.push_back(pair);
    else if (!guess.screws.empty())  // that press it
      guess.gaskets.push_back(pair);
  }
  const auto says_so = [&](const TouchingFaces& pair) {
    return named_as_seal(geometry.face(pair.first)) || named_as_seal(geometry.face(pair.second));
  };
  if (std::ranges::any_of(guess.gaskets, says_so))
    std::erase_if(guess.gaskets, [&](const TouchingFaces& pair) { return !says_so(pair); });
}

}  // namespace

std::optional<JointGuess> guess_joint(const Geometry& geometry, const Features& features) {
  if (geometry.bodies.size() < 2) return std::nullopt;
  const auto touching = find_touching_faces(geometry, gasket_room);
  JointGuess guess;
  guess.bodies = hanging_together(geometry, touching);
  if (guess.bodies.size() < 2 || !told_apart(geometry, guess.bodies)) return std::nullopt;
  std::vector<FaceId> taken;
  guess.screws = joining_screws(geometry, features, guess.bodies, taken);
  for (const BodyId body : guess.bodies)
    guess.cavities.push_back(guess_cavity(geometry, features, body, taken));
  add_meetings(geometry, touching, guess);
  if (guess.gaskets.empty() && guess.contacts.empty()) return std::nullopt;
  return guess;
}

}  // namespace crossgrain
