#include "engine/context.hpp"

#include <fmt/format.h>

namespace pullproof {

Context::Context(Report& report, const Case& job, const code::Edition& edition, std::string_view check,
                 std::string_view title, std::string_view subject, Where where, std::shared_ptr<Memory> memory)
    : report_(&report), job_(&job), edition_(&edition), check_(check), title_(title), subject_(subject), where_(where), memory_(std::move(memory)) {
  report.sheets.push_back({check, subject, Working(*report.texts)});
  sheet_ = &report.sheets.back();
  sheet_index_ = static_cast<std::uint32_t>(report.sheets.size() - 1);
}

Context Context::scratch() const {
  auto own = std::make_shared<Report>();
  own->texts = report_->texts;
  Context c(*own, *job_, *edition_, check_, title_, subject_, where_, memory_);
  c.own_report_ = std::move(own);
  return c;
}

namespace {
[[noreturn]] void stop_not_covered(std::string_view message, const Citation& cite) {
  Stop s;
  s.verdict = Verdict::not_covered;
  s.message = message;
  s.cite = cite;
  throw s;
}
}  // namespace

code::RuleRef Context::rule(std::string_view name) const {
  const auto r = edition_->rule(name);
  if (!r || !r->seen())
    stop_not_covered(report_->texts->format("{}: the rule '{}' has not been seen; read the adopted book", edition_->title(), name),
                     {});
  return *r;
}

code::TableRef Context::table(std::string_view name) const {
  const auto t = edition_->table(name);
  if (!t || !t->seen())
    stop_not_covered(report_->texts->format("{}: the table '{}' has not been seen; read the adopted book", edition_->title(), name),
                     {});
  return *t;
}

bool Context::has_rule(std::string_view name) const {
  const auto r = edition_->rule(name);
  return r && r->seen();
}

bool Context::has_table(std::string_view name) const {
  const auto t = edition_->table(name);
  return t && t->seen();
}

Citation Context::cite(std::string_view rule_name) const { return edition_->cite(rule(rule_name)); }

bool Context::listed(std::string_view rule_name, std::string_view key, std::string_view item) const {
  for (const code::CellRef& c : rule(rule_name).list(key))
    if (c.text() == item) return true;
  return false;
}

std::string_view Context::cell_text(const code::TableRef& t, std::size_t row, std::string_view column,
                                    std::string_view name, std::string_view symbol) {
  const std::size_t c = t.column(column);
  const std::string_view value = t.cell(row, c).text();
  if (!value.empty()) working().label(Step::Kind::table, name, symbol, value).cite = edition_->cite(t, row, c);
  return value;
}

std::size_t Context::row(const code::TableRef& t, std::string_view key) const {
  const auto r = t.find(key);
  if (!r) stop_not_covered(report_->texts->format("{} has no row for {}", t.clause(), key), edition_->cite(t));
  return *r;
}

std::size_t Context::row(const code::TableRef& t, std::string_view key, std::string_view second) const {
  const auto r = t.find(key, second);
  if (!r) stop_not_covered(report_->texts->format("{} has no row for {}, {}", t.clause(), key, second), edition_->cite(t));
  return *r;
}

void Context::needs_input(std::string_view key, std::string_view why) const {
  unclear(key, report_->texts->format("{} is not given: {}", key, why));
}

void Context::unclear(std::string_view key, std::string_view message, Where where) const {
  Stop s;
  s.verdict = Verdict::needs_input;
  s.message = message;
  s.where = where;
  s.missing = report_->texts->keep(key);
  throw s;
}

void Context::not_covered(std::string_view message, Citation cite) const { stop_not_covered(message, cite); }

void Context::fails_in(std::string_view owner, std::string_view message, std::string_view change, const Citation& cite,
                       Where where, std::string_view of) const {
  Stop s;
  s.verdict = Verdict::fail;
  s.message = message;
  s.change = change;
  s.cite = cite;
  s.where = where;
  s.owner = owner;
  s.of = of;
  throw s;
}

void Context::blank_parameter(const code::RuleRef& r, std::string_view key) const {
  stop_not_covered(report_->texts->format("{}: the rule '{}' says nothing about '{}'", edition_->title(), r.name(), key),
                   edition_->cite(r));
}

void Context::note_assumption(std::string_view statement, const Citation& cite) {
  if (report_->assumed.emplace(subject_, statement).second) report_->assumptions.push_back({subject_, statement, cite});
}

void Context::assume(std::string_view name, std::string_view statement, const Citation& cite) {
  note_assumption(statement, cite);
  working().label(Step::Kind::assumption, name, {}, statement).cite = cite;
}

StepId Context::choose(std::string_view name, std::string_view reason, const Citation& cite,
                       std::initializer_list<StepId> on) {
  working().label(Step::Kind::choice, name, {}, reason).cite = cite;
  for (const StepId s : on) working().because_of(s);
  return working().last();
}

Finding& Context::add(Verdict verdict, std::string_view message, const Citation& cite, Where where, StepId on) {
  Finding& f = report_->findings.emplace_back();
  f.check = check_;
  f.title = title_;
  f.subject = subject_;
  f.verdict = verdict;
  f.message = message;
  f.cite = cite;
  f.where = where ? where : where_;
  f.sheet = sheet_index_;
  f.demand = on;
  f.basis = std::max(cite.basis, on != no_step ? working().weakest(on) : Basis::published);
  ++findings_;
  return f;
}

Finding& Context::compared(bool good, StepId demand, Must must, StepId limit, const Citation& cite, Where where) {
  const Step& d = working().steps()[demand];
  const Step& l = working().steps()[limit];
  const auto brief = [](const Step& a, const Step& b) {
    std::string s = brief_number(a.value, b.value);
    if (!a.unit.empty() && a.unit != "%" && a.unit != "°") s += ' ';
    return s.append(a.unit);
  };
  const std::string_view relation = must == Must::at_most ? (good ? "is within" : "is over")
                                                          : (good ? "covers" : "is below");
  const std::string_view message = text("{} {} {} {} {}", d.name, brief(d, l), relation, l.name, brief(l, d));
  Finding& f = add(good ? Verdict::pass : Verdict::fail, message, cite, where, demand);
  f.limit = limit;
  f.must = must;
  f.basis = std::max(f.basis, working().weakest(limit));
  return f;
}

Finding& Context::pass(std::string_view message, const Citation& cite, Where where, StepId on) {
  return add(Verdict::pass, message, cite, where, on);
}

Finding& Context::fail(std::string_view message, std::string_view change, const Citation& cite, Where where, StepId on) {
  Finding& f = add(Verdict::fail, message, cite, where, on);
  f.change = change;
  return f;
}

Finding& Context::advise(std::string_view message, std::string_view change, const Citation& cite, Where where, StepId on) {
  Finding& f = add(Verdict::advice, message, cite, where, on);
  f.change = change;
  return f;
}

Finding& Context::not_applicable(std::string_view reason, const Citation& cite) {
  return add(Verdict::not_applicable, reason, cite, {}, no_step);
}

Finding& Context::stopped(const Stop& stop) {
  Finding& f = add(stop.verdict, stop.message, stop.cite, stop.where, no_step);
  f.missing = stop.missing;
  f.change = stop.change;
  return f;
}

}  // namespace pullproof
