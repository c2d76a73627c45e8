#include "report/text.hpp"

#include <fmt/format.h>

#include "core/diagnostic.hpp"
#include "report/steps.hpp"

namespace pullproof::report {
namespace {

class TextWriter {
 public:
  TextWriter(const Report& report, const TextOptions& options) : report_(report), options_(options) {}

  std::string run() {
    head();
    assumptions();
    for (const Verdict v : {Verdict::fail, Verdict::advice, Verdict::needs_input, Verdict::not_covered, Verdict::pass,
                            Verdict::not_applicable})
      findings(v);
    cautions();
    return std::move(out_);
  }

 private:
  void head() {
    if (!report_.title.empty()) line(0, paint(report_.title, "1"));
    if (!report_.site.empty()) line(0, report_.site);
    line(0, fmt::format("case {}, checked to {}", report_.case_file, fmt::join(report_.edition_chain, " > ")));
    std::string counts;
    for (const Verdict v : {Verdict::fail, Verdict::advice, Verdict::needs_input, Verdict::not_covered, Verdict::pass}) {
      const std::size_t n = report_.count(v);
      if (n == 0) continue;
      if (!counts.empty()) counts += ", ";
      counts += fmt::format("{} {}", n, name(v));
    }
    line(0, fmt::format("{} ({})", outcome_text(), counts));
  }

  std::string outcome_text() const {
    switch (report_.outcome()) {
      case Outcome::pass: return paint("everything checked passes", "32");
      case Outcome::fail: return paint("this does not pass", "31");
      case Outcome::open: return paint("nothing fails, but something is open", "33");
    }
    return {};
  }

  void assumptions() {
    if (report_.assumptions.empty()) return;
    heading("Assumed, because the case does not say");
    for (const Assumption& a : report_.assumptions) line(2, fmt::format("{}: {}", a.subject, a.text));
  }

  void findings(Verdict v) {
    if (report_.count(v) == 0) return;
    heading(std::string(1, static_cast<char>(name(v)[0] - 'a' + 'A')) + std::string(name(v).substr(1)));
    const bool brief = v == Verdict::pass || v == Verdict::not_applicable;
    for (const Finding& f : report_.findings)
      if (f.verdict == v) brief ? one_line(f) : whole(f);
  }

  void one_line(const Finding& f) {
    line(2, fmt::format("{}, {}: {}{}", f.subject, f.check, f.message, cited(f)));
    if (options_.full) working(f);
  }

  void whole(const Finding& f) {
    line(2, paint(fmt::format("{}: {}", f.subject, f.title), "1"));
    line(4, std::string(f.message));
    if (!f.change.empty()) line(4, fmt::format("change: {}", f.change));
    if (!f.missing.empty()) line(4, fmt::format("give: {}", f.missing));
    std::string where;
    if (f.where) where = fmt::format("{}:{}:{}", f.where.file, f.where.line, f.where.column);
    line(4, fmt::format("{}{}{}", f.check, cited(f), where.empty() ? "" : ", at " + where));
    if (options_.full) working(f);
  }

  static std::string cited(const Finding& f) {
    std::string s;
    if (!f.cite.clause.empty()) s = fmt::format(" [{} {}]", f.cite.edition, f.cite.clause);
    if (f.basis >= Basis::memory) s += fmt::format(" (rests on {})", name(f.basis));
    return s;
  }

  void working(const Finding& f) {
    const Working& w = report_.sheets[f.sheet].working;
    for (const StepId id : steps_behind(w, f)) line(6, step_text(w, w.steps()[id]));
  }

  void cautions() {
    heading("Before you touch anything");
    for (const std::string_view c : report_.cautions) line(2, std::string(c));
  }

  void heading(const std::string& text) { out_ += "\n" + paint(text, "1;4") + "\n"; }

  std::string paint(std::string_view text, std::string_view code) const {
    return options_.color ? fmt::format("\033[{}m{}\033[0m", code, printable(text)) : printable(text);
  }

  /// One paragraph, wrapped with a hanging indent. Escape sequences of ours take no room.
  void line(std::size_t indent, std::string_view text) {
    std::string clean;
    for (std::size_t at = 0; at < text.size();) {  // everything but our own paint is made printable
      if (options_.color && text.substr(at).starts_with("\033[")) {
        const std::size_t end = std::min(text.find('m', at), text.size() - 1);
        clean += text.substr(at, end - at + 1);
        at = end + 1;
      } else {
        const std::size_t end = std::min(text.find('\033', at + 1), text.size());
        clean += printable(text.substr(at, end - at));
        at = end;
      }
    }
    out_.append(indent, ' ');
    std::size_t column = indent;
    bool first = true;
    for (std::size_t at = 0; at < clean.size();) {
      const std::size_t end = std::min(clean.find(' ', at), clean.size());
      const std::string_view word = std::string_view(clean).substr(at, end - at);
      const std::size_t cells = visible(word);
      if (!first && column + 1 + cells > options_.width) {
        out_ += '\n';
        out_.append(indent + 2, ' ');
        column = indent + 2;
      } else if (!first) {
        out_ += ' ';
        ++column;
      }
      out_ += word;
      column += cells;
      first = false;
      at = end + 1;
    }
    out_ += '\n';
  }

  static std::size_t visible(std::string_view word) {
    std::string bare;
    for (std::size_t at = 0; at < word.size();) {
      if (word.substr(at).starts_with("\033[")) at = std::min(word.find('m', at), word.size() - 1) + 1;
      else bare += word[at++];
    }
    return display_width(bare);
  }

  const Report& report_;
  const TextOptions& options_;
  std::string out_;
};

}  // namespace

std::string as_text(const Report& report, const TextOptions& options) { return TextWriter(report, options).run(); }

}  // namespace pullproof::report
