// SPDX-License-Identifier: GPL-3.0-or-later
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepFilletAPI_MakeFillet.hxx>
#include <BRep_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>

#include "tools/parts/demo_parts.h"
#include "tools/parts/revolved_profile.h"

namespace crossgrain::parts {
namespace {

constexpr double kOuter = 32.0;  // diameters
constexpr double kBranchOuter = 28.0;
constexpr double kBore = 22.0;
constexpr double kBranchBore = 18.0;
constexpr double kRun = 110.0;  // lengths
constexpr double kBranch = 50.0;
constexpr double kBlend = 4.0;

// The crotch: edges between run and branch lie off both end planes and are neither straight nor
// seams.
bool is_crotch(const TopoDS_Edge& edge) {
  double first = 0.0, last = 0.0;
  const auto curve = BRep_Tool::Curve(edge, first, last);
  if (curve.IsNull()) return false;
  const gp_Pnt a = curve->Value(first), m = curve->Value(0.5 * (first + last)),
               b = curve->Value(last);
  const auto near_crotch = [](const gp_Pnt& p) {
    return std::abs(p.X()) < 0.5 * kBranchOuter + 1e-6 && p.Z() > 1.0 &&
           p.Z() < 0.5 * kOuter + 1e-6;
  };
  return near_crotch(a) && near_crotch(m) && near_crotch(b);
}

}  // namespace

std::vector<StepBody> pipe_tee() {
  const TopoDS_Shape run = rod(-0.5 * kRun, 0, 0, 1, 0, 0, kOuter, kRun);
  const TopoDS_Shape branch = rod(0, 0, 0, 0, 0, 1, kBranchOuter, kBranch);
  const TopoDS_Shape solid = BRepAlgoAPI_Fuse(run, branch).Shape();
  BRepFilletAPI_MakeFillet blend(solid);
  for (TopExp_Explorer edges(solid, TopAbs_EDGE); edges.More(); edges.Next()) {
    if (is_crotch(TopoDS::Edge(edges.Current()))) blend.Add(kBlend, TopoDS::Edge(edges.Current()));
  }
  TopoDS_Shape tee =
      BRepAlgoAPI_Cut(blend.Shape(), rod(-0.5 * kRun, 0, 0, 1, 0, 0, kBore, kRun)).Shape();
  tee = BRepAlgoAPI_Cut(tee, rod(0, 0, 0, 0, 0, 1, kBranchBore, kBranch)).Shape();
  tee = only_solid(tee);
  return {{tee,
           "tee",
           Colour{0.35, 0.55, 0.35},
           {{face_at(tee, {-0.5 * kRun, 0, 13.5}), "inlet", std::nullopt},
            {face_at(tee, {0.5 * kRun, 0, 13.5}), "outlet", std::nullopt},
            {face_at(tee, {0, 11.5, kBranch}), "branch", std::nullopt}}}};
}

}  // namespace crossgrain::parts
