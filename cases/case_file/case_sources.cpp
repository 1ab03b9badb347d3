// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_sources.h"

#include <algorithm>

namespace crossgrain {
namespace {

bool same_place(const Placement& a, const Placement& b) {
  return a.axis == b.axis && a.angle == b.angle && a.about == b.about && a.shift == b.shift;
}

/// Of two entries, or an entry and a file to import.
bool alike(const auto& a, const auto& b) {
  return a.step_file == b.step_file && a.scale == b.scale && same_place(a.placement, b.placement);
}

}  // namespace

bool same_source(const BodySpec& a, const BodySpec& b) { return alike(a, b); }

ImportOptions import_options(const CaseFile& case_file) {
  ImportOptions options;
  for (const BodySpec& spec : case_file.bodies) {
    const auto known = std::find_if(options.files.begin(), options.files.end(),
                                    [&](const auto& source) { return alike(spec, source); });
    if (known != options.files.end()) {
      known->bodies.push_back(spec.name);
    } else {
      options.files.push_back({spec.step_file, spec.scale, {spec.name}, spec.placement});
    }
  }
  for (StepSource& source : options.files) {
    const auto whole_file = std::find(source.bodies.begin(), source.bodies.end(), "");
    if (whole_file != source.bodies.end()) source.bodies.clear();
  }
  return options;
}

std::vector<const BodySpec*> spec_of_body(const CaseFile& case_file, const Geometry& geometry) {
  const std::vector<StepSource> sources = import_options(case_file).files;
  std::vector<const BodySpec*> specs;
  for (const Body& body : geometry.bodies) {
    const BodySpec* found = nullptr;
    for (const BodySpec& spec : case_file.bodies) {
      if (!alike(spec, sources.at(body.file))) continue;
      if (!found || spec.name.empty() || spec.name == body.name_in_file) found = &spec;
    }
    specs.push_back(found);
  }
  return specs;
}

}  // namespace crossgrain
