// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/stated_meetings.h"

#include <algorithm>

#include "cases/case_file/case_place.h"
#include "cases/face_choice/face_choice.h"

namespace crossgrain {
namespace {

std::string named(const Place& place, const std::string& table, const std::string& name) {
  return at(place) + "[[" + table + "]] '" + name + "'";
}

}  // namespace

std::vector<StatedMeeting> stated_meetings(const CaseFile& case_file, const Geometry& geometry,
                                           const Features& features) {
  std::vector<StatedMeeting> meetings;
  const auto add = [&](const std::string& name, const FaceChoice& faces, const FaceChoice& mate,
                       double clearance) {
    meetings.push_back({name, choose_faces(geometry, features, faces).faces,
                        choose_faces(geometry, features, mate).faces, std::max(0.0, -clearance)});
  };
  for (const ContactSpec& contact : case_file.contacts)
    add(named(contact.place, "contact", contact.name), contact.faces, contact.mate,
        contact.clearance);
  for (const GasketSpec& gasket : case_file.gaskets) {
    if (gasket.between)
      add(named(gasket.place, "gasket", gasket.name), gasket.faces, gasket.between->mate, 0.0);
  }
  return meetings;
}

}  // namespace crossgrain
