// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/summary_text.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <sstream>

#include "tests/support/refusal.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/number_text.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_verdict_comes_first_then_the_factor_with_its_range) {
  const SyntheticRun run;
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST(text.rfind("# Bar under pressure\n\n**MARGINAL.** It may hold 0.4 MPa", 0) == 0U);
  const std::size_t factor = text.find("**Safety factor 3.4**, range 2.6 to 4.4; asked for: 3.");
  BOOST_TEST_REQUIRE(factor != std::string::npos);
  BOOST_TEST(factor < text.find("##"));
}

BOOST_AUTO_TEST_CASE(the_constant_that_moves_the_factor_most_is_the_one_to_measure) {
  SyntheticRun run;
  const auto words = [&] {
    std::string text = summary_text(run.outputs(), {});
    std::ranges::replace(text, '\n', ' ');
    return text;
  };
  BOOST_TEST(holds(words(),
                   "Measure **Sz of petg** (shear strength between layers) first: it is known as "
                   "6.75 to 12 MPa, and from end to end of that alone the factor goes from 2.7 to "
                   "3.9. All constants together leave it at 2.6 to 4.4."));
  BOOST_TEST(holds(summary_text(run.outputs(), {PressureUnit::bar}), "67.5 to 120 bar"));
  run.result.targets.safety_factor = 2.5;
  BOOST_TEST(holds(words(),
                   "Nothing has to be measured for the 2.5 asked for: all constants together leave "
                   "the factor at 2.6 to 4.4. What moves it most is **Sz of petg**"));
  run.result.targets.safety_factor = 3.0;
  BOOST_TEST(holds(words(), "| about 3.8 to 3 "));
  BOOST_TEST(holds(words(), "Foretold: from one solution, at the governing place"));
  run.result.constant_effects[1].basis = EffectBasis::solved;
  BOOST_TEST(holds(words(), "| 3.8 to 3 "));
  BOOST_TEST(holds(words(), "Solved: stress was solved for with both ends"));
  BOOST_TEST(!holds(words(), "Foretold"));
  run.result.constant_effects[0].at_low = 0.0;
  BOOST_TEST(holds(words(), "0: at that end what is held breaks a limit by itself"));
  BOOST_TEST(holds(words(), "By less than a hundredth the factor is moved by nu_12 of petg."));
  run.result.constant_effects.erase(run.result.constant_effects.begin(),
                                    run.result.constant_effects.begin() + 2);
  BOOST_TEST(holds(words(), "No constant that is known to a range only moves the factor"));
  run.result.constant_effects.clear();
  BOOST_TEST(!holds(words(), "Which constant to measure"));
}

BOOST_AUTO_TEST_CASE(a_mesh_too_coarse_for_the_bead_is_said_beside_the_raw_factor) {
  SyntheticRun run;
  ModeResult raw = *run.result.governing;
  raw.factor = {3.1, 3.1, 3.1};
  CadEdge corner{};
  corner.id = EdgeId{1};
  corner.faces = {FaceId{1}, FaceId{2}};
  corner.middle = corner.swept_area = Eigen::Vector3d::Zero();
  corner.material_angle = 270.0;
  run.meshed.geometry.edges = {corner};
  run.result.governing_place = GoverningPlace{0.45, 2.5, false, EdgeId{1}, {}, raw};
  // Joined, since a line may end anywhere.
  const auto words = [&] {
    std::string text = summary_text(run.outputs(), {});
    std::ranges::replace(text, '\n', ' ');
    return text;
  };
  BOOST_TEST(holds(words(),
                   "Stress counts as a bead of 0.45 mm feels it; the value at a node "
                   "alone would give a factor of 3.1."));
  BOOST_TEST(holds(words(), "lies at inner edge 1 (270 degrees of material) between face 1"));
  BOOST_TEST(holds(words(),
                   "**Not converged:** elements there are 2.5 mm long, half a bead "
                   "is 0.225 mm"));
  run.result.governing_place->resolved_alike = 3.3;
  BOOST_TEST(!holds(words(), "Not converged"));
  BOOST_TEST(holds(words(), "at another place of this kind; the factor there is 3.3."));
  run.result.governing_place->inner_edge.reset();
  BOOST_TEST(!holds(words(), "inner edge"));
}

BOOST_AUTO_TEST_CASE(the_mesh_s_error_stands_beside_the_factor_and_its_passes_below) {
  SyntheticRun run;
  run.result.mesh_error = MeshError{0.08, 0.21};
  const GoverningPlace place{0.45, 0.2, true, {}, {}, {}};
  const ModeResult& governing = *run.result.governing;
  run.result.mesh_passes = {{1000, governing, MeshError{0.2, 0.6}, place, 1.5},
                            {5000, governing, MeshError{0.08, 0.21}, place, 4.0}};
  run.result.extrapolated_factor = 3.2;
  run.result.refining_ended = "passes_max of 2 is reached";
  std::string text = summary_text(run.outputs(), {});
  std::ranges::replace(text, '\n', ' ');

  BOOST_TEST(holds(text, "**Safety factor 3.4 ± 0.21 (mesh)**, range"));
  BOOST_TEST(holds(text, "Extrapolated to no error the factor is 3.2."));
  BOOST_TEST(holds(text, "though the case asks for one: passes_max of 2 is reached."));
  BOOST_TEST(holds(text, "| 5000 "));
}

BOOST_AUTO_TEST_CASE(every_other_factor_has_its_mesh_error_or_says_that_it_has_none) {
  SyntheticRun run;
  const auto told_with = [&](std::optional<double> error) {
    for (CaseResult& load_case : run.result.cases)
      for (ModeResult& mode : load_case.all_loads.modes) mode.mesh_error = error;
    return summary_text(run.outputs(), {});
  };
  BOOST_TEST(holds(told_with(0.25), "**3.4 ± 0.25**"));
  BOOST_TEST(holds(told_with(std::nullopt), "**3.4 ± ?**"));
}

BOOST_AUTO_TEST_CASE(volume_and_mass_stand_beside_cad_s_body_by_body) {
  SyntheticRun run;
  run.result.balance.bodies = {{"bowl", 1000.0, 1001.0, 1.27, 1.271},
                               {"collar", 500.0, 500.0, 2.7, 2.7}};
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST(holds(text, "| volume of 'bowl' in the mesh against CAD"));
  BOOST_TEST(holds(text, "1000 against 1001 mm³, 0.1 % apart"));
  BOOST_TEST(holds(text, "2.7 against 2.7 g, under 0.001 % apart"));
}

BOOST_AUTO_TEST_CASE(edges_where_stress_grew_are_named_and_their_raw_value_is_called_meaningless) {
  SyntheticRun run;
  CadEdge seat{};
  seat.id = EdgeId{1};
  seat.middle = seat.swept_area = Eigen::Vector3d::Zero();
  run.meshed.geometry.edges = {seat};
  run.result.growing_edges = {{EdgeId{1}, {9.0, 4.0}, {3.0, 0.4}, 0.48}};
  std::string text = summary_text(run.outputs(), {});
  std::ranges::replace(text, '\n', ' ');

  BOOST_TEST(holds(text, "**its raw value is meaningless**"));
  BOOST_TEST(
      holds(text, "edge 1 (180 degrees of material): by the value at a node a factor of 9 "));
}

BOOST_AUTO_TEST_CASE(with_a_gas_inside_the_warning_leads) {
  SyntheticRun run;
  run.case_file.conditions.medium = Medium::gas;
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST_REQUIRE(holds(text, "GAS INSIDE"));
  BOOST_TEST(text.find("GAS INSIDE") < text.find("MARGINAL"));
}

BOOST_AUTO_TEST_CASE(without_a_known_cavity_no_energy_is_claimed) {
  SyntheticRun run;
  run.case_file.conditions.medium = Medium::gas;
  run.result.stored_energy.reset();
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST(holds(text, "Stored energy: not known"));
  BOOST_TEST(text.find("GAS INSIDE") < text.find("MARGINAL"));
  BOOST_TEST(!holds(text, "0 J"));
}

BOOST_AUTO_TEST_CASE(a_run_that_is_not_trusted_says_so_and_why_first) {
  SyntheticRun run;
  run.result.verdict = Verdict::not_trusted;
  run.result.distrust = {"forces in and out differ by 3 %"};
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST(text.find("NOT TRUSTED") < text.find("Safety factor"));
  BOOST_TEST(text.find("forces in and out differ") < text.find("Safety factor"));
}

BOOST_AUTO_TEST_CASE(pressures_are_written_in_the_unit_asked_for) {
  const SyntheticRun run;

  const std::string psi = summary_text(run.outputs(), parse_reading_units("psi"));
  const std::string bar = summary_text(run.outputs(), parse_reading_units("bar"));

  BOOST_TEST(holds(bar, "| allowable | 4.5 bar"));
  BOOST_TEST(holds(psi, "| allowable | 65.3 psi"));  // 1 psi = 6894.757 Pa (NIST SP 811, table B.8)
  BOOST_TEST(!holds(psi.substr(psi.find("## Pressure")), " MPa"));
}

BOOST_AUTO_TEST_CASE(every_section_a_reader_needs_is_there) {
  const SyntheticRun run;
  const std::string text = summary_text(run.outputs(), {});

  for (const char* part :
       {"layers pull or slide apart", "face 1, \"inlet\", flat", "no limit found", "proof", "785",
        "flange screws", "thin wall", "x **0.45** from thin wall", "elements through the wall",
        "a coarser surface mesh", "0.6 of Zt", "estimated", "sustained load", "mid-wall",
        "weep before they burst", "crossgrain run bar.toml"}) {
    BOOST_TEST(holds(text, part), part);
  }
}

BOOST_AUTO_TEST_CASE(lines_outside_tables_fit_on_paper) {
  const SyntheticRun run;
  std::istringstream lines(summary_text(run.outputs(), {}));
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("|", 0) != 0) BOOST_TEST(line.size() <= 92U, line);
  }
}

BOOST_AUTO_TEST_CASE(numbers_read_without_exponents_where_people_expect_none) {
  BOOST_TEST(number_text(3.4) == "3.4");
  BOOST_TEST(number_text(12345.6) == "12346");
  BOOST_TEST(number_text(-0.01234) == "-0.0123");
  BOOST_TEST(number_text(1.5e-9) == "1.5e-09");
  BOOST_TEST(number_text(9.999) == "10");
  BOOST_TEST(number_text(99.96) == "100");
  BOOST_TEST(number_text(0.0) == "0");
  BOOST_TEST(number_text(200.0) == "200");
  BOOST_TEST(number_text(-1e6) == "-1000000");
  BOOST_TEST(range_text({3.4, 2.6, std::nullopt}) == "2.6 to no limit");
  BOOST_TEST(range_text({3.4, 3.4, 3.4}) == "");
  BOOST_TEST(position_text({-0.04, 1.25, -3.0}) == "(0.0, 1.3, -3.0)");
  BOOST_TEST(direction_text({0.0, 0.0, -1.0}) == "-Z");
}

BOOST_AUTO_TEST_CASE(noise_beside_a_large_component_reads_as_zero) {
  BOOST_TEST(vector_text({-3.45e-12, 8.06e-13, 53.24}) == "(0, 0, 53.2)");
  BOOST_TEST(vector_text({0.459, 1474.2, -3.28e-11}) == "(0, 1474, 0)");
  BOOST_TEST(vector_text({-1.23e-4, 7.5e-5, -0.1391}) == "(0, 0, -0.139)");
  BOOST_TEST(vector_text({1e-14, -2e-15, 0.0}) == "(0, 0, 0)");
  BOOST_TEST(vector_text({0.012, 0.0345, -0.1}) == "(0.012, 0.035, -0.1)");
  BOOST_TEST(holds(vector_text({0.0, std::nan(""), 1.0}), "nan"));
}

BOOST_AUTO_TEST_CASE(only_numbers_beyond_use_have_an_exponent) {
  SyntheticRun run;
  run.result.materials[0].assumptions.push_back(
      {"density", 1.27e-9, 1.22e-9, 1.29e-9, "tonne/mm^3", Standing::memory, "from memory"});
  run.result.materials[0].assumptions.push_back(
      {"cte_layer", 6e-5, 5e-5, 8e-5, "1/K", Standing::estimated, "as in the layer"});
  const std::string text = summary_text(run.outputs(), {});

  BOOST_TEST(holds(text, "density = 1.27 g/cm^3 (1.22 to 1.29), from memory\n"));
  BOOST_TEST(holds(text, "cte_layer = 60 um/(m K) (50 to 80), estimated: as in the layer"));
  BOOST_TEST(holds(text, "under 0.001 % apart"));
  for (const char* exponent : {"e-0", "e-1", "e+0"}) BOOST_TEST(!holds(text, exponent), exponent);
}

BOOST_AUTO_TEST_CASE(reactions_and_values_asked_for_name_their_load_case) {
  const SyntheticRun run;
  const std::string text = summary_text(run.outputs(), {});

  // The second of the two listed above.
  BOOST_TEST(holds(text, "| 2    | foot    | (0, 0, 40)"));
  BOOST_TEST(holds(text, "**mid-wall**, in the load cases numbered above:"));
  BOOST_TEST(holds(text, "| 2    | (5.0, 5.0, 5.0) | (0.1, 0, -0.2)"));
}

BOOST_AUTO_TEST_CASE(an_unknown_unit_is_refused_with_those_that_fit) {
  BOOST_TEST(
      refused([] { parse_reading_units("kgf"); }, "\"kgf\" are not known; choose MPa, bar or psi"));
  BOOST_TEST((parse_reading_units("PSI").pressure == PressureUnit::psi));
}

BOOST_AUTO_TEST_CASE(recognised_shapes_stand_in_one_table_with_their_formulas_below_it) {
  const SyntheticRun run;
  std::string text = summary_text(run.outputs(), {PressureUnit::bar});

  BOOST_TEST(holds(text, "| 1   | cylindrical shell, bore 20 mm | 1 2   | 40 bar  | 41 bar "));
  BOOST_TEST(holds(text, "| 50 bar       | +25 %: thick wall |"));
  std::ranges::replace(text, '\n', ' ');
  BOOST_TEST(
      holds(text, "1. p r / t; p 4 bar, r 10 mm, t 1 mm, nu 0.35. Beside it Lame at the bore"));
  BOOST_TEST(holds(text, "= 42 bar"));
  BOOST_TEST(holds(text, "The wall is thick."));
}

BOOST_AUTO_TEST_CASE(the_screws_share_of_the_thrust_stands_beside_the_one_by_hand) {
  const SyntheticRun run;
  std::string text = summary_text(run.outputs(), {});
  std::ranges::replace(text, '\n', ' ');

  BOOST_TEST(holds(text, "flange screws: by hand each of 8 screws carries"));
  BOOST_TEST(holds(text, "= 192 N of the fluid"));
}
