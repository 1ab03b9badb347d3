// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/joint/judged_joint.h"
#include "cases/judgement/body_materials.h"
#include "cases/loads/load_combination.h"

namespace crossgrain {

/// Judge the joint of joined bodies by its solved states.
/// @param loading  whose bodies are joined.
/// @param print_directions  by body.
JudgedJoint judge_states(const CaseFile& case_file, const Loading& loading,
                         const ElementarySolution& solution, const BodyMaterials& materials,
                         const std::vector<Eigen::Vector3d>& print_directions,
                         const TetrahedronMesh& mesh);

}  // namespace crossgrain
