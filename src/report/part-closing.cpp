// The end of a report: cautions, signature lines, and where it came from.
#include <fmt/format.h>

#include <algorithm>

#include "report/parts.hpp"
#include "report/provenance.hpp"
#include "report/summary.hpp"

namespace pullproof::report {
namespace {

doc::List list_of(const std::vector<std::string_view>& items) {
  doc::List list;
  for (const std::string_view item : items) list.items.push_back(plain(item));
  return list;
}

/// What permit desks ask to see beside a calculation (permit pages of cities and counties; see the notes of permit
/// handouts that name data sheet, instructions, plot plan and trench detail).
void attachments(Part& out, const Case& job) {
  doc::List list;
  list.items.push_back(plain("Maker's data sheet of each appliance, with its listing mark"));
  list.items.push_back(plain("Maker's installation instructions"));
  list.items.push_back(plain("Site or floor plan with panel, equipment and, outdoors, property lines"));
  const auto below = [](const auto& way) { return way.laid.cover || (way.place && way.place->has(Place::underground)); };
  if (std::any_of(job.raceways.begin(), job.raceways.end(), below) || std::any_of(job.cables.begin(), job.cables.end(), below))
    list.items.push_back(plain("Trench detail: depth, cover, wiring method"));
  if (!job.supply.service.where) list.items.push_back(plain("Load calculation of the service, which this case does not have"));
  out.heading(3, "To attach, where the permit desk asks for it");
  out.add(std::move(list));
}

std::string last_part(std::string_view path) { return std::string(path.substr(path.rfind('/') + 1)); }

}  // namespace

void add_closing(Part& out, const Source& s, std::string_view program) {
  out.heading(2, "Cautions", "cautions");
  out.add(list_of(s.report.cautions));
  if (!s.report.notes.empty()) {
    out.heading(3, "What this program cannot see");
    out.add(list_of(s.report.notes));
  }
  out.heading(2, "Signatures", "signatures");
  out.add(doc::Block(doc::Signature{"Prepared by", {"Signature", "Name, address, phone", "Date"}}));
  out.add(doc::Block(doc::Signature{"Contractor", {"Signature", "License class and number", "Date"}}));
  out.add(doc::Block(doc::Signature{"Owner, where the owner does the work", {"Signature", "Date"}}));
  out.add(doc::Block(doc::Signature{"Engineer, where a seal is asked for", {"Signature and seal", "License number", "Date"}}));
  out.add(doc::Block(doc::Signature{"Inspector", {"Signature", "Date"}}));
  attachments(out, s.job);
  out.heading(2, "Provenance", "provenance");
  doc::Fields f;
  f.rows.push_back({"Program", plain(program)});
  f.rows.push_back({"Code edition", plain(fmt::format("{} ({})", edition_text(s.report), s.report.edition))});
  std::string chain;
  for (const std::string_view title : s.report.edition_chain) chain += fmt::format("{}{}", chain.empty() ? "" : ", then ", title);
  f.rows.push_back({"Rules laid over one another", plain(chain)});
  if (!s.edition.ordinance().empty()) f.rows.push_back({"Ordinance", plain(s.edition.ordinance())});
  if (!s.edition.adopted().empty()) f.rows.push_back({"Adopted", plain(s.edition.adopted())});
  f.rows.push_back({"SHA-256 of the rules", plain(rules_sha256(s.edition), doc::Role::code)});
  f.rows.push_back({"Case", plain(last_part(s.report.case_file))});
  f.rows.push_back({"SHA-256 of the case", plain(sha256(s.job.text), doc::Role::code)});
  out.add(std::move(f));
  out.paragraph("The same program, rules and case give this report again, byte for byte.", doc::Role::faint);
}

}  // namespace pullproof::report
