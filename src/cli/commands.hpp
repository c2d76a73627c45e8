#pragma once
// What each command does; commands.cpp lists them. Each returns the program's exit status and may throw
// CommandError and BadInput.
#include "cli/options.hpp"

namespace pullproof::cli {

inline constexpr int status_pass = 0, status_fail = 1, status_bad = 2, status_open = 3;

int check(const Options& options);
int size(const Options& options);
int reach(const Options& options);
int compare(const Options& options);
int report(const Options& options);
int stream(const Options& options);
int explain(const Options& options);
int keys(const Options& options);
int new_case(const Options& options);
int schema(const Options& options);
int completions(const Options& options);
int manual(const Options& options);
int rules_list(const Options& options);
int rules_show(const Options& options);
int rules_diff(const Options& options);
int rules_coverage(const Options& options);

}  // namespace pullproof::cli
