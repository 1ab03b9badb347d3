// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/worker/worker_process.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <stdexcept>

#include "mesh/worker/worker_arguments.h"
#include "mesh/worker/worker_output.h"

extern char** environ;

namespace crossgrain {
namespace {

using Clock = std::chrono::steady_clock;

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error("cannot start the mesher's process: " + what + ": " +
                           std::strerror(errno));
}

/// Owns a file descriptor.
struct Descriptor {
  int number = -1;
  Descriptor() = default;
  explicit Descriptor(int n) : number(n) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close_now(); }
  void close_now() {
    if (number >= 0) close(number);
    number = -1;
  }
};

/// Owns a running child: ends and reaps it if nobody has waited for it.
class Child {
 public:
  Child(pid_t pid, Cancellable& job) : pid_(pid), job_(job) { job_.started(pid); }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    wait();
  }
  void end() { kill(pid_, SIGKILL); }
  /// @return the status as waitpid gives it.
  int wait() {
    siginfo_t info;
    while (waitid(P_PID, static_cast<id_t>(pid_), &info, WEXITED | WNOWAIT) < 0 && errno == EINTR) {
    }
    job_.ended();
    int status = 0;
    while (waitpid(pid_, &status, 0) < 0 && errno == EINTR) {
    }
    pid_ = -1;
    return status;
  }

 private:
  pid_t pid_;
  Cancellable& job_;
};

void write_all(int file, const Bytes& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = write(file, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) fail("writing the request");
    done += static_cast<std::size_t>(n);
  }
}

Bytes read_all(int file) {
  const off_t size = lseek(file, 0, SEEK_END);
  Bytes bytes(size > 0 ? static_cast<std::size_t>(size) : 0);
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n =
        pread(file, bytes.data() + done, bytes.size() - done, static_cast<off_t>(done));
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) fail("reading the answer");
    done += static_cast<std::size_t>(n);
  }
  return bytes;
}

pid_t start(int request, int answer, int output) {
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, output, STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, output, STDERR_FILENO);
  // Onto themselves: in the child alone this takes the close-on-exec mark off.
  posix_spawn_file_actions_adddup2(&actions, request, request);
  posix_spawn_file_actions_adddup2(&actions, answer, answer);

  std::vector<std::string> words = worker_arguments({getpid(), request, answer});
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  std::string mark = std::string(worker_environment_mark) + "=1";
  std::vector<char*> environment{mark.data()};
  for (char** entry = environ; *entry; ++entry) environment.push_back(*entry);
  environment.push_back(nullptr);

  pid_t pid = -1;
  errno =
      posix_spawn(&pid, "/proc/self/exe", &actions, nullptr, arguments.data(), environment.data());
  posix_spawn_file_actions_destroy(&actions);
  if (errno != 0) fail("posix_spawn");
  return pid;
}

/// Read what the child prints until it ends or exceeds a limit.
WorkerResult::End follow(int pipe, const WorkerLimits& limits, const Cancellable& job,
                         WorkerOutput& output, const Progress& progress) {
  using End = WorkerResult::End;
  const auto begin = Clock::now();
  auto heard = begin;
  auto told = begin - std::chrono::seconds(1);
  std::array<char, 4096> buffer;
  while (true) {
    pollfd waiting{pipe, POLLIN, 0};
    const int ready = poll(&waiting, 1, 200);
    if (job.cancelled()) return End::cancelled;
    if (ready > 0) {
      const ssize_t n = read(pipe, buffer.data(), buffer.size());
      if (n == 0) return End::answered;
      if (n < 0 && errno != EINTR) fail("reading from it");
      if (n > 0) output.take({buffer.data(), static_cast<std::size_t>(n)});
      heard = Clock::now();
    }
    const auto now = Clock::now();
    if (progress && now - told > std::chrono::milliseconds(450)) {
      told = now;
      progress(output.stage(), output.share());
    }
    if (now - begin > limits.total) return End::out_of_time;
    if (output.on_a_face() && now - heard > limits.silence) return End::stuck_on_face;
  }
}

}  // namespace

WorkerResult run_worker(const Bytes& request, const WorkerLimits& limits, Cancellable& job,
                        const Progress& progress) {
  using End = WorkerResult::End;
  if (std::getenv(worker_environment_mark))
    throw std::logic_error(
        "main() must begin with run_as_mesh_worker(): a worker started a worker");
  Descriptor question(memfd_create("crossgrain-request", MFD_CLOEXEC));
  Descriptor answer(memfd_create("crossgrain-answer", MFD_CLOEXEC));
  int ends[2] = {-1, -1};
  if (question.number < 0 || answer.number < 0 || pipe2(ends, O_CLOEXEC) < 0) fail("memory");
  Descriptor from_child(ends[0]), to_parent(ends[1]);
  write_all(question.number, request);

  Child child(start(question.number, answer.number, to_parent.number), job);
  to_parent.close_now();
  WorkerOutput output;
  WorkerResult result;
  result.end = follow(from_child.number, limits, job, output, progress);
  if (result.end != End::answered) child.end();
  const int status = child.wait();
  if (job.cancelled()) {
    result.end = End::cancelled;
  } else if (result.end == End::answered) {
    if (WIFSIGNALED(status) || WEXITSTATUS(status) != 0) result.end = End::crashed;
    result.status = WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status);
  }
  if (result.end == End::answered) result.answer = read_all(answer.number);
  result.stage = output.stage();
  result.face = output.face();
  result.log = output.last_lines();
  result.seconds = output.seconds();
  return result;
}

}  // namespace crossgrain
