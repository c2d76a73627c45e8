#pragma once
// What a check works with: the case, the edition, its sheet of working, and the ways to say what it found.
// A check never formats output, never names an edition, a section or a limit.
#include <any>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "job/case.hpp"
#include "job/measure.hpp"

namespace pullproof {

/// Thrown inside a check to leave it with an answer that is neither pass nor fail: a key is missing, or the
/// edition does not cover something. Caught by the runner, which reports it. Never leaves the engine.
struct Stop {
  Verdict verdict = Verdict::needs_input;
  std::string_view message, missing, change;
  Where where;
  Citation cite;
  std::string_view owner;  ///< of a failure: the check whose matter it is; the others wait for it
  std::string_view of = {};  ///< the subject that the owner reports it of; empty when it is the same
};

/// What was worked out once and holds for the whole run: all contexts of a run share it.
class Memory {
 public:
  /// What `make` returns for `of`, or the Stop that it throws, worked out at the first call alone. The result must not
  /// depend on who asks, nor hold steps, which belong to a sheet.
  template <class T, class Fn>
  const T& once(std::string_view what, const void* of, Fn make) {
    const auto [at, is_new] = kept_.try_emplace({what, of});
    if (is_new) {
      try {
        at->second.value = T(make());
      } catch (const Stop& stop) {
        at->second.stop = stop;
      }
    }
    if (at->second.stop) throw *at->second.stop;
    return *std::any_cast<T>(&at->second.value);
  }

 private:
  struct Kept {
    std::any value;
    std::optional<Stop> stop;
  };
  std::map<std::pair<std::string_view, const void*>, Kept> kept_;
};

class Context {
 public:
  Context(Report& report, const Case& job, const code::Edition& edition, std::string_view check,
          std::string_view title, std::string_view subject, Where where,
          std::shared_ptr<Memory> memory = std::make_shared<Memory>());

  const Case& job() const { return *job_; }
  const code::Edition& edition() const { return *edition_; }
  Working& working() { return sheet().working; }
  Texts& texts() { return *report_->texts; }
  Memory& memory() const { return *memory_; }
  std::string_view subject() const { return subject_; }
  template <class... A>
  std::string_view text(fmt::format_string<A...> pattern, A&&... a) {
    return texts().format(pattern, std::forward<A>(a)...);
  }

  // --- rule data; each throws Stop (not covered) when the edition has not the rule or nobody has seen it ---

  code::RuleRef rule(std::string_view name) const;
  code::TableRef table(std::string_view name) const;
  /// Whether the edition has it and somebody has seen it: for rules that some editions do not have at all.
  bool has_rule(std::string_view name) const;
  bool has_table(std::string_view name) const;
  Citation cite(std::string_view rule_name) const;
  /// A parameter that is a number, in the unit shown (percent: 125 is the ratio 1.25), as a step.
  template <class Q>
  Traced<Q> parameter(std::string_view rule_name, std::string_view key, std::string_view name,
                      std::string_view symbol, const Unit<Q>& unit) {
    const code::RuleRef r = rule(rule_name);
    const code::CellRef value = r[key];
    return working().constant(name, symbol, quantity_of<Q>(r, key, value, unit), unit, edition_->cite(r, value));
  }
  /// A parameter without a step. Throws Stop (not covered) when the edition leaves it blank.
  template <class Q>
  Q parameter(std::string_view rule_name, std::string_view key, const Unit<Q>& unit) const {
    const code::RuleRef r = rule(rule_name);
    return quantity_of<Q>(r, key, r[key], unit);
  }
  bool flag(std::string_view rule_name, std::string_view key) const { return rule(rule_name)[key].yes(); }
  std::string_view parameter_text(std::string_view rule_name, std::string_view key) const {
    return rule(rule_name)[key].text();
  }
  bool listed(std::string_view rule_name, std::string_view key, std::string_view item) const;

  /// A cell that holds a number, as a step; nothing when it is blank.
  template <class Q>
  std::optional<Traced<Q>> cell(const code::TableRef& t, std::size_t row, std::string_view column,
                                std::string_view name, std::string_view symbol, const Unit<Q>& unit) {
    const std::size_t c = t.column(column);
    const auto value = t.cell(row, c).number();
    if (!value) return std::nullopt;
    return working().table(name, symbol, unit.of(*value), unit, edition_->cite(t, row, c));
  }
  /// A cell that holds a text (a size, a word), as a step; returns the text, empty when the cell is blank.
  std::string_view cell_text(const code::TableRef& t, std::size_t row, std::string_view column,
                             std::string_view name, std::string_view symbol);
  /// The row of `key`, or Stop (not covered): the case was held against the tables before, so this is rare.
  std::size_t row(const code::TableRef& t, std::string_view key) const;
  std::size_t row(const code::TableRef& t, std::string_view key, std::string_view second) const;

  // --- the case ---

  /// A given value as a step. It must be present.
  template <class Q>
  Traced<Q> given(std::string_view name, std::string_view symbol, const Given<Q>& g, const Unit<Q>& unit) {
    return working().given(name, symbol, g.value, unit, g.text, g.where);
  }
  /// Leaves the check with "needs input" unless `g` is present.
  template <class T>
  const T& need(const Given<T>& g, std::string_view key, std::string_view why) {
    if (!g) needs_input(key, why);
    return g.value;
  }
  [[noreturn]] void needs_input(std::string_view key, std::string_view why) const;
  /// As above, where the key is given and does not fit the rest of the case: `message` says how.
  [[noreturn]] void unclear(std::string_view key, std::string_view message, Where where = {}) const;
  [[noreturn]] void not_covered(std::string_view message, Citation cite = {}) const;
  /// Leaves the check because of something that fails and that the check `owner` reports: where that one reports it
  /// this one waits for it, so that one mistake is one failure.
  /// `of` is the subject that the owner speaks of, where that is another one.
  [[noreturn]] void fails_in(std::string_view owner, std::string_view message, std::string_view change, const Citation& cite,
                             Where where = {}, std::string_view of = {}) const;
  /// A value that the case leaves open and the program fills in; listed at the head of every report.
  template <class Q>
  Traced<Q> assume(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit,
                   std::string_view statement, const Citation& cite = {}) {
    note_assumption(statement, cite);
    return working().assumption(name, symbol, value, unit, statement, cite);
  }
  /// As `assume` for something that is no number.
  void assume(std::string_view name, std::string_view statement, const Citation& cite = {});
  /// Why a row, a column or a branch was taken, as a step resting on `on`.
  StepId choose(std::string_view name, std::string_view reason, const Citation& cite = {},
                std::initializer_list<StepId> on = {});
  template <std::size_t N, class Fn, class Q, class... A>
  Traced<Q> apply(const Formula<N, Fn>& f, const Unit<Q>& unit, const Citation& cite, const Traced<A>&... a) {
    return working().apply(f, unit, cite, a...);
  }

  // --- answers ---

  /// Compares and reports: pass or fail under `rule_name`, with a message made of the names of the two steps.
  /// The finding may be worded better by the caller. `demand` is what the case has, `limit` what the rule wants.
  template <class Q>
  Finding& require(const Traced<Q>& demand, Must must, const Traced<Q>& limit, const Citation& cite, Where where = {}) {
    const bool good = must == Must::at_most ? at_most(demand.value, limit.value) : at_least(demand.value, limit.value);
    const double d = raw(demand.value), l = raw(limit.value);
    const double top = must == Must::at_most ? d : l, bottom = must == Must::at_most ? l : d;
    Finding& f = compared(good, demand.step, must, limit.step, cite, where);
    if (bottom > 0) f.used = top / bottom;
    return f;
  }
  /// As `require`, but what would fail is advice: informational notes and good practice.
  template <class Q>
  Finding& recommend(const Traced<Q>& demand, Must must, const Traced<Q>& limit, const Citation& cite, Where where = {}) {
    Finding& f = require(demand, must, limit, cite, where);
    if (f.verdict == Verdict::fail) f.verdict = Verdict::advice;
    return f;
  }
  Finding& pass(std::string_view message, const Citation& cite, Where where = {}, StepId on = no_step);
  Finding& fail(std::string_view message, std::string_view change, const Citation& cite, Where where = {}, StepId on = no_step);
  Finding& advise(std::string_view message, std::string_view change, const Citation& cite, Where where = {}, StepId on = no_step);
  Finding& not_applicable(std::string_view reason, const Citation& cite = {});
  /// Reports a Stop as a finding.
  Finding& stopped(const Stop& stop);
  std::size_t findings() const { return findings_; }

  /// A context that works on a sheet nobody will see, to try something: how a smaller wire would do.
  /// Its assumptions are dropped too. What it throws may be caught outside: its texts live as long as the report.
  Context scratch() const;
  /// The same sheet, with what is assumed said of another subject: a circuit's check that looks at its feeder.
  Context about(std::string_view subject) const {
    Context c = *this;
    c.subject_ = subject;
    return c;
  }

 private:
  Sheet& sheet() { return *sheet_; }
  Finding& add(Verdict verdict, std::string_view message, const Citation& cite, Where where, StepId on);
  Finding& compared(bool good, StepId demand, Must must, StepId limit, const Citation& cite, Where where);
  void note_assumption(std::string_view statement, const Citation& cite);
  template <class Q>
  Q quantity_of(const code::RuleRef& r, std::string_view key, const code::CellRef& value, const Unit<Q>& unit) const {
    if (const auto n = value.number()) return unit.of(*n);
    const Measured m = value.blank() ? Measured{} : read_quantity(value.text(), dimension_of<Q>());
    if (!m.ok) blank_parameter(r, key);
    return from_raw<Q>(m.si);
  }
  [[noreturn]] void blank_parameter(const code::RuleRef& r, std::string_view key) const;

  Report* report_;
  const Case* job_;
  const code::Edition* edition_;
  std::string_view check_, title_, subject_;
  Where where_;
  std::shared_ptr<Memory> memory_;
  std::shared_ptr<Report> own_report_;  ///< of a scratch context
  Sheet* sheet_ = nullptr;
  std::uint32_t sheet_index_ = 0;
  std::size_t findings_ = 0;
};

}  // namespace pullproof
