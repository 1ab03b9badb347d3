// SPDX-License-Identifier: GPL-3.0-or-later
// Two plates and one screw as solid bodies, against VDI 2230's cone and load factor.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>
#include <optional>

#include "cases/joint/load_factor.h"
#include "cases/joint/screw_compliance.h"
#include "solver/interface/head_pressure.h"
#include "tests/support/joined_blocks.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using namespace testing;

constexpr double hole = 5.5, thread_diameter = 5.0, head = 8.03, clamped = 10.0;  // mm
constexpr double steel = 206000.0;                                                // MPa
constexpr double quarter = std::numbers::pi / 2.0;
const char* const vdi = "VDI 2230-1, worked by hand from its formulas";

/// Quarter of a round body with a hole, between `inner` (at zeta 0) and `far`; cells get smaller
/// towards the height `far` and towards the radius of the head's rim, where pressure has no bound.
/// Faces of the part beyond that radius are numbered 6 on from its own.
TetrahedronMesh quarter_ring(double hole_diameter, double outer, double inner, double far) {
  constexpr int cells_out = 5, layers = 5;
  constexpr double finer = 0.6;
  const auto ring = [=](double from, double to, bool finer_outside) {
    return [=](const Eigen::Vector3d& unit) {
      const double out = finer_outside ? graded(unit.x(), cells_out, finer)
                                       : 1.0 - graded(1.0 - unit.x(), cells_out, finer);
      const double radius = from + (to - from) * out, angle = quarter * unit.y();
      return Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle),
                             inner + (far - inner) * graded(unit.z(), layers, finer));
    };
  };
  const std::array<int, 3> cells{cells_out, 8, layers};
  return welded(joined(block_mesh(cells, ring(0.5 * hole_diameter, 0.5 * head, true)),
                       block_mesh(cells, ring(0.5 * head, 0.5 * outer, false)), 6),
                1e-6);
}

constexpr FaceId beyond_rim(FaceId side) { return FaceId{number(side) + 6}; }
constexpr int upper_body = 12;
constexpr FaceId of_upper(FaceId side) { return FaceId{number(side) + upper_body}; }

/// Two bodies of one material and an M5 through the upper one. Their faces meet at zeta_low.
class ScrewedBodies {
 public:
  struct Parts {
    TetrahedronMesh lower, upper;
    FaceId thread_face;                ///< of the lower body
    ScalarOfPosition thread_pressure;  ///< none: even
    double screw_give;                 ///< delta_S without the body round the thread [mm/N]
  };

  ScrewedBodies(const Parts& parts, double E, double nu)
      : mesh_(two_bodies(parts.lower, parts.upper, upper_body)),
        field_(uniform_field(
            mesh_, {elastic_material(isotropic(E, nu)), elastic_material(isotropic(E, nu))},
            {Frame::Identity(), Frame::Identity()})),
        solver_(mesh_, held(), {.method = SolverMethod::direct}) {
    solver_.set_material(field_);
    const auto under_head =
        pressure_under_head(Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitZ(), 0.5 * head);
    joint_.emplace(mesh_, solver_,
                   Joint{{pair_between(mesh_, field_, {zeta_low, beyond_rim(zeta_low)},
                                       {of_upper(zeta_low), of_upper(beyond_rim(zeta_low))},
                                       Unilateral{}, 0.1)},
                         {{"M5", area_motion(mesh_, {of_upper(zeta_high)}, under_head, "head"),
                           area_motion(mesh_, {parts.thread_face}, parts.thread_pressure, "thread"),
                           Eigen::Vector3d::UnitZ(), 0.25 / parts.screw_give, 0.0}}});
  }

  /// Of the bodies between head and thread, to forces of the screw [mm/N].
  double compliance() {
    constexpr double preload = 100.0;
    return -tightened(preload).screws[0].elongation / preload;
  }
  /// A load that pulls the head up and the lower body down, where the screw's thread holds it or
  /// on its far face. @param preload, load  of the whole screw [N]
  enum class Below { thread, far_face };
  double force_under(double preload, double load, Below below) {
    const auto start = tightened(preload);
    const auto loaded = joint_->solve(
        {pulled_asunder(0.25 * load, below), {locked(start.screws[0])}, {}, {}}, &start);
    return 4.0 * loaded.screws[0].force;
  }
  double load_factor(double preload, double load, Below below) {
    return (force_under(preload, load, below) - preload) / load;
  }

 private:
  JointSolution tightened(double preload) {
    return joint_->solve({no_load(), {{true, 0.25 * preload}}, {}, {}});
  }
  std::vector<NodeConstraint> held() const {
    const auto sides = [](FaceId side) -> std::vector<FaceId> {
      return {side, beyond_rim(side), of_upper(side), of_upper(beyond_rim(side))};
    };
    auto constraints =
        constraints_of(mesh_, {held_along(sides(eta_low), Eigen::Vector3d::UnitY()),
                               held_along(sides(eta_high), Eigen::Vector3d::UnitX())});
    // The loads balance: this holds the lower body without a force.
    hold_nodes(constraints, {nearest_node(mesh_, {0.5 * head, 0.0, -50.0})},
               Eigen::Vector3d::UnitZ());
    return constraints;
  }
  Eigen::VectorXd no_load() const { return Eigen::VectorXd::Zero(mesh_.unknowns()); }
  Eigen::VectorXd pulled_asunder(double force, Below below) const {
    const std::vector<FaceId> far{zeta_high, beyond_rim(zeta_high)};
    Eigen::VectorXd load = below == Below::far_face ? spread_force(mesh_, far, {0.0, 0.0, -force},
                                                                   Eigen::Vector3d::Zero())
                                                    : no_load();
    const auto pull = [&](const AreaMotion& seat, double by) {
      for (const auto& share : seat.shares) load[3 * share.node + 2] += share.weight * by;
    };
    pull(joint_->joint().screws[0].head, force);
    if (below == Below::thread) pull(joint_->joint().screws[0].thread, -force);
    return load;
  }

  TetrahedronMesh mesh_;
  MaterialField field_;
  StaticSolver solver_;
  std::optional<JointSolver> joint_;
};

/// Two plates of 5 mm between head and nut.
ScrewedBodies plates(double outer, double E, double nu) {
  constexpr double half = 0.5 * clamped;
  const ScrewSize& m5 = *find_screw_size("M5");
  return {{quarter_ring(hole, outer, 0.0, -half), quarter_ring(hole, outer, 0.0, half), zeta_high,
           pressure_under_head(Eigen::Vector3d::Zero(), Eigen::Vector3d::UnitZ(), 0.5 * head),
           screw_compliance({clamped, 0.0, steel}, m5) +
               thread_seat_compliance(ThreadSeat::nut, m5.diameter, steel)},
          E,
          nu};
}

/// A plate of 10 mm, 12 wide, on a wider body of the same plastic that holds the thread.
ScrewedBodies tapped() {
  const ScrewSize& m5 = *find_screw_size("M5");
  return {{quarter_ring(thread_diameter, 20.0, 0.0, -20.0), quarter_ring(hole, 12.0, 0.0, clamped),
           xi_low, [](const Eigen::Vector3d& x) { return x.z() > -thread_diameter ? 1.0 : 0.0; },
           screw_compliance({clamped, 0.0, steel}, m5)},
          2000.0,
          0.35};
}

BOOST_AUTO_TEST_SUITE(screwed_plates)

BOOST_AUTO_TEST_CASE(plates_give_way_as_vdi_2230s_cone) {
  for (const auto& [outer, target] : {std::pair{12.0, 9.883e-5}, std::pair{20.0, 9.106e-5}}) {
    const std::string name = std::to_string(static_cast<int>(outer));
    check({Chapter::screws, "C4 field cone to " + name,
           "two plates of 5 under an M5, E 2000 ν 0.35, material to " + name + ": δP [mm/N]", vdi,
           target, fraction(0.1, "the cone is itself an approximation")},
          plates(outer, 2000.0, 0.35).compliance());
  }
}

BOOST_AUTO_TEST_CASE(the_screw_takes_the_load_factors_share) {
  const Tolerance cone = fraction(0.1, "the cone is itself an approximation");
  using Below = ScrewedBodies::Below;
  check({Chapter::screws, "C4 field Φ plastic",
         "two plates of 5 under an M5, E 2000 to 12, load at the head, n = 1: Φ", vdi, 0.945, cone},
        plates(12.0, 2000.0, 0.35).load_factor(1000.0, 500.0, Below::thread));
  check({Chapter::screws, "C4 field Φ steel", "the same of steel: Φ", vdi, 0.141, cone},
        plates(12.0, steel, 0.3).load_factor(1000.0, 500.0, Below::thread));
}

BOOST_AUTO_TEST_CASE(plastic_round_the_thread_takes_the_screws_side) {
  const std::string what =
      "plate of 10 to 12 under an M5 whose thread engages one diameter of a body to 20, both of E "
      "2000: ";
  ScrewedBodies joint = tapped();
  check({Chapter::screws, "C4 field insert", what + "δP and the thread's seat [mm/N]", vdi,
         7.639e-5 + thread_seat_compliance(ThreadSeat::tapped_hole, thread_diameter, 2000.0),
         fraction(0.1, "the cone is itself an approximation")},
        joint.compliance());
  check({Chapter::screws, "C4 field Φ insert",
         what + "Φ, load at the head (n = 1) and on the body's far face", vdi, 0.62,
         fraction(0.1,
                  "the formula knows no depth of engagement: half a diameter 0.05 less, 1.5 of "
                  "them 0.03 more")},
        joint.load_factor(1000.0, 500.0, ScrewedBodies::Below::far_face));
}

BOOST_AUTO_TEST_CASE(the_load_factor_does_not_depend_on_the_preload_until_the_plates_part) {
  using Below = ScrewedBodies::Below;
  ScrewedBodies joint = plates(12.0, steel, 0.3);
  check({Chapter::screws, "C4 field Φ by preload",
         "steel, 500 N at the head: Φ at a preload of 3000 N over that at 1000 N", vdi, 1.0,
         fraction(1e-3, "plates of this width stay pressed on all of their face")},
        joint.load_factor(3000.0, 500.0, Below::thread) /
            joint.load_factor(1000.0, 500.0, Below::thread));
  check({Chapter::screws, "C4 field opened", "steel, preload 1000 N, 2000 N at the head: force [N]",
         "equilibrium: plates that have parted press no more", 2000.0,
         fraction(1e-6, "the solver's own tolerance")},
        joint.force_under(1000.0, 2000.0, Below::thread));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
