// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Included by one source only, once for each generation of processors.

namespace crossgrain::CROSSGRAIN_GENERATION {

template <class Scalar, int lanes>
struct Wide {
  typedef Scalar Vector __attribute__((vector_size(lanes * sizeof(Scalar))));
  typedef Scalar Unaligned
      __attribute__((vector_size(lanes * sizeof(Scalar)), aligned(sizeof(Scalar))));
};

template <class Scalar, int lanes>
inline typename Wide<Scalar, lanes>::Vector load_wide(const Scalar* from) {
  return *reinterpret_cast<const typename Wide<Scalar, lanes>::Unaligned*>(from);
}

}  // namespace crossgrain::CROSSGRAIN_GENERATION
