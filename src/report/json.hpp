#pragma once
// Reports as JSON, for programs. report.schema.json beside this file describes every field.
#include <memory>
#include <string>
#include <string_view>

#include "core/diagnostic.hpp"
#include "core/report.hpp"

namespace pullproof::report {

/// Writes one JSON object that holds the reports of several cases, one after another, so that a long list of cases
/// takes no more memory than its largest report. All of it is ASCII: what is not is escaped. Numbers have full
/// precision; one that is not finite is null.
class JsonReports {
 public:
  /// Begins the object. `version` is the program's.
  explicit JsonReports(std::string_view version);
  ~JsonReports();
  JsonReports(const JsonReports&) = delete;
  JsonReports& operator=(const JsonReports&) = delete;

  void add(const Report& report);
  /// A case that could not be read, with what is wrong with it.
  void add_unreadable(std::string_view file, const std::vector<Diagnostic>& complaints);
  /// Ends the object. Nothing may be added afterwards.
  void finish(int exit_status);
  /// What was written since the last call.
  std::string take();

 private:
  class Writer;
  std::unique_ptr<Writer> writer_;
};

/// One report as one line that ends in a line break, for streams; `line` is the number of the line that the case stood
/// on. Without `full` the findings have no working, and what does not apply is only counted: that is most of a report.
/// The schema calls it a record.
std::string json_record(std::size_t line, const Report& report, bool full);
/// As above for a case that could not be read.
std::string json_record(std::size_t line, std::string_view file, const std::vector<Diagnostic>& complaints);

}  // namespace pullproof::report
