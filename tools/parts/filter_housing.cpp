// SPDX-License-Identifier: GPL-3.0-or-later
#include <BRepAlgoAPI_Cut.hxx>
#include <cmath>
#include <numbers>

#include "tools/parts/demo_parts.h"
#include "tools/parts/revolved_profile.h"

namespace crossgrain::parts {
namespace {

constexpr double kBoreRadius = 30.0;
constexpr double kGasketInner = 33.0;
constexpr double kGasketOuter = 39.0;
constexpr double kScrewCircle = 46.5;  // radius
constexpr double kFlangeRadius = 54.0;
constexpr double kGasketThickness = 2.0;
constexpr int kScrews = 8;
const Colour kWater{0.20, 0.45, 0.80};
const Colour kBowl{0.80, 0.82, 0.84};
const Colour kSeal{0.85, 0.45, 0.10};

// The bowl's flange top is the plane z = 0; the bowl hangs below it, the lid lies above the gasket.
TopoDS_Shape turned_bowl() {
  return revolved_profile({{0.0, -90.0},
                           {36.5, -90.0, 14.0},
                           {36.5, -14.0, 5.0},
                           {kFlangeRadius, -14.0},
                           {kFlangeRadius, 0.0},
                           {kGasketOuter, 0.0},
                           {kGasketInner, 0.0},
                           {kBoreRadius, 0.0},
                           {kBoreRadius, -82.0, 8.0},
                           {0.0, -82.0}});
}

TopoDS_Shape turned_lid() {
  const double low = kGasketThickness, high = low + 16.0;
  return revolved_profile({{0.0, low},
                           {kGasketInner, low},
                           {kGasketOuter, low},
                           {kFlangeRadius, low},
                           {kFlangeRadius, high, 2.0},
                           {0.0, high}});
}

TopoDS_Shape drill_screw_circle(TopoDS_Shape part, double from_z, double diameter, double depth) {
  for (int i = 0; i < kScrews; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / kScrews;
    part = BRepAlgoAPI_Cut(part, rod(kScrewCircle * std::cos(angle), kScrewCircle * std::sin(angle),
                                     from_z, 0, 0, -1, diameter, depth))
               .Shape();
  }
  return only_solid(part);
}

}  // namespace

std::vector<StepBody> filter_housing() {
  const TopoDS_Shape bowl = drill_screw_circle(turned_bowl(), 0.0, 6.4, 10.0);
  TopoDS_Shape lid = drill_screw_circle(turned_lid(), 30.0, 5.5, 30.0);
  for (const double x : {-15.0, 15.0}) {
    lid = BRepAlgoAPI_Cut(lid, rod(x, 0, 0, 0, 0, 1, 12.0, 30.0)).Shape();
  }
  lid = only_solid(lid);
  return {{bowl,
           "bowl",
           kBowl,
           {{face_at(bowl, {kBoreRadius, 0, -40}), "bowl bore", kWater},
            {face_at(bowl, {0.5 * (kGasketInner + kGasketOuter), 0, 0}), "gasket ring", kSeal}}},
          {lid,
           "lid",
           std::nullopt,
           {{face_at(lid, {0.5 * (kGasketInner + kGasketOuter), 0, kGasketThickness}),
             "lid gasket ring", kSeal}}}};
}

}  // namespace crossgrain::parts
