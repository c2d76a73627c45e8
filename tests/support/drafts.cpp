#include "support/drafts.hpp"

#include <stdexcept>

#include "engine/load.hpp"
#include "support/cases.hpp"

namespace pullproof::test {

answers::Draft draft_of(const std::string& text, const std::string& file) {
  Diagnostics complaints;
  const Shelf shelf{.read = [](const std::string& path) { return FileText{read_text(path), {}}; }};
  const auto loaded = load_case(shelf, file, text, std::nullopt, complaints);
  std::string all;
  for (const Diagnostic& d : complaints.sorted()) all += render(d);
  if (!loaded) throw std::runtime_error(all + text);
  return {file, text, loaded->edition};
}

std::string size_of(const answers::Sizing& s, std::string_view path) {
  for (const answers::Sized& one : s.sizes)
    if (one.path == path) return std::string(answers::unquoted(one.value));
  return s.conflict ? "conflict" : "not open";
}

}  // namespace pullproof::test
