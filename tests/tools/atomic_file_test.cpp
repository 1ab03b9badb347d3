// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/atomic_file.h"

#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>

#include "tests/support/refusal.h"
#include "tests/tools/synthetic_run.h"
#include "tools/results/write_results.h"

using namespace crossgrain;
using namespace crossgrain::testing;
namespace fs = std::filesystem;

namespace {

/// Files may not grow beyond this many bytes while it lives: writing more fails as on a full disk.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
  }
  ~SmallDisk() { setrlimit(RLIMIT_FSIZE, &before_); }

 private:
  rlimit before_;
};

std::size_t entries(const fs::path& directory) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(directory), fs::directory_iterator()));
}

void write_file(const fs::path& file, const std::string& text) { std::ofstream(file) << text; }

volatile sig_atomic_t interrupts = 0;
extern "C" void count_interrupt(int) { interrupts = interrupts + 1; }

}  // namespace

BOOST_AUTO_TEST_CASE(nothing_shows_before_the_set_is_published) {
  const fs::path home = empty_directory("staged");
  StagedFiles staged(home / "out");
  staged.add_text("a.txt", "one");
  BOOST_TEST(!fs::exists(home / "out"));

  staged.publish();

  BOOST_TEST(content_of(home / "out" / "a.txt") == "one");
  BOOST_TEST(entries(home) == 1U);
  BOOST_TEST(entries(home / "out") == 1U);
}

BOOST_AUTO_TEST_CASE(without_publishing_nothing_stays_and_old_files_are_untouched) {
  const fs::path home = empty_directory("abandoned");
  write_file(home / "a.txt", "old");
  {
    StagedFiles staged(home);
    staged.add_text("a.txt", "new");
  }

  BOOST_TEST(content_of(home / "a.txt") == "old");
  BOOST_TEST(entries(home) == 1U);
}

BOOST_AUTO_TEST_CASE(a_finished_set_replaces_the_old_one_and_leaves_what_is_not_ours) {
  const fs::path home = empty_directory("replaced");
  write_file(home / "a.txt", "old");
  write_file(home / "b.txt", "outdated");
  write_file(home / "mine.txt", "keep");
  StagedFiles staged(home);
  staged.add_text("a.txt", "new");

  staged.publish({"b.txt"});

  BOOST_TEST(content_of(home / "a.txt") == "new");
  BOOST_TEST(content_of(home / "mine.txt") == "keep");
  BOOST_TEST(entries(home) == 2U);
}

BOOST_AUTO_TEST_CASE(the_new_directory_has_the_rights_the_user_asked_for) {
  const fs::path home = empty_directory("rights");
  const mode_t before = umask(0027);

  write_file_atomically(home / "out" / "a.txt", "one");

  umask(before);
  BOOST_TEST((fs::status(home / "out").permissions() == fs::perms(0750)));
  BOOST_TEST((fs::status(home / "out" / "a.txt").permissions() == fs::perms(0640)));
}

BOOST_AUTO_TEST_CASE(a_full_disk_leaves_the_earlier_run_whole) {
  SyntheticRun run;
  const fs::path home = empty_directory("full");
  write_results(run.outputs(), {}, home);
  const std::string before = content_of(home / "fields.vtu");
  const std::size_t count = entries(home);
  run.result.displacement_max_mm = 9.0;

  // 2 kB hold no field file; 10 kB hold the fields of this small bar but not its page.
  for (const auto& [bytes, file] :
       {std::pair{2000, "fields_1_assembly.vtu"}, std::pair{10000, "report.html"}}) {
    const SmallDisk disk(bytes);
    BOOST_CHECK_EXCEPTION(
        write_results(run.outputs(), {}, home), std::invalid_argument, [&](const auto& error) {
          const std::string message = error.what();
          BOOST_TEST_MESSAGE(message);
          return message.find("cannot write " + (home / file).string()) != std::string::npos &&
                 message.find("make room") != std::string::npos;
        });
    BOOST_TEST(content_of(home / "fields.vtu") == before);
    BOOST_TEST(entries(home) == count);
  }
}

BOOST_AUTO_TEST_CASE(a_full_disk_leaves_no_directory_behind) {
  const SyntheticRun run;
  const fs::path home = empty_directory("full_new");
  const SmallDisk disk(2000);

  BOOST_CHECK_THROW(write_results(run.outputs(), {}, home / "out"), std::invalid_argument);

  BOOST_TEST(fs::is_empty(home));
}

BOOST_AUTO_TEST_CASE(a_place_that_cannot_be_written_to_is_named_with_the_reason) {
  const SyntheticRun run;
  const fs::path home = empty_directory("unwritable");
  write_file(home / "file", "in the way");

  BOOST_TEST(refused(
      [&] { write_results(run.outputs(), {}, home / "file"); },
      "cannot write into " + (home / "file").string() + ": a file of that name is in the way"));
  BOOST_TEST(
      refused([&] { write_results(run.outputs(), {}, home / "file" / "out"); }, "Not a directory"));
  BOOST_TEST(refused([&] { write_results(run.outputs(), {}, "/proc/out"); },
                     "cannot write into /proc/out: No such file"));
  if (geteuid() != 0) {  // the superuser may write anywhere
    fs::permissions(home, fs::perms::owner_read | fs::perms::owner_exec);
    BOOST_TEST(
        refused([&] { write_results(run.outputs(), {}, home / "out"); }, "Permission denied"));
    fs::permissions(home, fs::perms::owner_all);
  }
  BOOST_TEST(content_of(home / "file") == "in the way");
}

BOOST_AUTO_TEST_CASE(fields_of_a_load_case_that_is_gone_are_removed) {
  SyntheticRun run;
  const fs::path home = empty_directory("outdated");
  write_results(run.outputs(), {}, home);
  write_file(home / "fields_of_wheat.csv", "keep");
  run.result.cases.erase(run.result.cases.begin());

  write_results(run.outputs(), {}, home);

  BOOST_TEST(!fs::exists(home / "fields_1_assembly.vtu"));
  BOOST_TEST(!fs::exists(home / "faces_1_assembly.vtp"));
  BOOST_TEST(fs::exists(home / "fields.vtu"));
  BOOST_TEST(fs::exists(home / "fields_of_wheat.csv"));
}

BOOST_AUTO_TEST_CASE(an_interrupt_waits_until_the_files_are_whole_or_gone) {
  const fs::path home = empty_directory("interrupted");
  const auto before = signal(SIGINT, count_interrupt);
  interrupts = 0;
  {
    StagedFiles staged(home);
    staged.add_text("a.txt", "one");
    raise(SIGINT);
    BOOST_TEST(interrupts == 0);
  }
  signal(SIGINT, before);

  BOOST_TEST(interrupts == 1);
  BOOST_TEST(fs::is_empty(home));
}
