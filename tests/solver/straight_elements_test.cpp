// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/assembly/straight_elements.h"

#include <Eigen/Geometry>
#include <boost/test/unit_test.hpp>

#include "solver/assembly/stiffness_assembly.h"
#include "solver/blocks/block_product.h"
#include "solver/kernels/kernels.h"
#include "tests/solver/example_materials.h"
#include "tests/solver/pipe_under_pressure.h"
#include "tests/solver/solved.h"
#include "tests/support/near.h"
#include "tests/support/structured_mesh.h"

using namespace crossgrain;
using namespace crossgrain::testing;

namespace {

/// Two bodies, elements of both between the same ranks.
TetrahedronMesh striped_box() {
  return block_mesh(
      {6, 5, 4},
      [](const Eigen::Vector3d& u) { return Eigen::Vector3d(6 * u.x(), 4 * u.y(), 5 * u.z()); },
      [](const Eigen::Vector3d& centre) { return BodyId{centre.x() < 0.5 ? 1 : 2}; });
}

MaterialField two_materials(const TetrahedronMesh& mesh) {
  return uniform_field(mesh, {printed_nylon(), plain_solid()},
                       {frame_along({0.3, 0.5, 1.0}), Frame::Identity()});
}

NodeVectors<float> some_vectors(Eigen::Index nodes, int columns) {
  NodeVectors<float> x(nodes, columns);
  for (Eigen::Index i = 0; i < nodes; ++i)
    for (int c = 0; c < columns; ++c)
      for (int k = 0; k < 3; ++k)
        x.at(i, c)[k] = static_cast<float>((5 * i + 3 * c + 7 * k) % 13) / 13.0F - 0.5F;
  return x;
}

Eigen::MatrixXd all_of(const NodeVectors<float>& x) { return x.range(0, x.nodes()).cast<double>(); }

NodeVectors<float> by_elements(const StiffnessAssembly& assembly, const NodeVectors<float>& x) {
  NodeVectors<float> y(x.nodes(), x.columns());
  assembly.straight_elements().apply(x, y);
  return y;
}

/// K x, in double precision.
Eigen::MatrixXd by_matrix(const StiffnessAssembly& assembly, const NodeVectors<float>& x) {
  NodeVectors<double> wide(x.nodes(), x.columns()), y = wide;
  wide.range(0, x.nodes()) = x.range(0, x.nodes()).cast<double>();
  BlockProduct(assembly.pattern(), 1).apply(assembly.matrix(), wide, y);
  return y.range(0, x.nodes());
}

// Sums of some 24 elements' forces, each of some hundred terms, in single precision.
constexpr double round_off = 2e-6;

}  // namespace

BOOST_AUTO_TEST_SUITE(straight_elements)

BOOST_AUTO_TEST_CASE(element_by_element_the_product_is_that_of_the_assembled_matrix) {
  const auto mesh = striped_box();
  StiffnessAssembly assembly(mesh, stiffness_rule(), 2);
  assembly.assemble(two_materials(mesh));
  BOOST_TEST(assembly.straight_elements().usable());
  for (int columns = 1; columns <= most_columns; ++columns) {
    const auto x = some_vectors(mesh.node_count(), columns);
    BOOST_TEST(near(all_of(by_elements(assembly, x)), by_matrix(assembly, x), round_off));
  }
}

BOOST_AUTO_TEST_CASE(turned_frames_and_other_materials_are_taken_up) {
  const auto mesh = striped_box();
  StiffnessAssembly assembly(mesh, stiffness_rule(), 1);
  assembly.assemble(two_materials(mesh));
  const auto x = some_vectors(mesh.node_count(), 1);
  const Eigen::MatrixXd first = by_matrix(assembly, x);
  auto field = two_materials(mesh);
  field.frames[0] = frame_along({1.0, 0.0, 0.2});
  assembly.assemble(field);
  BOOST_TEST((by_matrix(assembly, x) - first).norm() > 0.1 * first.norm());
  BOOST_TEST(near(all_of(by_elements(assembly, x)), by_matrix(assembly, x), round_off));

  // Bodies change places, so that elements fall into other groups.
  std::swap(field.materials[0], field.materials[1]);
  for (auto& material : field.material_of_tetrahedron) material = 0;
  assembly.assemble(field);
  BOOST_TEST(near(all_of(by_elements(assembly, x)), by_matrix(assembly, x), round_off));
}

BOOST_AUTO_TEST_CASE(sums_are_the_same_to_the_last_bit_for_any_number_of_threads) {
  const auto mesh = striped_box();
  const auto x = some_vectors(mesh.node_count(), 2);
  Eigen::MatrixXd expected;
  for (const int threads : {1, 2, 3}) {
    StiffnessAssembly assembly(mesh, stiffness_rule(), threads);
    assembly.assemble(two_materials(mesh));
    const Eigen::MatrixXd y = all_of(by_elements(assembly, x));
    if (threads == 1) expected = y;
    BOOST_TEST((y == expected));
  }
}

BOOST_AUTO_TEST_CASE(curved_elements_are_taken_as_straight_and_missed_by_little) {
  const Pipe pipe(2);
  StiffnessAssembly assembly(pipe.mesh, stiffness_rule(), 1);
  assembly.assemble(pipe.field(printed_nylon(), {0, 0, 1}));
  BOOST_TEST(assembly.straight_elements().usable());
  const auto x = some_vectors(pipe.mesh.node_count(), 1);
  const Eigen::MatrixXd curved = by_matrix(assembly, x);
  const double missed = (all_of(by_elements(assembly, x)) - curved).norm() / curved.norm();
  BOOST_TEST(missed > 1e-3);
  BOOST_TEST(missed < 0.2);
}

BOOST_AUTO_TEST_CASE(there_is_no_product_where_elements_cannot_stand_side_by_side) {
  const auto mesh = striped_box();
  StiffnessAssembly assembly(mesh, stiffness_rule(), 1);
  const auto usable = [&](const MaterialField& field) {
    assembly.assemble(field);
    return assembly.straight_elements().usable();
  };
  auto field = two_materials(mesh);
  // A frame for every element.
  field.frames.assign(mesh.tetrahedron_count(), Frame::Identity());
  for (int t = 0; t < mesh.tetrahedron_count(); ++t) field.frame_of_point(t, 0) = t;
  BOOST_TEST(!usable(field));
  // Within elements.
  field.frame_of_point.setZero(mesh.tetrahedron_count(), stiffness_rule().size());
  BOOST_TEST(!usable(field));
  BOOST_TEST(usable(two_materials(mesh)));
}

BOOST_AUTO_TEST_CASE(there_is_no_product_where_a_straight_element_would_be_inverted) {
  auto mesh = striped_box();
  const auto elements = ranked_elements(mesh, breadth_first_order(mesh), 1);
  // A corner drawn through the element to the other side of its neighbour.
  const auto corner = [&](int a) { return mesh.nodes.col(mesh.tetrahedra(a, 0)); };
  corner(0) += 4.0 * (corner(1) - corner(0)).eval();
  StraightElements inverted(mesh, elements, 1);
  inverted.set_material(two_materials(mesh));
  BOOST_TEST(!inverted.usable());
}

BOOST_AUTO_TEST_SUITE_END()
