// Volts along a run: what is left at each joint, with what the limits leave.
#include <algorithm>
#include <cmath>

#include "derive/control-loads.hpp"
#include "derive/drop.hpp"
#include "draw/common.hpp"
#include "draw/figures.hpp"
#include "draw/lettering.hpp"
#include "draw/pen.hpp"

namespace pullproof::draw {
namespace {

constexpr double plot_left = 44, plot_right = column - 6, plot_height = 110;

/// A place on the way.
struct Spot {
  double distance = 0, volts = 0;
  std::string name, volts_text, more;  ///< as reports print them
  bool from_source = false;            ///< its line comes from the first place, not from the one before it
};

/// A voltage that has to be kept.
struct Limit {
  double volts = 0;
  std::string text;
  Verdict verdict = Verdict::pass;
};

struct Plot {
  std::string title, unit;
  std::vector<Spot> spots;
  std::vector<Limit> limits;
};

Ink ink_of(Verdict v) { return v == Verdict::fail ? Ink::bad : v == Verdict::advice ? Ink::warn : Ink::good; }
Stroke stroke_of(std::size_t limit, Verdict v) { return {ink_of(v), 1.2, limit % 2 == 0 ? Dash::dashed : Dash::dotted}; }

/// A round step that divides a range into three to seven.
double round_step(double range) {
  const double rough = range / 5, magnitude = std::pow(10, std::floor(std::log10(rough)));
  for (const double m : {1.0, 2.0, 5.0})
    if (m * magnitude >= rough) return m * magnitude;
  return 10 * magnitude;
}

class Chart {
 public:
  Chart(const Plot& plot, Drawing& drawing) : plot_(plot), drawing_(drawing), pen_(drawing) {}

  void draw() {
    drawing_.title = plot_.title;
    pen_.paragraph(0, column, plot_.title, {.size = head_size, .strong = true, .most = 2});
    find_ranges();
    pen_.paragraph(0, column, low_ > 0 ? fmt::format("volts; the scale begins at {} V", number_text(low_, 3)) : "volts", {.size = small_size, .ink = Ink::faint});
    pen_.space(8);
    top_ = pen_.y;
    grid();
    limits();
    curve();
    numbers();
    pen_.y = top_ + plot_height + 25;
    legend();
    table();
    pen_.finish();
  }

 private:
  double x(double distance) const { return plot_left + 6 + (plot_right - plot_left - 12) * (longest_ > 0 ? distance / longest_ : 0); }
  double y(double volts) const { return top_ + plot_height * (high_ - volts) / (high_ - low_); }

  void find_ranges() {
    double least = plot_.spots.front().volts, most = least;
    for (const Spot& s : plot_.spots) {
      least = std::min(least, s.volts);
      most = std::max(most, s.volts);
      longest_ = std::max(longest_, s.distance);
    }
    for (const Limit& l : plot_.limits) {
      least = std::min(least, l.volts);
      most = std::max(most, l.volts);
    }
    step_ = round_step(std::max(most - least, std::abs(most) * 0.005 + 1e-3));
    low_ = std::floor((least - 0.2 * step_) / step_) * step_;
    if (least >= 0) low_ = std::max(low_, 0.0);
    high_ = std::ceil((most + 0.2 * step_) / step_) * step_;
  }

  void grid() {
    const int lines = static_cast<int>(std::round((high_ - low_) / step_));
    for (int i = 0; i <= lines; ++i) {
      const double v = low_ + i * step_;
      pen_.line({plot_left, y(v)}, {plot_right, y(v)}, {Ink::rule, 0.5});
      pen_.label({plot_left - 4, y(v) + 0.36 * small_size}, fmt::format("{} V", number_text(v, 3)), plot_left - 4, {.size = small_size, .ink = Ink::faint}, Anchor::end);
    }
    pen_.line({plot_left, top_}, {plot_left, top_ + plot_height}, {Ink::faint, 0.75});
    pen_.line({plot_left, top_ + plot_height}, {plot_right, top_ + plot_height}, {Ink::faint, 0.75});
  }

  void limits() {
    for (std::size_t i = 0; i < plot_.limits.size(); ++i) {
      const Limit& l = plot_.limits[i];
      pen_.line({plot_left, y(l.volts)}, {plot_right, y(l.volts)}, stroke_of(i, l.verdict));
    }
  }

  void curve() {
    for (std::size_t i = 1; i < plot_.spots.size(); ++i) {
      const Spot& s = plot_.spots[i];
      const Spot& from = plot_.spots[s.from_source ? 0 : i - 1];
      pen_.line({x(from.distance), y(from.volts)}, {x(s.distance), y(s.volts)}, {Ink::ink, 1.5});
    }
    for (const Spot& s : plot_.spots) pen_.add(Circle{{x(s.distance), y(s.volts)}, 2.4, {Ink::ink, 1}, Ink::paper});
  }

  /// Numbers of the places below the axis, kept apart, each with a line up to its place.
  void numbers() {
    const double axis = top_ + plot_height, width = 11;
    std::vector<double> at;
    for (const Spot& s : plot_.spots) at.push_back(x(s.distance));
    for (std::size_t i = 1; i < at.size(); ++i) at[i] = std::max(at[i], at[i - 1] + width);
    const double right = column - 6;
    for (std::size_t i = at.size(); i-- > 0;) at[i] = std::min(at[i], right - width * static_cast<double>(at.size() - 1 - i));
    for (std::size_t i = 0; i < at.size(); ++i) {
      const Spot& s = plot_.spots[i];
      if (at.front() < 0) break;  // more places than room: the table has them all
      pen_.line({x(s.distance), y(s.volts) + 2.4}, {x(s.distance), axis}, {Ink::rule, 0.5});
      pen_.line({x(s.distance), axis}, {at[i], axis + 7}, {Ink::faint, 0.5});
      pen_.add(Text{{at[i], axis + 15}, number_text(static_cast<double>(i + 1), 0), small_size, Anchor::middle, true});
    }
    pen_.line({x(0), axis}, {x(0), axis + 3}, {Ink::faint, 0.5});
  }

  void legend() {
    for (std::size_t i = 0; i < plot_.limits.size(); ++i) {
      const Limit& l = plot_.limits[i];
      const double middle = pen_.y + 0.6 * text_size;
      pen_.line({1, middle}, {21, middle}, stroke_of(i, l.verdict));
      const bool bad = l.verdict == Verdict::fail;
      if (bad) pen_.cross({24, pen_.y + ascent * text_size}, text_size);
      pen_.paragraph(bad ? 37 : 26, column, l.text, {.ink = ink_of(l.verdict), .most = 3});
      pen_.space(1);
      drawing_.description += l.text + ". ";
    }
    if (!plot_.limits.empty()) pen_.space(4);
  }

  void table() {
    for (std::size_t i = 0; i < plot_.spots.size(); ++i) {
      const Spot& s = plot_.spots[i];
      const std::string number = number_text(static_cast<double>(i + 1), 0);
      pen_.label({0, pen_.y + ascent * text_size}, number, 18, {.strong = true});
      const double volts = text_width(s.volts_text, text_size, true);
      pen_.label({column, pen_.y + ascent * text_size}, s.volts_text, column, {.strong = true}, Anchor::end);
      pen_.paragraph(20, column - volts - 8, s.name, {.most = 2});
      if (!s.more.empty()) pen_.paragraph(20, column, s.more, {.size = small_size, .ink = Ink::faint, .most = 2});
      pen_.space(2);
      drawing_.description += fmt::format("{}: {}{}. ", s.name, s.volts_text, s.more.empty() ? "" : ", " + s.more);
    }
  }

  const Plot& plot_;
  Drawing& drawing_;
  Pen pen_;
  double top_ = 0, low_ = 0, high_ = 1, step_ = 1, longest_ = 0;
};

/// The step of a finding's sheet that has this symbol; the first one after `after`.
const Step* step_called(const Report& report, const Finding& f, std::string_view symbol, StepId after = no_step) {
  const auto& steps = report.sheets[f.sheet].working.steps();
  for (std::size_t i = after == no_step ? 0 : after; i < steps.size(); ++i)
    if (steps[i].symbol == symbol && steps[i].unit == units::volt.name) return &steps[i];
  return nullptr;
}
const Step& step(const Report& report, const Finding& f, StepId id) { return report.sheets[f.sheet].working.steps()[id]; }

bool judged(const Finding& f) {
  return f.demand != no_step && f.limit != no_step && (f.verdict == Verdict::pass || f.verdict == Verdict::fail || f.verdict == Verdict::advice);
}
std::string_view verdict_words(Verdict v) { return v == Verdict::fail ? "; not kept" : v == Verdict::advice ? "; not kept, advice" : "; kept"; }

std::vector<Limit> circuit_limits(const Report& report, const Circuit& c) {
  std::vector<Limit> out;
  // A limit of the circuit alone counts from where the circuit starts: with a feeder before it that is another scale.
  const std::string_view share_check = c.feeder == nullptr ? "drop-branch" : "drop-total";
  for (const Finding* f : about(report, "circuit", *c.name, share_check)) {
    const Step* left = judged(*f) ? step_called(report, *f, "Vt") : nullptr;
    if (left == nullptr) continue;
    const Step& limit = step(report, *f, f->limit);
    out.push_back({left->value, fmt::format("{}: what {} of {} leaves{}", shown(*left), limit.name, shown(limit), verdict_words(f->verdict)), f->verdict});
  }
  for (const Finding* f : about(report, "circuit", *c.name, "drop-appliance")) {
    if (!judged(*f)) continue;
    const Step& limit = step(report, *f, f->limit);
    out.push_back({limit.value, fmt::format("{}: {}{}", shown(limit), limit.name, verdict_words(f->verdict)), f->verdict});
  }
  return out;
}

bool in_metres(const Given<Length>& l) { return l.text.ends_with("m"); }

Plot circuit_plot(const Report& report, Aside& aside, const Circuit& c) {
  const derive::Drop drop = derive::drop_of(aside.cx, c, {.reach = derive::Reach::supply});
  if (!drop.fed) aside.cx.not_covered("the load cannot be fed: at this length the conductors would lose all there is");
  const bool metric = in_metres(derive::length_of(aside.cx, *drop.joints.front().stretch));
  const Unit<Length>& unit = metric ? units::metre : units::foot;
  Plot p{fmt::format("Volts along circuit {}", *c.name), std::string(unit.name), {}, circuit_limits(report, c)};
  p.spots.push_back({0, raw(drop.source.value), "where it starts", aside.shown(drop.source.step), "", false});
  Length far{};
  for (const derive::Joint& j : drop.joints) {
    far += *derive::length_of(aside.cx, *j.stretch);
    const double distance = unit.show(far);
    p.spots.push_back({distance, raw(j.volts.value), fmt::format("end of {}", *j.stretch->in), aside.shown(j.volts.step),
                       fmt::format("{} {} from the start, {} lost", number_text(distance, 2), unit.name, aside.shown(j.share.step)), false});
  }
  return p;
}

std::vector<Limit> control_limits(const Report& report, const Control& c) {
  std::vector<Limit> out;
  for (const Finding* f : about(report, "control", *c.name, "control-drop")) {
    if (!judged(*f)) continue;
    const Step& limit = step(report, *f, f->limit);
    const bool volts = limit.unit == units::volt.name;
    const Step* left = volts ? &limit : step_called(report, *f, "Vm", std::max(f->demand, f->limit));
    if (left == nullptr) continue;
    const std::string text = volts ? fmt::format("{}: {}{}", shown(limit), limit.name, verdict_words(f->verdict))
                                   : fmt::format("{}: what {} of {} leaves{}", shown(*left), limit.name, shown(limit), verdict_words(f->verdict));
    if (std::none_of(out.begin(), out.end(), [&](const Limit& l) { return l.text == text; })) out.push_back({left->value, text, f->verdict});
  }
  return out;
}

Plot control_plot(const Report& report, Aside& aside, const Control& c) {
  const auto source = derive::source_voltage(aside.cx, c);
  const derive::Network n = derive::network_of(aside.cx, c, source, derive::devices_of(aside.cx, c, source));
  const Unit<Length> unit = derive::units_of(c).length;
  Plot p{fmt::format("Volts along control run {}", *c.name), std::string(unit.name), {}, control_limits(report, c)};
  const double distance = unit.show(n.loop.length.value);
  p.spots.push_back({0, raw(source.value), "at the source", aside.shown(source.step), "", false});
  const auto add = [&](std::size_t k, derive::Moment moment) {
    const derive::Arrival a = derive::arrival_at(aside.cx, n, k, moment);
    if (!a.voltage) aside.cx.not_covered("no voltage at the device is stable: together the loads ask for more than the line can bring");
    p.spots.push_back({distance, raw(a.voltage->value), fmt::format("at {}{}", n.devices[k].name, moment == derive::Moment::pulling_in ? " as it pulls in" : ""),
                       aside.shown(a.voltage->step), fmt::format("{} {} from the source", number_text(distance, 2), unit.name), true});
  };
  for (std::size_t k = 0; k < n.devices.size(); ++k) {
    if (n.devices[k].runs()) add(k, derive::Moment::running);
    if (n.devices[k].inrush) add(k, derive::Moment::pulling_in);
  }
  return p;
}

}  // namespace

Figures volts_along(const Report& report, const Case& job, const code::Edition& edition) {
  Figures out;
  const auto add = [&](std::string what, auto&& plot) {
    Aside aside(job, edition);
    const auto why = stopped_by([&] {
      const Plot p = plot(aside);
      if (p.spots.empty()) return;
      Drawing d;
      Chart(p, d).draw();
      out.drawings.push_back(std::move(d));
    });
    if (why) out.missing.push_back({std::move(what), *why});
  };
  for (const Circuit& c : job.circuits)
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::branch)
      add(fmt::format("volts along circuit {}", *c.name), [&](Aside& a) { return circuit_plot(report, a, c); });
  for (const Control& c : job.controls)
    if (derive::says_what_it_draws(c.load) || c.source.voltage)
      add(fmt::format("volts along control run {}", *c.name), [&](Aside& a) { return control_plot(report, a, c); });
  return out;
}

}  // namespace pullproof::draw
