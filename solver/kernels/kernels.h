// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace crossgrain {

// The inner loops, compiled once for each generation of processors and chosen when the program
// runs. Plain arrays only: a library's inline functions, compiled for a newer processor, could be
// linked into code that runs on an older one.

/// Node vectors have four lanes a node and `columns` vectors interleaved node by node; the fourth
/// lane is zero.
/// Rows begin..end of y += A x for a symmetric matrix of 3x3 blocks of which column >= row are
/// kept (compressed rows, the diagonal first, blocks column-major, readable one scalar past the
/// last). What belongs to rows at or past `end` goes into `beyond`, counted from `end`.
template <class Scalar>
using BlockRows = void (*)(const std::int64_t* row_start, const int* column, const Scalar* blocks,
                           std::int64_t begin, std::int64_t end, const Scalar* x, Scalar* y,
                           Scalar* beyond);

constexpr int most_columns = 4;   ///< vectors that one pass over a matrix serves
constexpr int batch = 8;          ///< elements whose stiffness is worked out side by side
constexpr int pair_blocks = 495;  ///< 55 pairs of nodes times 9, as in PairBlocks

/// Stiffness of eight tetrahedra at once; arrays end in [batch].
/// Straight: exact in closed form. @param nodes  [12][batch], xyz of the corners.
/// @param C  [36][batch].  @param K  [pair_blocks][batch].  @param volume  [batch], may be
/// negative.
using StraightStiffness = void (*)(const double* nodes, const double* C, double* K, double* volume);

/// Curved: by quadrature. @param nodes  [30][batch].  @param points  of the rule.
/// @param local_gradients  [points][30], xyz of each shape function.
/// @param work  [points * 30][batch].  @param least_jacobian  [batch]: determinant.
using CurvedStiffness = void (*)(const double* nodes, const double* C, int points,
                                 const double* local_gradients, const double* weights, double* work,
                                 double* K, double* least_jacobian);

/// Where strain is taken in an element.
struct StrainPoints {
  int count;
  const double* local_gradients;  ///< [count][30], xyz of each shape function
  const double* weights;          ///< [count]
  const double* fit;              ///< [count][4]: a linear fit's values at the corners
};
/// Strain of displacements in eight tetrahedra at once; arrays end in [batch].
/// @param nodes  [30][batch].  @param u  [columns][30][batch].
/// @param work  [37 * points][batch].
/// @param moments  [columns][10][3][6][batch]: integrals of a shape function's gradient times
/// strain.
/// @param at_corners  [columns][4][6][batch]: the fit of the strain.
/// @param volume, least_jacobian  [batch].
using ElementStrainMoments = void (*)(const StrainPoints& points, const double* nodes, int columns,
                                      const double* u, double* work, double* moments,
                                      double* at_corners, double* volume, double* least_jacobian);

/// Columns of a triangular factor on several vectors, one behind the other at a distance of
/// `stride`. Matrices are column-major, `ld` from column to column.
template <class Scalar>
struct FactorColumns {
  using Division = void (*)(const Scalar* L, std::int64_t ld, std::int64_t size, Scalar* x,
                            std::int64_t stride);
  using Product = void (*)(const Scalar* A, std::int64_t ld, std::int64_t rows,
                           std::int64_t columns, const Scalar* x, Scalar* y, std::int64_t stride);
  Division divide, divide_transposed;     ///< x := L^-1 x, x := L^-t x
  Product subtract, subtract_transposed;  ///< y -= A x, y -= A^t x
};

constexpr int group_size = 16;  ///< straight elements whose forces are worked out side by side

/// Straight tetrahedra in groups of one material each.
struct StraightGroups {
  const int* nodes;        ///< [groups][10][group_size]
  const float* gradients;  ///< [groups][9][group_size], xyz of barycentric coordinates 1 to 3,
                           ///< times the root of a twentieth of the volume
  const int* material;     ///< [groups]
  const float* elastic;    ///< [materials][36], global axes
};
/// y += the forces of groups begin..end at displacements x; of nodes at or past `own_end` into
/// `beyond`, counted from there.
using StraightProduct = void (*)(const StraightGroups& groups, std::int64_t begin, std::int64_t end,
                                 std::int64_t own_end, const float* x, float* y, float* beyond);

struct Kernels {
  const char* name;  ///< the generation of processors
  BlockRows<float> block_rows_single[most_columns];
  BlockRows<double> block_rows_double[most_columns];
  FactorColumns<float> factor_columns_single[most_columns];
  FactorColumns<double> factor_columns_double[most_columns];
  StraightStiffness straight_stiffness;
  CurvedStiffness curved_stiffness;
  ElementStrainMoments strain_moments;
  StraightProduct straight_product[most_columns];
};

/// All that this machine runs, the best first.
std::vector<const Kernels*> runnable_kernels();

/// The best that this machine runs.
const Kernels& kernels();

}  // namespace crossgrain
