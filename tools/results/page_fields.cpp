// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_fields.h"

#include <algorithm>
#include <cmath>

namespace crossgrain {
namespace {

// Beyond these a factor says no more than "gone" and "no matter". One singular peak would coarsen
// every other value otherwise.
constexpr double least_log2 = -6.0;
constexpr double greatest_log2 = 10.0;
// Sixteen doublings have more to tell apart than one load case's stresses.
constexpr int bits_more_of_factors = 2;

/// Turns a field on stress points into arrays on vertices.
class VertexFields {
 public:
  VertexFields(const PageMesh& mesh, const PagePrecision& precision)
      : mesh_(mesh),
        precision_(precision),
        count_(precision.middles ? mesh.point_of_vertex.size() : mesh.corners) {}

  template <class Value>
  std::vector<double> values(const Value& value_at_point) const {
    std::vector<double> values(count_);
    for (std::size_t i = 0; i < count_; ++i) values[i] = value_at_point(mesh_.point_of_vertex[i]);
    return values;
  }
  PackedArray packed(std::string name, const std::vector<double>& values,
                     const Interval& range) const {
    Rounded field = rounded(values, range, precision_.bits);
    return packed_array(std::move(name), difference_codes(mesh_, field.codes), 2, field.low,
                        field.step);
  }
  PackedArray packed_names(std::string name, const std::vector<double>& values) const {
    std::vector<std::uint32_t> codes(values.size());
    for (std::size_t i = 0; i < values.size(); ++i)
      codes[i] = static_cast<std::uint32_t>(values[i] + 1.0);
    return packed_array(std::move(name), codes, 1, -1.0, 1.0);
  }

 private:
  const PageMesh& mesh_;
  PagePrecision precision_;
  std::size_t count_;
};

constexpr const char* axes[] = {"x", "y", "z"};

/// How far the middles of edges lie from the means of the ends [mm]; straight edges give zeros.
PackedArray packed_bends(const RunOutputs& outputs, const PageMesh& mesh, int axis) {
  const auto place = [&](std::size_t vertex) {
    return outputs.meshed.mesh.nodes(axis, outputs.points[mesh.point_of_vertex[vertex]].node);
  };
  std::vector<double> bends(mesh.middle_ends.size());
  for (std::size_t i = 0; i < bends.size(); ++i) {
    const auto& [a, b] = mesh.middle_ends[i];
    bends[i] = place(mesh.corners + i) - 0.5 * (place(a) + place(b));
  }
  const Rounded field = rounded(bends, finite_range(bends), 16);
  return packed_array(std::string("middles.") + axes[axis], field.codes, 2, field.low, field.step);
}

}  // namespace

std::vector<PackedArray> page_shape(const RunOutputs& outputs, const PageMesh& mesh,
                                    bool with_middles) {
  std::vector<PackedArray> arrays;
  const VertexFields corners(mesh, {16, false});
  for (int axis = 0; axis < 3; ++axis) {
    const std::vector<double> places = corners.values(
        [&](int point) { return outputs.meshed.mesh.nodes(axis, outputs.points[point].node); });
    arrays.push_back(
        corners.packed(std::string("corners.") + axes[axis], places, finite_range(places)));
    if (with_middles) arrays.push_back(packed_bends(outputs, mesh, axis));
  }
  arrays.push_back(packed_array("tetrahedra", connectivity_codes(mesh), 4));
  arrays.push_back(packed_differences("surface", mesh.surface));
  std::vector<std::uint32_t> faces;
  for (const FaceId face : mesh.face_of_surface)
    faces.push_back(static_cast<std::uint32_t>(number(face)));
  arrays.push_back(packed_differences("face_of_surface", faces));
  return arrays;
}

std::vector<PackedArray> page_factors(const RunOutputs& outputs, const PageMesh& mesh,
                                      std::size_t load_case, const PagePrecision& precision) {
  const CaseFields& fields = outputs.result.cases[load_case].fields;
  const std::string prefix = std::to_string(load_case) + ".";
  const VertexFields factors(
      mesh, {std::min(16, precision.bits + bits_more_of_factors), precision.middles});
  std::vector<PackedArray> arrays;
  arrays.push_back(factors.packed(prefix + "log2_factor", factors.values([&](int point) {
    return std::log2(fields.overall[point]);
  }),
                                  {least_log2, greatest_log2}));
  arrays.push_back(factors.packed_names(
      prefix + "mode", factors.values([&](int point) { return fields.governing[point]; })));
  return arrays;
}

std::vector<PackedArray> page_stresses(const RunOutputs& outputs, const PageMesh& mesh,
                                       std::size_t load_case, const PagePrecision& precision) {
  const CaseFields& fields = outputs.result.cases[load_case].fields;
  const std::string prefix = std::to_string(load_case) + ".";
  const VertexFields vertices(mesh, precision);
  std::vector<PackedArray> arrays;
  constexpr std::pair<const char*, int> components[] = {{"xx", 0}, {"yy", 1}, {"zz", 2},
                                                        {"xy", 5}, {"yz", 3}, {"xz", 4}};
  for (const auto& [name, row] : components) {
    const std::vector<double> values = vertices.values(
        [&, component = row](int point) { return fields.stress(component, point); });
    arrays.push_back(vertices.packed(prefix + name, values, finite_range(values)));
  }
  for (int axis = 0; axis < 3; ++axis) {
    const std::vector<double> values = vertices.values([&](int point) {
      return fields.displacement[Eigen::Index{3} * outputs.points[point].node + axis];
    });
    arrays.push_back(vertices.packed(prefix + axes[axis], values, finite_range(values)));
  }
  return arrays;
}

}  // namespace crossgrain
