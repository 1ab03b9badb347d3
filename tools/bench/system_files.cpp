// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/bench/system_files.h"

#include <fstream>
#include <stdexcept>

#include "solver/assembly/stiffness_assembly.h"

namespace crossgrain::bench {
namespace {

template <class Value>
void write(const std::filesystem::path& file, const std::vector<Value>& values) {
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(Value)));
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

/// Numbers of those that are kept, in order; -1 for the others.
std::vector<int> renumbered(const std::vector<bool>& keep) {
  std::vector<int> number(keep.size(), -1);
  int next = 0;
  for (std::size_t i = 0; i < keep.size(); ++i)
    if (keep[i]) number[i] = next++;
  return number;
}

struct FullRows {
  std::vector<int> start{0}, column;
  std::vector<double> blocks;
};

/// Both halves, rows and columns of held nodes left out.
FullRows full_rows(const StiffnessAssembly& assembly, const std::vector<int>& number) {
  const BlockPattern& pattern = assembly.pattern();
  struct Entry {
    int column;
    Eigen::Index block;
    bool transposed;
  };
  std::vector<std::vector<Entry>> rows(pattern.nodes());
  for (int i = 0; i < static_cast<int>(pattern.nodes()); ++i)
    for (auto k = pattern.row_start[i]; k < pattern.row_start[i + 1]; ++k) {
      const int j = pattern.column[k];
      rows[i].push_back({j, k, false});
      if (i != j) rows[j].push_back({i, k, true});
    }
  FullRows full;
  for (int i = 0; i < static_cast<int>(pattern.nodes()); ++i) {
    if (number[i] < 0) continue;
    std::sort(rows[i].begin(), rows[i].end(),
              [](const Entry& a, const Entry& b) { return a.column < b.column; });
    for (const auto& [column, block, transposed] : rows[i]) {
      if (number[column] < 0) continue;
      full.column.push_back(number[column]);
      const Eigen::Matrix3d K = assembly.matrix()[block];
      for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c) full.blocks.push_back(transposed ? K(c, r) : K(r, c));
    }
    full.start.push_back(static_cast<int>(full.column.size()));
    rows[i] = {};
  }
  return full;
}

}  // namespace

void write_system(const Part& part, const MaterialField& field,
                  const std::filesystem::path& directory) {
  StiffnessAssembly assembly(part.mesh, stiffness_rule(), 0);
  assembly.assemble(field);
  const auto& order = assembly.order();
  std::vector<bool> keep(order.node.size(), true);
  for (const auto& constraint : part.held) keep[order.rank[constraint.node]] = false;
  const auto number = renumbered(keep);

  const FullRows full = full_rows(assembly, number);
  write(directory / "row_start", full.start);
  write(directory / "column", full.column);
  write(directory / "blocks", full.blocks);

  std::vector<double> forces, coordinates;
  for (std::size_t rank = 0; rank < keep.size(); ++rank) {
    if (!keep[rank]) continue;
    for (int k = 0; k < 3; ++k) {
      forces.push_back(part.pressure[3 * order.node[rank] + k]);
      coordinates.push_back(part.mesh.nodes(k, order.node[rank]));
    }
  }
  write(directory / "forces", forces);
  write(directory / "coordinates", coordinates);

  const LinearLevel& level = assembly.linear_level();
  std::vector<bool> keep_corner(level.corners());
  for (Eigen::Index c = 0; c < level.corners(); ++c)
    keep_corner[c] = keep[level.rank_of_corner()[c]];
  const auto corner_number = renumbered(keep_corner);
  std::vector<int> p_start{0}, p_column;
  std::vector<double> p_value;
  for (std::size_t rank = 0; rank < keep.size(); ++rank) {
    if (!keep[rank]) continue;
    const auto [a, b] = level.ends()[rank];
    for (const int corner : {std::min(a, b), std::max(a, b)}) {
      if (corner_number[corner] < 0 || (a == b && p_start.back() < std::ssize(p_column))) continue;
      p_column.push_back(corner_number[corner]);
      p_value.push_back(a == b ? 1.0 : 0.5);
    }
    p_start.push_back(static_cast<int>(p_column.size()));
  }
  write(directory / "p_start", p_start);
  write(directory / "p_column", p_column);
  write(directory / "p_value", p_value);
}

}  // namespace crossgrain::bench
