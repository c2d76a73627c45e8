#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <iterator>

#include "engine/run.hpp"
#include "job/read.hpp"
#include "report/text.hpp"

int main(int argc, char** argv) {
  using namespace pullproof;
  if (argc < 2) return 2;
  std::ifstream in(argv[1], std::ios::binary);
  if (!in) {
    fmt::print(stderr, "{}: cannot be read\n", argv[1]);
    return 2;
  }
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  Diagnostics diagnostics;
  const auto job = read_case(argv[1], std::move(text), diagnostics);
  std::optional<code::Edition> edition;
  if (job) {
    edition = code::Edition::find(code::built_in(), job->edition.value);
    if (!edition) {
      fmt::print(stderr, "no such edition\n");
      return 2;
    }
    fit_to_edition(*job, *edition, diagnostics);
  }
  for (const Diagnostic& d : diagnostics.sorted()) fmt::print(stderr, "{}", render(d));
  if (!diagnostics.empty()) return 2;
  const Report report = run_checks(job, *edition);
  fmt::print("{}", report::as_text(report, {false, argc > 2, 80}));
  switch (report.outcome()) {
    case Outcome::pass: return 0;
    case Outcome::fail: return 1;
    case Outcome::open: return 3;
  }
  return 2;
}
