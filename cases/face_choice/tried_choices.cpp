// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/face_choice/tried_choices.h"

namespace crossgrain {

void try_choices(const CaseFile& case_file, const Geometry& geometry, const Features& features) {
  const auto try_one = [&](const FaceChoice& choice) { choose_faces(geometry, features, choice); };
  const auto try_faces_of = [&](const auto& specs) {
    for (const auto& spec : specs) try_one(spec.faces);
  };
  try_faces_of(case_file.supports);
  try_faces_of(case_file.pressures);
  try_faces_of(case_file.forces);
  for (const TemperatureLoad& load : case_file.temperatures) {
    if (load.faces) try_one(*load.faces);
    if (load.other_faces) try_one(*load.other_faces);
  }
  try_faces_of(case_file.contacts);
  for (const ContactSpec& contact : case_file.contacts) try_one(contact.mate);
  try_faces_of(case_file.gaskets);
  for (const GasketSpec& gasket : case_file.gaskets)
    if (gasket.between) try_one(gasket.between->mate);
  for (const BoltSpec& bolt : case_file.bolts) {
    try_one(bolt.thread);
    if (bolt.head_seat) try_one(*bolt.head_seat);
  }
  for (const ProbeSpec& probe : case_file.probes)
    if (probe.faces) try_one(*probe.faces);
}

}  // namespace crossgrain
