// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/examples/program.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string_view>

namespace crossgrain::testing {
namespace {

namespace fs = std::filesystem;

void redirect(int stream, const fs::path& file) {
  const int opened = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (opened < 0 || dup2(opened, stream) < 0) _exit(126);
  close(opened);
}

/// In the forked child: never returns.
[[noreturn]] void become(const std::vector<std::string>& arguments,
                         const Surroundings& surroundings, const fs::path& log) {
  setpgid(0, 0);
  redirect(STDOUT_FILENO, surroundings.out.value_or(log / "out"));
  redirect(STDERR_FILENO, log / "err");
  if (chdir(surroundings.directory.c_str()) != 0) _exit(126);
  // The mesher's library keeps a folder at home, which is none of the program's.
  setenv("HOME", log.c_str(), 1);
  setenv("TMPDIR", surroundings.directory.c_str(), 1);
  if (surroundings.largest_file) {
    const rlimit limit{*surroundings.largest_file, *surroundings.largest_file};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  std::vector<std::string> words{surroundings.program};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  execv(pointers.front(), pointers.data());
  _exit(127);
}

}  // namespace

Program::Program(const std::vector<std::string>& arguments, const Surroundings& surroundings) {
  std::string pattern = (fs::temp_directory_path() / "crossgrain-streams-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary directory");
  log_ = pattern;
  pid_ = fork();
  if (pid_ < 0) throw std::runtime_error("no process");
  if (pid_ == 0) become(arguments, surroundings, log_);
  setpgid(pid_, pid_);  // whoever is first, parent or child
}

Program::~Program() {
  if (!ended_) {
    kill(-pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
  }
  std::error_code ignored;
  fs::remove_all(log_, ignored);
}

std::vector<pid_t> Program::children() const {
  const std::string task = std::to_string(pid_);
  std::ifstream list("/proc/" + task + "/task/" + task + "/children");
  std::vector<pid_t> pids;
  for (pid_t pid; list >> pid;) pids.push_back(pid);
  return pids;
}

bool Program::group_lives() const { return kill(-pid_, 0) == 0; }

Ended Program::end() {
  int status = 0;
  waitpid(pid_, &status, 0);
  ended_ = true;
  return {WIFSIGNALED(status) ? -WTERMSIG(status) : WEXITSTATUS(status), content_of(log_ / "out"),
          content_of(log_ / "err")};
}

Ended crossgrain(const std::vector<std::string>& arguments, const Surroundings& surroundings) {
  return Program(arguments, surroundings).end();
}

std::string content_of(const fs::path& file) {
  std::stringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

bool holds_exponent(const std::string& text) {
  constexpr std::string_view digits = "0123456789";
  const auto is_digit = [&](std::size_t at) {
    return at < text.size() && digits.find(text[at]) != std::string_view::npos;
  };
  for (std::size_t e = text.find('e', 1); e != std::string::npos; e = text.find('e', e + 1)) {
    const std::size_t sign = e + 1;
    const bool is_signed = sign < text.size() && (text[sign] == '+' || text[sign] == '-');
    if (!is_digit(e - 1) || !is_digit(is_signed ? sign + 1 : sign)) continue;
    BOOST_TEST_MESSAGE("an exponent at: " << text.substr(e - 1, 40));
    return true;
  }
  return false;
}

bool holds(const std::string& text, const std::string& part) {
  const bool found = text.find(part) != std::string::npos;
  if (!found) BOOST_TEST_MESSAGE("no \"" << part << "\" in:\n" << text);
  return found;
}

}  // namespace crossgrain::testing
