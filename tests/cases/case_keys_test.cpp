// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case_file/case_keys.h"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <sstream>

#include "tests/cases/case_text.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// A case in which this key stands in its table with this value, and nothing else does.
std::string case_with(const CaseKeyTable& table, const std::string& key, const std::string& value) {
  const std::string line = key + " = " + value;
  if (table.name.empty()) return line + "\n";
  if (table.name == "head") return "[[pressure]]\nhead = { " + line + " }\n";
  if (table.name == "turn") return "[[body]]\nturn = { " + line + " }\n";
  if (table.name == "faces") return "[[pressure]]\nfaces = { " + line + " }\n";
  if (table.name == "port") return "[[pressure]]\nfaces = { ports = [{ " + line + " }] }\n";
  return std::string(table.heading) + "\n" + line + "\n";
}

std::string contents(const std::filesystem::path& file) {
  std::ostringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}

const std::filesystem::path document =
    std::filesystem::path(CROSSGRAIN_SOURCE_DIR) / "cases" / "CASE_FILE.md";

}  // namespace

BOOST_AUTO_TEST_SUITE(case_keys)

BOOST_AUTO_TEST_CASE(every_key_of_the_table_is_read_by_the_parser) {
  // No key takes a date: a key that is read complains of it by name.
  for (const CaseKeyTable& table : case_key_tables()) {
    for (const CaseKey& key : table.keys) {
      const std::string name(key.name);

      const std::string message = refusal_of(case_with(table, name, "2001-02-03"));

      const std::string label = table.label().empty() ? "" : table.label() + " ";
      BOOST_TEST(says(message, label + name + " = a date or time: "));
      BOOST_TEST(!says(message, "unknown key"));
    }
  }
}

BOOST_AUTO_TEST_CASE(the_parser_reads_no_key_that_the_table_lacks) {
  for (const CaseKeyTable& table : case_key_tables()) {
    const std::string message = refusal_of(case_with(table, "no_such_key", "\"1 mm\""));

    const std::string label = table.label().empty() ? "" : table.label() + ": ";
    BOOST_TEST(says(message, label + "unknown key 'no_such_key'"));
  }
}

BOOST_AUTO_TEST_CASE(keys_stand_once_in_their_table_and_say_what_they_mean) {
  for (const CaseKeyTable& table : case_key_tables()) {
    for (std::size_t i = 0; i < table.keys.size(); ++i) {
      BOOST_TEST(!table.keys[i].meaning.empty());
      for (std::size_t j = 0; j < i; ++j) BOOST_TEST(table.keys[i].name != table.keys[j].name);
    }
  }
}

BOOST_AUTO_TEST_CASE(the_reference_shows_every_table_and_key) {
  const std::string reference = case_key_reference();

  for (const CaseKeyTable& table : case_key_tables()) {
    BOOST_TEST(says(reference, std::string(table.heading)));
    for (const CaseKey& key : table.keys) {
      BOOST_TEST(says(reference, "| `" + std::string(key.name) + "` |"));
    }
  }
}

BOOST_AUTO_TEST_CASE(the_committed_document_ends_with_the_reference) {
  // Out of date? `ninja -C build/release case_reference` writes it anew.
  const std::string text = contents(document);
  const std::string reference = case_key_reference();

  BOOST_REQUIRE(text.size() > reference.size());
  BOOST_TEST(text.substr(text.size() - reference.size()) == reference);
}

BOOST_AUTO_TEST_CASE(the_example_of_the_document_reads) {
  const std::string text = contents(document);
  const std::size_t from = text.find("```toml\n") + 8;

  const std::string example = text.substr(from, text.find("```", from) - from);

  BOOST_TEST(example.size() > 200u);
  BOOST_TEST(refusal_of(example) == "");
}

BOOST_AUTO_TEST_SUITE_END()
