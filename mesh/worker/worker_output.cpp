// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_output.h"

#include <cstdlib>

#include "mesh/step/stages.h"

namespace crossgrain {
namespace {

constexpr std::string_view surface_mark = "] Meshing surface ";
constexpr std::size_t lines_kept = 12;

}  // namespace

void WorkerOutput::take(std::string_view text) {
  rest_ += text;
  std::size_t end;
  while ((end = rest_.find('\n')) != std::string::npos) {
    take_line(std::string_view(rest_).substr(0, end));
    rest_.erase(0, end + 1);
  }
}

void WorkerOutput::take_line(std::string_view line) {
  if (line.substr(0, stage_mark.size()) == stage_mark) {
    const std::string text(line.substr(stage_mark.size()));
    seconds_of_ended_ = seconds();
    stage_began_ = Clock::now();
    char* after = nullptr;
    share_ = std::strtod(text.c_str(), &after);
    stage_ = *after == ' ' ? after + 1 : after;
    on_a_face_ = false;
    return;
  }
  const std::size_t surface = line.find(surface_mark);
  if (surface != std::string_view::npos) {
    face_ = std::atoi(std::string(line.substr(surface + surface_mark.size())).c_str());
    on_a_face_ = line.find(" order ") == std::string_view::npos;
  } else if (line.find("Done meshing") != std::string_view::npos) {
    on_a_face_ = false;
  }
  lines_.emplace_back(line);
  if (lines_.size() > lines_kept) lines_.pop_front();
}

std::map<std::string, double> WorkerOutput::seconds() const {
  std::map<std::string, double> all = seconds_of_ended_;
  all[stage_] += std::chrono::duration<double>(Clock::now() - stage_began_).count();
  return all;
}

std::string WorkerOutput::last_lines() const {
  std::string text;
  for (const std::string& line : lines_) text += line + "\n";
  return text + rest_;
}

}  // namespace crossgrain
