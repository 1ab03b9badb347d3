// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/terminal/progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace crossgrain {
namespace {

constexpr int kBarCells = 24;

std::string bar(double share) {
  const int full = std::clamp(static_cast<int>(std::lround(share * kBarCells)), 0, kBarCells);
  return fmt::format("[{}{}] {:3.0f} %", std::string(full, '='), std::string(kBarCells - full, ' '),
                     100.0 * share);
}

}  // namespace

ProgressLine::ProgressLine(bool quiet) : enabled_(!quiet && isatty(STDERR_FILENO) == 1) {}

ProgressLine::~ProgressLine() { clear(); }

void ProgressLine::show(const std::string& stage, double share) {
  if (!enabled_) return;
  const std::string line =
      share >= 0.0 ? fmt::format("{:<34} {}", stage, bar(share)) : stage + " ...";
  fmt::print(stderr, "\r\033[K{}", line);
  std::fflush(stderr);
  drawn_ = true;
}

void ProgressLine::clear() {
  if (!drawn_) return;
  fmt::print(stderr, "\r\033[K");
  std::fflush(stderr);
  drawn_ = false;
}

}  // namespace crossgrain
