#include "report/json.hpp"

#include <map>

#include "report/json_writer.hpp"
#include "report/steps.hpp"

namespace pullproof::report {
namespace {

std::string_view word(Must m) { return m == Must::at_most ? "at_most" : "at_least"; }

/// Writes reports, indented or in one line.
template <class Out>
class ReportWriter {
 public:
  explicit ReportWriter(bool full) : full_(full) {}

  void begin_reports(std::string_view version) {
    w_.begin_object();
    w_.field("format", "pullproof-reports-1");
    w_.field("version", version);
    w_.begin_list("reports");
  }

  void add(const Report& r) {
    w_.object([&] {
      w_.field("file", r.case_file);
      w_.field("outcome", name(r.outcome()));
      w_.list("complaints", {});
      w_.object("job", [&] {
        w_.optional("title", r.title);
        w_.optional("site", r.site);
        w_.optional("permit", r.permit);
        w_.optional("date", r.date);
      });
      w_.object("edition", [&] {
        w_.field("id", r.edition);
        w_.field("book", r.book);
        w_.list("chain", r.edition_chain);
      });
      w_.object("counts", [&] {
        for (const Verdict v : {Verdict::fail, Verdict::needs_input, Verdict::not_covered, Verdict::advice, Verdict::pass, Verdict::not_applicable})
          w_.integer(report::word(v), r.count(v));
      });
      w_.list("assumptions", r.assumptions, [&](const Assumption& a) {
        w_.object([&] {
          w_.field("subject", a.subject);
          w_.field("text", a.text);
          citation(a.cite);
        });
      });
      w_.begin_list("findings");
      for (const Finding& f : r.findings)
        if (full_ || f.verdict != Verdict::not_applicable) w_.object([&] { finding(r, f); });
      w_.end_list();
      w_.list("notes", r.notes);
      w_.list("cautions", r.cautions);
    });
  }

  void add_unreadable(std::string_view file, const std::vector<Diagnostic>& complaints) {
    w_.object([&] {
      w_.field("file", file);
      w_.field("outcome", "unreadable");
      w_.list("complaints", complaints, [&](const Diagnostic& d) {
        w_.object([&] {
          w_.field("message", d.message);
          w_.optional("note", d.note);
          where({d.file, d.line, d.column, d.length});
        });
      });
    });
  }

  void begin_record(std::size_t line) {
    w_.begin_object();
    w_.field("format", "pullproof-record-1");
    w_.integer("line", line);
    w_.key("report");
  }
  void end_record() {
    w_.end_object();
    w_.line_break();
  }

  void finish(int exit_status) {
    w_.end_list();
    w_.integer("exit_status", exit_status);
    w_.end_object();
    w_.line_break();
  }

  std::string take() { return w_.take(); }

 private:
  void where(const Where& at) {
    if (!at) return w_.null("where");
    w_.object("where", [&] {
      w_.field("file", at.file);
      w_.integer("line", at.line);
      w_.integer("column", at.column);
      w_.integer("length", at.length);
    });
  }

  void citation(const Citation& c) {
    if (c.clause.empty()) return w_.null("citation");
    w_.object("citation", [&] {
      w_.field("edition", c.edition);
      w_.field("clause", c.clause);
      w_.field("clause_basis", report::word(c.clause_basis));
      w_.field("entry", c.entry);
      w_.optional("row", c.row);
      w_.optional("column", c.column);
      w_.field("basis", report::word(c.basis));
      w_.field("source", c.source);
      if (!c.origin) return w_.null("origin");
      w_.object("origin", [&] {
        w_.field("file", c.origin.file);
        w_.integer("line", c.origin.line);
      });
    });
  }

  void finding(const Report& r, const Finding& f) {
    const Working& w = r.sheets[f.sheet].working;
    w_.field("check", f.check);
    w_.field("title", f.title);
    w_.field("subject", f.subject);
    w_.field("verdict", report::word(f.verdict));
    w_.field("message", f.message);
    w_.optional("change", f.change);
    w_.optional("missing", f.missing);
    w_.optional("waits_for", f.waits_for);
    w_.field("basis", report::word(f.basis));
    citation(f.cite);
    where(f.where);
    compared("demand", w, f.demand);
    compared("limit", w, f.limit);
    compared("beside", w, f.beside);
    w_.optional("must", f.limit == no_step ? std::string_view{} : word(f.must));
    if (f.used) w_.number("used", *f.used);
    else w_.null("used");
    remedy(r, f);
    working(w, f);
  }

  /// Null where none was looked for.
  void remedy(const Report& r, const Finding& f) {
    if (!f.remedy) return w_.null("remedy");
    const Remedy& m = r.remedies[*f.remedy];
    w_.object("remedy", [&] {
      w_.field("grade", name(m.grade));
      w_.yes("alone", m.alone);
      w_.list("changes", m.changes, [&](const Change& c) {
        w_.object([&] {
          w_.field("subject", c.subject);
          w_.field("key", c.key);
          w_.field("path", c.path);
          w_.optional("was", c.was);
          w_.field("now", c.now);
        });
      });
      w_.list("left", m.left);
    });
  }

  /// What is compared, without where it comes from: that is in the working.
  void compared(std::string_view k, const Working& w, StepId id) {
    if (id == no_step) return w_.null(k);
    const Step& s = w.steps()[id];
    w_.object(k, [&] {
      w_.field("name", s.name);
      w_.optional("symbol", s.symbol);
      value(s);
    });
  }

  void value(const Step& s) {
    if (s.numeric) w_.number("value", s.value);
    else w_.null("value");
    w_.field("unit", s.unit);
    w_.field("shown", shown(s));
  }

  void working(const Working& w, const Finding& f) {
    const auto steps = full_ ? steps_behind(w, f) : std::vector<StepId>{};
    std::map<StepId, std::size_t> place;
    for (const StepId id : steps) place.emplace(id, place.size());
    w_.list("working", steps, [&](StepId id) { w_.object([&] { step(w.steps()[id], place); }); });
  }

  void step(const Step& s, const std::map<StepId, std::size_t>& place) {
    w_.field("kind", name(s.kind));
    w_.field("name", s.name);
    w_.optional("symbol", s.symbol);
    value(s);
    w_.optional("text", s.numeric ? s.text : std::string_view{});
    w_.optional("expression", s.expression);
    w_.begin_list("inputs");
    for (std::size_t i = 0; i < s.input_count; ++i)
      if (const auto at = place.find(s.inputs[i]); at != place.end())
        w_.object([&] {
          w_.integer("step", at->second);
          w_.optional("parameter", s.parameters[i]);
        });
    w_.end_list();
    citation(s.cite);
    where(s.where);
  }

  Out w_;
  bool full_;
};

}  // namespace

class JsonReports::Writer : public ReportWriter<JsonWriter> {
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
  ReportWriter<CompactJsonWriter> writer(full);
  writer.begin_record(line);
  writer.add(report);
  writer.end_record();
  return writer.take();
}

std::string json_record(std::size_t line, std::string_view file, const std::vector<Diagnostic>& complaints) {
  ReportWriter<CompactJsonWriter> writer(true);
  writer.begin_record(line);
  writer.add_unreadable(file, complaints);
  writer.end_record();
  return writer.take();
}

}  // namespace pullproof::report
