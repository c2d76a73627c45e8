#include "probes.hpp"

#include <fmt/format.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "engine/load.hpp"
#include "engine/run.hpp"
#include "job/read.hpp"
#include "report/entry.hpp"
#include "report/steps.hpp"
#include "report/text.hpp"
#include "starter/plan.hpp"
#include "support/first_cases.hpp"

namespace pullproof::mutation {
namespace {

namespace fs = std::filesystem;
using Store = std::shared_ptr<const code::Store>;

std::string read_text(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::string> parts_of(const std::string& text, char mark) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string part; std::getline(in, part, mark);) {
    part.erase(0, std::min(part.find_first_not_of(' '), part.size()));
    part.erase(part.find_last_not_of(' ') + 1);
    out.push_back(part);
  }
  return out;
}

/// The lines "# key: value" of a case.
std::vector<std::pair<std::string, std::string>> marks_of(const std::string& text) {
  std::vector<std::pair<std::string, std::string>> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    if (const auto colon = line.find(": "); line.starts_with("# ") && colon != std::string::npos)
      out.emplace_back(line.substr(2, colon - 2), parts_of(line.substr(colon + 2), '\n').front());
  return out;
}

/// The report of a case, or nothing where it cannot be read or checked under this edition.
std::optional<Report> report_of(const Store& store, const std::string& text, const std::string& edition_id) {
  Diagnostics diagnostics;
  const auto job = read_case("case.toml", text, diagnostics);
  if (!job || !job->edition) return std::nullopt;
  const auto edition = code::Edition::find(store, edition_id.empty() ? *job->edition : edition_id);
  if (!edition) return std::nullopt;
  fit_to_edition(*job, *edition, diagnostics);
  if (!diagnostics.sorted().empty()) return std::nullopt;
  return run_checks(job, *edition);
}

using Say = std::function<std::string(const Report&)>;

Probe probe(std::string name, std::string text, std::vector<std::string> editions, Say say) {
  return {std::move(name), [text = std::move(text), editions = std::move(editions), say = std::move(say)](const Store& store) {
            std::string out;
            for (const std::string& edition : editions) {
              const auto report = report_of(store, text, edition);
              out += report ? say(*report) : "unreadable\n";
            }
            return out;
          }, {}, {}, {}, false};
}

// tests/checks: which expectations are met, by the same rules as check_cases_test.cpp.
Probe situation(const fs::path& file, const std::string& name) {
  const std::string text = read_text(file), check = file.parent_path().filename().string();
  std::vector<std::string> editions{""};
  std::vector<std::vector<std::string>> expected;
  bool none = false;
  for (const auto& [key, value] : marks_of(text)) {
    if (key == "edition") editions.push_back(value);
    if (key != "expect") continue;
    const auto a = value.find(" | "), b = a == std::string::npos ? a : value.find(" | ", a + 3);
    if (a == std::string::npos) none = none || value == "none";
    else expected.push_back({value.substr(0, a), value.substr(a + 3, b == std::string::npos ? b : b - a - 3), b == std::string::npos ? "" : value.substr(b + 3)});
  }
  const bool at_limit = file.stem() == "at-the-limit";
  return probe(name, text, editions, [=](const Report& r) {
    std::string out;
    bool used_up = false, any = false;
    std::vector<bool> met(expected.size());
    for (const Finding& f : r.findings) {
      if (f.check != check) continue;
      any = true;
      for (std::size_t i = 0; i < expected.size(); ++i) {
        const bool fits = f.subject == expected[i][0] && pullproof::name(f.verdict) == expected[i][1] && f.message.find(expected[i][2]) != std::string_view::npos;
        met[i] = met[i] || fits;
        used_up = used_up || (fits && f.verdict == Verdict::pass && f.used && std::abs(*f.used - 1) < 1e-9);
      }
    }
    for (const bool m : met) out += m ? "met\n" : "not met\n";
    if (none) out += any ? "found\n" : "none\n";
    if (at_limit) out += used_up ? "at the limit\n" : "not at it\n";
    return out;
  });
}

// tests/inspection: what fails or is open, and the clause and words of what is expected.
std::string bad_findings(const Report& r) {
  std::multiset<std::string> out;
  for (const Finding& f : r.findings)
    if (f.verdict == Verdict::fail || f.verdict == Verdict::needs_input || f.verdict == Verdict::not_covered)
      out.insert(fmt::format("{} {} {}\n", name(f.verdict), f.subject, f.check));
  std::string all;
  for (const std::string& line : out) all += line;
  return all;
}

Probe inspection(const fs::path& file, const std::string& name) {
  const std::string text = read_text(file);
  std::vector<std::vector<std::string>> expected;
  for (const auto& [key, value] : marks_of(text))
    if (key == "expect") {
      expected.push_back(parts_of(value, '|'));
      expected.back().resize(4);
    }
  return probe(name, text, {""}, [=](const Report& r) {
    std::string out = bad_findings(r);
    for (const auto& e : expected)
      for (const Finding& f : r.findings)
        if (f.subject == e[0] && f.check == e[1] && f.cite.clause == e[2] && f.message.find(e[3]) != std::string_view::npos) out += "as expected\n";
    return out;
  });
}

// tests/editions: in which verdicts the two editions differ.
Probe twin(const fs::path& file, const std::string& name) {
  const std::string text = read_text(file);
  std::vector<std::string> editions;
  for (const auto& [key, value] : marks_of(text))
    if (key == "twin") editions = parts_of(value, ' ');
  return {name, [=](const Store& store) {
            std::map<std::string, std::map<std::string, int>> sides;
            int side = 1;
            for (const std::string& edition : editions) {
              const auto r = report_of(store, text, edition);
              if (!r) return std::string("unreadable");
              for (const Finding& f : r->findings) sides[fmt::format("{} | {}", f.subject, f.check)][std::string(pullproof::name(f.verdict))] += side;
              side = -1;
            }
            std::string out;
            for (const auto& [key, verdicts] : sides)
              for (const auto& [verdict, more] : verdicts)
                if (more != 0) out += fmt::format("{} {} {}\n", key, verdict, more);
            return out;
          }, {}, {}, {}, false};
}

// tests/published/examples: figures within their tolerance, and verdicts.
Probe example(const fs::path& file, const std::string& name) {
  const std::string text = read_text(file);
  std::vector<std::vector<std::string>> figures, verdicts;
  std::vector<std::string> editions{""};
  for (const auto& [key, value] : marks_of(text)) {
    if (key == "figure") figures.push_back(parts_of(value, '|'));
    if (key == "verdict") verdicts.push_back(parts_of(value, '|'));
    if (key == "edition") editions.push_back(value);
  }
  return probe(name, text, editions, [=](const Report& r) {
    std::string out;
    for (const auto& figure : figures) {
      const auto hash = figure[0].find('#');
      int n = hash == std::string::npos ? 1 : std::stoi(figure[0].substr(hash + 1));
      double ours = std::nan("");
      for (const Finding& f : r.findings) {
        if (f.check != figure[0].substr(0, hash) || --n != 0) continue;
        const Working& w = r.sheets[f.sheet].working;
        if (const StepId id = figure[1] == "demand" ? f.demand : f.limit; figure[1] == "demand" || figure[1] == "limit") {
          if (id != no_step) ours = w.steps()[id].value;
        } else {
          for (const StepId step : report::steps_behind(w, f))
            if (w.steps()[step].symbol == figure[1]) ours = w.steps()[step].value;
        }
      }
      const double want = std::stod(figure.size() > 4 ? figure[4] : figure[2]);
      out += std::abs(ours - want) <= std::stod(figure[3]) + 1e-9 ? "within\n" : "outside\n";
    }
    for (const auto& verdict : verdicts)
      out += std::any_of(r.findings.begin(), r.findings.end(), [&](const Finding& f) { return f.check == verdict[0] && pullproof::name(f.verdict) == verdict[1]; }) ? "met\n" : "not met\n";
    return out;
  });
}

// The second opinion: verdict and figures of what it has an opinion on.
Probe random_case(const std::string& line, const std::string& name) {
  rapidjson::Document d;
  d.Parse(line.c_str());
  std::set<std::string, std::less<>> checks;
  for (const auto& check : d["asks"].GetArray()) checks.insert(check.GetString());
  return probe(name, d["case"].GetString(), {""}, [=](const Report& r) {
    std::string out;
    for (const Finding& f : r.findings) {
      if (!checks.contains(f.check) || f.demand == no_step || f.limit == no_step) continue;
      const Working& w = r.sheets[f.sheet].working;
      out += fmt::format("{} {} {} {} {}\n", f.check, f.subject, pullproof::name(f.verdict), w.steps()[f.demand].value, w.steps()[f.limit].value);
    }
    return out;
  });
}

const std::set<std::string, std::less<>> of_starters{"appliances", "starters", "starter-controls", "starter-methods"};

// tests/fault/new_case_test.cpp: the first case of each appliance can be checked, and nothing in it fails.
Probe first_case(const std::string& appliance, const std::string& edition_id, const char* dwelling) {
  return {fmt::format("first case of {} in {}, dwelling {}", appliance, edition_id, dwelling),
          [=](const Store& store) {
            Shelf shelf;
            shelf.store = store;
            const auto edition = code::Edition::find(store, edition_id);
            const auto names = starter::appliances(*edition);
            if (std::find(names.begin(), names.end(), appliance) == names.end()) return std::string("not there");
            starter::Plan plan = starter::plan_for(*edition, appliance);
            plan.dwelling = dwelling;
            starter::follow(*edition, plan, {});
            starter::fit_sizes(shelf, *edition, plan);
            const starter::Checked c = starter::check(shelf, plan);
            const bool fails = std::any_of(c.report.findings.begin(), c.report.findings.end(), [](const Finding& f) { return f.verdict == Verdict::fail; });
            return fmt::format("{} {} {}", c.complaints.empty(), fails, c.complaints.empty() && c.report.count(Verdict::pass) < 10);
          }, {}, {}, of_starters, false};
}

// tests/golden/first_cases_test.cpp: the lines of one appliance.
Probe page_of(const std::string& appliance) {
  return {fmt::format("page of first cases, {}", appliance),
          [=](const Store& store) {
            Shelf shelf;
            shelf.store = store;
            const auto names = starter::appliances(*code::Edition::find(store, "us-2023"));
            return std::find(names.begin(), names.end(), appliance) != names.end() ? test::first_case(shelf, "us-2023", appliance) : "not there";
          }, {}, {}, of_starters, false};
}

Probe page_of_ways() {
  return {"page of first cases, ways",
          [](const Store& store) {
            Shelf shelf;
            shelf.store = store;
            return test::first_ways(shelf, "us-2023");
          }, {}, {}, of_starters, false};
}

// tests/golden: tables and rules that are printed whole, as `rules show` prints them.
Probe printed(const std::string& table) {
  Probe p{fmt::format("tests/golden, rules show {}", table),
          [=](const Store& store) {
            const auto edition = code::Edition::find(store, "us-2023");
            report::Entry entry;
            entry.table = edition->table(table);
            for (std::size_t r = 0; r < entry.table->rows(); ++r) entry.rows.push_back(r);
            for (std::size_t c = entry.table->keys(); c < entry.table->columns(); ++c) entry.columns.push_back(c);
            return report::entry_text(*edition, entry, 80, false);
          }, {}, {}, {table}, true};
  // It asks for every cell by its place.
  const auto t = code::Edition::find(code::built_in(), "us-2023")->table(table);
  Asked& asked = p.asked[table];
  asked.columns.insert("");
  for (std::size_t c = 0; c < t->columns(); ++c) asked.columns.emplace(t->column_name(c));
  return p;
}

Probe printed_rule(const std::string& rule) {
  return {fmt::format("tests/golden, rules show {}", rule),
          [=](const Store& store) {
            const auto edition = code::Edition::find(store, "us-2023");
            report::Entry entry;
            entry.rule = edition->rule(rule);
            return report::entry_text(*edition, entry, 80, false);
          }, {}, {}, {"rule " + rule}, true};
}

}  // namespace

std::vector<Probe> all_probes(const std::string& root, const std::string& random_cases) {
  std::vector<Probe> out;
  const auto each = [&](const char* folder, auto make) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(root) / folder))
      if (entry.path().extension() == ".toml") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    for (const fs::path& file : files) out.push_back(make(file, file.lexically_relative(root).generic_string()));
  };
  each("tests/checks", situation);
  each("tests/inspection", inspection);
  each("tests/editions", twin);
  each("tests/published/examples", example);
  // The golden output has every word of these; the cases of appliances pass whole, without advice.
  each("cases", [](const fs::path& file, const std::string& name) {
    const bool appliance = file.parent_path().filename() == "appliances";
    Probe p = probe(name, read_text(file), {""}, [=](const Report& r) {
      if (!appliance) return report::as_text(r, {});
      const bool advice = std::any_of(r.findings.begin(), r.findings.end(), [](const Finding& f) { return f.verdict == Verdict::advice; });
      return fmt::format("{} {}\n", pullproof::name(r.outcome()), advice);
    });
    p.every_word = !appliance;
    return p;
  });
  const auto latest = code::Edition::find(code::built_in(), "us-2023");
  for (const std::string_view appliance : starter::appliances(*latest))
    for (const auto& [edition, dwelling] : {std::pair("us-2023", "yes"), std::pair("us-2023", "no"), std::pair("us-2017", "yes")})
      out.push_back(first_case(std::string(appliance), edition, dwelling));
  for (const std::string_view appliance : starter::appliances(*latest)) out.push_back(page_of(std::string(appliance)));
  out.push_back(page_of_ways());
  for (const char* table : {"burial", "cautions", "control-devices", "interim-amendments"}) out.push_back(printed(table));
  for (const char* rule : {"bus-rates", "bus-short", "control-fuses", "control-stranding", "control-transformer-idle", "control-transformers", "disconnect-plug",
                           "load-agreement", "material-list", "panel-directory"})
    out.push_back(printed_rule(rule));
  std::ifstream in(random_cases);
  std::size_t number = 0;
  for (std::string line; std::getline(in, line);) out.push_back(random_case(line, fmt::format("random case {}", number++)));
  return out;
}

}  // namespace pullproof::mutation
