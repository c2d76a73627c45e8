#include "report/document.hpp"

namespace pullproof::doc {

std::string_view name(Role role) {
  switch (role) {
    case Role::plain: return "plain";
    case Role::strong: return "strong";
    case Role::faint: return "faint";
    case Role::good: return "good";
    case Role::bad: return "bad";
    case Role::warn: return "warn";
    case Role::code: return "code";
  }
  return "plain";
}

std::string text_of(const Spans& spans) {
  std::string text;
  for (const Span& s : spans) text += s.text;
  return text;
}

}  // namespace pullproof::doc
