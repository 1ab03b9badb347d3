// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cblas.h>

// LAPACK's, which OpenBLAS brings along without a header of its own for it.
extern "C" void dpotrf_(const char* triangle, const int* size, double* A, const int* ld, int* info);

/// The dense kernels that a factorisation calls. Column-major; lower triangles; `ld` is the
/// distance of columns. Each call is one thread's: who calls shares the work out.
namespace crossgrain::blas {

inline void stay_on_one_thread() { openblas_set_num_threads(1); }

/// C -= A B^t: C rows x columns, A rows x depth, B columns x depth.
inline void subtract_product(int rows, int columns, int depth, const double* A, int lda,
                             const double* B, int ldb, double* C, int ldc) {
  cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, rows, columns, depth, -1.0, A, lda, B, ldb,
              1.0, C, ldc);
}

/// Lower triangle of C -= A A^t.
inline void subtract_square(int size, int depth, const double* A, int lda, double* C, int ldc) {
  cblas_dsyrk(CblasColMajor, CblasLower, CblasNoTrans, size, depth, -1.0, A, lda, 1.0, C, ldc);
}

/// B := B L^-t.
inline void divide_by_transposed(int rows, int size, const double* L, int ldl, double* B, int ldb) {
  cblas_dtrsm(CblasColMajor, CblasRight, CblasLower, CblasTrans, CblasNonUnit, rows, size, 1.0, L,
              ldl, B, ldb);
}

/// L of A = L L^t in place. @return the first column at which A is not positive definite, or -1.
inline int factorise(int size, double* A, int ld) {
  const char lower = 'L';
  int info = 0;
  dpotrf_(&lower, &size, A, &ld, &info);
  return info > 0 ? info - 1 : -1;
}

}  // namespace crossgrain::blas
