#include "report/provenance.hpp"

#include <fmt/format.h>
#include <sha2.h>

#include <array>
#include <iterator>

namespace pullproof::report {
namespace {

/// Texts one after another that no other sequence of texts can be mistaken for.
class Canonical {
 public:
  void add(std::string_view text) { fmt::format_to(std::back_inserter(text_), "{}:{};", text.size(), text); }
  void add(const code::CellRef& cell) {
    if (const auto number = cell.number()) fmt::format_to(std::back_inserter(text_), "{};", *number);
    else if (cell.blank()) text_ += "-;";
    else add(cell.text());
    add(name(cell.basis()));
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

template <class Ref>
void add_entry(Canonical& out, const Ref& e) {
  out.add(e.name());
  out.add(e.title());
  out.add(e.clause());
  out.add(e.source());
  out.add(name(e.basis()));
  out.add(name(e.clause_basis()));
  out.add(e.seen() ? "seen" : "unseen");
}

}  // namespace

std::string sha256(std::string_view bytes) {
  SHA2_CTX context;
  SHA256Init(&context);
  SHA256Update(&context, reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  std::array<std::uint8_t, SHA256_DIGEST_LENGTH> digest{};
  SHA256Final(digest.data(), &context);
  std::string out;
  for (const std::uint8_t b : digest) fmt::format_to(std::back_inserter(out), "{:02x}", b);
  return out;
}

std::string rules_sha256(const code::Edition& edition) {
  Canonical all;
  all.add(edition.id());
  for (const std::string_view title : edition.chain()) all.add(title);
  for (std::size_t i = 0; i < edition.table_count(); ++i) {
    const code::TableRef t = edition.table_at(i);
    add_entry(all, t);
    for (std::size_t c = 0; c < t.columns(); ++c) {
      all.add(t.column_name(c));
      all.add(t.column_unit(c));
    }
    for (std::size_t r = 0; r < t.rows(); ++r)
      for (std::size_t c = 0; c < t.columns(); ++c) all.add(t.cell(r, c));
  }
  for (std::size_t i = 0; i < edition.rule_count(); ++i) {
    const code::RuleRef r = edition.rule_at(i);
    add_entry(all, r);
    for (std::size_t p = 0; p < r.parameters(); ++p) {
      all.add(r.parameter_name(p));
      for (const code::CellRef& cell : r.list(r.parameter_name(p))) all.add(cell);
    }
  }
  return sha256(all.text());
}

}  // namespace pullproof::report
