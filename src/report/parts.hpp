#pragma once
// The parts of a report's document, each with a file of its own. See compose.hpp.
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "engine/context.hpp"
#include "job/case.hpp"
#include "report/document.hpp"

namespace pullproof::report {

/// What a document is made of.
struct Source {
  const Report& report;
  const Case& job;
  const code::Edition& edition;
};

/// Blocks that grow, with short ways to add to them.
class Part {
 public:
  void heading(int level, std::string_view text, std::string_view anchor = {});
  void paragraph(std::string_view text, doc::Role role = doc::Role::plain);
  void add(doc::Block block) { blocks_.push_back(std::move(block)); }
  /// Leaves tables without rows and lists without items out.
  void add(doc::Table table);
  void add(doc::List list);
  bool empty() const { return blocks_.empty(); }
  std::vector<doc::Block> take() { return std::move(blocks_); }

 private:
  std::vector<doc::Block> blocks_;
};

doc::Spans plain(std::string_view text, doc::Role role = doc::Role::plain);
doc::Table table(std::string_view caption, std::initializer_list<doc::Table::Column> columns);

/// A value as the case has it, as written; no spans where it is absent.
template <class T>
doc::Spans as_written(const Given<T>& g) { return g ? plain(g.text) : doc::Spans{}; }
inline doc::Spans as_written(const Given<std::string_view>& g) { return g ? plain(*g) : doc::Spans{}; }

/// The steps of some working as a table: what, the sum with its numbers, where it comes from.
doc::Table working_table(const Report& report, const Working& working, const std::vector<StepId>& steps, std::string_view caption);

/// Works out what the checks would, on a sheet that nobody sees and with assumptions that are said elsewhere.
class Reckoning {
 public:
  Reckoning(const Source& source, std::string_view subject)
      : context_(own_, source.job, source.edition, "report", "report", own_.texts->keep(subject), {}) {}
  Context& context() { return context_; }

 private:
  Report own_;
  Context context_;
};
/// What `f(context)` gives; where it cannot be worked out, nothing, and `why` says why.
template <class F>
auto reckon(const Source& source, std::string_view subject, std::string& why, F&& f) -> std::optional<decltype(f(std::declval<Context&>()))> {
  Reckoning r(source, subject);
  try {
    return f(r.context());
  } catch (const Stop& stop) {
    why = stop.message;
  } catch (const std::exception& e) {  // a rules folder of one's own may lack what is asked for
    why = e.what();
  }
  return std::nullopt;
}

/// What a circuit is called: "circuit heater".
std::string name_of(const Circuit& circuit);
std::string name_of(const Control& control);

void add_job(Part& out, const Source& source);
void add_assumptions(Part& out, const Source& source);
void add_open(Part& out, const Source& source);
void add_findings(Part& out, const Source& source);
void add_figures(Part& out, const Source& source);
void add_working(Part& out, const Source& source);
void add_schedules(Part& out, const Source& source);
void add_materials(Part& out, const Source& source);
void add_field_tests(Part& out, const Source& source);
void add_closing(Part& out, const Source& source, std::string_view program);

/// Where the working of a finding stands: "working-7", 1 for the first finding; empty where it has none.
std::string working_anchor(const Report& report, const Finding& finding);

}  // namespace pullproof::report
