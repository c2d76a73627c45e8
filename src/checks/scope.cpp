#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool names(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const auto letter = [&](std::size_t i) { return i < text.size() && text[i] >= 'a' && text[i] <= 'z'; };
    if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

void run(Context& cx, const Circuit& c) {
  const auto t = cx.table("outside-scope");
  const auto look = [&](std::string_view text) {
    for (std::size_t r = 0; r < t.rows(); ++r)
      if (names(text, t.cell(r, "word").text()))
        cx.not_covered(cx.text("{} is outside what is checked here: read {} and ask the authority having jurisdiction",
                               t.cell(r, "what").text(), t.cell(r, "article").text()),
                       cx.edition().cite(t, r, t.column("article")));
  };
  if (c.load.appliance) look(*c.load.appliance);
  if (c.load.place) look(c.load.place.text);
  for (const Stretch& s : c.path)
    if (const auto& p = derive::place_of(s)) look(p.text);
  cx.pass("nothing here is known to lie outside what is checked", cx.edition().cite(t));
}

}  // namespace

extern const Check check_scope{
    .id = "scope",
    .title = "Inside what is checked here",
    .about = "Some installations have articles of their own that are not in the rule data: pools, hazardous locations, solar, "
             "generators and more. When the appliance or a place names one, the answer is not covered, with the article to "
             "read, because the other checks would pass it without looking at what matters.",
    .formula = "",
    .reads = "load.appliance, load.place, raceway.place, cable.place",
    .rules = "outside-scope",
    .run = run};

}  // namespace pullproof
