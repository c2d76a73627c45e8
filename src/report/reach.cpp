#include "report/reach.hpp"

#include <fmt/format.h>

#include <cmath>

#include "report/json_writer.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

using answers::ReachRow;
using answers::ReachTable;

std::string plain(std::string_view toml_value) { return std::string(answers::unquoted(toml_value)); }

/// Never longer than what was found.
std::string down(double value, int decimals) {
  const double scale = std::pow(10, decimals);
  return fmt::format("{:.{}f}", std::floor(value * scale * (1 + slack)) / scale, decimals);
}
std::string in_feet(Length l) { return down(units::foot.show(l), 0); }
std::string in_metres(Length l) { return down(raw(l), 1); }

std::string stops(const ReachRow& row) {
  if (row.farther) return "nothing: longer runs are not worked out";
  const answers::Objection& o = row.stops;
  return fmt::format("{}{}: {}", o.check, o.verdict == Verdict::advice ? " (advice)" : "", o.limit.empty() ? o.message : o.limit);
}

/// What changes along with a size, by its name where it is not the run's own.
std::string along(const ReachTable& t, const ReachRow& row) {
  std::string s;
  for (const answers::Sized& w : row.with) {
    const std::string_view name = std::string_view(w.subject).substr(w.subject.find(' ') + 1);
    s += fmt::format("{}{}{} {}", s.empty() ? "with " : ", ", w.subject == t.subject ? "" : fmt::format("{}: ", name), w.key, plain(w.value));
  }
  return s;
}

void table(Page& page, const ReachTable& t) {
  page.gap();
  std::string head = raw(t.now) > 0 ? fmt::format(", now {} ft ({} m)", in_feet(t.now), in_metres(t.now)) : std::string{};
  page.paragraph(0, {{t.subject, Ink::strong}, {head}});
  if (t.rows.empty()) {
    page.paragraph(2, t.too_small ? fmt::format("no size does at any length: {} {}, {}", t.too_small->first, t.too_small->second.check, t.too_small->second.message)
                                  : std::string("there is no size to choose from"));
    return;
  }
  std::size_t widest = display_width(t.key);
  for (const ReachRow& r : t.rows) widest = std::max(widest, display_width(r.size) + (r.now ? 6 : 0));
  constexpr std::size_t number = 8;
  page.item(2, {fmt::format("{}{}{}", padded(t.key, widest), padded("feet", number, true), padded("metres", number, true)), Ink::faint}, widest + 2 * number + 2,
            {{"what stops it there", Ink::faint}});
  for (const ReachRow& r : t.rows) {
    const std::string label = fmt::format("{}{}{}", padded(r.size + (r.now ? " (now)" : ""), widest), padded(in_feet(r.longest), number, true), padded(in_metres(r.longest), number, true));
    page.item(2, {label, r.now ? Ink::strong : Ink::plain}, widest + 2 * number + 2, {{stops(r)}});
    if (const std::string with = along(t, r); !with.empty()) page.item(2, {std::string{}, Ink::plain}, widest + 2 * number + 2, {{with, Ink::faint}});
  }
  if (t.no_farther) page.paragraph(2, {{"Larger sizes get no farther.", Ink::faint}});
  if (t.too_small && !t.too_small->second.check.empty())
    page.paragraph(2, {{fmt::format("{} does at no length: {}, {}", t.too_small->first, t.too_small->second.check, std::string_view(t.too_small->second.message).substr(0, t.too_small->second.message.find(": "))), Ink::faint}});
  if (!t.stretch.empty()) page.paragraph(2, {{fmt::format("Feet and metres are of the whole run, one way; '{}' takes up the difference.", t.stretch.substr(t.stretch.find(' ') + 1)), Ink::faint}});
}

}  // namespace

std::string as_text(const answers::Reach& reach, const Report& now, const TextOptions& options) {
  Page page(options.width, options.color);
  if (!now.title.empty()) page.paragraph(0, {{std::string(now.title), Ink::strong}});
  page.paragraph(0, fmt::format("{}, by {}", now.case_file, now.edition_chain.back()));
  page.gap();
  page.paragraph(0, "The longest runs that pass, everything else as it is");
  if (!reach.sized.empty()) {
    std::string s;
    for (const Edit& e : reach.sized) s += fmt::format("{}{} = {}", s.empty() ? "" : ", ", e.key, plain(e.value));
    page.paragraph(2, fmt::format("Worked out first, since the case leaves it open: {}", s));
  }
  if (reach.tables.empty()) page.paragraph(2, "There is no run in this case whose length and size could be varied.");
  for (const ReachTable& t : reach.tables) table(page, t);
  page.gap();
  page.paragraph(0, "Each length was found by running every check; cut nothing to the last foot, and measure the path before you buy. `pullproof check` shows "
                    "what it assumes and the cautions.");
  return page.take();
}

std::string as_json(const answers::Reach& reach, const Report& now, std::string_view version, int exit_status) {
  JsonWriter w;
  const auto edits = [&](std::string_view key, const std::vector<Edit>& all) {
    w.list(key, all, [&](const Edit& e) {
      w.object([&] {
        w.field("path", e.key);
        w.field("value", plain(e.value));
      });
    });
  };
  w.object([&] {
    w.field("format", "pullproof-reach-1");
    w.field("version", version);
    w.field("file", now.case_file);
    w.field("edition", now.edition);
    edits("sized", reach.sized);
    w.list("runs", reach.tables, [&](const ReachTable& t) {
      w.object([&] {
        w.field("subject", t.subject);
        w.field("key", t.key);
        w.optional("stretch", t.stretch);
        if (raw(t.now) > 0) w.number("now_feet", units::foot.show(t.now));
        else w.null("now_feet");
        w.yes("no_farther", t.no_farther);
        w.list("rows", t.rows, [&](const ReachRow& r) {
          w.object([&] {
            w.field("size", r.size);
            w.yes("now", r.now);
            w.number("feet", units::foot.show(r.longest));
            w.number("metres", raw(r.longest));
            w.yes("farther", r.farther);
            w.optional("stops", r.stops.check);
            w.optional("verdict", r.farther ? std::string_view{} : word(r.stops.verdict));
            w.optional("message", r.stops.message);
            w.list("with", r.with, [&](const answers::Sized& e) {
              w.object([&] {
                w.field("path", e.path);
                w.field("value", plain(e.value));
              });
            });
          });
        });
      });
    });
    w.integer("exit_status", exit_status);
  });
  return w.finished();
}

}  // namespace pullproof::report
