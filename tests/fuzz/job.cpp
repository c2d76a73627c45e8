// Fuzzes the whole check with cases that make sense to the reader: one of the seed cases, with some of its values
// replaced by values that stand elsewhere in the seeds, or by bytes. PULLPROOF_SEEDS names the folder of the seeds.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "engine/load.hpp"
#include "engine/run.hpp"
#include "job/edit.hpp"
#include "report/compose.hpp"
#include "report/html.hpp"
#include "report/markdown.hpp"
#include "report/text.hpp"

using namespace pullproof;

namespace {

/// Decisions taken from bytes: none left, and everything is the first.
class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : at_(data), left_(size) {}
  std::size_t left() const { return left_; }
  std::size_t below(std::size_t n) {
    std::size_t v = next();
    if (n > 256) v = v << 8 | next();
    return v % n;
  }
  std::string text() {
    std::string s;
    for (std::size_t n = below(40); n > 0 && left_ > 0; --n) s += static_cast<char>(next());
    return s;
  }

 private:
  std::uint8_t next() {
    if (left_ == 0) return 0;
    --left_;
    return *at_++;
  }
  const std::uint8_t* at_;
  std::size_t left_;
};

/// "circuit.0.wire.size" without the numbers of the items: values of the same key can take each other's place.
std::string key_of(const std::string& place) {
  std::string out;
  for (std::size_t at = 0; at < place.size();) {
    const std::size_t stop = std::min(place.find('.', at), place.size());
    const std::string part = place.substr(at, stop - at);
    if (part.find_first_not_of("0123456789") != part.npos) out += part + ".";
    at = stop + 1;
  }
  return out;
}

struct Seeds {
  std::vector<std::string> texts;
  std::map<std::string, std::vector<std::string>> values;  ///< by key
  std::vector<std::string> all;

  Seeds() {
    const char* folder = std::getenv("PULLPROOF_SEEDS");
    if (folder == nullptr) std::abort();
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    for (const auto& path : paths) {
      std::ifstream in(path);
      std::string text{std::istreambuf_iterator<char>(in), {}};
      Diagnostics diagnostics;
      if (!load_case({}, "seed.toml", text, {}, diagnostics)) continue;
      for (const Edit& v : values_of(text)) {
        auto& known = values[key_of(v.key)];
        if (std::find(known.begin(), known.end(), v.value) != known.end()) continue;
        known.push_back(v.value);
        all.push_back(v.value);
      }
      texts.push_back(std::move(text));
    }
    if (texts.empty()) std::abort();
  }
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Seeds seeds;
  Bytes in(data, size);
  const std::string& text = seeds.texts[in.below(seeds.texts.size())];
  const bool whole_document = in.below(4) == 0;  // figures and schedules cost more than all the rest
  const auto places = values_of(text);
  std::vector<Edit> edits;
  while (in.left() > 0 && edits.size() < 16 && !places.empty()) {
    const std::string key = places[in.below(places.size())].key;
    const auto& known = seeds.values.at(key_of(key));
    const std::size_t how = in.below(8);
    edits.push_back({key, how == 0   ? toml_string(in.text())
                          : how == 1 ? seeds.all[in.below(seeds.all.size())]
                                     : known[in.below(known.size())]});
  }
  const auto changed = edited(text, edits);
  if (!changed) return 0;
  Diagnostics diagnostics;
  const auto loaded = load_case({}, "case.toml", *changed, {}, diagnostics);
  if (!loaded) {
    for (const Diagnostic& d : diagnostics.sorted())
      if (render(d).empty()) std::abort();
    return 0;
  }
  const Report report = run_checks(loaded->job, loaded->edition);
  if (report.findings.empty() || report::as_text(report, {false, true, 80}).empty()) std::abort();
  if (whole_document) {
    const doc::Document document = report::compose(report, *loaded->job, loaded->edition, "fuzz");
    if (report::as_html(document, report::Paper::letter).empty() || report::as_markdown(document).empty()) std::abort();
  }
  return 0;
}
