// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/page_arrays.h"

#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace crossgrain {
namespace {

/// All lowest bytes, then all second ones: neighbours of one significance deflate better.
std::vector<unsigned char> byte_planes(const std::vector<std::uint32_t>& codes, int bytes) {
  std::vector<unsigned char> planes;
  planes.reserve(codes.size() * static_cast<std::size_t>(bytes));
  for (int plane = 0; plane < bytes; ++plane) {
    for (const std::uint32_t code : codes)
      planes.push_back(static_cast<unsigned char>(code >> (8 * plane)));
  }
  return planes;
}

std::vector<unsigned char> deflated(const std::vector<unsigned char>& bytes) {
  uLongf size = compressBound(bytes.size());
  std::vector<unsigned char> out(size);
  if (compress2(out.data(), &size, bytes.data(), bytes.size(), Z_DEFAULT_COMPRESSION) != Z_OK)
    throw std::runtime_error("the page's data cannot be compressed: zlib refuses");
  out.resize(size);
  return out;
}

}  // namespace

std::string base64(const std::vector<unsigned char>& bytes) {
  constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = bytes.size() - i;
    const std::uint32_t three = std::uint32_t{bytes[i]} << 16 |
                                (left > 1 ? std::uint32_t{bytes[i + 1]} << 8 : 0) |
                                (left > 2 ? std::uint32_t{bytes[i + 2]} : 0);
    out += digits[three >> 18];
    out += digits[three >> 12 & 63];
    out += left > 1 ? digits[three >> 6 & 63] : '=';
    out += left > 2 ? digits[three & 63] : '=';
  }
  return out;
}

PackedArray packed_array(std::string name, const std::vector<std::uint32_t>& codes, int bytes,
                         double low, double step) {
  return {
      std::move(name), bytes, codes.size(), low, step, base64(deflated(byte_planes(codes, bytes)))};
}

PackedArray packed_differences(std::string name, const std::vector<std::uint32_t>& values) {
  std::vector<std::uint32_t> differences(values.size());
  for (std::size_t i = 0; i < values.size(); ++i)
    differences[i] = values[i] - (i > 0 ? values[i - 1] : 0);
  return packed_array(std::move(name), differences, 4);
}

Interval finite_range(const std::vector<double>& values) {
  Interval range;
  for (const double value : values) {
    if (!std::isfinite(value)) continue;
    range.low = std::min(range.low, value);
    range.high = std::max(range.high, value);
  }
  return range.low <= range.high ? range : Interval{0.0, 0.0};
}

Rounded rounded(const std::vector<double>& values, const Interval& range, int bits) {
  const double levels = std::pow(2.0, bits) - 2.0;
  const double step = range.high > range.low ? (range.high - range.low) / levels : 1.0;
  Rounded out{{}, range.low - step, step};
  out.codes.reserve(values.size());
  for (const double value : values) {
    const double inside = std::clamp(value, range.low, range.high);
    out.codes.push_back(std::isnan(value) ? 0U
                                          : 1U + static_cast<std::uint32_t>(
                                                     std::lround((inside - range.low) / step)));
  }
  return out;
}

}  // namespace crossgrain
