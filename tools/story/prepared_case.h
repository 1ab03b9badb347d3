// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "cases/case_file/case_file.h"
#include "cases/face_choice/parted_bodies.h"
#include "cases/judgement/body_materials.h"
#include "cases/judgement/stress_sites.h"
#include "cases/loads/load_cases.h"
#include "mesh/features/features.h"
#include "mesh/meshing.h"
#include "solver/elements/material_field.h"
#include "tools/terminal/progress.h"

namespace crossgrain {

/// Wall-clock seconds by stage of a run.
using StageTimes = std::map<std::string, double>;

/// A case ready to be solved: everything that is the same for every print direction and material
/// set. Vectors by body cover all solids of the STEP files, those the case leaves out included.
struct PreparedCase {
  CaseFile case_file;
  PartedBodies parted;
  MeshedGeometry meshed;
  Features features;
  BodyMaterials materials;
  MaterialField field;  ///< nominal, at service conditions
  Loading loading;
  StressSites sites;
  StageTimes seconds;
};

/// The first half of the story: read the case, import and mesh the body, give it its material,
/// resolve its loads.
/// @throws std::invalid_argument for whatever is wrong with the user's files; Interrupted.
PreparedCase prepare_case(const std::filesystem::path& case_file, ProgressLine& progress);

/// A case on a mesh of these options. @param spent  seconds before, which its own are added to.
/// @throws std::invalid_argument if the part cannot be meshed so; Interrupted.
PreparedCase on_a_mesh(const CaseFile& case_file, const PartedBodies& parted,
                       const MeshOptions& options, const StageTimes& spent, ProgressLine& progress);

}  // namespace crossgrain
