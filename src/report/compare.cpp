#include "report/compare.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/json_writer.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

using answers::Comparison;
using answers::Difference;
using answers::Moved;
using answers::OtherValue;
using answers::Side;

Ink ink_of(Verdict v) {
  switch (v) {
    case Verdict::fail: return Ink::bad;
    case Verdict::pass: return Ink::good;
    case Verdict::not_applicable: return Ink::faint;
    case Verdict::advice:
    case Verdict::needs_input:
    case Verdict::not_covered: return Ink::warn;
  }
  return Ink::plain;
}

class CompareText {
 public:
  CompareText(const Comparison& c, const Side& a, const Side& b, const TextOptions& options)
      : comparison_(c), a_(a), b_(b), page_(options.width, options.color), width_(options.width) {}

  std::string run() {
    side("A", a_);
    side("B", b_);
    values();
    verdicts();
    numbers();
    wordings();
    if (comparison_.differences.empty()) {
      page_.gap();
      page_.paragraph(0, "Every check gives the same answer with the same numbers.");
    }
    if (comparison_.clauses_alone > 0) {
      page_.gap();
      page_.paragraph(0, fmt::format("{} further {} in nothing but the clause.", comparison_.clauses_alone, comparison_.clauses_alone == 1 ? "answer differs" : "answers differ"));
    }
    assumed("Assumed for A alone", comparison_.assumed_by_a);
    assumed("Assumed for B alone", comparison_.assumed_by_b);
    page_.gap();
    page_.paragraph(0, "`pullproof check` on either shows every answer, what it assumes, and the cautions.");
    return page_.take();
  }

 private:
  void heading(std::string_view text) {
    page_.gap();
    page_.paragraph(0, {{std::string(text), Ink::strong}});
  }

  void side(std::string_view letter, const Side& s) {
    const Report& r = s.report;
    page_.paragraph(0, {{fmt::format("{}  ", letter), Ink::strong},
                        {fmt::format("{}, {}: {} fail, {} open, {} with advice, {} pass", r.case_file, r.edition_chain.back(), r.count(Verdict::fail),
                                     r.count(Verdict::needs_input) + r.count(Verdict::not_covered), r.count(Verdict::advice), r.count(Verdict::pass))}},
                    3);
  }

  /// A name and what stands for it on both sides, in two columns.
  void pair(std::string_view name, std::string_view in_a, std::string_view in_b) {
    const std::size_t column = std::max<std::size_t>(12, (width_ - 8) / 4);
    if (display_width(in_a) >= column || display_width(in_b) >= column) {
      page_.paragraph(4, name);
      page_.paragraph(6, fmt::format("A  {}", in_a), 3);
      page_.paragraph(6, fmt::format("B  {}", in_b), 3);
      return;
    }
    const std::size_t rest = width_ - 4 - 2 * column - 1;
    if (display_width(name) <= rest) return page_.line(fmt::format("    {}{}{}", padded(name, rest), padded(in_a, column, true), padded(in_b, column, true)));
    page_.paragraph(4, name);
    page_.line(fmt::format("    {}{}{}", padded("", rest), padded(in_a, column, true), padded(in_b, column, true)));
  }
  void columns(std::string_view title) {
    page_.gap();
    const std::size_t column = std::max<std::size_t>(12, (width_ - 8) / 4);
    page_.line(fmt::format("{}{}{}", padded(title, width_ - 2 * column - 1), padded("A", column, true), padded("B", column, true)));
  }

  void values() {
    if (comparison_.values.empty()) return;
    columns("What the cases say");
    std::string_view subject = "\n";
    for (const OtherValue& v : comparison_.values) {
      if (v.subject != subject) {
        subject = v.subject;
        const std::string_view side = only_in(subject);
        page_.paragraph(2, {{v.subject.empty() ? std::string("the whole case") : v.subject, Ink::strong}, {side.empty() ? std::string{} : fmt::format(": in {} alone", side)}});
      }
      if (!only_in(subject).empty()) continue;
      pair(v.key, v.a.empty() ? "-" : answers::unquoted(v.a), v.b.empty() ? "-" : answers::unquoted(v.b));
    }
  }

  /// The side that alone has a named part, "A" or "B"; else nothing.
  std::string_view only_in(std::string_view subject) const {
    std::string_view side;
    for (const OtherValue& v : comparison_.values)
      if (v.subject == subject && v.key == "name") side = v.b.empty() ? "A" : v.a.empty() ? "B" : "";
    return side;
  }

  static std::string called(const Difference& d) { return fmt::format("{}, {}", d.either().subject, d.either().check); }

  void one(std::string_view letter, const Finding* f) {
    if (f == nullptr) return page_.paragraph(4, fmt::format("{}  no such answer", letter), 3);
    std::string s = f->missing.empty() ? std::string(f->message) : fmt::format("give {}; {}", f->missing, f->message);
    if (!f->cite.clause.empty()) s += fmt::format(" [{}]", f->cite.clause);
    page_.paragraph(4, {{fmt::format("{}  ", letter)}, {std::string(name(f->verdict)), ink_of(f->verdict)}, {fmt::format(": {}", s)}}, 3);
  }

  void verdicts() {
    bool first = true;
    for (const Difference& d : comparison_.differences) {
      if (!d.verdict) continue;
      if (std::exchange(first, false)) heading("Answers that differ");
      page_.paragraph(2, {{called(d), Ink::strong}});
      one("A", d.a);
      one("B", d.b);
    }
  }

  void numbers() {
    bool first = true;
    for (const Difference& d : comparison_.differences) {
      if (d.numbers.empty()) continue;
      if (std::exchange(first, false)) columns("Numbers that moved");
      page_.paragraph(2, {{called(d), Ink::strong}});
      for (const Moved& m : d.numbers) pair(m.name, m.a.empty() ? "-" : m.a, m.b.empty() ? "-" : m.b);
    }
  }

  void wordings() {
    bool first = true;
    for (const Difference& d : comparison_.differences) {
      if (d.verdict || !d.numbers.empty()) continue;
      if (std::exchange(first, false)) heading("Same verdict, other words");
      page_.paragraph(2, {{called(d), Ink::strong}});
      one("A", d.a);
      one("B", d.b);
    }
  }

  void assumed(std::string_view title, const std::vector<std::string_view>& items) {
    if (items.empty()) return;
    heading(title);
    for (const std::string_view item : items) page_.paragraph(2, fmt::format("- {}", item));
  }

  const Comparison& comparison_;
  const Side &a_, &b_;
  Page page_;
  std::size_t width_;
};

}  // namespace

std::string as_text(const Comparison& comparison, const Side& a, const Side& b, const TextOptions& options) { return CompareText(comparison, a, b, options).run(); }

std::string as_json(const Comparison& comparison, const Side& a, const Side& b, std::string_view version, int exit_status) {
  JsonWriter w;
  const auto side = [&](std::string_view key, const Side& s) {
    w.object(key, [&] {
      w.field("file", s.report.case_file);
      w.field("edition", s.report.edition);
      w.field("outcome", name(s.report.outcome()));
    });
  };
  const auto answer = [&](std::string_view key, const Finding* f) {
    if (f == nullptr) return w.null(key);
    w.object(key, [&] {
      w.field("verdict", word(f->verdict));
      w.field("message", f->message);
      w.optional("missing", f->missing);
      w.optional("clause", f->cite.clause);
    });
  };
  w.object([&] {
    w.field("format", "pullproof-comparison-1");
    w.field("version", version);
    side("a", a);
    side("b", b);
    w.list("values", comparison.values, [&](const OtherValue& v) {
      w.object([&] {
        w.optional("subject", v.subject);
        w.field("key", v.key);
        w.optional("a", v.a);
        w.optional("b", v.b);
      });
    });
    w.list("differences", comparison.differences, [&](const Difference& d) {
      w.object([&] {
        w.field("check", d.either().check);
        w.field("subject", d.either().subject);
        w.yes("verdict_differs", d.verdict);
        answer("a", d.a);
        answer("b", d.b);
        w.list("numbers", d.numbers, [&](const Moved& m) {
          w.object([&] {
            w.field("name", m.name);
            w.optional("a", m.a);
            w.optional("b", m.b);
          });
        });
      });
    });
    w.integer("clauses_alone", comparison.clauses_alone);
    w.list("assumed_by_a", comparison.assumed_by_a);
    w.list("assumed_by_b", comparison.assumed_by_b);
    w.integer("exit_status", exit_status);
  });
  return w.finished();
}

}  // namespace pullproof::report
