// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blocks/memory.h"

#include <unistd.h>

#include <new>
#include <sstream>
#include <stdexcept>

#ifdef __linux__
#include <malloc.h>
#include <sys/mman.h>
#endif

namespace crossgrain {
namespace {

constexpr std::size_t page = std::size_t{2} * 1024 * 1024;

}  // namespace

void keep_freed_memory() {
#ifdef __GLIBC__
  mallopt(M_MMAP_THRESHOLD, 1 << 30);
  mallopt(M_TRIM_THRESHOLD, -1);
#endif
}

void require_memory(double bytes, const std::string& what) {
  const double present =
      static_cast<double>(sysconf(_SC_PHYS_PAGES)) * static_cast<double>(sysconf(_SC_PAGESIZE));
  if (!(bytes > present)) return;
  constexpr double GiB = 1024.0 * 1024.0 * 1024.0;
  std::ostringstream message;
  message.precision(3);
  message << what << " needs " << bytes / GiB << " GiB of memory, the machine has " << present / GiB
          << "; use a coarser mesh";
  throw std::runtime_error(message.str());
}

void* large_memory(std::size_t bytes) {
  const bool large = bytes >= page;
  const std::size_t whole = (bytes + page - 1) / page * page;
  void* memory = large ? std::aligned_alloc(page, whole) : std::malloc(bytes);
  if (memory == nullptr) throw std::bad_alloc();
#ifdef MADV_HUGEPAGE
  if (large) madvise(memory, whole, MADV_HUGEPAGE);
#endif
  return memory;
}

}  // namespace crossgrain
