#include "report/sizing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/json_writer.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

using answers::Conflict;
using answers::Objection;
using answers::Sized;
using answers::Sizing;

std::string_view plain(std::string_view toml_value) { return answers::unquoted(toml_value); }

std::string said(const Objection& o, std::string_view subject) {
  if (o.check.empty()) return o.message;
  // What follows a colon in a long message is how it came about.
  constexpr std::size_t long_message = 90;
  const std::string_view message = o.message.size() > long_message ? std::string_view(o.message).substr(0, o.message.find(": ")) : o.message;
  return fmt::format("{}{}, {}", o.subject == subject ? std::string{} : fmt::format("{}: ", o.subject), o.check, message);
}

/// "14 AWG to 10 AWG", "35 A and up".
std::string range(const Conflict::Exclusion& e) {
  const std::string_view first = plain(e.values.front()), last = plain(e.values.back());
  if (e.from_smallest && e.to_largest) return "everything";
  if (e.values.size() == 1) return std::string(first);
  if (e.from_smallest) return fmt::format("up to {}", last);
  if (e.to_largest) return fmt::format("{} and up", first);
  return fmt::format("{} to {}", first, last);
}

class SizingText {
 public:
  SizingText(const Sizing& sizing, const Report& done, const TextOptions& options) : sizing_(sizing), done_(done), page_(options.width, options.color) {}

  std::string run() {
    if (!done_.title.empty()) page_.paragraph(0, {{std::string(done_.title), Ink::strong}});
    page_.paragraph(0, fmt::format("{}, sized to {}", done_.case_file, done_.edition_chain.back()));
    if (sizing_.conflict) conflict(*sizing_.conflict);
    else if (sizing_.sizes.empty()) nothing_open();
    else sizes();
    unheeded();
    if (sizing_.conflict) return page_.take();
    rest();
    assumptions();
    list("Before you touch anything", done_.cautions);
    return page_.take();
  }

 private:
  void heading(std::string_view text, Ink ink = Ink::strong) {
    page_.gap();
    page_.paragraph(0, {{std::string(text), ink}});
  }
  void list(std::string_view title, const std::vector<std::string_view>& items) {
    if (items.empty()) return;
    heading(title);
    for (const std::string_view item : items) page_.paragraph(2, fmt::format("- {}", item));
  }

  void nothing_open() {
    page_.gap();
    page_.paragraph(0, "No size is open: every size that a check asks for is given. `pullproof check` says whether they do.");
  }

  void sizes() {
    const bool settled = std::all_of(sizing_.sizes.begin(), sizing_.sizes.end(), [](const Sized& s) { return s.unsettled.empty(); });
    heading(settled ? "The smallest that do, all checks together" : "The smallest that do, as far as the checks can say", settled ? Ink::good : Ink::warn);
    std::vector<std::string_view> told;
    for (const Sized& first : sizing_.sizes) {
      if (std::find(told.begin(), told.end(), first.subject) != told.end()) continue;
      told.push_back(first.subject);
      page_.paragraph(2, {{first.subject, Ink::strong}});
      for (const Sized& s : sizing_.sizes) {
        if (s.subject != first.subject) continue;
        page_.paragraph(4, {{fmt::format("{} = {}", s.key, s.value), Ink::good}});
        page_.paragraph(8, why(s));
        if (!s.up_to.empty()) page_.paragraph(8, fmt::format("up to {} passes with the other sizes as they are", plain(s.up_to)));
        unsettled(s);
      }
    }
  }
  void unsettled(const Sized& s) {
    std::vector<std::pair<std::string, std::string>> lines;  // what is missing, and who misses it
    for (const Objection& o : s.unsettled) {
      const std::string what = o.missing.empty() ? o.message : fmt::format("without {}", o.missing);
      const auto same = std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.first == what; });
      if (same == lines.end()) lines.emplace_back(what, o.check);
      else same->second += fmt::format(", {}", o.check);
    }
    for (const auto& [what, checks] : lines) page_.paragraph(8, {{"May be too small: ", Ink::warn}, {fmt::format("{} no answer from {}", what, checks)}});
  }

  static std::string why(const Sized& s) {
    if (s.smaller.empty()) return "the smallest there is to choose from";
    std::string out = fmt::format("{} will not do: ", plain(s.smaller));
    std::vector<std::string> reasons;
    for (const Objection& o : s.objections)
      if (std::string r = said(o, s.subject); std::find(reasons.begin(), reasons.end(), r) == reasons.end()) reasons.push_back(std::move(r));
    constexpr std::size_t most = 2;
    for (std::size_t i = 0; i < std::min(most, reasons.size()); ++i) out += fmt::format("{}{}", i == 0 ? "" : "; ", reasons[i]);
    if (reasons.size() > most) out += fmt::format("; and {} more", reasons.size() - most);
    return out;
  }

  void conflict(const Conflict& c) {
    heading("Nothing does", Ink::bad);
    if (c.exclusions.empty()) {
      page_.paragraph(2, fmt::format("{}: there is nothing to choose {} from", c.subject, c.key));
      return;
    }
    page_.paragraph(2, fmt::format("{}: no {} is left, since", c.subject, c.key));
    for (const Conflict::Exclusion& e : c.exclusions) {
      const Objection& o = e.objection;
      if (o.check.empty()) {
        page_.paragraph(4, fmt::format("the tables do not have {}", range(e)));
        continue;
      }
      page_.paragraph(4, {{std::string(o.check), Ink::strong}, {fmt::format(" rules out {}", range(e))}});
      page_.paragraph(6, fmt::format("with {}{}: {}{}", plain(e.value), o.with.empty() ? "" : fmt::format(" and {}", o.with),
                                     o.subject == c.subject ? "" : fmt::format("{}, ", o.subject), o.message));
    }
    page_.gap();
    if (c.cut_short) page_.paragraph(2, "Still larger sizes were not tried: those before them failed one after another for the same reasons.");
    if (sizing_.gave_up) page_.paragraph(2, fmt::format("The search was given up after {} trials: something may do all the same. Give a size or two and try again.", sizing_.trials));
    page_.paragraph(2, "Change what the case fixes: a given size, the length, the nameplate, or what is at hand.");
  }

  void unheeded() {
    if (sizing_.unheeded.empty()) return;
    heading("Advice that no sizes heed", Ink::warn);
    for (const Objection& o : sizing_.unheeded) page_.paragraph(2, fmt::format("{}: {}, {}", o.subject, o.check, o.message));
  }

  /// What is not a matter of size.
  void rest() {
    const auto some = [&](Verdict v, std::string_view title, Ink ink) {
      bool first = true;
      for (const Finding& f : done_.findings) {
        if (f.verdict != v) continue;
        if (std::exchange(first, false)) heading(title, ink);
        page_.paragraph(2, fmt::format("{}: {}, {}", f.subject, f.check, f.missing.empty() ? f.message : fmt::format("give {}", f.missing)));
      }
    };
    some(Verdict::fail, sizing_.sizes.empty() ? "Fails" : "Fails whatever the sizes are", Ink::bad);
    some(Verdict::needs_input, "Open: the case does not say enough", Ink::warn);
    some(Verdict::not_covered, "Open: not covered here", Ink::warn);
    page_.gap();
    std::string outcome;
    switch (done_.outcome()) {
      case Outcome::pass: outcome = "nothing fails and nothing is open"; break;
      case Outcome::fail: outcome = fmt::format("{} still {}", done_.count(Verdict::fail), done_.count(Verdict::fail) == 1 ? "fails" : "fail"); break;
      case Outcome::open: outcome = "nothing fails, and something is open"; break;
    }
    page_.paragraph(0, fmt::format("{}: {}. `pullproof check` on the completed case shows every answer with its clause.", sizing_.sizes.empty() ? "As it is" : "With these sizes", outcome));
  }

  void assumptions() {
    if (done_.assumptions.empty()) return;
    heading("Assumed, because the case does not say");
    for (const Assumption& a : done_.assumptions) page_.paragraph(2, fmt::format("- {}: {}", a.subject, a.text));
  }

  const Sizing& sizing_;
  const Report& done_;
  Page page_;
};

void objection(JsonWriter& w, const Objection& o) {
  w.object([&] {
    w.optional("check", o.check);
    w.field("subject", o.subject);
    w.field("verdict", word(o.verdict));
    w.field("message", o.message);
    w.optional("missing", o.missing);
    w.optional("with", o.with);
  });
}

}  // namespace

std::string as_text(const Sizing& sizing, const Report& done, const TextOptions& options) { return SizingText(sizing, done, options).run(); }

std::string as_json(const Sizing& sizing, const Report& done, std::string_view version, int exit_status) {
  JsonWriter w;
  w.object([&] {
    w.field("format", "pullproof-sizes-1");
    w.field("version", version);
    w.field("file", done.case_file);
    w.field("edition", done.edition);
    w.list("sizes", sizing.sizes, [&](const Sized& s) {
      w.object([&] {
        w.field("subject", s.subject);
        w.field("key", s.key);
        w.field("path", s.path);
        w.field("value", plain(s.value));
        w.optional("smaller", plain(s.smaller));
        w.optional("up_to", plain(s.up_to));
        w.list("objections", s.objections, [&](const Objection& o) { objection(w, o); });
        w.list("unsettled", s.unsettled, [&](const Objection& o) { objection(w, o); });
      });
    });
    if (!sizing.conflict) {
      w.null("conflict");
    } else {
      w.object("conflict", [&] {
        w.field("subject", sizing.conflict->subject);
        w.field("key", sizing.conflict->key);
        w.yes("cut_short", sizing.conflict->cut_short);
        w.list("exclusions", sizing.conflict->exclusions, [&](const Conflict::Exclusion& e) {
          w.object([&] {
            w.key("objection");
            objection(w, e.objection);
            w.field("value", plain(e.value));
            w.list("values", e.values, [&](const std::string& v) { w.string(plain(v)); });
          });
        });
      });
    }
    w.yes("gave_up", sizing.gave_up);
    w.list("unheeded", sizing.unheeded, [&](const Objection& o) { objection(w, o); });
    w.field("outcome", sizing.conflict ? "conflict" : name(done.outcome()));
    w.integer("exit_status", exit_status);
  });
  return w.finished();
}

}  // namespace pullproof::report
