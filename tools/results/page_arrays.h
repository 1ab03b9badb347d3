// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
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

/// Any bytes in base64 (RFC 4648, section 4), padded.
std::string base64(const std::vector<unsigned char>& bytes);

}  // namespace crossgrain
