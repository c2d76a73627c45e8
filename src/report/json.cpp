#include "report/json.hpp"

#include <rapidjson/writer.h>

#include <map>

#include "report/json_writer.hpp"
#include "report/steps.hpp"

namespace pullproof::report {
namespace {

using report::word;  // which the two below would hide
std::string_view word(Basis b) { return b == Basis::common_practice ? "common_practice" : name(b); }
std::string_view word(Must m) { return m == Must::at_most ? "at_most" : "at_least"; }

using Pretty = rapidjson::PrettyWriter<rapidjson::StringBuffer, rapidjson::UTF8<>, rapidjson::ASCII<>>;
using Compact = rapidjson::Writer<rapidjson::StringBuffer, rapidjson::UTF8<>, rapidjson::ASCII<>>;

/// Writes reports with either of RapidJSON's writers.
template <class Out>
class ReportWriter {
 public:
  explicit ReportWriter(bool full) : out_(text_), full_(full) {}

  void begin_reports(std::string_view version) {
    out_.SetIndent(' ', 1);
    out_.StartObject();
    field("format", "pullproof-reports-1");
    field("version", version);
    key("reports");
    out_.StartArray();
  }

  void add(const Report& r) {
    out_.StartObject();
    field("file", r.case_file);
    field("outcome", name(r.outcome()));
    key("complaints");
    out_.StartArray();
    out_.EndArray();
    key("job");
    out_.StartObject();
    optional("title", r.title);
    optional("site", r.site);
    optional("permit", r.permit);
    optional("date", r.date);
    out_.EndObject();
    key("edition");
    out_.StartObject();
    field("id", r.edition);
    field("book", r.book);
    list("chain", r.edition_chain);
    out_.EndObject();
    counts(r);
    key("assumptions");
    out_.StartArray();
    for (const Assumption& a : r.assumptions) assumption(a);
    out_.EndArray();
    key("findings");
    out_.StartArray();
    for (const Finding& f : r.findings)
      if (full_ || f.verdict != Verdict::not_applicable) finding(r, f);
    out_.EndArray();
    list("notes", r.notes);
    list("cautions", r.cautions);
    out_.EndObject();
  }

  void add_unreadable(std::string_view file, const std::vector<Diagnostic>& complaints) {
    out_.StartObject();
    field("file", file);
    field("outcome", "unreadable");
    key("complaints");
    out_.StartArray();
    for (const Diagnostic& d : complaints) {
      out_.StartObject();
      field("message", d.message);
      optional("note", d.note);
      where("where", {d.file, d.line, d.column, d.length}, d.line != 0);
      out_.EndObject();
    }
    out_.EndArray();
    out_.EndObject();
  }

  void begin_record(std::size_t line) {
    out_.StartObject();
    field("format", "pullproof-record-1");
    key("line");
    out_.Uint64(line);
    key("report");
  }
  void end_record() {
    out_.EndObject();
    text_.Put('\n');
  }

  void finish(int exit_status) {
    out_.EndArray();
    key("exit_status");
    out_.Int(exit_status);
    out_.EndObject();
    text_.Put('\n');
  }

  std::string take() {
    std::string s(text_.GetString(), text_.GetSize());
    text_.Clear();
    return s;
  }

 private:
  void key(std::string_view k) { out_.Key(k.data(), static_cast<rapidjson::SizeType>(k.size())); }
  void string(std::string_view s) {
    const std::string good = well_formed(s);
    out_.String(good.data(), static_cast<rapidjson::SizeType>(good.size()));
  }
  void field(std::string_view k, std::string_view value) {
    key(k);
    string(value);
  }
  void optional(std::string_view k, std::string_view value) {
    key(k);
    if (value.empty()) out_.Null();
    else string(value);
  }
  void number(double value) {
    if (std::isfinite(value)) out_.Double(value);
    else out_.Null();
  }
  void list(std::string_view k, const std::vector<std::string_view>& items) {
    key(k);
    out_.StartArray();
    for (const std::string_view s : items) string(s);
    out_.EndArray();
  }

  void where(std::string_view k, const Where& w, bool present) {
    key(k);
    if (!present) return void(out_.Null());
    out_.StartObject();
    field("file", w.file);
    key("line");
    out_.Uint(w.line);
    key("column");
    out_.Uint(w.column);
    key("length");
    out_.Uint(w.length);
    out_.EndObject();
  }

  void citation(const Citation& c) {
    key("citation");
    if (c.clause.empty()) return void(out_.Null());
    out_.StartObject();
    field("edition", c.edition);
    field("clause", c.clause);
    field("clause_basis", word(c.clause_basis));
    field("entry", c.entry);
    optional("row", c.row);
    optional("column", c.column);
    field("basis", word(c.basis));
    field("source", c.source);
    key("origin");
    if (!c.origin) {
      out_.Null();
    } else {
      out_.StartObject();
      field("file", c.origin.file);
      key("line");
      out_.Uint(c.origin.line);
      out_.EndObject();
    }
    out_.EndObject();
  }

  void counts(const Report& r) {
    key("counts");
    out_.StartObject();
    for (const Verdict v : {Verdict::fail, Verdict::needs_input, Verdict::not_covered, Verdict::advice, Verdict::pass,
                            Verdict::not_applicable}) {
      key(word(v));
      out_.Uint64(r.count(v));
    }
    out_.EndObject();
  }

  void assumption(const Assumption& a) {
    out_.StartObject();
    field("subject", a.subject);
    field("text", a.text);
    citation(a.cite);
    out_.EndObject();
  }

  void finding(const Report& r, const Finding& f) {
    const Working& w = r.sheets[f.sheet].working;
    out_.StartObject();
    field("check", f.check);
    field("title", f.title);
    field("subject", f.subject);
    field("verdict", word(f.verdict));
    field("message", f.message);
    optional("change", f.change);
    optional("missing", f.missing);
    optional("waits_for", f.waits_for);
    field("basis", word(f.basis));
    citation(f.cite);
    where("where", f.where, static_cast<bool>(f.where));
    compared("demand", w, f.demand);
    compared("limit", w, f.limit);
    compared("beside", w, f.beside);
    key("must");
    if (f.limit == no_step) out_.Null();
    else string(word(f.must));
    key("used");
    if (f.used) number(*f.used);
    else out_.Null();
    remedy(r, f);
    working(w, f);
    out_.EndObject();
  }

  /// Null where none was looked for.
  void remedy(const Report& r, const Finding& f) {
    key("remedy");
    if (!f.remedy) return void(out_.Null());
    const Remedy& m = r.remedies[*f.remedy];
    out_.StartObject();
    field("grade", name(m.grade));
    key("alone");
    out_.Bool(m.alone);
    key("changes");
    out_.StartArray();
    for (const Change& c : m.changes) {
      out_.StartObject();
      field("subject", c.subject);
      field("key", c.key);
      field("path", c.path);
      optional("was", c.was);
      field("now", c.now);
      out_.EndObject();
    }
    out_.EndArray();
    list("left", m.left);
    out_.EndObject();
  }

  /// What is compared, without where it comes from: that is in the working.
  void compared(std::string_view k, const Working& w, StepId id) {
    key(k);
    if (id == no_step) return void(out_.Null());
    const Step& s = w.steps()[id];
    out_.StartObject();
    field("name", s.name);
    optional("symbol", s.symbol);
    value(s);
    out_.EndObject();
  }

  void value(const Step& s) {
    key("value");
    if (s.numeric) number(s.value);
    else out_.Null();
    field("unit", s.unit);
    field("shown", shown(s));
  }

  void working(const Working& w, const Finding& f) {
    key("working");
    out_.StartArray();
    if (!full_) return void(out_.EndArray());
    const auto steps = steps_behind(w, f);
    std::map<StepId, unsigned> place;
    for (const StepId id : steps) place.emplace(id, static_cast<unsigned>(place.size()));
    for (const StepId id : steps) step(w.steps()[id], place);
    out_.EndArray();
  }

  void step(const Step& s, const std::map<StepId, unsigned>& place) {
    out_.StartObject();
    field("kind", name(s.kind));
    field("name", s.name);
    optional("symbol", s.symbol);
    value(s);
    optional("text", s.numeric ? s.text : std::string_view{});
    optional("expression", s.expression);
    key("inputs");
    out_.StartArray();
    for (std::size_t i = 0; i < s.input_count; ++i) {
      const auto at = place.find(s.inputs[i]);
      if (at == place.end()) continue;
      out_.StartObject();
      key("step");
      out_.Uint(at->second);
      optional("parameter", s.parameters[i]);
      out_.EndObject();
    }
    out_.EndArray();
    citation(s.cite);
    where("where", s.where, static_cast<bool>(s.where));
    out_.EndObject();
  }

  rapidjson::StringBuffer text_;
  Out out_;
  bool full_;
};

}  // namespace

class JsonReports::Writer : public ReportWriter<Pretty> {
 public:
  Writer() : ReportWriter(true) {}
};

JsonReports::JsonReports(std::string_view version) : writer_(std::make_unique<Writer>()) {
  writer_->begin_reports(version);
}
JsonReports::~JsonReports() = default;
void JsonReports::add(const Report& report) { writer_->add(report); }
void JsonReports::add_unreadable(std::string_view file, const std::vector<Diagnostic>& complaints) {
  writer_->add_unreadable(file, complaints);
}
void JsonReports::finish(int exit_status) { writer_->finish(exit_status); }
std::string JsonReports::take() { return writer_->take(); }

std::string json_record(std::size_t line, const Report& report, bool full) {
  ReportWriter<Compact> writer(full);
  writer.begin_record(line);
  writer.add(report);
  writer.end_record();
  return writer.take();
}

std::string json_record(std::size_t line, std::string_view file, const std::vector<Diagnostic>& complaints) {
  ReportWriter<Compact> writer(true);
  writer.begin_record(line);
  writer.add_unreadable(file, complaints);
  writer.end_record();
  return writer.take();
}

}  // namespace pullproof::report
