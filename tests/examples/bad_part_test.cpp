// SPDX-License-Identifier: GPL-3.0-or-later
// What is wrong with a STEP file, through every command that reads one: status 2, the file and the
// remedy, and nothing written.
#include <BRep_Builder.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Compound.hxx>
#include <boost/test/unit_test.hpp>

#include "tests/examples/example_case.h"
#include "tests/mesh/simple_parts.h"

namespace crossgrain::testing {
namespace {

/// Five of a block's six faces, without a solid.
TopoDS_Shape open_surfaces() {
  BRep_Builder builder;
  TopoDS_Compound compound;
  builder.MakeCompound(compound);
  int left = 5;
  for (TopExp_Explorer face(block(30, 20, 10), TopAbs_FACE); left > 0; face.Next(), --left)
    builder.Add(compound, face.Current());
  return compound;
}

struct Tee : ExampleCopy {
  Tee() : ExampleCopy("pipe-tee"), step(directory() / "pipe-tee.step") {}

  void refuse_with(const std::string& message) const {
    const auto before = entries();
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"inspect", "pipe-tee.step"},
          {"begin", "pipe-tee.step", "-o", "new.toml"},
          {"run", case_name(), "-o", "answer"},
          {"directions", case_name(), "-o", "answer"}}) {
      BOOST_TEST_CONTEXT(words.front()) {
        const Ended ended = run(words);
        BOOST_TEST(ended.status == 2);
        BOOST_TEST(ended.out == "");
        BOOST_TEST(holds(ended.err, message));
        BOOST_TEST(entries() == before, boost::test_tools::per_element());
      }
    }
  }

  void write_part(const std::string& content) const {
    std::ofstream(step, std::ios::binary) << content;
  }

  std::filesystem::path step;
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(bad_part, Tee)

BOOST_AUTO_TEST_CASE(no_step_file) {
  write_part("\x89PNG and so on");
  refuse_with("pipe-tee.step: is not a STEP file");
}

BOOST_AUTO_TEST_CASE(an_empty_file) {
  write_part("");
  refuse_with("pipe-tee.step: is empty");
}

BOOST_AUTO_TEST_CASE(a_truncated_file) {
  const std::string whole = content_of(step);
  write_part(whole.substr(0, whole.size() / 2));
  refuse_with("pipe-tee.step: is cut short");
}

BOOST_AUTO_TEST_CASE(a_missing_file) {
  std::filesystem::remove(step);
  BOOST_TEST(
      holds(run({"run", case_name()}).err, "[[body]] step_file: there is no file 'pipe-tee.step'"));
  BOOST_TEST(run({"run", case_name()}).status == 2);
  BOOST_TEST(holds(run({"inspect", "pipe-tee.step"}).err, "pipe-tee.step: no such file"));
  BOOST_TEST(run({"begin", "pipe-tee.step", "-o", "new.toml"}).status == 2);
  BOOST_TEST(entries().size() == 1U);
}

BOOST_AUTO_TEST_CASE(surfaces_only) {
  std::filesystem::copy_file(StepFile(open_surfaces()).path(), step,
                             std::filesystem::copy_options::overwrite_existing);
  refuse_with("pipe-tee.step: holds no solid body, only 5 surfaces that do not close");
}

BOOST_AUTO_TEST_CASE(bodies_that_overlap_are_listed_but_not_calculated) {
  const StepFile overlapping(
      {{block(30, 20, 10), "base", {}, {}}, {block(30, 20, 10, 28, 0, 0), "arm", {}, {}}});
  std::filesystem::copy_file(overlapping.path(), directory() / "two.step");
  std::string text;
  for (const char* body : {"base", "arm"}) {
    text += std::string("[[body]]\nstep_file = \"two.step\"\nname = \"") + body +
            "\"\nmaterial = \"asa\"\nprint_direction = \"+z\"\n";
  }
  write_case(
      text +
      "[[force]]\nname = \"push\"\nfaces = { ids = [1] }\nforce = [\"1 N\", \"0 N\", \"0 N\"]\n"
      "[[support]]\nname = \"wall\"\nfaces = { ids = [2] }\n");
  const auto before = entries();

  const Ended inspected = run({"inspect", "two.step"});
  const Ended refused = run({"run", case_name(), "-o", "answer"});

  BOOST_TEST(inspected.status == 0);
  BOOST_TEST(holds(inspected.out, "bodies 1 \"base\" and 2 \"arm\" overlap by 400 mm^3"));
  BOOST_TEST(refused.status == 2);
  BOOST_TEST(holds(refused.err,
                   "bodies 1 \"base\" and 2 \"arm\" overlap by 400 mm^3 near (29, 10, 5): the same "
                   "space would count twice; cut one from the other in CAD, or model only one"));
  BOOST_TEST(refused.out == "");
  BOOST_TEST(entries() == before, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
