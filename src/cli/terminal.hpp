#pragma once
// Standard output and the terminal behind it.
#include <cstddef>
#include <string_view>

#include "cli/options.hpp"

namespace pullproof::cli {

/// Whether to print in colour: as asked; else on a terminal that can, unless NO_COLOR is set.
bool wants_color(Color choice);

/// Cells of a line: of the terminal, 40 to 100; 80 when the output is no terminal.
std::size_t page_width();

/// Says on standard error what is wrong and what would do, wrapped where that is a terminal.
void complain(std::string_view message, std::string_view note);

/// Writes to standard output. Throws CommandError when it cannot be written; a reader that has gone away is no error.
void put(std::string_view text);
/// Whether anybody still reads what is written.
bool output_wanted();
/// Hands on everything written so far. Throws as `put`.
void flush();

}  // namespace pullproof::cli
