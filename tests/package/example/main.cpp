// Checks the case that standard input holds, and prints what fails.
#include <engine/load.hpp>
#include <engine/run.hpp>

#include <iostream>
#include <iterator>

int main() {
  const std::string text(std::istreambuf_iterator<char>(std::cin), {});
  pullproof::Diagnostics wrong;
  const auto loaded = pullproof::load_case({}, "case", text, {}, wrong);
  for (const auto& d : wrong.sorted()) std::cerr << pullproof::render(d);
  if (!loaded) return 2;
  const pullproof::Report report = pullproof::run_checks(loaded->job, loaded->edition);
  for (const pullproof::Finding& f : report.findings)
    if (f.verdict == pullproof::Verdict::fail) std::cout << f.subject << ": " << f.check << ": " << f.message << '\n';
  return report.outcome() == pullproof::Outcome::fail ? 1 : 0;
}
