// SPDX-License-Identifier: GPL-3.0-or-later
// crossgrain_bench limits
// crossgrain_bench part REFINEMENT DIRECTORY
// crossgrain_bench directions REFINEMENT SNAPSHOTS
// crossgrain_bench map CASE.toml TOLERANCE
// crossgrain_bench ranges CASE.toml
// Prints what it measured, a JSON object a line. The second meshes the part once, times our solves
// each in a process of its own, and leaves the system for the peers in the directory. The third
// times the solutions that an answer for every print direction is made of; the fourth the whole
// map, and says by how much it is off; the fifth what the ranges of constants cost, and what was
// foretold of each constant beside what it truly does.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <iostream>
#include <nlohmann/json.hpp>

#include "mesh/worker/worker_child.h"
#include "solver/static_solver.h"
#include "tools/bench/bench_part.h"
#include "tools/bench/direction_times.h"
#include "tools/bench/machine_limits.h"
#include "tools/bench/map_reach.h"
#include "tools/bench/necessary_work.h"
#include "tools/bench/product_times.h"
#include "tools/bench/range_reach.h"
#include "tools/bench/seconds.h"
#include "tools/bench/system_files.h"

namespace crossgrain::bench {
namespace {

using nlohmann::json;

void print(const json& line) { std::cout << line.dump() << std::endl; }

/// In a process of its own, so that its peak of memory is its own.
template <class Work>
void apart(const Work& work) {
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("cannot start a process");
  if (child == 0) {
    try {
      work();
    } catch (const std::exception& error) {
      std::cerr << error.what() << std::endl;
      _exit(1);
    }
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  if (status != 0) print({{"failed", true}, {"status", status}});
}

double peak_GiB() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_maxrss) / 1048576.0;
}

struct Since {
  double wall = seconds(), cpu = processor_seconds();
};

json row(const char* what, const Since& since, const SolveReport& report) {
  return {{"solver", "Crossgrain"},
          {"what", what},
          {"method", report.method},
          {"unknowns", report.unknowns},
          {"seconds", seconds() - since.wall},
          {"cpu_seconds", processor_seconds() - since.cpu},
          {"seconds_assembly", report.seconds_assembly},
          {"seconds_factor", report.seconds_factor},
          {"seconds_solve", report.seconds_solve},
          {"iterations", report.iterations},
          {"residual", report.relative_residual},
          {"peak_GiB", peak_GiB()}};
}

/// From mesh and loads in memory to the displacement, assembly counted.
void time_ours(const Part& part, const SolverOptions& options, const char* suffix) {
  const auto first_field = part.printed_along({0, 0, 1}),
             second_field = part.printed_along({1, 0, 0.3});
  const auto label = [suffix](const char* what) { return std::string(what) + suffix; };
  Since since;
  StaticSolver solver(part.mesh, part.held, options);
  solver.set_material(first_field);
  const Eigen::MatrixXd first = solver.solve(part.pressure);
  print(row(label("first direction").c_str(), since, solver.report()));

  since = {};
  solver.set_material(second_field);
  const Eigen::MatrixXd second = solver.solve(part.pressure, Unbalanced::refused, &first);
  print(row(label("another direction").c_str(), since, solver.report()));
  print({{"energy_Nmm", 0.5 * part.pressure.dot(first.col(0))},
         {"energy_of_another_direction_Nmm", 0.5 * part.pressure.dot(second.col(0))}});
}

void print_limits() {
  const auto limits = measured_limits(0);
  print({{"bytes_per_second", limits.bytes_per_second},
         {"flops_per_second_single_core", limits.flops_per_second_single_core}});
}

void bench_part(double refinement, const std::filesystem::path& directory) {
  const Part part = meshed_part(refinement);
  print({{"tetrahedra", part.mesh.tetrahedron_count()},
         {"refinement", refinement},
         {"seconds_meshing", part.seconds_meshing}});
  // Uncounted: memory that nobody has touched since the machine was started costs half as much
  // again, and would be laid to the first row's charge.
  apart([&] {
    StaticSolver waking(part.mesh, part.held);
    waking.set_material(part.printed_along({0, 0, 1}));
  });
  apart([&] { time_ours(part, {.tolerance = 1e-8}, ""); });
  apart([&] { time_ours(part, {.tolerance = 1e-6}, ", to 1e-6"); });
  // The way that was not chosen, whichever it is, is among these.
  apart([&] {
    time_ours(part, {.corner_method = CornerMethod::factor, .tolerance = 1e-8}, ", factor");
  });
  apart([&] {
    time_ours(part, {.corner_method = CornerMethod::aggregation, .tolerance = 1e-8},
              ", aggregation");
  });
  apart([&] {
    StiffnessAssembly assembly(part.mesh, stiffness_rule(), 0);
    assembly.assemble(part.printed_along({0, 0, 1}));
    const auto times = product_times(assembly);
    print({{"seconds_product_stored", times.seconds_stored},
           {"seconds_product_by_elements", times.seconds_by_elements},
           {"bytes_stored", times.bytes_stored},
           {"bytes_by_elements", times.bytes_by_elements}});
    for (const bool corners_exact : {false, true}) {
      const auto work = necessary_work(assembly, corners_exact);
      print({{"corners_exact", corners_exact},
             {"bytes_per_iteration", work.bytes_per_iteration},
             {"flops_to_factorise", work.flops_to_factorise}});
    }
  });
  apart([&] { write_system(part, part.printed_along({0, 0, 1}), directory); });
}

}  // namespace
}  // namespace crossgrain::bench

int main(int argc, char** argv) {
  using namespace crossgrain;
  if (const auto status = run_as_mesh_worker(argc, argv)) return *status;
  const std::vector<std::string> words(argv + 1, argv + argc);
  try {
    if (words.size() == 1 && words[0] == "limits") {
      bench::print_limits();
    } else if (words.size() == 3 && words[0] == "part") {
      bench::bench_part(std::stod(words[1]), words[2]);
    } else if (words.size() == 3 && words[0] == "directions") {
      bench::time_directions(bench::meshed_part(std::stod(words[1])), std::stoi(words[2]),
                             bench::print);
    } else if (words.size() == 3 && words[0] == "map") {
      bench::measure_map(words[1], std::stod(words[2]), bench::print);
    } else if (words.size() == 2 && words[0] == "ranges") {
      bench::measure_ranges(words[1], bench::print);
    } else {
      std::cerr << "crossgrain_bench limits | crossgrain_bench part REFINEMENT DIRECTORY | "
                   "crossgrain_bench directions REFINEMENT SNAPSHOTS | "
                   "crossgrain_bench map CASE.toml TOLERANCE | crossgrain_bench ranges CASE.toml\n";
      return 2;
    }
  } catch (const std::exception& error) {
    std::cerr << error.what() << std::endl;
    return 1;
  }
  return 0;
}
