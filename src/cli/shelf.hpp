#pragma once
// The editions that a command works with.
#include <exception>
#include <vector>

#include "cli/options.hpp"
#include "code/edition.hpp"
#include "core/diagnostic.hpp"
#include "engine/load.hpp"

namespace pullproof::cli {

/// The edition that `explain` and `rules show` take when they are not told.
inline constexpr std::string_view usual_edition = "us-2023";

/// Input that could not be read, with what is wrong with it.
struct BadInput : std::exception {
  explicit BadInput(std::vector<Diagnostic> all) : complaints(std::move(all)) {}
  std::vector<Diagnostic> complaints;
};

/// The built-in editions, or those of --rules. Throws CommandError and BadInput.
Shelf open_shelf(const Options& options);

/// The edition called so, or laid over by the amendment file called so. Throws CommandError and BadInput.
code::Edition need_edition(const Shelf& shelf, std::string_view name);
/// The one that --edition names, or the usual one, with the files of --amendment laid over it. Throws as above.
code::Edition need_edition(const Shelf& shelf, const Options& options);

}  // namespace pullproof::cli
