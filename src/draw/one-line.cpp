// One-line diagrams: from the supply to the appliance, top to bottom, each part with what is known of it beside it.
#include <algorithm>
#include <cmath>

#include "derive/feeding.hpp"
#include "derive/wiring.hpp"
#include "draw/common.hpp"
#include "draw/figures.hpp"
#include "draw/lettering.hpp"
#include "draw/pen.hpp"
#include "job/words.hpp"

namespace pullproof::draw {
namespace {

constexpr double spine = 26;       ///< where the line runs
constexpr double words_left = 48;  ///< where the text begins
constexpr double half_box = 13;

/// Texts of a part: what it is, and what is known of it, in lines.
struct Words {
  std::string head;
  std::vector<std::string> lines;
};

/// Joins what is there with ", ".
class Listing {
 public:
  Listing& add(std::string_view text) {
    if (!text.empty()) all_ += (all_.empty() ? "" : ", ") + std::string(text);
    return *this;
  }
  template <class T>
  Listing& given(const Given<T>& g, std::string_view before = {}, std::string_view after = {}) {
    return g ? add(fmt::format("{}{}{}", before, g.text, after)) : *this;
  }
  const std::string& text() const { return all_; }

 private:
  std::string all_;
};

/// Draws one diagram. Every part begins and ends on the spine.
class Diagram {
 public:
  explicit Diagram(Drawing& drawing) : drawing_(drawing), pen_(drawing) {}

  Pen& pen() { return pen_; }

  void title(const std::string& text) {
    drawing_.title = text;
    pen_.paragraph(0, column, text, {.size = head_size, .strong = true, .most = 2});
    pen_.space(6);
  }

  /// A part with its symbol, which is `height` high and drawn at the top of the room it is given; the line goes on
  /// below it as far as the text needs.
  template <class F>
  void part(double height, F&& symbol, const Words& words, const std::vector<const Finding*>& findings, const Stroke& below) {
    const double top = pen_.y;
    symbol(top);
    write(words, findings);
    const double end = std::max(pen_.y + 5, top + height + 6);
    if (below.ink != Ink::none) pen_.line({spine, top + height}, {spine, end}, below);
    pen_.y = end;
  }

  /// A stretch of line, as long as its text.
  template <class F>
  void stretch(F&& line, const Words& words, const std::vector<const Finding*>& findings) {
    const double top = pen_.y;
    pen_.space(4);
    write(words, findings);
    pen_.y = std::max(pen_.y + 7, top + 30);
    line(top, pen_.y);
  }

  void finish() {
    pen_.space(1);
    pen_.finish();
  }

 private:
  void write(const Words& words, const std::vector<const Finding*>& findings) {
    pen_.paragraph(words_left, column, words.head, {.strong = true, .most = 2});
    for (const std::string& l : words.lines)
      if (!l.empty()) pen_.paragraph(words_left, column, l, {.size = small_size, .most = 3});
    drawing_.description += words.head;
    for (const std::string& l : words.lines)
      if (!l.empty()) drawing_.description += ", " + l;
    fails(findings);
    drawing_.description += ". ";
  }

  void fails(const std::vector<const Finding*>& findings) {
    std::string titles;
    for (const Finding* f : findings)
      if (f->verdict == Verdict::fail && titles.find(f->title) == std::string::npos)
        titles += (titles.empty() ? "Fails: " : "; ") + std::string(f->title);
    if (titles.empty()) return;
    pen_.space(1);
    pen_.cross({words_left, pen_.y + ascent * small_size}, small_size);
    pen_.paragraph(words_left + 11, column, titles, {.size = small_size, .ink = Ink::bad, .most = 8});
    drawing_.description += ". " + titles;
  }

  Drawing& drawing_;
  Pen pen_;
};

// --- symbols, after the basic shapes of IEC 60617; each is drawn on the spine from `top` down ---

constexpr Stroke wire{Ink::ink, 1.4};
constexpr Stroke control_wire{Ink::ink, 1.2, Dash::dashed};

void box(Pen& pen, double top, double height, const Stroke& stroke = {Ink::ink, 1}) {
  pen.add(Rectangle{{spine - half_box, top}, 2 * half_box, height, 0, stroke, Ink::panel});
}

/// A panel: a box with its bus.
void panel(Pen& pen, double top) {
  box(pen, top, 26);
  pen.line({spine - 8, top + 9}, {spine + 8, top + 9}, {Ink::ink, 2.2});
  pen.line({spine, top + 9}, {spine, top + 26}, wire);
}

constexpr double switch_height = 26;
/// A contact that opens: the blade stands off to the left.
void blade(Pen& pen, double top) {
  pen.line({spine, top}, {spine, top + 6}, wire);
  pen.line({spine, top + 20}, {spine - 7, top + 7}, wire);
  pen.line({spine, top + 20}, {spine, top + switch_height}, wire);
}
void breaker(Pen& pen, double top) {
  blade(pen, top);
  pen.line({spine - 3, top + 3}, {spine + 3, top + 9}, {Ink::ink, 1});
  pen.line({spine - 3, top + 9}, {spine + 3, top + 3}, {Ink::ink, 1});
}
void isolator(Pen& pen, double top) {
  blade(pen, top);
  pen.line({spine - 4, top + 6}, {spine + 4, top + 6}, {Ink::ink, 1.2});
}
void fuse(Pen& pen, double top) {
  pen.add(Rectangle{{spine - 5, top + 4}, 10, 18, 0, {Ink::ink, 1}, Ink::paper});
  pen.line({spine, top}, {spine, top + switch_height}, wire);
}
/// A socket and its plug.
void outlet(Pen& pen, double top) {
  pen.line({spine, top}, {spine, top + 12}, wire);
  pen.add(Arc{{spine, top + 20}, 8, 180, 360, {Ink::ink, 1.2}});
  pen.line({spine, top + 15}, {spine, top + switch_height}, {Ink::ink, 2.6});
}
void load_box(Pen& pen, double top) { pen.add(Rectangle{{spine - half_box, top}, 2 * half_box, 26, 5, {Ink::ink, 1.2}, Ink::panel}); }
void junction(Pen& pen, double top) {
  pen.add(Rectangle{{spine - 8, top}, 16, 16, 0, {Ink::ink, 1}, Ink::panel});
  pen.add(Circle{{spine, top + 8}, 2.2, {Ink::none}, Ink::ink});
}
/// A source of low voltage: two windings.
void source(Pen& pen, double top) {
  pen.add(Circle{{spine, top + 9}, 8, {Ink::ink, 1}, Ink::none});
  pen.add(Circle{{spine, top + 18}, 8, {Ink::ink, 1}, Ink::none});
}

/// A raceway around the line, with a stroke and the number of conductors across it.
void tube(Pen& pen, double top, double bottom, bool raceway, std::string_view conductors, const Stroke& line) {
  if (raceway) pen.add(Rectangle{{spine - 5, top + 1}, 10, bottom - top - 2, 3, {Ink::faint, 0.9}, Ink::paper});
  pen.line({spine, top}, {spine, bottom}, line);
  if (conductors.empty()) return;
  const double middle = (top + bottom) / 2;
  pen.line({spine - 7, middle + 4}, {spine + 7, middle - 4}, {Ink::ink, 1});
  pen.label({spine - 8.5, middle + 7}, conductors, spine - 9, {.size = small_size}, Anchor::end);
}

// --- what is known of the parts ---

std::string system_text(const Supply& s) { return s.system ? std::string(s.system.text) : std::string(); }

Words supply_words(const Supply& s) {
  Listing l;
  l.given(s.available_fault, "available fault ").given(s.voltage, "held at ");
  Listing p;
  p.given(s.panel.main, "main ").given(s.panel.bus, "bus ");
  return {s.name ? std::string(*s.name) : std::string("Supply"), {system_text(s), l.text(), p.text()}};
}

std::string protection(const Given<bool>& gfci, const Given<GfciClass>& cls) {
  if (!gfci.value_or(false)) return {};
  return cls ? fmt::format("GFCI class {}", cls.text) : std::string("GFCI");
}

Words device_words(const Circuit& c) {
  const Breaker& b = c.breaker;
  Listing l;
  if (b.poles) l.add(counted(*b.poles, "pole"));
  l.add(protection(b.gfci, b.gfci_class));
  if (b.afci.value_or(false)) l.add("AFCI");
  l.given(b.interrupting, "interrupts ").given(b.terminals, "terminals ");
  const std::string_view kind = b.kind ? word(*b.kind) : "breaker";
  std::string head = fmt::format("{}{}", static_cast<char>(kind.front() - 'a' + 'A'), kind.substr(1));
  return {b.rating ? fmt::format("{} {}", head, b.rating.text) : head + ", rating not given", {l.text()}};
}

std::string ground_text(const Circuit& c, const derive::GroundOn& g) {
  if (g.shared != nullptr) return fmt::format("ground of circuit {}", *g.shared->name);
  if (g.raceway) return "grounded by the raceway";
  if (!g.wire) return {};
  Listing l;
  l.add(g.size ? g.size->label() : std::string_view{}).add(g.bare ? "bare" : c.ground.color ? *c.ground.color : std::string_view{});
  return "ground " + l.text();
}

struct Wires {
  std::string text, ground, count;
};

Wires wires_on(Aside& aside, const Circuit& c, const Stretch& s) {
  Wires out;
  stopped_by([&] {
    const derive::Line line = derive::line_of(aside.cx, c);
    const derive::Conductors k = derive::conductors_on(aside.cx, c, s);
    const int neutrals = !line.dc && line.neutral ? 1 : 0, hots = line.conductors() - neutrals;
    Listing l;
    l.add(k.sets > 1 ? fmt::format("{} sets of {}", number_text(k.sets, 0), line.conductors()) : fmt::format("{}", line.conductors()));
    std::string made = fmt::format("{} × {}", l.text(), k.size->label());
    made += fmt::format(" {}", word(k.material));
    if (!k.type.empty()) made += fmt::format(" {}", k.type);
    Listing colours;
    if (s.cable == nullptr) colours.given(c.wire.hot, "hot ");
    if (s.cable == nullptr && neutrals > 0) colours.given(c.wire.neutral, "neutral ");
    if (colours.text().empty()) colours.add(counted(hots, "ungrounded conductor")).add(neutrals > 0 ? "1 neutral" : "");
    out.text = fmt::format("{}: {}", made, colours.text());
    const derive::GroundOn g = derive::ground_on(aside.cx, c, s);
    out.ground = ground_text(c, g);
    const double sets = k.sets;
    out.count = number_text(line.conductors() * sets + (g.wire ? 1 : 0), 0);
  });
  return out;
}

Words stretch_words(const Stretch& s, const Wires& w) {
  Listing l;
  if (s.raceway != nullptr) {
    const Raceway& r = *s.raceway;
    l.add(r.type && r.size ? fmt::format("{} {}", *r.type, r.size->label()) : r.type ? std::string(*r.type) : std::string());
    l.given(r.length).given(r.place);
  } else {
    const Cable& k = *s.cable;
    l.given(k.type, "cable ").given(k.length).given(k.place).given(k.inside, "in raceway ");
  }
  return {std::string(*s.in), {l.text(), w.text, w.ground}};
}

/// The boxes of the case that this stretch enters, and that the next one, if there is one, enters too; those of the
/// first and last stretch alone come at the ends.
std::vector<const Box*> boxes_after(const Case& job, const Circuit& c, std::size_t stretch) {
  std::vector<const Box*> out;
  const auto enters = [](const Box& b, const Stretch& s) {
    return std::any_of(b.entries.begin(), b.entries.end(), [&](const BoxEntry& e) {
      return (e.raceway != nullptr && e.raceway == s.raceway) || (e.cable != nullptr && e.cable == s.cable);
    });
  };
  for (const Box& b : job.boxes) {
    std::optional<std::size_t> first, last;
    for (std::size_t i = 0; i < c.path.size(); ++i)
      if (enters(b, c.path[i])) {
        if (!first) first = i;
        last = i;
      }
    if (!first) continue;
    const std::size_t at = *first < *last ? *first : *last;
    if (at == stretch) out.push_back(&b);
  }
  return out;
}

Words box_words(const Box& b) {
  Listing l;
  l.given(b.kind).given(b.size).given(b.volume).given(b.site.place);
  return {std::string(*b.name), {l.text()}};
}

Words disconnect_words(const Circuit& c) {
  const Disconnect& d = c.disconnect;
  const std::string_view kind = d.kind ? word(*d.kind) : std::string_view{};
  Listing l;
  l.given(d.rating).given(d.horsepower);
  if (d.within_sight) l.add(*d.within_sight ? "in sight" : "not in sight");
  if (d.lockable) l.add(*d.lockable ? "lockable" : "not lockable");
  l.given(d.distance, "at ").given(d.enclosure, "type ").add(protection(d.gfci, d.gfci_class));
  return {kind.empty() ? std::string("Disconnect") : fmt::format("Disconnect: {}", kind), {l.text()}};
}

Words receptacle_words(const Circuit& c) {
  Listing l;
  l.given(c.receptacle.rating).given(c.receptacle.place).add(c.receptacle.gfci.value_or(false) ? "GFCI" : "");
  return {"Receptacle", {l.text()}};
}

Words appliance_words(const Circuit& c) {
  const Load& a = c.load;
  Listing l, m;
  l.given(a.current).given(a.power).given(a.apparent_power).given(c.voltage, "at ").given(a.place);
  m.given(a.minimum_circuit_ampacity, "marked minimum ampacity ").given(a.maximum_device, "largest device ");
  std::string also;
  for (const Share& s : c.also_feeds) also += (also.empty() ? "also feeds " : ", ") + std::string(s.name ? *s.name : std::string_view("another load"));
  return {a.appliance ? std::string(*a.appliance) : std::string("Load"), {l.text(), m.text(), also}};
}

Words source_words(const Control& c) {
  Listing l;
  if (c.source.control_class) l.add(fmt::format("Class {}", number_text(*c.source.control_class, 0)));
  l.given(c.source.voltage).given(c.source.rating).given(c.source.current);
  return {fmt::format("Control {}: source", *c.name), {l.text()}};
}

Words run_words(const Control& c) {
  Listing l, k, way;
  l.given(c.length).given(c.place);
  if (c.cable.conductors && c.cable.size) k.add(fmt::format("{} × {}", number_text(*c.cable.conductors, 0), c.cable.size->label()));
  else k.given(c.cable.size);
  k.given(c.cable.type).given(c.cable.stranding).given(c.cable.material);
  for (const Stretch& s : c.path) way.add(*s.in);
  return {"Control run", {l.text(), k.text(), way.text().empty() ? "" : "through " + way.text()}};
}

Words device_words(const ControlLoad& d, const std::string& fallback) {
  Listing l;
  l.given(d.current).given(d.apparent_power).given(d.inrush, "inrush ").given(d.inrush_power, "inrush ").given(d.minimum_voltage, "works from ");
  return {d.name ? std::string(*d.name) : fallback, {l.text()}};
}

// --- the whole ---

using Found = std::vector<const Finding*>;

class OneLine {
 public:
  OneLine(const Report& report, const Case& job, const code::Edition& edition) : report_(report), job_(job), aside_(job, edition) {}

  Drawing circuit(const Circuit& c) {
    Drawing d;
    Diagram g(d);
    g.title(fmt::format("One-line diagram of circuit {}", *c.name));
    g.part(26, [&](double top) { panel(g.pen(), top); }, supply_words(job_.supply), about(report_, "supply", ""), wire);
    for (const Circuit* link : chain(c)) {
      this->link(g, *link, link == &c);
      if (link != &c)
        g.part(26, [&](double top) { panel(g.pen(), top); }, {fmt::format("End of feeder {}", *link->name), {}}, {}, wire);
    }
    if (c.disconnect.kind && *c.disconnect.kind != DisconnectKind::breaker && *c.disconnect.kind != DisconnectKind::plug)
      g.part(switch_height, [&](double top) { disconnect(g.pen(), top, *c.disconnect.kind); }, disconnect_words(c), {}, wire);
    if (has_receptacle(c)) g.part(switch_height, [&](double top) { outlet(g.pen(), top); }, receptacle_words(c), {}, wire);
    const bool controlled = std::any_of(job_.controls.begin(), job_.controls.end(), [&](const Control& k) { return k.served == &c; });
    const Found none;
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::branch)
      g.part(26, [&](double top) { load_box(g.pen(), top); }, appliance_words(c), none, controlled ? Stroke{Ink::faint, 1, Dash::dotted} : Stroke{Ink::none});
    for (const Control& k : job_.controls)
      if (k.served == &c) control(g, k);
    g.finish();
    return d;
  }

  Drawing control(const Control& k) {
    Drawing d;
    Diagram g(d);
    g.title(fmt::format("One-line diagram of control run {}", *k.name));
    control(g, k);
    g.finish();
    return d;
  }

 private:
  static bool has_receptacle(const Circuit& c) {
    return c.receptacle.rating || c.receptacle.kind || (c.load.connection && *c.load.connection == Connection::plug) ||
           (c.disconnect.kind && *c.disconnect.kind == DisconnectKind::plug);
  }

  static void disconnect(Pen& pen, double top, DisconnectKind kind) {
    if (kind == DisconnectKind::none) return pen.line({spine, top}, {spine, top + switch_height}, wire);
    if (kind == DisconnectKind::molded_case_switch) return breaker(pen, top);
    isolator(pen, top);
  }

  std::vector<const Circuit*> chain(const Circuit& c) {
    std::vector<const Circuit*> out{&c};
    stopped_by([&] { out = derive::chain_to(aside_.cx, c); });
    return out;
  }

  void link(Diagram& g, const Circuit& c, bool last) {
    Words words = device_words(c);
    words.lines.insert(words.lines.begin(), fmt::format("{} {}", c.role.value_or(CircuitRole::branch) == CircuitRole::feeder ? "feeder" : "circuit", *c.name));
    const bool fused = c.breaker.kind && *c.breaker.kind == DeviceKind::fuse;
    // What fails of the circuit as a whole stands where it begins.
    g.part(switch_height, [&](double top) { fused ? fuse(g.pen(), top) : breaker(g.pen(), top); }, words, about(report_, "circuit", *c.name), wire);
    for (std::size_t i = 0; i < c.path.size(); ++i) {
      const Stretch& s = c.path[i];
      const Wires w = wires_on(aside_, c, s);
      const auto fails = about(report_, s.raceway != nullptr ? "raceway" : "cable", *s.in);
      const auto line = [&](double top, double bottom) { tube(g.pen(), top, bottom, s.raceway != nullptr, w.count, wire); };
      g.stretch(line, stretch_words(s, w), fails);
      for (const Box* b : boxes_after(job_, c, i))
        g.part(16, [&](double top) { junction(g.pen(), top); }, box_words(*b), about(report_, "box", *b->name), wire);
    }
    if (last && c.path.empty()) g.stretch([&](double top, double bottom) { tube(g.pen(), top, bottom, false, "", wire); }, {"path not given", {}}, {});
  }

  void control(Diagram& g, const Control& k) {
    g.part(26, [&](double top) { source(g.pen(), top); }, source_words(k), about(report_, "control", *k.name), control_wire);
    const std::string count = k.cable.conductors ? number_text(*k.cable.conductors, 0) : std::string();
    g.stretch([&](double top, double bottom) { tube(g.pen(), top, bottom, !k.path.empty(), count, control_wire); }, run_words(k), {});
    g.part(26, [&](double top) { load_box(g.pen(), top); }, device_words(k.load, *k.name == "" ? "device" : fmt::format("Device of {}", *k.name)), {}, k.also.empty() ? Stroke{Ink::none} : control_wire);
    for (std::size_t i = 0; i < k.also.size(); ++i)
      g.part(26, [&](double top) { load_box(g.pen(), top); }, device_words(k.also[i], "Another device"), {}, i + 1 < k.also.size() ? control_wire : Stroke{Ink::none});
  }

  const Report& report_;
  const Case& job_;
  Aside aside_;
};

}  // namespace

Figures one_lines(const Report& report, const Case& job, const code::Edition& edition) {
  Figures out;
  OneLine one(report, job, edition);
  const auto feeds_another = [&](const Circuit& c) {
    return std::any_of(job.circuits.begin(), job.circuits.end(), [&](const Circuit& other) { return other.feeder == &c; });
  };
  for (const Circuit& c : job.circuits)
    if (!feeds_another(c)) out.drawings.push_back(one.circuit(c));
  for (const Control& k : job.controls)
    if (k.served == nullptr) out.drawings.push_back(one.control(k));
  return out;
}

}  // namespace pullproof::draw
