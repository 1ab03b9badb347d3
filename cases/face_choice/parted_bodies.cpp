// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/parted_bodies.h"

#include <algorithm>
#include <stdexcept>

#include "mesh/features/touching_faces.h"
#include "mesh/geometry/geometry_words.h"

namespace crossgrain {
namespace {

// Faces nearer than this are drawn touching: no print is so accurate [mm].
constexpr double touching = 0.02;

bool holds(const std::vector<FaceId>& faces, FaceId face) {
  return std::find(faces.begin(), faces.end(), face) != faces.end();
}

KeptApart* find_pair(std::vector<KeptApart>& pairs, BodyId a, BodyId b) {
  const auto found = std::find_if(pairs.begin(), pairs.end(), [&](const KeptApart& pair) {
    return (pair.first == a && pair.second == b) || (pair.first == b && pair.second == a);
  });
  return found == pairs.end() ? nullptr : &*found;
}

void part(std::vector<KeptApart>& pairs, BodyId a, BodyId b, double interference) {
  if (KeptApart* known = find_pair(pairs, a, b)) {
    known->interference = std::max(known->interference, interference);
  } else {
    pairs.push_back({a, b, interference});
  }
}

void part_where_stated(const Geometry& geometry, const StatedMeeting& meeting,
                       std::vector<KeptApart>& pairs) {
  for (const FaceId face : meeting.faces) {
    for (const FaceId mate : meeting.mate) {
      const BodyId a = geometry.face(face).body, b = geometry.face(mate).body;
      if (a == b)
        throw std::invalid_argument(meeting.name + ": " + words(geometry.face(face)) + " and " +
                                    words(geometry.face(mate)) + " are both of body " +
                                    words(geometry.body(a)) +
                                    "; choose the faces of one body as faces and those of the "
                                    "other as mate, with body = \"...\" in the choice");
      part(pairs, a, b, meeting.interference);
    }
  }
}

bool stated(const TouchingFaces& pair, const std::vector<StatedMeeting>& meetings) {
  return std::any_of(meetings.begin(), meetings.end(), [&](const StatedMeeting& meeting) {
    return (holds(meeting.faces, pair.first) && holds(meeting.mate, pair.second)) ||
           (holds(meeting.faces, pair.second) && holds(meeting.mate, pair.first));
  });
}

}  // namespace

PartedBodies parted_bodies(const Geometry& geometry, const std::vector<StatedMeeting>& meetings) {
  PartedBodies parted;
  for (const StatedMeeting& meeting : meetings) part_where_stated(geometry, meeting, parted.pairs);
  if (parted.pairs.empty()) return parted;
  for (const TouchingFaces& pair : find_touching_faces(geometry, touching)) {
    const CadFace &first = geometry.face(pair.first), &second = geometry.face(pair.second);
    if (!find_pair(parted.pairs, first.body, second.body) || stated(pair, meetings)) continue;
    parted.warnings.push_back(
        words(first) + " of body " + words(geometry.body(first.body)) + " and " + words(second) +
        " of body " + words(geometry.body(second.body)) + " touch on " + words(pair.area, 3) +
        " mm^2, but nothing joins them: they pass through each other there; add a [[contact]] of "
        "these faces, or leave room between them in CAD");
  }
  return parted;
}

}  // namespace crossgrain
