#include "cli/sources.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "cli/files.hpp"

namespace pullproof::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_name = 4096;  // PATH_MAX of Linux

/// What is in a folder and below it, into `out`, in the order of the names.
void gather(const fs::path& folder, std::vector<Sources::Source>& out) {
  std::error_code error;
  std::vector<fs::directory_entry> entries;
  for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) entries.push_back(*at);
  if (error) {
    out.push_back({0, folder.string(), fmt::format("the folder cannot be read: {}", reason(error.value()))});
    return;
  }
  std::sort(entries.begin(), entries.end());
  for (const fs::directory_entry& entry : entries) {
    std::error_code ignored;
    if (entry.path().filename().native().starts_with('.')) continue;
    if (entry.is_directory(ignored)) {
      if (!entry.is_symlink(ignored)) gather(entry.path(), out);
    } else if (entry.path().extension() == ".toml") {
      out.push_back({0, entry.path().string(), {}});
    }
  }
}

}  // namespace

Sources::Sources(const Options& options) : words_(options.words) {
  if (!options.list.empty()) list_ = std::make_unique<Lines>(options.list, options.null ? '\0' : '\n');
}

void Sources::open(const std::string& folder) {
  gather(folder, waiting_);
  if (waiting_.empty()) waiting_.push_back({0, folder, "there is no .toml file in the folder"});
  std::reverse(waiting_.begin(), waiting_.end());
}

bool Sources::next(Source& source) {
  if (!next_from(source)) return false;
  source.number = ++count_;
  return true;
}

bool Sources::next_from(Source& source) {
  for (;;) {
    if (!waiting_.empty()) {
      source = std::move(waiting_.back());
      waiting_.pop_back();
      return true;
    }
    std::string name;
    if (at_ < words_.size()) {
      name = words_[at_++];
    } else {
      if (list_ == nullptr) return false;
      const Lines::Got got = list_->next(name, longest_name);
      if (got == Lines::Got::end) return false;
      if (got == Lines::Got::too_long) {
        source = {0, "(a name in the list)", "it is too long for a name"};
        return true;
      }
      if (name.empty()) continue;  // an empty line names nothing
      if (name == "-") {
        source = {0, name, "a list cannot name standard input"};
        return true;
      }
    }
    std::error_code ignored;
    if (name == "-" || !fs::is_directory(name, ignored)) {
      source = {0, std::move(name), {}};
      return true;
    }
    open(name);
  }
}

}  // namespace pullproof::cli
