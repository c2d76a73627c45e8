#include "answers/compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "answers/choices.hpp"

namespace pullproof::answers {
namespace {

/// Check, subject, and which of several.
using Place = std::tuple<std::string_view, std::string_view, std::size_t>;

std::map<Place, const Finding*> by_place(const Report& report) {
  std::map<Place, const Finding*> out;
  for (const Finding& f : report.findings) {
    std::size_t n = 0;
    while (out.count({f.check, f.subject, n}) != 0) ++n;
    out[{f.check, f.subject, n}] = &f;
  }
  return out;
}

std::string number(const Report& r, const Finding* f, StepId Finding::* which) {
  return f == nullptr || f->*which == no_step ? std::string{} : shown(r.sheets[f->sheet].working.steps()[f->*which]);
}
std::string_view name_of(const Report& r, const Finding* f, StepId Finding::* which) {
  return f == nullptr || f->*which == no_step ? std::string_view{} : r.sheets[f->sheet].working.steps()[f->*which].name;
}
std::string_view unit_of(const Report& r, const Finding* f, StepId Finding::* which) {
  return f == nullptr || f->*which == no_step ? std::string_view{} : r.sheets[f->sheet].working.steps()[f->*which].unit;
}
std::string used(const Finding* f) { return f == nullptr || !f->used ? std::string{} : fmt::format("{}%", number_text(*f->used * 100, 0)); }

std::vector<Moved> moved(const Report& a, const Finding* fa, const Report& b, const Finding* fb) {
  std::vector<Moved> out;
  const auto add = [&](std::string_view name, std::string in_a, std::string in_b) {
    if (in_a != in_b) out.push_back({name, std::move(in_a), std::move(in_b)});
  };
  for (const auto which : {&Finding::demand, &Finding::limit}) {
    const std::string_view in_a = name_of(a, fa, which), in_b = name_of(b, fb, which);
    if (in_a.empty() || in_b.empty() || unit_of(a, fa, which) == unit_of(b, fb, which)) {
      add(in_a.empty() ? in_b : in_a, number(a, fa, which), number(b, fb, which));
    } else {  // other things are compared: a count here, an area there
      add(in_a, number(a, fa, which), {});
      add(in_b, {}, number(b, fb, which));
    }
  }
  if (!out.empty()) add("share of the limit", used(fa), used(fb));
  return out;
}

/// "circuit.0.wire.size" as a person says it.
std::pair<std::string, std::string> said(const Case& job, const std::string& path) {
  for (const Part& part : parts_of(job)) {
    const std::string prefix = part.kind == Kind::supply ? "supply." : fmt::format("{}.{}.", word(part.kind), part.index);
    if (path.starts_with(prefix)) return {subject_of(job, part), path.substr(prefix.size())};
  }
  return {{}, path};
}

std::vector<OtherValue> other_values(const Side& a, const Side& b) {
  std::vector<OtherValue> out;
  if (a.draft.text == b.draft.text) return out;
  using Key = std::pair<std::string, std::string>;
  const auto values = [](const Side& s) {
    std::vector<std::pair<Key, std::string>> all;
    const auto job = s.draft.with({});
    if (!job) return all;
    for (Edit& e : values_of(s.draft.text)) all.emplace_back(said(*job, e.key), std::move(e.value));
    return all;
  };
  const auto in_a = values(a), in_b = values(b);
  const auto find = [](const auto& all, const Key& key) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const auto& v) { return v.first == key; });
    return found == all.end() ? std::string{} : found->second;
  };
  for (const auto& [key, value] : in_a)
    if (std::string other = find(in_b, key); unquoted(other) != unquoted(value)) out.push_back({key.first, key.second, value, std::move(other)});
  for (const auto& [key, value] : in_b)
    if (find(in_a, key).empty()) out.push_back({key.first, key.second, {}, value});
  // What is said of one subject stands together, in the order in which the subjects are met.
  std::map<std::string, std::size_t> order;
  for (const OtherValue& v : out) order.emplace(v.subject, order.size());
  std::stable_sort(out.begin(), out.end(), [&](const OtherValue& x, const OtherValue& y) { return order[x.subject] < order[y.subject]; });
  return out;
}

std::vector<std::string_view> assumed_alone(const Report& by, const Report& other) {
  std::vector<std::string_view> out;
  for (const Assumption& a : by.assumptions)
    if (std::none_of(other.assumptions.begin(), other.assumptions.end(), [&](const Assumption& o) { return o.text == a.text && o.subject == a.subject; }))
      out.push_back(by.texts->format("{}: {}", a.subject, a.text));
  return out;
}

}  // namespace

Comparison compare(const Side& a, const Side& b) {
  Comparison out;
  out.values = other_values(a, b);
  const auto in_a = by_place(a.report), in_b = by_place(b.report);
  const auto look = [&](const Finding* fa, const Finding* fb) {
    Difference d{fa, fb, fa == nullptr || fb == nullptr || fa->verdict != fb->verdict, moved(a.report, fa, b.report, fb)};
    // What does not apply on the side that has it is no difference worth a word.
    if ((fa == nullptr || fb == nullptr) && d.either().verdict == Verdict::not_applicable) return;
    if (d.verdict || !d.numbers.empty()) out.differences.push_back(std::move(d));
    else if (fa->cite.clause != fb->cite.clause) ++out.clauses_alone;
    else if (fa->message != fb->message && fa->verdict != Verdict::not_applicable) out.differences.push_back(std::move(d));
  };
  for (const auto& [place, f] : in_a) {
    const auto found = in_b.find(place);
    look(f, found == in_b.end() ? nullptr : found->second);
  }
  for (const auto& [place, f] : in_b)
    if (in_a.count(place) == 0) look(nullptr, f);
  const auto worst = [](const Difference& d) {
    return std::tuple(!d.verdict, std::min(d.a != nullptr ? d.a->verdict : Verdict::not_applicable, d.b != nullptr ? d.b->verdict : Verdict::not_applicable));
  };
  std::stable_sort(out.differences.begin(), out.differences.end(), [&](const Difference& x, const Difference& y) { return worst(x) < worst(y); });
  out.assumed_by_a = assumed_alone(a.report, b.report);
  out.assumed_by_b = assumed_alone(b.report, a.report);
  return out;
}

}  // namespace pullproof::answers
