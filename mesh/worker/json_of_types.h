// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Private to worker_messages.cpp: how nlohmann's json holds types that are not ours.

#include <Eigen/Core>
#include <chrono>
#include <cstring>
#include <nlohmann/json.hpp>
#include <optional>

namespace nlohmann {

template <class T>
struct adl_serializer<std::optional<T>> {
  static void to_json(json& j, const std::optional<T>& value) {
    j = value ? json(*value) : json(nullptr);
  }
  static void from_json(const json& j, std::optional<T>& value) {
    if (j.is_null()) {
      value.reset();
    } else {
      value = j.get<T>();
    }
  }
};

template <>
struct adl_serializer<std::chrono::seconds> {
  static void to_json(json& j, const std::chrono::seconds& value) { j = value.count(); }
  static void from_json(const json& j, std::chrono::seconds& value) {
    value = std::chrono::seconds(j.get<std::chrono::seconds::rep>());
  }
};

template <class T, int R, int C>
struct adl_serializer<Eigen::Matrix<T, R, C>> {
  static void to_json(json& j, const Eigen::Matrix<T, R, C>& matrix) {
    std::vector<std::uint8_t> bytes(static_cast<std::size_t>(matrix.size()) * sizeof(T));
    if (!bytes.empty()) std::memcpy(bytes.data(), matrix.data(), bytes.size());
    j = json::array({matrix.rows(), matrix.cols(), json::binary(std::move(bytes))});
  }
  static void from_json(const json& j, Eigen::Matrix<T, R, C>& matrix) {
    const auto& bytes = j.at(2).get_binary();
    matrix.resize(j.at(0).get<Eigen::Index>(), j.at(1).get<Eigen::Index>());
    if (bytes.size() != static_cast<std::size_t>(matrix.size()) * sizeof(T))
      throw std::runtime_error("a matrix of the wrong size from the mesher's process");
    if (!bytes.empty()) std::memcpy(matrix.data(), bytes.data(), bytes.size());
  }
};

}  // namespace nlohmann
