// How long a case takes inside one process, against what toml++ needs to parse the same text: each figure is to be
// read as a ratio to `parse_only` of the same run. `tests/bench/run` prints the ratios.
#include <benchmark/benchmark.h>
#include <toml++/toml.h>

#include <fstream>
#include <iterator>
#include <string>

#include "engine/load.hpp"
#include "engine/run.hpp"
#include "job/read.hpp"
#include "report/json.hpp"
#include "report/text.hpp"

namespace {

using namespace pullproof;

std::string text_of(const char* name) {
  std::ifstream in(std::string(PULLPROOF_SOURCE_DIR "/cases/") + name + ".toml");
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Checked {
  LoadedCase loaded;
  Report report;
};

Checked checked(const std::string& text) {
  Diagnostics diagnostics;
  auto loaded = load_case({}, "case.toml", text, {}, diagnostics);
  if (!loaded) throw std::runtime_error("a demo case cannot be read");
  Report report = run_checks(loaded->job, loaded->edition);
  return {std::move(*loaded), std::move(report)};
}

void parse_only(benchmark::State& state, const char* name) {
  const std::string text = text_of(name);
  for (auto _ : state) benchmark::DoNotOptimize(toml::parse(text));
}

void read(benchmark::State& state, const char* name) {
  const std::string text = text_of(name);
  for (auto _ : state) {
    Diagnostics diagnostics;
    benchmark::DoNotOptimize(read_case("case.toml", text, diagnostics));
  }
}

void check(benchmark::State& state, const char* name) {
  const std::string text = text_of(name);
  for (auto _ : state) benchmark::DoNotOptimize(checked(text));
}

void checks_alone(benchmark::State& state, const char* name) {
  const Checked c = checked(text_of(name));
  for (auto _ : state) benchmark::DoNotOptimize(run_checks(c.loaded.job, c.loaded.edition));
}

void text_report(benchmark::State& state, const char* name) {
  const Checked c = checked(text_of(name));
  for (auto _ : state) benchmark::DoNotOptimize(report::as_text(c.report, {}));
}

void json_report(benchmark::State& state, const char* name) {
  const Checked c = checked(text_of(name));
  for (auto _ : state) {
    report::JsonReports json("0");
    json.add(c.report);
    json.finish(0);
    benchmark::DoNotOptimize(json.take());
  }
}

constexpr const char* cases[] = {"wash-house", "dozen-faults", "shared-raceway"};

}  // namespace

int main(int argc, char** argv) {
  for (const char* name : cases) {
    const auto add = [&](const char* what, void (*fn)(benchmark::State&, const char*)) {
      benchmark::RegisterBenchmark((std::string(name) + "/" + what).c_str(), fn, name);
    };
    add("parse_only", parse_only);
    add("read", read);
    add("check", check);
    add("checks_alone", checks_alone);
    add("text_report", text_report);
    add("json_report", json_report);
  }
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  benchmark::RunSpecifiedBenchmarks();
}
