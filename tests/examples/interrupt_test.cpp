// SPDX-License-Identifier: GPL-3.0-or-later
// Ctrl-C while the child process meshes: the child ends too, and nothing is left behind.
#include <signal.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <thread>

#include "tests/examples/example_case.h"

namespace crossgrain::testing {
namespace {

/// The processor time that a process has used [s]; 0 if there is none.
double processor_time(pid_t pid) {
  std::string stat = content_of("/proc/" + std::to_string(pid) + "/stat");
  if (stat.empty()) return 0.0;
  // After the name in brackets, which may hold anything: state and ten more, then user and system.
  std::istringstream fields(stat.substr(stat.rfind(')') + 2));
  std::string skipped;
  for (int i = 0; i < 11; ++i) fields >> skipped;
  double user = 0.0, system = 0.0;
  fields >> user >> system;
  return (user + system) / static_cast<double>(sysconf(_SC_CLK_TCK));
}

struct Lid : ExampleCopy {
  Lid() : ExampleCopy("vacuum-lid") {
    // So fine a mesh takes minutes; importing this part takes a small part of a second.
    write_case(case_text() + "refinement = 40\n");
  }

  /// The mesher's process, once it has worked long enough to be past the import.
  static pid_t meshing_child(const Program& program) {
    while (true) {
      const auto children = program.children();
      if (!children.empty() && processor_time(children.front()) > 0.7) return children.front();
      BOOST_TEST_REQUIRE(program.group_lives());
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
  }

  /// Interrupts a run as it meshes. @param whole_group  as a terminal does; else the program alone.
  void interrupt(int signal, bool whole_group) const {
    const auto before = entries();
    Program program({"run", case_name(), "-o", "answer"}, {.directory = directory()});
    const pid_t child = meshing_child(program);

    kill(whole_group ? -program.pid() : program.pid(), signal);
    const Ended ended = program.end();

    BOOST_TEST(ended.status == 130);  // 128 + SIGINT, the shells' custom
    BOOST_TEST(holds(ended.err, "interrupted; nothing was left behind"));
    BOOST_TEST(ended.out == "");
    BOOST_TEST(kill(child, 0) == -1);
    BOOST_TEST(!program.group_lives());
    BOOST_TEST(entries() == before, boost::test_tools::per_element());
  }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(interrupts, Lid)

BOOST_AUTO_TEST_CASE(a_terminal_interrupts_program_and_mesher) { interrupt(SIGINT, true); }

BOOST_AUTO_TEST_CASE(the_program_alone_takes_its_mesher_along) { interrupt(SIGINT, false); }

BOOST_AUTO_TEST_CASE(so_does_the_systems_request_to_end) { interrupt(SIGTERM, false); }

BOOST_AUTO_TEST_SUITE_END()

}  // namespace crossgrain::testing
