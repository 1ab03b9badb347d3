// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/cholesky/dense_front.h"

#include <algorithm>
#include <cstddef>

#include "solver/cholesky/blas.h"
#include "solver/cholesky/shared_out.h"

namespace crossgrain {
namespace {

constexpr int panel = 192;  // columns factorised at once
constexpr int tile = 384;   // side of the squares that threads take

int tiles(int size) { return (size + tile - 1) / tile; }

/// Lower triangle of C -= A A^t.
/// @param A  size x depth.
void subtract_square(int size, int depth, const double* A, int lda, double* C, int ldc) {
  const int side = tiles(size);
  shared_out(side * (side + 1) / 2, 1, [&](int t, int) {
    int column = 0;
    while (t >= side - column) t -= side - column++;
    const int i = (column + t) * tile, j = column * tile;
    const int rows = std::min(tile, size - i), columns = std::min(tile, size - j);
    double* target = C + i + static_cast<std::ptrdiff_t>(j) * ldc;
    if (i == j)
      blas::subtract_square(rows, depth, A + i, lda, target, ldc);
    else
      blas::subtract_product(rows, columns, depth, A + i, lda, A + j, lda, target, ldc);
  });
}

}  // namespace

int eliminate_columns(int height, int width, double* columns, double* rest) {
  const auto at = [&](int row, int column) {
    return columns + row + static_cast<std::ptrdiff_t>(column) * height;
  };
  for (int first = 0; first < width; first += panel) {
    const int size = std::min(panel, width - first), next = first + size;
    const int bad = blas::factorise(size, at(first, first), height);
    if (bad >= 0) return first + bad;
    shared_out(height - next, tile, [&](int row, int rows) {
      blas::divide_by_transposed(rows, size, at(first, first), height, at(next + row, first),
                                 height);
    });
    // The rest of the own columns: a square on the diagonal and what stands below it.
    const int own = width - next, below = height - width;
    if (own == 0) continue;
    subtract_square(own, size, at(next, first), height, at(next, next), height);
    shared_out(tiles(below) * tiles(own), 1, [&](int t, int) {
      const int i = width + t / tiles(own) * tile, j = next + t % tiles(own) * tile;
      blas::subtract_product(std::min(tile, height - i), std::min(tile, width - j), size,
                             at(i, first), height, at(j, first), height, at(i, j), height);
    });
  }
  subtract_square(height - width, width, columns + width, height, rest, height - width);
  return -1;
}

}  // namespace crossgrain
