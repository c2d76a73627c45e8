#pragma once
// Files, read with care: folders, devices, pipes and files that never end are told apart from what was meant.
#include <string>
#include <vector>

#include "code/book.hpp"
#include "engine/load.hpp"

namespace pullproof::cli {

/// What a case from standard input is called.
inline constexpr std::string_view stdin_name = "(standard input)";

/// Why a file cannot be had, in words: "there is no such file" for ENOENT.
std::string reason(int error);

/// The text of a file, or of standard input for "-", or why it cannot be had. Never reads more than `limit` bytes
/// and one.
FileText read_file(const std::string& path, std::size_t limit);

/// Puts a text in place of a file's, or makes the file: all of it or nothing. Throws CommandError when it cannot, and
/// when the file is there and may not be replaced. Devices and pipes are written to.
enum class Existing { replace, keep };
void write_file(const std::string& path, std::string_view text, Existing existing = Existing::replace);

/// Whether there is a file that `write_file` would have to replace.
bool would_replace(const std::string& path);

/// The .toml files of a rules folder, named by their paths. Throws CommandError when there are none or one of them
/// cannot be read.
std::vector<code::RuleFile> read_rules_folder(const std::string& folder);

}  // namespace pullproof::cli
