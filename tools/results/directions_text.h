// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "cases/judgement/run_result.h"
#include "cases/studies/mapped_prints.h"
#include "tools/results/pressure_units.h"

namespace crossgrain {

/// What the table of print directions is written from. Refers to the caller's data: use it while
/// they live.
struct DirectionOutputs {
  const CaseFile& case_file;
  const Geometry& geometry;
  const Features& features;
  const std::vector<DirectionRow>& rows;
  const std::vector<MappedPrint>& maps;  ///< that the rows were found on; none if named
  const std::vector<FaceId>& cavity;     ///< faces that no support material can be reached on
};

/// What a row that was solved shows of the maps' frozen joint, in words; names as they are.
struct JointRemark {
  std::string row, words;
};

/// Where faces have come to another state than in the case, or a factor left what its map stated.
std::vector<JointRemark> joint_remarks(const DirectionOutputs& outputs);

/// How a body stands in a row.
Eigen::Vector3d direction_of(const DirectionRow& row, BodyId body);

/// The strongest direction first; two small tables, strength and printing, that fit on paper.
std::string directions_markdown(const DirectionOutputs& outputs, const ReadingUnits& units);

/// In the order given, described by directions.schema.json.
/// @throws std::runtime_error naming the key whose number is not finite.
std::string directions_json(const DirectionOutputs& outputs);

/// One line per direction in the order given, after a header with units; MPa; an empty field: no
/// limit found.
std::string directions_csv(const DirectionOutputs& outputs);

/// Write directions.html, .md, .csv and .json, and of every map its files (map_files), together or
/// not at all. Those of earlier maps are removed.
/// @throws std::invalid_argument if the directory cannot be written to; std::runtime_error if
/// writing fails.
void write_directions(const DirectionOutputs& outputs, const ReadingUnits& units,
                      const std::filesystem::path& directory);

}  // namespace crossgrain
