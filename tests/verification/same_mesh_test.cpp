// SPDX-License-Identifier: GPL-3.0-or-later
// One curved, turned, anisotropic body solved on the same mesh by this program and by a
// general-purpose finite-element library (GetFEM, through reference_solution.py).
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <map>
#include <stdexcept>

#include "solver/loads/loads.h"
#include "tests/verification/check_table.h"
#include "tests/verification/model.h"
#include "tests/verification/shapes.h"

namespace crossgrain::verification {
namespace {

using Point = Eigen::Vector3d;
using Blocks = std::map<std::string, Eigen::MatrixXd>;

/// Blocks "name rows columns" and the numbers row by row.
void write_blocks(const std::filesystem::path& file, const Blocks& blocks) {
  std::ofstream out(file);
  out.precision(std::numeric_limits<double>::max_digits10);
  for (const auto& [name, values] : blocks)
    out << name << ' ' << values.rows() << ' ' << values.cols() << '\n' << values << '\n';
  out.close();
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

Blocks read_blocks(const std::filesystem::path& file) {
  std::ifstream in(file);
  Blocks blocks;
  std::string name;
  Eigen::Index rows = 0, columns = 0;
  while (in >> name >> rows >> columns) {
    Eigen::MatrixXd values(rows, columns);
    for (Eigen::Index i = 0; i < rows; ++i)
      for (Eigen::Index j = 0; j < columns; ++j) in >> values(i, j);
    if (!in) throw std::runtime_error("cannot read block " + name + " of " + file.string());
    blocks[name] = values;
  }
  return blocks;
}

Eigen::MatrixXd column_of(const std::vector<int>& numbers) {
  Eigen::MatrixXd column(numbers.size(), 1);
  for (std::size_t i = 0; i < numbers.size(); ++i) column(i, 0) = numbers[i];
  return column;
}

/// The library's answer. A missing library fails the test: it must not pass unseen.
Blocks library_answer(const Blocks& problem) {
  const std::filesystem::path directory = CROSSGRAIN_VERIFICATION_DIR;
  const auto problem_file = directory / "same_mesh_problem.txt";
  const auto answer_file = directory / "same_mesh_answer.txt";
  std::filesystem::remove(answer_file);
  write_blocks(problem_file, problem);
  const std::string command = std::string(CROSSGRAIN_PYTHON) +
                              " '" CROSSGRAIN_SOURCE_DIR
                              "/tests/verification/reference_solution.py' '" +
                              problem_file.string() + "' '" + answer_file.string() + "'";
  if (std::system(command.c_str()) != 0)
    throw std::runtime_error("the reference library gave no answer to\n  " + command +
                             "\nit needs the Debian package python3-getfem");
  return read_blocks(answer_file);
}

const OrthotropicConstants constants{3000, 1800, 1200, 0.35, 0.40, 0.30, 500, 600, 700};
constexpr double pressure = 1.0;

Model bend() {
  const CylinderSector shape{20, 30, 1.0, 12};
  Model model;
  model.mesh = testing::block_mesh({3, 6, 3}, shape.map());
  model.field = same_everywhere(model.mesh, elastic_material(constants), skew_frame());
  model.held = constraints_of(model.mesh, {{"clamp", {testing::eta_low}, Hold::all}});
  return model;
}

Blocks problem_of(const Model& model) {
  const OrthotropicConstants& c = constants;
  Eigen::MatrixXd nine(1, 9);
  nine << c.E_1, c.E_2, c.E_3, c.nu_12, c.nu_13, c.nu_23, c.G_23, c.G_13, c.G_12;
  return {{"nodes", model.mesh.nodes.transpose()},
          {"tetrahedra", model.mesh.tetrahedra.transpose().cast<double>()},
          {"held", column_of(testing::nodes_on(model.mesh, {testing::eta_low}))},
          {"pressed", column_of(testing::nodes_on(model.mesh, {bore}))},
          {"pressure", Eigen::MatrixXd::Constant(1, 1, pressure)},
          {"constants", nine},
          {"axes", skew_frame()}};
}

BOOST_AUTO_TEST_SUITE(same_mesh)

BOOST_AUTO_TEST_CASE(a_general_purpose_library_agrees_on_the_same_curved_mesh_to_six_digits) {
  const Model model = bend();

  const Answer answer =
      solve(model, pressure_load(model.mesh, {bore}, [](const Point&) { return pressure; }));
  const Blocks library = library_answer(problem_of(model));

  const Eigen::MatrixXd expected = library.at("displacement").transpose();
  const Eigen::MatrixXd obtained = answer.displacement.reshaped(3, model.mesh.node_count());
  BOOST_TEST_REQUIRE(expected.cols() == obtained.cols());
  const Tolerance six_digits = fraction(
      1e-6, "same elements, same degree; the two differ by their quadrature on curved elements");
  const auto row = [&](const std::string& id, const std::string& what, double target,
                       const Tolerance& tolerance, double value) {
    check({Chapter::same_mesh, "same mesh " + id,
           "clamped bend under pressure, nine constants, skew axes, 324 curved tetrahedra: " + what,
           "GetFEM 5.4.2 on the same mesh", target, tolerance},
          value);
  };
  row("energy", "strain energy [mJ]", library.at("energy")(0, 0), six_digits,
      strain_energy(model.mesh, model.field, answer.displacement));
  row("largest displacement", "largest displacement of a node [mm]",
      expected.colwise().norm().maxCoeff(), six_digits, obtained.colwise().norm().maxCoeff());
  row("displacement", "largest difference at any node, share of the largest displacement", 0.0,
      absolute(1e-6, six_digits.reason),
      (obtained - expected).cwiseAbs().maxCoeff<Eigen::PropagateNaN>() /
          expected.cwiseAbs().maxCoeff());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace crossgrain::verification
