// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/step/step_assembly.h"

#include <TopoDS.hxx>
#include <cmath>
#include <gp_Ax1.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <gp_Trsf.hxx>
#include <gp_Vec.hxx>
#include <stdexcept>

#include "mesh/geometry/geometry_words.h"
#include "mesh/step/solid_repair.h"

namespace crossgrain {
namespace {

gp_XYZ kernel_vector(const Eigen::Vector3d& v) { return {v.x(), v.y(), v.z()}; }

bool at_rest(const Placement& placement) {
  return placement.angle == 0.0 && placement.shift.isZero(0.0);
}

void require_sense(const StepSource& source) {
  const Placement& placement = source.placement;
  const auto refuse = [&](const std::string& what) {
    throw std::invalid_argument(source.step_file.string() + ": " + what);
  };
  if (!placement.shift.allFinite())
    refuse("shift " + words(placement.shift) + " mm must be three finite lengths");
  if (!placement.about.allFinite())
    refuse("turn about " + words(placement.about) + " mm must be three finite lengths");
  if (!std::isfinite(placement.angle))
    refuse("turn by " + words(placement.angle) + " rad must be a finite angle");
  if (!(placement.axis.norm() > 0.0) || !placement.axis.allFinite())
    refuse("turn about the axis " + words(placement.axis) + " needs a direction that is not zero");
}

/// Moved, not rebuilt: the kernel keeps a solid's shape and its place apart.
void put_in_place(std::vector<LabelledSolid>& solids, const Placement& placement) {
  gp_Trsf turn, shift;
  turn.SetRotation(gp_Ax1(gp_Pnt(kernel_vector(placement.about)),
                          gp_Dir(kernel_vector(placement.axis.normalized()))),
                   placement.angle);
  shift.SetTranslation(gp_Vec(kernel_vector(placement.shift)));
  const TopLoc_Location place(shift * turn);
  for (LabelledSolid& body : solids) body.solid = TopoDS::Solid(body.solid.Moved(place));
}

void add_file(StepAssembly& assembly, const StepSource& source, bool one_of_many) {
  require_sense(source);
  const std::string file = source.step_file.string();
  StepDocument document = read_step_document(source);
  std::vector<std::string> warnings;
  make_sound_solids(document, file, warnings);
  if (!at_rest(source.placement)) put_in_place(document.solids, source.placement);
  for (LabelledSolid& body : document.solids) {
    assembly.solids.push_back(std::move(body));
    assembly.file_of_solid.push_back(assembly.files.size());
  }
  for (const std::string& warning : warnings)
    assembly.warnings.push_back((one_of_many ? file + ": " : "") + warning);
  assembly.files.push_back({file, document.declared_unit, source.scale});
}

}  // namespace

StepAssembly read_assembly(const std::vector<StepSource>& sources) {
  if (sources.empty()) throw std::invalid_argument("no STEP file is given; name at least one");
  StepAssembly assembly;
  for (const StepSource& source : sources) add_file(assembly, source, sources.size() > 1);
  return assembly;
}

}  // namespace crossgrain
