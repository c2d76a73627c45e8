#include "cli/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "cli/options.hpp"

namespace pullproof::cli {
namespace {

/// An open file that closes itself; standard input is left open.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ > STDIN_FILENO) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }

 private:
  int fd_;
};

/// False with errno where it cannot.
bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t n = ::write(file, text.data(), text.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

/// Gives a file its name, in place of another or only where there is none. False with errno where it cannot.
bool move(const std::string& from, const std::string& to, Existing existing) {
  if (existing == Existing::replace) return ::rename(from.c_str(), to.c_str()) == 0;
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  return ::link(from.c_str(), to.c_str()) == 0 && ::unlink(from.c_str()) == 0;  // for file systems without that
}

}  // namespace

std::string reason(int error) {
  switch (error) {
    case ENOENT: return "there is no such file";
    case ENOTDIR: return "a part of its path is a file, no folder";
    case EACCES:
    case EPERM: return "permission is denied";
    case EISDIR: return "it is a folder";
    case ELOOP: return "its symbolic links go round in a circle";
    case EEXIST: return "it is there already";
    case ENAMETOOLONG: return "its name is too long";
    default: return std::generic_category().message(error);
  }
}

FileText read_file(const std::string& path, std::size_t limit) {
  FileText out;
  const Descriptor file(path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) {
    out.error = path.empty() ? "its name is empty" : reason(errno);
    return out;
  }
  struct stat about {};
  if (::fstat(file.get(), &about) == 0 && S_ISDIR(about.st_mode)) {
    out.error = reason(EISDIR);
    return out;
  }
  while (out.text.size() <= limit) {
    constexpr std::size_t piece = 64 * 1024;
    const std::size_t at = out.text.size();
    out.text.resize(std::min(at + piece, limit + 1));
    const ssize_t n = ::read(file.get(), out.text.data() + at, out.text.size() - at);
    out.text.resize(at + static_cast<std::size_t>(std::max<ssize_t>(n, 0)));
    if (n == 0) return out;
    if (n < 0 && errno != EINTR) {
      out.error = reason(errno);
      return out;
    }
  }
  out.error = limit % (1024 * 1024) == 0 ? fmt::format("it is larger than {} MiB", limit / (1024 * 1024))
                                         : fmt::format("it is larger than {} bytes", limit);
  out.text.clear();
  return out;
}

bool would_replace(const std::string& path) {
  struct stat about {};
  return ::stat(path.c_str(), &about) == 0 && S_ISREG(about.st_mode);
}

void write_file(const std::string& path, std::string_view text, Existing existing) {
  namespace fs = std::filesystem;
  const auto refuse = [&](int error) { throw CommandError(fmt::format("'{}' cannot be written: {}", path, error == ENOENT ? "there is no such folder" : reason(error))); };
  const auto refuse_existing = [&] { throw CommandError(fmt::format("'{}' is there already", path), "--force replaces it"); };
  if (path.empty()) throw CommandError("the file to write to has an empty name");
  std::error_code none;
  const fs::path goal = fs::exists(path, none) ? fs::canonical(path, none) : fs::path(path);  // behind a symbolic link
  if (fs::is_directory(goal, none)) refuse(EISDIR);
  struct stat about {};
  const bool there = ::stat(goal.c_str(), &about) == 0;
  if (there && !S_ISREG(about.st_mode)) {  // a device or a pipe is written to, not replaced
    const Descriptor file(::open(goal.c_str(), O_WRONLY | O_CLOEXEC));
    if (file.get() < 0 || !write_all(file.get(), text)) refuse(errno);
    return;
  }
  if (there && existing == Existing::keep) refuse_existing();
  // In the same folder, so that it can be moved; of a short name, so that it fits wherever the goal's does.
  const fs::path folder = goal.has_parent_path() ? goal.parent_path() : fs::path(".");
  std::string beside = (folder / ".pullproof-XXXXXX").string();
  const Descriptor file(::mkstemp(beside.data()));
  if (file.get() < 0) refuse(errno);
  const mode_t mask = ::umask(0);
  ::umask(mask);
  const bool good = ::fchmod(file.get(), there ? about.st_mode & 07777u : 0666u & ~mask) == 0 && write_all(file.get(), text) &&
                    ::fsync(file.get()) == 0 && move(beside, goal.string(), existing);
  const int error = errno;
  if (good) {
    const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory.get() >= 0) ::fsync(directory.get());  // the text is safe; the name is as safe as the system makes it
    return;
  }
  ::unlink(beside.c_str());
  if (error == EEXIST && existing == Existing::keep) refuse_existing();
  refuse(error);
}

std::vector<code::RuleFile> read_rules_folder(const std::string& folder) {
  namespace fs = std::filesystem;
  constexpr std::size_t largest_rules = 4 * 1024 * 1024;
  constexpr std::size_t most_files = 1000;
  std::vector<code::RuleFile> files;
  std::error_code error;
  for (fs::recursive_directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    std::error_code ignored;
    if (at->path().extension() != ".toml" || !at->is_regular_file(ignored)) continue;
    FileText file = read_file(at->path().string(), largest_rules);
    if (!file.error.empty()) throw CommandError(fmt::format("the rule file '{}' cannot be read: {}", at->path().string(), file.error));
    files.push_back({at->path().generic_string(), std::move(file.text)});
    if (files.size() > most_files) throw CommandError(fmt::format("the rules folder '{}' has more than {} files", folder, most_files));
  }
  if (error) throw CommandError(fmt::format("the rules folder '{}' cannot be read: {}", folder, reason(error.value())));
  if (files.empty()) throw CommandError(fmt::format("there are no .toml files in the rules folder '{}'", folder));
  return files;
}

}  // namespace pullproof::cli
