// SPDX-License-Identifier: GPL-3.0-or-later
// Compiled once for each generation of processors, with CROSSGRAIN_GENERATION as its namespace.
#include "solver/kernels/block_rows.h"
#include "solver/kernels/element_batches.h"
#include "solver/kernels/factor_columns.h"
#include "solver/kernels/kernels.h"
#include "solver/kernels/straight_elements.h"
#include "solver/kernels/strain_moments.h"

#define CROSSGRAIN_TEXT_OF(name) #name
#define CROSSGRAIN_TEXT(name) CROSSGRAIN_TEXT_OF(name)

namespace crossgrain::CROSSGRAIN_GENERATION {

extern const Kernels kernels;
const Kernels kernels = {
    CROSSGRAIN_TEXT(CROSSGRAIN_GENERATION),
    {block_rows<float, 1>, block_rows<float, 2>, block_rows<float, 3>, block_rows<float, 4>},
    {block_rows<double, 1>, block_rows<double, 2>, block_rows<double, 3>, block_rows<double, 4>},
    {factor_columns<float, 1>(), factor_columns<float, 2>(), factor_columns<float, 3>(),
     factor_columns<float, 4>()},
    {factor_columns<double, 1>(), factor_columns<double, 2>(), factor_columns<double, 3>(),
     factor_columns<double, 4>()},
    straight_stiffness,
    curved_stiffness,
    strain_moments,
    {straight_product<1>, straight_product<2>, straight_product<3>, straight_product<4>}};

}  // namespace crossgrain::CROSSGRAIN_GENERATION
