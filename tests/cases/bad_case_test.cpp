// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <stdexcept>

#include "tests/cases/case_text.h"

// Each bad input is answered with file, line, key, value and remedy.
using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// The small case with one of its lines replaced.
std::string with_line(int line, const std::string& text) {
  std::string result;
  int number = 1;
  for (std::size_t from = 0; from < small_case.size(); ++number) {
    const std::size_t end = small_case.find('\n', from);
    result += (number == line ? text : small_case.substr(from, end - from)) + "\n";
    from = end + 1;
  }
  return result;
}

struct Bad {
  std::string text;
  std::string message;
};

void refuse_each(const std::vector<Bad>& inputs) {
  for (const Bad& bad : inputs) {
    BOOST_TEST_CONTEXT("expected: " << bad.message) {
      const std::string message = refusal_of(bad.text);
      BOOST_TEST(message.find(bad.message) != std::string::npos, "obtained: " << message);
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(bad_case)

BOOST_AUTO_TEST_CASE(the_small_case_itself_is_sound) { BOOST_TEST(refusal_of(small_case) == ""); }

BOOST_AUTO_TEST_CASE(a_missing_file_is_named) {
  try {
    read_case("no/such/case.toml");
    BOOST_FAIL("must throw");
  } catch (const std::invalid_argument& error) {
    BOOST_TEST(says(error.what(), "no/such/case.toml: no such case file; check the path"));
  }
}

BOOST_AUTO_TEST_CASE(a_folder_is_not_a_case) {
  const CaseFolder folder;
  try {
    read_case(folder.path());
    BOOST_FAIL("must throw");
  } catch (const std::invalid_argument& error) {
    BOOST_TEST(says(error.what(), "cannot be read"));
  }
}

BOOST_AUTO_TEST_CASE(what_is_not_toml_is_refused_with_its_line) {
  refuse_each({
      {with_line(3, "material = petg"), "case.toml:3: not valid TOML: "},
      {with_line(3, "material = \"petg\"\nmaterial = \"pla\""), "case.toml:4: not valid TOML: "},
      {std::string("ISO-10303-21;\nHEADER;\n"), "case.toml:1: not valid TOML: "},
      {std::string("title = \"\xff\xfe\""), "case.toml:1: not valid TOML: "},
      {std::string("a = [[[[[["), "case.toml:1: not valid TOML: "},
  });
}

BOOST_AUTO_TEST_CASE(an_empty_file_says_what_is_needed) {
  BOOST_TEST(says(refusal_of(""), "the key 'body' is missing"));
}

BOOST_AUTO_TEST_CASE(unknown_keys_suggest_the_nearest_one) {
  refuse_each({
      {with_line(3, "materiel = \"petg\""),
       "case.toml:3: [[body]]: unknown key 'materiel'; did you mean 'material'?"},
      {small_case + "[condition]\ntemperature = \"23 degC\"\n",
       "case.toml:9: unknown table 'condition'; did you mean 'conditions'?"},
      {small_case + "safety_factor = 3\n",
       "case.toml:9: [[pressure]]: unknown key 'safety_factor'; it belongs in [targets]"},
      {small_case + "zzzzzzzzz = 3\n",
       "case.toml:9: [[pressure]]: unknown key 'zzzzzzzzz'; the keys here are name, value, faces"},
      {with_line(8, "faces = { holes = \"5 mm\" }"),
       "case.toml:8: faces: unknown key 'holes'; did you mean 'hole'?"},
      {with_line(1, "[[boddy]]"), "case.toml:1: unknown table 'boddy'; did you mean 'body'?"},
  });
}

BOOST_AUTO_TEST_CASE(a_quantity_needs_its_unit) {
  refuse_each({
      {with_line(7, "value = 0.4"),
       "case.toml:7: [[pressure]] value = 0.4: a bare number has no unit; write text with the "
       "unit, such as \"0.4 MPa\" (MPa, "},
      {with_line(7, "value = \"0.4\""),
       "case.toml:7: [[pressure]] value: \"0.4\": the unit is missing"},
      {with_line(7, "value = \"0.4 mm\""), "case.toml:7: [[pressure]] value: \"0.4 mm\": "},
      {with_line(7, "value = \"a lot\""), "case.toml:7: [[pressure]] value: \"a lot\": "},
      {with_line(8, "faces = { wetted_at = [0, 0, 20] }"),
       "case.toml:8: faces wetted_at = [0, 0, 20]: a bare number has no unit"},
      {with_line(8, "faces = { wetted_at = [\"0 mm\", \"0 mm\"] }"),
       "case.toml:8: faces wetted_at = [\"0 mm\", \"0 mm\"]: three quantities are due"},
  });
}

BOOST_AUTO_TEST_CASE(what_is_not_finite_is_refused) {
  refuse_each({
      {with_line(7, "value = \"nan MPa\""), "case.toml:7: [[pressure]] value: \"nan MPa\": "},
      {with_line(7, "value = \"inf MPa\""), "case.toml:7: [[pressure]] value: \"inf MPa\": "},
      {with_line(7, "value = nan"), "case.toml:7: [[pressure]] value = nan: a bare number"},
      {small_case + "[targets]\nsafety_factor = nan\n",
       "case.toml:10: [targets] safety_factor = nan: must be a finite number"},
      {small_case + "[targets]\nsafety_factor = inf\n",
       "case.toml:10: [targets] safety_factor = inf: must be a finite number"},
      {with_line(4, "print_direction = [0, nan, 1]"),
       "case.toml:4: [[body]] print_direction = [0, nan, 1]: must be finite numbers"},
      {small_case + "[[load_case]]\nname = \"a\"\nfactors = { working = nan }\n",
       "case.toml:11: [[load_case]] factors = { working = nan }: 'working' must be a finite"},
  });
}

BOOST_AUTO_TEST_CASE(zero_and_less_are_refused_where_they_make_no_sense) {
  refuse_each({
      {small_case + "[targets]\nsafety_factor = 0\n",
       "case.toml:10: [targets] safety_factor = 0: must be greater than zero"},
      {small_case + "[targets]\nproof_factor = -1.5\n",
       "case.toml:10: [targets] proof_factor = -1.5: must be greater than zero"},
      {small_case + "[mesh]\nlayers = 0\n", "case.toml:10: [mesh] layers = 0: must be greater"},
      {small_case + "[mesh]\nsize = \"-2 mm\"\n", "[mesh] size = \"-2 mm\": must be greater"},
      {small_case + "[solve]\ntolerance = 0.5\n",
       "case.toml:10: [solve] tolerance = 0.5: not between 1e-13"},
      {small_case + "[solve]\nmethod = \"magic\"\n", "[solve] method = \"magic\""},
      {small_case + "[conditions]\ncycles = 0.5\n", "cycles = 0.5: must be 1 or greater"},
      {small_case + "[conditions]\ntrapped_air = \"140 %\"\n", "must be from 0 to 1"},
      {small_case + "[conditions]\ntemperature = \"-400 degC\"\n", "absolute zero"},
      {with_line(7, "value = \"0 MPa\""),
       "a pressure of zero does nothing; give a value or a head"},
      {with_line(8, "faces = { hole = \"0 mm\" }"), "faces hole = \"0 mm\": must be greater"},
      {with_line(8, "faces = { ids = [0] }"), "ids = [0]: a list of whole numbers from 1 is due"},
      {with_line(8, "faces = { ids = [] }"), "ids = []: a list of whole numbers from 1 is due"},
      {with_line(8, "faces = []"), "[[pressure]] faces = []: an empty list chooses no faces"},
      {with_line(3, "material = \" \""), "[[body]] material = \" \": empty text"},
      {small_case + "[[temperature_change]]\nname = \"hot\"\nchange = \"0 K\"\n",
       "change = \"0 K\": must be other than zero"},
      {small_case + "[[temperature_change]]\nname = \"hot\"\nchange = \"9 K\"\n"
                    "faces = { ids = [1] }\n",
       "heat flows from faces to other_faces; give both"},
      {small_case + "[[temperature_change]]\nname = \"hot\"\nchange = \"9 K\"\n"
                    "other_change = \"2 K\"\n",
       "other_change = \"2 K\": goes with other_faces"},
      {small_case + "[[force]]\nname = \"f\"\nfaces = { ids = [1] }\nforce = [\"0 N\", \"0 N\", "
                    "\"0 N\"]\n",
       "case.toml:9: [[force]]: force and moment are zero"},
      {small_case + "[directions]\noverhang_angle = \"90 deg\"\n", "must be less than 90 deg"},
      {small_case + "[[probe]]\nname = \"p\"\nline = [[\"0 mm\", \"0 mm\", \"0 mm\"], [\"0 mm\", "
                    "\"0 mm\", \"0 mm\"]]\n",
       "the line has no length"},
  });
}

BOOST_AUTO_TEST_CASE(directions_that_point_nowhere_are_refused) {
  refuse_each({
      {with_line(4, "print_direction = [0, 0, 0]"),
       "case.toml:4: [[body]] print_direction = [0, 0, 0]: a direction of zero length; write "
       "which way, such as \"+z\" or [0, 0, 1]"},
      {with_line(4, "print_direction = \"z\""),
       "case.toml:4: [[body]] print_direction = \"z\": which way? write \"+z\" or \"-z\""},
      {with_line(4, "print_direction = \"up\""), "print_direction = \"up\": not a direction"},
      {with_line(4, "print_direction = [0, 1]"), "print_direction = [0, 1]: not a direction"},
      {small_case + "[directions]\nnamed = { flat = [0, 0, 0] }\n", "a direction of zero length"},
  });
}

BOOST_AUTO_TEST_CASE(wrong_kinds_of_values_are_refused) {
  refuse_each({
      {with_line(3, "material = 3"),
       "case.toml:3: [[body]] material = 3: this is a whole number; write text in quotes"},
      {with_line(1, "[body]"), "case.toml:1: body = "},
      {with_line(1, "[body]"), "several of these may stand in a case; write [[body]] with double"},
      {small_case + "[[targets]]\nsafety_factor = 3\n",
       "this is a list; write [targets] and its keys below"},
      {small_case + "scales = \"no\"\n",
       "case.toml:9: [[pressure]] scales = \"no\": this is text; write true or false"},
      {small_case + "[mesh]\nlayers = 2.5\n",
       "layers = 2.5: this is a number; write a whole number"},
      {small_case + "[mesh]\nlayers = 99999999999\n", "too large"},
      {small_case + "[conditions]\nmoisture = \"wet\"\n",
       "moisture = \"wet\": unknown word; write one of \"dry\", \"conditioned\""},
      {with_line(8, "faces = \"all\""),
       "case.toml:8: [[pressure]] faces = \"all\": not a choice of faces; write { hole = "},
      {with_line(8, "faces = { colour = \"red\" }"), "colour = \"red\": not a colour; write "},
      {with_line(8, "faces = { colour = \"#12345g\" }"), "not a colour"},
  });
}

BOOST_AUTO_TEST_CASE(missing_keys_are_named_with_what_they_say) {
  refuse_each({
      {with_line(3, ""), "case.toml:1: [[body]]: the key 'material' is missing; it says: A card's"},
      {with_line(8, ""), "case.toml:5: [[pressure]]: the key 'faces' is missing"},
      {one_body, "case.toml:1: nothing loads the part; add a [[pressure]]"},
  });
}

BOOST_AUTO_TEST_CASE(a_choice_of_faces_is_exactly_one_way) {
  refuse_each({
      {with_line(8, "faces = { }"),
       "case.toml:8: faces: nothing says which faces; give exactly one"},
      {with_line(8, "faces = { count = 2 }"), "faces: nothing says which faces"},
      {with_line(8, "faces = { hole = \"5 mm\", ids = [3] }"),
       "faces: 'hole' and 'ids' are two ways of choosing faces"},
      {with_line(8, "faces = { ids = [3], part = \"floor\" }"),
       "faces part = \"floor\": goes with 'hole', which is not here"},
      {with_line(8, "faces = { plane = \"+z\" }"), "where along it? add at = "},
      {with_line(8, "faces = { outside = false }"), "outside = false: must be true"},
      {with_line(8, "faces = { ids = [3], ports = [] }"), "ports = []: goes with 'wetted_at'"},
  });
}

BOOST_AUTO_TEST_CASE(names_are_given_once_and_refer_to_something) {
  const std::string bolt =
      "[[bolt]]\nname = \"screws\"\nthread = { hole = \"6 mm\" }\nsize = \"M5\"\n"
      "preload = \"1 kN\"\n";
  const std::string gasket = "[[gasket]]\nname = \"seal\"\nfaces = { ids = [2] }\n";
  refuse_each({
      {small_case + "[[support]]\nname = \"working\"\nfaces = { ids = [3] }\n",
       "case.toml:9: the name 'working' is taken by line 5; give every load"},
      {small_case + bolt + gasket + "bolts = \"screw\"\npressure = \"working\"\n",
       "case.toml:14: [[gasket]] bolts: nothing is named 'screw'; did you mean 'screws'?"},
      {small_case + bolt + gasket + "bolts = \"screws\"\npressure = \"p\"\n",
       "[[gasket]] pressure: nothing is named 'p'; there are 'working'"},
      {small_case + "[[load_case]]\nname = \"a\"\nfactors = { workin = 1 }\n",
       "case.toml:9: [[load_case]] factors: nothing is named 'workin'; did you mean 'working'?"},
      {small_case + "[[load_case]]\nname = \"a\"\nfactors = { }\n", "factors: empty"},
      {small_case + "carried_by = { inlet = \"plug\" }\n",
       "[[pressure]] carried_by: nothing is named 'inlet'; the case has none"},
      {with_line(8,
                 "faces = { wetted_at = [\"0 mm\", \"0 mm\", \"0 mm\"], ports = [{ name = "
                 "\"inlet\", faces = { ids = [2] } }] }\ncarried_by = { inlet = \"plugg\" }"),
       "[[pressure]] carried_by inlet: nothing is named 'plugg'; did you mean 'plug'?"},
      {with_line(8,
                 "faces = { wetted_at = [\"0 mm\", \"0 mm\", \"0 mm\"], ports = [{ name = "
                 "\"a\", faces = { ids = [2] } }, { name = \"a\", faces = { ids = [3] } }] }"),
       "ports: 'a' is there twice"},
      {small_case + "[hand_calculation]\nmode = \"auto\"\nwall = \"3 mm\"\n",
       "case.toml:11: [hand_calculation] wall = \"3 mm\": with mode = \"auto\" the part's own "
       "shapes "
       "count; leave out this key, or the mode"},
      {small_case + "[hand_calculation]\nshape = \"thin_cylinder\"\nwall = \"3 mm\"\n",
       "case.toml:9: [hand_calculation]: 'inner_radius' is missing; add it, or leave shape and "
       "sizes "
       "to the part with mode = \"auto\""},
      {one_body + "[hand_calculation]\nmode = \"auto\"\n",
       "[hand_calculation]: the case has no pressure to calculate with"},
      {small_case + "[hand_calculation]\nshape = \"thin_cylinder\"\ninner_radius = \"9 mm\"\n"
                    "wall = \"2 mm\"\npressure = \"test\"\n",
       "[hand_calculation] pressure: nothing is named 'test'; there are 'working'"},
  });
}

BOOST_AUTO_TEST_CASE(bodies_come_from_files_that_are_there) {
  const std::string lid =
      "[[body]]\nstep_file = \"lid.step\"\nmaterial = \"petg\"\nprint_direction = \"+z\"\n";
  refuse_each({
      {with_line(2, "step_file = \"none.step\""),
       "case.toml:1: [[body]] step_file: there is no file 'none.step'; give its path relative"},
      {small_case + lid, "case.toml:9: [[body]] step_file: there is no file 'lid.step'; give its"},
      {small_case + "[mesh]\nfile = \"none.msh\"\n", "[mesh] file: there is no file 'none.msh'"},
  });
}

BOOST_AUTO_TEST_CASE(bodies_of_one_file_in_one_place_have_names) {
  const std::string unnamed =
      "case.toml:9: [[body]]: of several bodies of one file each needs a name of its own";
  const std::string shifted = one_body + "shift = [\"0 mm\", \"0 mm\", \"5 mm\"]\n";
  refuse_each({
      {small_case + one_body, unnamed},
      {small_case + one_body + "name = \"lid\"\n", unnamed},
      {small_case + shifted + shifted, "case.toml:14: [[body]]: of several bodies of one file"},
  });
}

BOOST_AUTO_TEST_CASE(a_place_is_a_turn_about_an_axis_and_a_shift) {
  refuse_each({
      {with_line(2, "step_file = \"part.step\"\nshift = [0, 0, 5]"),
       "case.toml:3: [[body]] shift = [0, 0, 5]: "},
      {with_line(2, "step_file = \"part.step\"\nturn = { angle = \"90 deg\" }"),
       "case.toml:3: turn: the key 'axis' is missing"},
      {with_line(2, "step_file = \"part.step\"\nturn = { axis = \"+z\", angle = 90 }"),
       "case.toml:3: turn angle = 90: a bare number has no unit"},
      {with_line(2, "step_file = \"part.step\"\nturn = { axis = [0, 0, 0], angle = \"9 deg\" }"),
       "case.toml:3: turn axis = [0, 0, 0]: a direction of zero length"},
  });
}

BOOST_AUTO_TEST_CASE(cards_are_known_or_are_files) {
  refuse_each({
      {with_line(3, "material = \"petgg\""),
       "case.toml:1: [[body]] material: unknown material card \"petgg\" (did you mean \"petg\"?)"},
      {with_line(3, "material = \"mine.toml\""), "case.toml:1: [[body]] material: "},
  });
}

BOOST_AUTO_TEST_CASE(bolts_say_how_tight_they_are) {
  const std::string bolt =
      small_case + "[[bolt]]\nname = \"screws\"\nthread = { hole = \"6 mm\" }\n";
  refuse_each({
      {bolt + "size = \"M5\"\n", "case.toml:9: [[bolt]]: how tight? give either preload"},
      {bolt + "size = \"M5\"\npreload = \"1 kN\"\ntorque = \"2 N m\"\n", "how tight? give either"},
      {bolt + "size = \"M5\"\ntorque = \"2 N m\"\n",
       "torque = \"2 N m\": a torque alone does not give a preload; add friction = 0.2"},
      {bolt + "size = \"M7\"\ntorque = \"2 N m\"\nfriction = 0.2\n",
       "size = \"M7\": unknown size; known are M3, M4, M5, M6, M8, M10"},
      {bolt + "size = \"M5\"\npreload = \"1 kN\"\nfriction = 0.2\n",
       "friction = 0.2: goes with torque; leave it out, preload is given"},
      {bolt + "size = \"M5\"\npreload = \"1 kN\"\nscatter = 0.5\n", "scatter = 0.5: must be 1 or"},
      {bolt + "size = \"M5\"\npreload = \"-1 kN\"\n", "preload = \"-1 kN\": must be greater"},
      {bolt + "size = \"M5\"\ntorque = \"2 N m\"\nfriction = 0.2\nhead_diameter = \"5 mm\"\n",
       "head_diameter = \"5 mm\": not greater than the clearance hole of M5, 5.5 mm"},
  });
}

BOOST_AUTO_TEST_CASE(several_mistakes_are_told_at_once_in_the_order_of_the_file) {
  const std::string message = refusal_of(R"([[body]]
step_file = "part.step"
materail = "petg"
print_direction = [0, 0, 0]
[[pressure]]
name = "working"
value = 0.4
faces = { wetted_at = ["0 mm", "0 mm", "20 mm"] }
)");

  const std::size_t first = message.find("case.toml:3: [[body]]: unknown key 'materail'");
  const std::size_t second = message.find("case.toml:4: [[body]] print_direction");
  const std::size_t third = message.find("case.toml:7: [[pressure]] value = 0.4");
  BOOST_TEST(first < second, message);
  BOOST_TEST(second < third, message);
  BOOST_TEST(third != std::string::npos, message);
}

BOOST_AUTO_TEST_SUITE_END()
