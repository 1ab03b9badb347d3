// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heat/steady_temperature.h"

#include <Eigen/IterativeLinearSolvers>
#include <Eigen/SparseCore>
#include <set>
#include <sstream>
#include <stdexcept>

#include "solver/elements/element_at_points.h"
#include "solver/elements/face_triangles.h"
#include "solver/supports/supports.h"

namespace crossgrain {
namespace {

using Conduction = Eigen::SparseMatrix<double>;

/// How many elements' entries are kept apart before they are summed.
constexpr Eigen::Index chunk = 20'000;
/// Far below what a mesh leaves of a temperature.
constexpr double tolerance = 1e-10;

/// Number of kept temperatures at each node, and their sum [K].
struct KeptNodes {
  std::vector<int> count;
  Eigen::VectorXd sum;

  bool kept(Eigen::Index node) const { return count[static_cast<std::size_t>(node)] > 0; }
};

KeptNodes kept_nodes(const TetrahedronMesh& mesh, const std::vector<KeptTemperature>& kept) {
  KeptNodes nodes{std::vector<int>(static_cast<std::size_t>(mesh.node_count()), 0),
                  Eigen::VectorXd::Zero(mesh.node_count())};
  for (const auto& [faces, change] : kept) {
    std::vector<char> here(static_cast<std::size_t>(mesh.node_count()), 0);
    for (const int t : triangles_on(mesh, faces, "a temperature that is kept"))
      for (const int node : mesh.triangles.col(t)) here[static_cast<std::size_t>(node)] = 1;
    for (Eigen::Index node = 0; node < mesh.node_count(); ++node) {
      if (!here[static_cast<std::size_t>(node)]) continue;
      ++nodes.count[static_cast<std::size_t>(node)];
      nodes.sum[node] += change;
    }
  }
  return nodes;
}

void require_every_body_kept(const TetrahedronMesh& mesh, const KeptNodes& kept) {
  const std::vector<int> body_of_node = connected_groups(mesh);
  std::set<int> touched;
  for (Eigen::Index node = 0; node < mesh.node_count(); ++node)
    if (kept.kept(node)) touched.insert(body_of_node[static_cast<std::size_t>(node)]);
  for (Eigen::Index node = 0; node < mesh.node_count(); ++node) {
    const int body = body_of_node[static_cast<std::size_t>(node)];
    if (body < 0 || touched.contains(body)) continue;
    const Eigen::Vector3d place = mesh.nodes.col(node);
    std::ostringstream message;
    message << "the body at (" << place.x() << ", " << place.y() << ", " << place.z()
            << ") mm has no face whose temperature is kept, so that its own is not known; name one "
               "of its faces as well";
    throw std::invalid_argument(message.str());
  }
}

Conduction conduction(const TetrahedronMesh& mesh) {
  Conduction sum(mesh.node_count(), mesh.node_count());
  ElementAtPoints element(stiffness_rule());
  for (Eigen::Index first = 0; first < mesh.tetrahedron_count(); first += chunk) {
    std::vector<Eigen::Triplet<double>> entries;
    const Eigen::Index last = std::min(first + chunk, mesh.tetrahedron_count());
    for (Eigen::Index t = first; t < last; ++t) {
      element.move_to(mesh, t);
      Eigen::Matrix<double, 10, 10> flow = Eigen::Matrix<double, 10, 10>::Zero();
      for (Eigen::Index p = 0; p < element.size(); ++p)
        flow += element.weight(p) * element.gradients(p).transpose() * element.gradients(p);
      for (int a = 0; a < 10; ++a)
        for (int b = 0; b < 10; ++b)
          entries.emplace_back(mesh.tetrahedra(a, t), mesh.tetrahedra(b, t), flow(a, b));
    }
    Conduction some(sum.rows(), sum.cols());
    some.setFromTriplets(entries.begin(), entries.end());
    sum += some;
  }
  return sum;
}

/// Rows and columns of kept nodes, and of nodes of no element, become those of the unit matrix.
void keep(Conduction& K, const KeptNodes& kept) {
  for (Eigen::Index column = 0; column < K.outerSize(); ++column)
    for (Conduction::InnerIterator entry(K, column); entry; ++entry)
      if (kept.kept(entry.row()) || kept.kept(entry.col()))
        entry.valueRef() = entry.row() == entry.col() ? 1.0 : 0.0;
}

}  // namespace

Eigen::VectorXd steady_temperature(const TetrahedronMesh& mesh,
                                   const std::vector<KeptTemperature>& kept_faces) {
  const KeptNodes kept = kept_nodes(mesh, kept_faces);
  require_every_body_kept(mesh, kept);
  Eigen::VectorXd temperature = Eigen::VectorXd::Zero(mesh.node_count());
  for (Eigen::Index node = 0; node < mesh.node_count(); ++node)
    if (kept.kept(node))
      temperature[node] = kept.sum[node] / kept.count[static_cast<std::size_t>(node)];
  Conduction K = conduction(mesh);
  Eigen::VectorXd flow = -(K * temperature);
  for (Eigen::Index node = 0; node < mesh.node_count(); ++node)
    if (kept.kept(node)) flow[node] = temperature[node];
  keep(K, kept);
  Eigen::ConjugateGradient<Conduction, Eigen::Lower | Eigen::Upper> solver;
  solver.setTolerance(tolerance);
  solver.compute(K);
  const Eigen::VectorXd settled = solver.solve(flow);
  if (solver.info() != Eigen::Success)
    throw std::runtime_error("the temperature that settles in the part was not found: " +
                             std::to_string(solver.iterations()) + " iterations left " +
                             std::to_string(solver.error()) + " of it");
  return settled;
}

}  // namespace crossgrain
