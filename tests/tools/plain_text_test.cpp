// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/plain_text.h"

#include <boost/test/unit_test.hpp>

using namespace crossgrain;

BOOST_AUTO_TEST_CASE(ordinary_names_stay_as_they_are) {
  for (const std::string name : {"bowl", "flange_screws M5", "Gehäuse, 2. Stück", "蓋 Ø 60"}) {
    BOOST_TEST(plain_text(name) == name);
    BOOST_TEST(markdown_text(name) == name);
    BOOST_TEST(xml_text(name) == name);
  }
}

BOOST_AUTO_TEST_CASE(broken_sequences_become_the_replacement_character) {
  // Lone bytes, a sequence cut short, an overlong slash, a surrogate (Unicode standard, table 3-7:
  // ill-formed).
  const std::string mark = "\xef\xbf\xbd";
  BOOST_TEST(plain_text("a\xff"
                        "b") == "a" + mark + "b");
  BOOST_TEST(plain_text("a\xc3") == "a" + mark);
  BOOST_TEST(plain_text("\xc0\xaf") == mark + mark);
  BOOST_TEST(plain_text("\xed\xa0\x80") == mark + mark + mark);
}

BOOST_AUTO_TEST_CASE(control_characters_and_line_breaks_become_spaces) {
  BOOST_TEST(plain_text("a\r\nb\tc\x1b[31m\x7f") == "a  b c [31m ");
  BOOST_TEST(plain_text(std::string("a\0b", 3)) == "a b");
  BOOST_TEST(plain_text("a\xe2\x80\xa8"
                        "b") == "a b");  // line separator
}

BOOST_AUTO_TEST_CASE(characters_that_turn_the_writing_and_noncharacters_are_dropped) {
  BOOST_TEST(plain_text("a\xe2\x80\xae"
                        "b\xef\xbf\xbf"
                        "c") == "abc");
}

BOOST_AUTO_TEST_CASE(markup_stands_for_itself_in_markdown) {
  BOOST_TEST(markdown_text("<b> & *x* [y](z) `c` |") ==
             "&lt;b&gt; &amp; \\*x\\* \\[y\\](z) \\`c\\` \\|");
  BOOST_TEST(markdown_text("_x_ a_b") == "\\_x\\_ a_b");
  BOOST_TEST(markdown_text("http://x www.y") == "http&#58;//x www&#46;y");
}

BOOST_AUTO_TEST_CASE(markup_becomes_entities_in_xml) {
  BOOST_TEST(xml_text("<a href=\"x\" b='y'>&amp;") ==
             "&lt;a href=&quot;x&quot; b=&apos;y&apos;&gt;&amp;amp;");
}

BOOST_AUTO_TEST_CASE(csv_fields_are_quoted_and_no_formula) {
  BOOST_TEST(csv_field("a,b") == "\"a,b\"");
  BOOST_TEST(csv_field("say \"x\"") == "\"say \"\"x\"\"\"");
  BOOST_TEST(csv_field("=1+1") == "'=1+1");
  BOOST_TEST(csv_field("@x") == "'@x");
  BOOST_TEST(csv_field("-1.5") == "-1.5");
  BOOST_TEST(csv_field("+Z") == "'+Z");
}

BOOST_AUTO_TEST_CASE(a_shell_takes_the_word_as_one) {
  BOOST_TEST(shell_word("cases/tee.toml") == "cases/tee.toml");
  BOOST_TEST(shell_word("my case.toml") == "'my case.toml'");
  BOOST_TEST(shell_word("a'; rm x") == "'a'\\''; rm x'");
  BOOST_TEST(shell_word("") == "''");
}

BOOST_AUTO_TEST_CASE(file_name_parts_hold_nothing_but_letters_digits_and_underscores) {
  BOOST_TEST(file_name_part("Cold start, -5 °C") == "cold_start_5_c");
  BOOST_TEST(file_name_part("../../etc/passwd") == "etc_passwd");
  BOOST_TEST(file_name_part("蓋") == "case");
  BOOST_TEST(file_name_part(std::string(100, 'a')).size() == 40U);
}
