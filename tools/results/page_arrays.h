// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

namespace crossgrain {

/// Numbers on their way into a page: whole numbers of one, two or four bytes, whose lowest bytes
/// come first, then the next ones, deflated (zlib's format), in base64. The page reads
/// low + code * step.
struct PackedArray {
  std::string name;
  int bytes;  ///< of one code
  std::size_t count;
  double low;
  double step;
  std::string base64;
};

/// @param codes  each less than 256^bytes.
/// @throws std::runtime_error if zlib refuses.
PackedArray packed_array(std::string name, const std::vector<std::uint32_t>& codes, int bytes,
                         double low = 0.0, double step = 1.0);

/// Whole numbers as differences, each from the one before (modulo 2^32).
PackedArray packed_differences(std::string name, const std::vector<std::uint32_t>& values);

struct Interval {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};

/// What the numbers among the values span; 0 to 0 if none is finite.
Interval finite_range(const std::vector<double>& values);

/// Values rounded to steps over an interval; code 0 is left for what is not a number.
struct Rounded {
  std::vector<std::uint32_t> codes;  ///< less than 2^bits
  double low, step;                  ///< value = low + code * step
};

/// @param range  values outside are taken to its ends. @param bits  2 to 24.
Rounded rounded(const std::vector<double>& values, const Interval& range, int bits);

/// Any bytes in base64 (RFC 4648, section 4), padded.
std::string base64(const std::vector<unsigned char>& bytes);

}  // namespace crossgrain
