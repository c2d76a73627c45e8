#pragma once
// From texts to a case that can be checked: the case is read, its edition is found, its amendments are laid over,
// and the case is held against the edition's tables. No files here: how a file is read is given.
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "code/edition.hpp"
#include "core/diagnostic.hpp"
#include "job/case.hpp"

namespace pullproof {

/// A text, or why it cannot be had ("there is no such file").
struct FileText {
  std::string text, error;
};

/// The editions to choose from, and how an amendment file is read: not at all, without a function for it.
struct Shelf {
  std::shared_ptr<const code::Store> store = code::built_in();
  std::function<FileText(const std::string& path)> read;
};

/// The ids of the editions of a store, as they stand in it.
std::vector<std::string_view> edition_ids(const code::Store& store);

/// The edition that `name` stands for: an id, or the path of an amendment file, which is laid over its base; and over
/// that, one after another, further amendment files. Complains without a place: `name` comes from no file.
std::optional<code::Edition> find_edition(const Shelf& shelf, std::string_view name, std::span<const std::string> amendments, Diagnostics& diagnostics);

/// The edition that a case is to be checked to, its amendments laid over in order. Paths in the case are relative
/// to the case's file. Complains at the place in the case.
std::optional<code::Edition> edition_of(const Shelf& shelf, const Case& job, Diagnostics& diagnostics);

struct LoadedCase {
  std::shared_ptr<const Case> job;
  code::Edition edition;
};

/// Reads a case and finds its edition, or takes `instead` in place of the case's edition and amendments when it is
/// given. All complaints about the case are made at once; with any, there is no result.
std::optional<LoadedCase> load_case(const Shelf& shelf, std::string file, std::string text,
                                    const std::optional<code::Edition>& instead, Diagnostics& diagnostics);

}  // namespace pullproof
