// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace crossgrain {

/// Columns of a symmetric matrix that are complete, eliminated from the rest of it. Lower
/// triangles, column-major. Large ones are shared out between the threads of the task arena it is
/// called in, cut in the same way however many there are.
/// @param columns  height x width; in: the matrix, out: L.
/// @param rest  (height - width) squared: what the elimination leaves is subtracted from it.
/// @return the first column at which the matrix is not positive definite, or -1.
int eliminate_columns(int height, int width, double* columns, double* rest);

}  // namespace crossgrain
