// Changes every cell of the rule data by one step and runs the cases that look at it: mutate ROOT RANDOM COMPARED WORKERS [NAME...]
//
// ROOT is the source folder, RANDOM the random cases of the second opinion (a JSON object a line), COMPARED the cells that
// are held against a second copy (EDITION TABLE ROW COLUMN or EDITION rule RULE PARAMETER a line), which need no run. A cell
// that editions share is one cell. For each it prints, tab between: what came of it (compared, caught, missed, unasked, or
// passed over when it is of none of the named tables and rules), name of table or rule, row, column, file and line, the
// value, the change that was missed, what caught the others, the edition and the basis of the value.
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <sstream>
#include <tuple>

#include "probes.hpp"

namespace pullproof::mutation {
namespace {

using code::Cell;
using code::CellKind;
using code::Store;
using code::Str;

/// The same cell in all the editions that have it.
struct Place {
  std::string name, row, column;  ///< "rule NAME" for rules, whose columns are parameters
  std::string edition;
  std::size_t row_number = 0;
  bool key = false;
  std::vector<std::size_t> cells;
  std::vector<Str> neighbours;  ///< other texts of the column
  bool numbers = false;         ///< the column has numbers
  bool compared = false;
};

std::string shown(const Store& s, const Cell& c) {
  if (c.kind == CellKind::blank) return "(blank)";
  return c.kind == CellKind::number ? fmt::format("{}", c.number) : std::string(s.text(c.text));
}

/// One unit of the last printed digit.
double step_of(double v) {
  const std::string text = fmt::format("{}", v);
  const auto point = text.find('.');
  if (text.find('e') != std::string::npos || point == std::string::npos || text.substr(point) == ".0") return std::abs(v) >= 1e9 ? v / 2 : 1;
  return std::pow(10.0, -static_cast<double>(text.size() - point - 1));
}

class Data {
 public:
  explicit Data(const Store& built_in) : store(std::make_shared<Store>(built_in)), cells(built_in.cells.begin(), built_in.cells.end()) {
    store->cells = cells;
  }
  std::shared_ptr<Store> store;
  std::vector<Cell> cells;
};

std::vector<Place> places_of(const Data& d, const std::set<std::string>& compared) {
  const Store& s = *d.store;
  std::map<std::tuple<std::string, std::string, std::string, std::uint16_t, std::uint32_t>, Place> found;
  const auto put = [&](std::string_view edition, const std::string& name, const std::string& row, const std::string& column, std::size_t cell) -> Place& {
    const Cell& c = d.cells[cell];
    Place& p = found[{name, row, column, c.file, c.line}];
    if (p.cells.empty()) std::tie(p.name, p.row, p.column, p.edition) = std::tuple(name, row, column, std::string(edition));
    if (std::find(p.cells.begin(), p.cells.end(), cell) == p.cells.end()) p.cells.push_back(cell);
    return p;
  };
  for (const code::EditionRecord& e : s.editions) {
    const std::string_view id = s.text(e.id);
    if (s.text(e.publisher).empty()) continue;  // invented amendments have tests of their own
    for (const code::Table& t : s.tables.subspan(e.first_table, e.tables)) {
      if (!t.entry.seen) continue;
      const std::string name(s.text(t.entry.name));
      for (std::uint32_t r = 0; r < t.rows; ++r) {
        std::string row;
        for (std::uint32_t k = 0; k < std::max(t.keys, 1U); ++k) row += (k == 0 ? "" : ", ") + shown(s, d.cells[t.first_cell + r * t.columns + k]);
        for (std::uint32_t c = 0; c < t.columns; ++c) {
          Place& p = put(id, name, row, std::string(s.text(s.columns[t.first_column + c].name)), t.first_cell + r * t.columns + c);
          p.row_number = r;
          p.key = c < t.keys;
          p.compared = p.compared || compared.contains(fmt::format("{} {} {} {}", id, name, r, c));
          for (std::uint32_t other = 0; other < t.rows && p.neighbours.empty(); ++other)
            for (const std::uint32_t near : {r + other, r - other}) {
              if (near >= t.rows) continue;
              const Cell& n = d.cells[t.first_cell + near * t.columns + c];
              p.numbers = p.numbers || n.kind == CellKind::number;
              if (n.kind == CellKind::text && n.text != d.cells[t.first_cell + r * t.columns + c].text) p.neighbours.push_back(n.text);
            }
          if (p.neighbours.empty()) p.neighbours.push_back(t.entry.title);
        }
      }
    }
    for (const code::Rule& r : s.rules.subspan(e.first_rule, e.rules)) {
      if (!r.entry.seen) continue;
      for (const code::Parameter& q : s.parameters.subspan(r.first_parameter, r.parameters))
        for (std::uint32_t i = 0; i < q.cells; ++i) {
          Place& p = put(id, "rule " + std::string(s.text(r.entry.name)), q.list ? fmt::format("item {}", i + 1) : "", std::string(s.text(q.name)), q.first_cell + i);
          p.compared = p.compared || compared.contains(fmt::format("{} {} {}", id, p.name, p.column));
          if (p.neighbours.empty()) p.neighbours.push_back(r.entry.title);
        }
    }
  }
  std::vector<Place> out;
  for (auto& entry : found) out.push_back(std::move(entry.second));
  return out;
}

/// A quantity in text, "24 in", one printed step more or less; a flag turned over; else nothing.
std::vector<std::string> text_steps(std::string_view text) {
  if (text == "yes") return {"no"};
  if (text == "no") return {"yes"};
  double number = 0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), number).ptr;
  const std::string unit(end, text.data() + text.size());
  if (end == text.data() || unit.empty() || unit[0] != ' ' || unit == " AWG" || unit == " kcmil") return {};
  const double step = step_of(number);
  return {fmt::format("{:.10g}{}", number + step, unit), fmt::format("{:.10g}{}", number - step, unit)};
}

struct Change {
  Cell cell;
  std::string shown;
};

class Runner {
 public:
  /// `chosen` are the names of the tables and rules ("rule NAME") that are changed; all of them where it is empty.
  Runner(Data& data, std::vector<Probe>& probes, std::set<std::string, std::less<>> chosen) : data_(data), probes_(probes), chosen_(std::move(chosen)) {}

  void learn() {
    for (Probe& p : probes_) {
      note_lookups(&p.asked);
      p.usual = p.outcome(data_.store);
      note_lookups(nullptr);
    }
  }

  std::string judge(const Place& p) {
    const Cell was = data_.cells[p.cells[0]];
    const auto line = [&](std::string_view what, std::string_view missed, std::string_view by) {
      return fmt::format("{}\t{}\t{}\t{}\t{}:{}\t{}\t{}\t{}\t{}\t{}\n", what, p.name, p.row, p.column, data_.store->text(data_.store->files[was.file]), was.line,
                         shown(*data_.store, was), missed, by, p.edition, pullproof::name(was.basis));
    };
    if (p.compared) return line("compared", "", "");
    if (!chosen_.empty() && !chosen_.contains(p.name)) return line("passed over", "", "");
    const std::vector<std::size_t> asking = those_who_ask(p);
    if (asking.empty()) return line("unasked", "", "");
    std::string missed, by;
    for (const Change& change : changes_of(p, was)) {
      const std::string caught = caught_by(p, change.cell, asking);
      if (caught.empty()) missed += (missed.empty() ? "" : ", ") + change.shown;
      else by = caught;
    }
    for (const std::size_t cell : p.cells) data_.cells[cell] = was;
    return line(missed.empty() ? "caught" : "missed", missed, by);
  }

 private:
  /// Cases that ask for the column, those first that found the row.
  std::vector<std::size_t> those_who_ask(const Place& p) const {
    std::vector<std::size_t> found, others;
    for (std::size_t i = 0; i < probes_.size(); ++i) {
      if (!probes_[i].only.empty() && !probes_[i].only.contains(p.name)) continue;
      const auto at = probes_[i].asked.find(p.name);
      if (at == probes_[i].asked.end() || !at->second.columns.contains(p.key ? std::string_view{} : std::string_view(p.column))) continue;
      if (p.name.starts_with("rule ") || at->second.rows.contains(p.row_number)) found.push_back(i);
      else if (at->second.rows.empty()) others.push_back(i);  // it walks through the table
    }
    // Those first that look at every word, then some from everywhere: what is missed here may still be caught.
    constexpr std::size_t most_others = 120;
    const auto whole = std::stable_partition(others.begin(), others.end(), [&](std::size_t i) { return probes_[i].every_word; });
    const auto some = static_cast<std::size_t>(others.end() - whole), each = some / most_others + 1;
    found.insert(found.end(), others.begin(), whole);
    for (std::size_t i = 0; i < some; i += each) found.push_back(whole[static_cast<std::ptrdiff_t>(i)]);
    return found;
  }

  std::vector<Change> changes_of(const Place& p, const Cell& was) {
    std::vector<Change> out;
    const auto number = [&](double v) {
      Cell c = was;
      c.kind = CellKind::number;
      c.number = v;
      out.push_back({c, fmt::format("{:.10g}", v)});
    };
    const auto text = [&](Str t) {
      Cell c = was;
      c.kind = CellKind::text;
      c.text = t;
      out.push_back({c, std::string(data_.store->text(t))});
    };
    if (was.kind == CellKind::number) {
      number(was.number + step_of(was.number));
      number(was.number - step_of(was.number));
    } else if (was.kind == CellKind::text) {
      const auto steps = text_steps(data_.store->text(was.text));
      for (const std::string& s : steps) text(added(s));
      if (steps.empty()) text(p.neighbours[0]);
    } else if (p.numbers) {
      number(1);
    } else {
      text(p.neighbours[0]);
    }
    return out;
  }

  /// A text at the end of the pool, which other texts keep their places in.
  Str added(const std::string& text) {
    if (pool_.empty()) pool_ = data_.store->pool;
    const auto at = pool_.find(text);
    if (at != std::string::npos) return {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(text.size())};
    const Str out{static_cast<std::uint32_t>(pool_.size()), static_cast<std::uint32_t>(text.size())};
    pool_ += text;
    data_.store->pool = pool_;
    return out;
  }

  std::string caught_by(const Place& p, const Cell& now, const std::vector<std::size_t>& asking) {
    for (const std::size_t cell : p.cells) data_.cells[cell] = now;
    for (const std::size_t i : asking) {
      std::string outcome;
      try {
        outcome = probes_[i].outcome(data_.store);
      } catch (const std::exception&) {
        outcome = "thrown";
      }
      if (outcome != probes_[i].usual) return probes_[i].name;
    }
    return {};
  }

  Data& data_;
  std::vector<Probe>& probes_;
  std::set<std::string, std::less<>> chosen_;
  std::string pool_;
};

/// Every `workers`th place from `from` on, in a process of its own that may die of a change, which counts as caught.
void work(Runner& runner, const std::vector<Place>& places, std::size_t from, std::size_t workers, const std::string& file) {
  for (std::size_t next = from; next < places.size();) {
    const pid_t child = fork();
    if (child == 0) {
      std::FILE* out = std::fopen(file.c_str(), "a");
      for (std::size_t i = next; i < places.size(); i += workers) {
        alarm(60);
        const std::string line = runner.judge(places[i]);
        std::fwrite(line.data(), 1, line.size(), out);
        std::fflush(out);
      }
      std::_Exit(0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFEXITED(status)) return;
    std::ifstream in(file);
    const auto done = static_cast<std::size_t>(std::count(std::istreambuf_iterator<char>(in), {}, '\n'));
    const std::size_t died = from + done * workers;
    std::ofstream(file, std::ios::app) << fmt::format("caught\t{}\t{}\t{}\t\t\t\ta crash or a time limit\t{}\t\n", places[died].name, places[died].row, places[died].column, places[died].edition);
    next = died + workers;
  }
}

}  // namespace
}  // namespace pullproof::mutation

int main(int argc, char** argv) {
  using namespace pullproof;
  using namespace pullproof::mutation;
  if (argc < 5) {
    std::fputs("usage: mutate ROOT RANDOM COMPARED WORKERS [NAME...]\n", stderr);
    return 2;
  }
  std::set<std::string> compared;
  std::ifstream in(argv[3]);
  for (std::string line; std::getline(in, line);) compared.insert(line);
  Data data(*code::built_in());
  std::vector<Probe> probes = all_probes(argv[1], argv[2]);
  Runner runner(data, probes, {argv + 5, argv + argc});
  runner.learn();
  std::erase_if(probes, [](const Probe& p) { return p.usual.find("unreadable") != std::string::npos; });
  const std::vector<Place> places = places_of(data, compared);
  fmt::print(stderr, "{} cases, {} cells\n", probes.size(), places.size());
  const std::size_t workers = std::stoul(argv[4]);
  const std::string file = (std::filesystem::temp_directory_path() / fmt::format("pullproof-mutation-{}-", getpid())).string();
  std::vector<pid_t> running;
  for (std::size_t w = 0; w < workers; ++w) {
    const pid_t child = fork();
    if (child == 0) {
      work(runner, places, w, workers, file + std::to_string(w));
      std::_Exit(0);
    }
    running.push_back(child);
  }
  for (const pid_t child : running) waitpid(child, nullptr, 0);
  for (std::size_t w = 0; w < workers; ++w) {
    std::ifstream part(file + std::to_string(w));
    std::cout << part.rdbuf();
    std::remove((file + std::to_string(w)).c_str());
  }
  return 0;
}
