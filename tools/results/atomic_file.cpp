// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools/results/atomic_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cassert>
#include <cerrno>
#include <stdexcept>
#include <system_error>

namespace crossgrain {
namespace {

namespace fs = std::filesystem;

std::string reason(int error) { return std::generic_category().message(error); }

[[noreturn]] void throw_cannot_write(const fs::path& file, int error) {
  throw std::invalid_argument(cannot_write(file, reason(error)));
}

[[noreturn]] void refuse_directory(const fs::path& directory, const std::string& why) {
  throw std::invalid_argument("cannot write into " + directory.string() + ": " + why +
                              "; choose another directory with -o");
}

constexpr const char* in_the_way = "a file of that name is in the way";

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return number_; }

 private:
  int number_;
};

/// Force what the system still holds of a file or directory onto the disk: some file systems report
/// a full disk only here.
/// @return 0 or the error number.
int flush(const fs::path& path) {
  const Descriptor file(open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return errno;
  // Some file systems cannot flush a directory and say EINVAL: nothing is lost by that.
  return fsync(file.get()) == 0 || errno == EINVAL ? 0 : errno;
}

/// @return 0 or the error number.
int write_text(const fs::path& path, std::string_view text) {
  const Descriptor file(open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
  if (file.get() < 0) return errno;
  while (!text.empty()) {
    const ssize_t written = write(file.get(), text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// Make a fresh hidden directory; mkdir honours the user's umask, which mkdtemp does not.
/// @return its path. @throws std::invalid_argument naming `wanted`.
fs::path make_hidden_directory(const fs::path& parent, const fs::path& wanted) {
  for (int attempt = 0;; ++attempt) {
    const fs::path hidden = parent / (".crossgrain-partial-" + std::to_string(getpid()) + "-" +
                                      std::to_string(attempt));
    if (mkdir(hidden.c_str(), 0777) == 0) return hidden;
    if (errno != EEXIST || attempt == 1000) {
      refuse_directory(wanted, reason(errno));
    }
  }
}

}  // namespace

void require_writable(const fs::path& directory) {
  // The nearest directory that is there will have to take in what is new.
  fs::path home = fs::absolute(directory);
  std::error_code error;
  if (fs::exists(home, error) && !fs::is_directory(home, error))
    refuse_directory(directory, in_the_way);
  while (!fs::exists(home, error) && home.has_relative_path()) home = home.parent_path();
  // Permissions alone do not tell: the superuser has them all, yet /proc takes nothing in.
  const HoldInterrupts hold;
  fs::remove(make_hidden_directory(home, directory), error);
}

std::string cannot_write(const fs::path& file, const std::string& why) {
  return "cannot write " + file.string() + ": " + why +
         "; make room or choose another directory with -o. Nothing was changed";
}

StagedFiles::StagedFiles(fs::path directory) : directory_(std::move(directory)) {
  if (directory_.empty()) directory_ = ".";
  if (!directory_.has_filename()) directory_ = directory_.parent_path();  // "out/" is "out"
  std::error_code error;
  const fs::file_status status = fs::status(directory_, error);
  new_directory_ = status.type() == fs::file_type::not_found;
  if (!new_directory_ && status.type() != fs::file_type::directory) {
    refuse_directory(directory_, error ? error.message() : in_the_way);
  }
  fs::path home = directory_;
  if (new_directory_) {
    home = directory_.has_parent_path() ? directory_.parent_path() : fs::path(".");
    fs::create_directories(home, error);  // a failure shows in the next step, with its reason
  }
  staging_ = make_hidden_directory(home, directory_);
}

StagedFiles::~StagedFiles() {
  std::error_code ignored;
  if (!staging_.empty()) fs::remove_all(staging_, ignored);
}

fs::path StagedFiles::add(const std::string& name) {
  assert(fs::path(name).filename() == name);
  names_.push_back(name);
  return staging_ / name;
}

fs::path StagedFiles::final_path(const std::string& name) const { return directory_ / name; }

void StagedFiles::add_text(const std::string& name, std::string_view text) {
  if (const int error = write_text(add(name), text)) throw_cannot_write(final_path(name), error);
}

void StagedFiles::publish(const std::vector<std::string>& outdated) {
  for (const std::string& name : names_) {
    if (const int error = flush(staging_ / name)) throw_cannot_write(final_path(name), error);
    if (fs::is_directory(final_path(name))) throw_cannot_write(final_path(name), EISDIR);
  }
  if (new_directory_) {
    flush(staging_);
    if (rename(staging_.c_str(), directory_.c_str()) != 0) throw_cannot_write(directory_, errno);
    staging_.clear();
    return;
  }
  std::error_code ignored;
  for (const std::string& name : outdated) fs::remove(final_path(name), ignored);
  for (const std::string& name : names_) {
    if (rename((staging_ / name).c_str(), final_path(name).c_str()) != 0)
      throw_cannot_write(final_path(name), errno);
  }
  flush(directory_);
  fs::remove_all(staging_, ignored);
  staging_.clear();
}

void write_file_atomically(const fs::path& file, std::string_view text) {
  StagedFiles staged(file.has_parent_path() ? file.parent_path() : fs::path("."));
  staged.add_text(file.filename().string(), text);
  staged.publish();
}

}  // namespace crossgrain
