// SPDX-License-Identifier: GPL-3.0-or-later
// Screws by their standards; VDI 2230's cone and load factor, worked by hand.
#include <boost/test/unit_test.hpp>

#include "cases/joint/clamped_parts.h"
#include "cases/joint/load_factor.h"
#include "cases/joint/preload.h"
#include "cases/joint/screw_compliance.h"
#include "cases/joint/screw_strength.h"
#include "cases/joint/screw_yield.h"
#include "tests/verification/check_table.h"

namespace crossgrain::verification {
namespace {

const ScrewSize& size_of(const char* name) { return *find_screw_size(name); }

/// M5 socket head on a hole of 5.5, 10 mm clamped.
ClampedParts stack(double outer, double modulus) { return {10.0, 8.03, 5.5, outer, modulus}; }

BOOST_AUTO_TEST_SUITE(screw_joint)

BOOST_AUTO_TEST_CASE(screws_carry_their_standards_proof_load) {
  struct Row {
    const char* size;
    double class_8_8, class_10_9;  // N
  };
  const Row table[] = {{"M3", 2920, 4180},   {"M4", 5100, 7290},   {"M5", 8230, 11800},
                       {"M6", 11600, 16700}, {"M8", 21200, 30400}, {"M10", 33700, 48100}};
  const Tolerance three_digits = fraction(0.005, "the standard rounds to three digits");
  for (const Row& row : table) {
    const std::string name = row.size;
    check({Chapter::screws, "C1 proof " + name + " 8.8", name + " of class 8.8: proof load [N]",
           "ISO 898-1", row.class_8_8, three_digits},
          proof_load(screw_class("8.8"), size_of(row.size)));
    check({Chapter::screws, "C1 proof " + name + " 10.9", name + " of class 10.9: proof load [N]",
           "ISO 898-1", row.class_10_9, three_digits},
          proof_load(screw_class("10.9"), size_of(row.size)));
  }
  check({Chapter::screws, "C1 A2-70", "stainless A2-70: Rp0.2 [MPa]", "ISO 3506-1", 450,
         fraction(1e-9, "a stated value")},
        screw_class("A2-70").yield);
}

BOOST_AUTO_TEST_CASE(torque_and_preload_agree_with_the_table_of_vdi_2230) {
  struct Row {
    const char* size;
    double preload;  // N
    double torque;   // N mm
  };
  const Row table[] = {{"M3", 2550, 1320},   {"M4", 4420, 3040},   {"M5", 7200, 6070},
                       {"M6", 10180, 10270}, {"M8", 18600, 24900}, {"M10", 29600, 48900}};
  const Tolerance own_heads = fraction(0.03, "the table takes its own head diameters and rounds");
  for (const Row& row : table) {
    const std::string name = row.size;
    const ScrewSize& size = size_of(row.size);
    check({Chapter::screws, "C2 preload " + name,
           name + ", class 8.8, friction 0.12: preload at 90 % of yield [N]",
           "VDI 2230-1, table of assembly preloads (from memory)", row.preload, own_heads},
          preload_at_yield_share(0.9, screw_class("8.8").yield, size, 0.12));
    check({Chapter::screws, "C2 torque " + name,
           name + ", friction 0.12: torque of the table's preload [N mm]",
           "VDI 2230-1, table of tightening torques (from memory)", row.torque, own_heads},
          tightening_torque(row.preload, size, size.head_diameter, {0.12, 0.12}));
  }
}

BOOST_AUTO_TEST_CASE(clamped_parts_give_way_as_vdi_2230s_cone) {
  const Tolerance digits = fraction(1e-3, "closed form; four digits of the target");
  const auto row = [&](const std::string& name, Clamping clamping, double outer, double target) {
    check({Chapter::screws, "C4 cone " + name,
           "M5, head 8.03, hole 5.5, clamped 10, E 2000, material " + name + ": δP [mm/N]",
           "VDI 2230-1, substitute deformation cone; exact from its formulas", target, digits},
          clamped_compliance(clamping, stack(outer, 2000.0)));
  };
  row("to 12, through", Clamping::through, 12.0, 9.883e-5);
  row("to 12, tapped", Clamping::tapped, 12.0, 7.639e-5);
  row("to 20, through", Clamping::through, 20.0, 9.106e-5);
  row("to 20, tapped", Clamping::tapped, 20.0, 5.854e-5);
}

BOOST_AUTO_TEST_CASE(a_screw_in_plastic_takes_nearly_all_of_the_load_and_in_steel_little) {
  const ScrewSize& m5 = size_of("M5");
  const double steel = 206000.0;
  const double shank = screw_compliance({10.0, 0.0, steel}, m5);
  const double nut = thread_seat_compliance(ThreadSeat::nut, m5.diameter, steel);
  const std::string source = "VDI 2230-1, worked by hand from its formulas";
  const auto phi = [&](double screw, double clamped) {
    return load_factor({screw, clamped, 0.0}, 1.0);
  };

  check({Chapter::screws, "C4 screw", "M5 of steel with nut, clamped 10: δS [mm/N]", source,
         5.75e-6, fraction(0.02, "the modulus of steel is taken as 205 to 210 GPa")},
        shank + nut);
  check({Chapter::screws, "C4 Φ plastic", "the same on plastic of E 2000 to 12, n = 1: Φ", source,
         0.945, fraction(0.002, "digits of the target")},
        phi(shank + nut, clamped_compliance(Clamping::through, stack(12.0, 2000.0))));
  check({Chapter::screws, "C4 Φ steel", "the same on steel to 12, n = 1: Φ", source, 0.141,
         fraction(0.02, "the modulus of steel is taken as 205 to 210 GPa")},
        phi(shank + nut, clamped_compliance(Clamping::through, stack(12.0, steel))));
  const double insert = thread_seat_compliance(ThreadSeat::tapped_hole, m5.diameter, 2000.0);
  check({Chapter::screws, "C4 Φ insert",
         "plastic to 12, thread in plastic of E 2000 on the screw's side, n = 1: Φ", source, 0.62,
         fraction(0.02, "two digits of the target")},
        phi(shank + insert, clamped_compliance(Clamping::tapped, stack(12.0, 2000.0))));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
