// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/joint_forces_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "tools/results/number_text.h"
#include "tools/results/svg_parts.h"

namespace crossgrain {
namespace {

constexpr double left = 90.0, right = 30.0, step = 120.0;  // of the plot's frame, between states
constexpr double above = 60.0, height = 280.0, below = 130.0;
constexpr double apart = 14.0;  // levels beside each other at one state

/// Told apart by lightness, too.
const char* colour(PreloadLevel level) {
  switch (level) {
    case PreloadLevel::least:
      return "#3b528b";
    case PreloadLevel::nominal:
      return "#21918c";
    case PreloadLevel::greatest:
      return "#5ec962";
  }
  return "#000";
}

/// In the order in which they were solved, each once.
std::vector<std::string> situations(const JointHistory& history) {
  std::vector<std::string> names;
  for (const auto& state : history.states)
    if (std::ranges::find(names, state.situation) == names.end()) names.push_back(state.situation);
  return names;
}

std::vector<PreloadLevel> levels_in(const JointHistory& history) {
  std::vector<PreloadLevel> levels;
  for (const auto level : {PreloadLevel::least, PreloadLevel::nominal, PreloadLevel::greatest})
    if (std::ranges::find(history.states, level, &JointHistory::State::level) !=
        history.states.end())
      levels.push_back(level);
  return levels;
}

/// 1, 2 or 5 times a power of ten, so that `most` is reached in four to ten steps.
double tick_of(double most) {
  const double power = std::pow(10.0, std::floor(std::log10(most / 4.0)));
  const double lead = most / 4.0 / power;
  return power * (lead >= 5.0 ? 5.0 : lead >= 2.0 ? 2.0 : 1.0);
}

/// Where forces and states lie on the drawing of one group.
class Frame {
 public:
  Frame(const JointHistory& history, std::size_t group, double top)
      : names_(situations(history)), levels_(levels_in(history)), top_(top) {
    double most = 0.0;
    for (const auto& state : history.states)
      for (const double force : state.forces[group])
        if (std::isfinite(force)) most = std::max(most, force);
    tick_ = most > 0.0 ? tick_of(most) : 1.0;
    most_ = tick_ * std::max(1.0, std::ceil(most / tick_));
  }

  double width() const { return step * static_cast<double>(names_.size()); }
  double y(double force) const { return top_ + above + height * (1.0 - force / most_); }
  double x(const JointHistory::State& state) const {
    const auto place = std::ranges::find(names_, state.situation) - names_.begin();
    const auto level = std::ranges::find(levels_, state.level) - levels_.begin();
    return left + step * (static_cast<double>(place) + 0.5) +
           apart * (static_cast<double>(level) - 0.5 * static_cast<double>(levels_.size() - 1));
  }

  std::string drawn() const {
    std::string out;
    for (double force = 0.0; force <= most_ * (1.0 + 1e-9); force += tick_) {
      out += fmt::format(
          "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"#ccc\"/>\n", left,
          y(force), left + width(), y(force));
      out += svg_text(left - 8.0, y(force) + 5.0, number_text(force), "text-anchor=\"end\"");
    }
    for (std::size_t i = 0; i < names_.size(); ++i) {
      const double at = left + step * (static_cast<double>(i) + 0.5), under = y(0.0) + 20.0;
      out += svg_text(
          at, under, names_[i],
          fmt::format("text-anchor=\"end\" transform=\"rotate(-30 {:.1f} {:.1f})\"", at, under));
    }
    return out;
  }

 private:
  std::vector<std::string> names_;
  std::vector<PreloadLevel> levels_;
  double top_, tick_, most_;
};

std::string screws_of(const JointHistory::State& state, std::size_t group, const Frame& frame) {
  const auto [least, greatest] = std::ranges::minmax(state.forces[group]);
  const double x = frame.x(state);
  std::string out = fmt::format(
      "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\" "
      "stroke-width=\"3\"/>\n",
      x, frame.y(least), x, frame.y(greatest), colour(state.level));
  for (const double force : state.forces[group])
    out += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3\" fill=\"{}\"/>\n", x,
                       frame.y(force), colour(state.level));
  return out;
}

/// Through the means of the states of one level.
std::string level_line(const JointHistory& history, std::size_t group, PreloadLevel level,
                       const Frame& frame) {
  std::string points, screws;
  for (const auto& state : history.states) {
    const auto& forces = state.forces[group];
    if (state.level != level || forces.empty()) continue;
    if (!std::ranges::all_of(forces, [](double force) { return std::isfinite(force); })) continue;
    const double mean =
        std::accumulate(forces.begin(), forces.end(), 0.0) / static_cast<double>(forces.size());
    points += fmt::format("{:.1f},{:.1f} ", frame.x(state), frame.y(mean));
    screws += screws_of(state, group, frame);
  }
  return fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"{}\"/>\n", points,
                     colour(level)) +
         screws;
}

std::string plot(const JointHistory& history, std::size_t group, double top) {
  const Frame frame(history, group, top);
  std::string out =
      svg_text(left, top + 24.0,
               fmt::format("Force of the {} screws of '{}', N", history.groups[group].seats.size(),
                           history.groups[group].name),
               "font-weight=\"bold\"");
  double x = left;
  for (const PreloadLevel level : levels_in(history)) {
    out += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"12\" height=\"12\" fill=\"{}\"/>\n",
                       x, top + 36.0, colour(level));
    out += svg_text(x + 18.0, top + 47.0, std::string(words(level)) + " preload");
    x += 170.0;
  }
  out += frame.drawn();
  for (const PreloadLevel level : levels_in(history))
    out += level_line(history, group, level, frame);
  return out;
}

}  // namespace

std::string joint_forces_svg(const JointHistory& history) {
  constexpr double each = above + height + below;
  const double width =
      left + right + std::max(520.0, step * static_cast<double>(situations(history).size()));
  const double total = each * static_cast<double>(history.groups.size());
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" "
      "font-family=\"sans-serif\" font-size=\"14\">\n"
      "<title>Screw forces from state to state</title>\n"
      "<rect width=\"{:.0f}\" height=\"{:.0f}\" fill=\"#fff\"/>\n",
      width, total, width, total);
  for (std::size_t group = 0; group < history.groups.size(); ++group)
    out += plot(history, group, each * static_cast<double>(group));
  return out + "</svg>\n";
}

}  // namespace crossgrain
