// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/judgement/probes.h"

#include <algorithm>
#include <set>
#include <stdexcept>

#include "cases/face_choice/face_choice.h"
#include "solver/stress/stress_interpolation.h"

namespace crossgrain {
namespace {

// CAD and mesh agree to a small part of an element; a probe named on the surface must not miss it.
constexpr double surface_tolerance_mm = 0.05;

/// Collects values of one probe in one combined case.
class Reader {
 public:
  Reader(const TetrahedronMesh& mesh, const StressSites& sites, const CombinedCase& combined)
      : mesh_(mesh),
        sites_(sites),
        combined_(combined),
        stress_(combined.held + combined.scaling) {}

  bool read_point(const PointLocator& locator, const Eigen::Vector3d& point,
                  ProbeResult& probe) const {
    const auto location = locator.find(point, surface_tolerance_mm);
    if (!location) return false;
    probe.positions.push_back(point);
    probe.displacement.push_back(displacement_at(mesh_, combined_.displacement, *location));
    probe.stress.push_back(stress_at(mesh_, sites_.points, stress_, *location));
    return true;
  }

  void read_faces(const std::vector<FaceId>& faces, ProbeResult& probe) const {
    const std::set<FaceId> chosen(faces.begin(), faces.end());
    std::set<int> nodes;
    for (Eigen::Index t = 0; t < mesh_.triangle_count(); ++t) {
      if (!chosen.count(mesh_.face_of_triangle[t])) continue;
      for (const int node : mesh_.triangles.col(t)) nodes.insert(node);
    }
    for (std::size_t i = 0; i < sites_.points.size(); ++i) {
      const int node = sites_.points[i].node;
      if (!nodes.count(node)) continue;
      probe.positions.push_back(mesh_.nodes.col(node));
      probe.displacement.push_back(combined_.displacement.segment<3>(3 * Eigen::Index{node}));
      probe.stress.push_back(stress_.col(static_cast<Eigen::Index>(i)));
    }
  }

 private:
  const TetrahedronMesh& mesh_;
  const StressSites& sites_;
  const CombinedCase& combined_;
  StressField stress_;
};

[[noreturn]] void refuse(const ProbeSpec& spec, const std::string& what) {
  throw std::invalid_argument(spec.place.file + ":" + std::to_string(spec.place.line) +
                              ": [[probe]] '" + spec.name + "': " + what +
                              "; move it into the part (inspect shows where that is)");
}

std::vector<Eigen::Vector3d> samples_of(const ProbeSpec& spec) {
  std::vector<Eigen::Vector3d> samples;
  const auto& [from, to] = *spec.line;
  for (int i = 0; i < spec.samples; ++i) {
    const double share = spec.samples > 1 ? static_cast<double>(i) / (spec.samples - 1) : 0.5;
    samples.push_back(from + share * (to - from));
  }
  return samples;
}

}  // namespace

std::vector<ProbeResult> read_probes(const CaseFile& case_file, const Geometry& geometry,
                                     const Features& features, const TetrahedronMesh& mesh,
                                     const StressSites& sites, const LoadCase& load_case,
                                     const CombinedCase& combined) {
  if (case_file.probes.empty()) return {};
  const PointLocator locator(mesh);
  const Reader reader(mesh, sites, combined);
  std::vector<ProbeResult> results;
  for (const ProbeSpec& spec : case_file.probes) {
    ProbeResult probe;
    probe.name = spec.name;
    probe.load_case = case_title(load_case.name, load_case.bound);
    if (spec.point && !reader.read_point(locator, *spec.point, probe)) {
      refuse(spec, "its point lies outside the part");
    }
    if (spec.line) {
      for (const Eigen::Vector3d& sample : samples_of(spec))
        reader.read_point(locator, sample, probe);
      if (probe.positions.empty()) refuse(spec, "all of its line lies outside the part");
    }
    if (spec.faces) reader.read_faces(choose_faces(geometry, features, *spec.faces).faces, probe);
    results.push_back(std::move(probe));
  }
  return results;
}

}  // namespace crossgrain
