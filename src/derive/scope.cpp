#include "derive/scope.hpp"

namespace pullproof::derive {
namespace {

bool names(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const auto letter = [&](std::size_t i) { return i < text.size() && text[i] >= 'a' && text[i] <= 'z'; };
    if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

}  // namespace

void stop_outside_scope(Context& cx, std::string_view text) {
  const auto t = cx.table("outside-scope");
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (names(text, t.cell(r, "word").text()))
      cx.not_covered(cx.text("{} is outside what is checked here: read {} and ask the authority having jurisdiction",
                             t.cell(r, "what").text(), t.cell(r, "article").text()),
                     cx.edition().cite(t, r, t.column("article")));
}

}  // namespace pullproof::derive
