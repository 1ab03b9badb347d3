// SPDX-License-Identifier: GPL-3.0-or-later
#include <vtkNew.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "tests/tools/synthetic_run.h"
#include "tools/results/plain_text.h"
#include "tools/results/write_results.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace fs = std::filesystem;

namespace {

bool has_raw_control(const std::string& text) {
  for (const char c : text) {
    if (static_cast<unsigned char>(c) < 0x20 && c != '\n') return true;
  }
  return false;
}

struct Hostile {
  SyntheticRun run = hostile_run();
  fs::path directory = empty_directory("hostile");
  Hostile() { write_results(run.outputs(), {}, directory); }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(hostile_names, Hostile)

BOOST_AUTO_TEST_CASE(file_names_stay_inside_the_directory_and_plain) {
  for (const auto& entry : fs::directory_iterator(directory)) {
    const std::string name = entry.path().filename().string();
    BOOST_TEST(
        name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_.") == std::string::npos,
        name);
  }
}

BOOST_AUTO_TEST_CASE(json_stays_valid_and_holds_the_name_in_plain) {
  // nlohmann's parser refuses broken UTF-8 and raw control characters.
  const auto j = nlohmann::json::parse(content_of(directory / "summary.json"));

  BOOST_TEST(j["title"] == plain_text(hostile_name));
  BOOST_TEST(j["bodies"][0]["name"] == plain_text(hostile_name));
}

BOOST_AUTO_TEST_CASE(markdown_holds_no_markup_that_was_not_ours) {
  std::string text = content_of(directory / "summary.md");
  // The command to run again is a code block, in which nothing acts: it shows the name as it is.
  text = text.substr(0, text.find("## To run it again"));

  BOOST_TEST(!has_raw_control(text));
  BOOST_TEST(plain_text(text).find("\xef\xbf\xbd\xef\xbf\xbd") !=
             std::string::npos);  // the broken bytes, marked
  for (const char* markup : {"<script", "http://", " **e**", "`d`", "\n# c", "\xff"}) {
    BOOST_TEST(text.find(markup) == std::string::npos, markup);
  }
}

BOOST_AUTO_TEST_CASE(tables_keep_their_columns) {
  // Every line of a table has as many unescaped bars as the one above it.
  std::istringstream lines(content_of(directory / "summary.md"));
  std::string line;
  long bars_above = 0;
  while (std::getline(lines, line)) {
    long bars = 0;
    for (std::size_t i = 0; i < line.size(); ++i)
      bars += line[i] == '|' && (i == 0 || line[i - 1] != '\\');
    if (line.empty() || line.front() != '|') bars = 0;
    if (bars_above > 0 && bars > 0) BOOST_TEST(bars == bars_above, line);
    bars_above = bars;
  }
}

BOOST_AUTO_TEST_CASE(vtk_still_reads_the_fields) {
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->SetFileName((directory / "fields.vtu").c_str());
  reader->Update();
  BOOST_TEST(reader->GetOutput()->GetNumberOfCells() == 12);
}

BOOST_AUTO_TEST_SUITE_END()
