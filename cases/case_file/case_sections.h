// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case_file/case_table.h"

namespace crossgrain {

// One function a table of the case file; each reads its keys in the order of the key table.

BodySpec read_body(const CaseTable& table, const std::filesystem::path& folder);
Conditions read_conditions(const CaseTable& table);
PressureLoad read_pressure(const CaseTable& table);
ForceLoad read_force(const CaseTable& table);
AccelerationLoad read_acceleration(const CaseTable& table);
TemperatureLoad read_temperature_change(const CaseTable& table);
BoltSpec read_bolt(const CaseTable& table);
ContactSpec read_contact(const CaseTable& table);
GasketSpec read_gasket(const CaseTable& table);
SupportSpec read_support(const CaseTable& table);
LoadCaseSpec read_load_case(const CaseTable& table);
ProbeSpec read_probe(const CaseTable& table);
Targets read_targets(const CaseTable& table);
MeshOptions read_mesh(const CaseTable& table, const std::filesystem::path& folder);
Refining read_refining(const CaseTable& table);
SolverOptions read_solve(const CaseTable& table);
HandCalculationSpec read_hand_calculation(const CaseTable& table);
DirectionsSpec read_directions(const CaseTable& table);

}  // namespace crossgrain
