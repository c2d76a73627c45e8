#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether nothing is said of what feeds the source of a run.
bool silent(const Control& c) {
  const ControlSource& s = c.source;
  const auto klass = derive::known_class(c);
  return (s.control_class && *s.control_class != 1) && (!klass || *klass != 1 || c.reclassified) && !s.fed_by && !s.in_equipment && !s.primary_device && !c.poe.where;
}

void judge_device(Context& cx, const ControlSource& s, const Citation& cite) {
  const auto most = cx.parameter("class2-supply", "ocpd", "largest device in front of such a source", "Ix", units::ampere);
  if (s.primary_device) {
    Finding& f = cx.require(cx.given("device in front of the source's input", "In", s.primary_device, units::ampere), Must::at_most, most, cite, s.primary_device.where);
    if (f.verdict == Verdict::fail) f.change = "a smaller fuse or breaker in front of the input";
    return;
  }
  const Breaker& b = s.feeder->breaker;
  cx.need(b.rating, "circuit.breaker.rating", cx.text("the device of circuit {}, which feeds the source", *s.feeder->name));
  Finding& f = cx.require(cx.given(cx.text("device of circuit {}", *s.feeder->name), "In", b.rating, units::ampere), Must::at_most, most, cite, s.fed_by.where);
  if (f.verdict == Verdict::fail)
    f.change = cx.text("feed it from a circuit of at most {} A, or put a device of its own in front of it (control.source.primary_device)", number_text(raw(most.value), 0));
}

/// Its leads may be thinner than power wiring where they are short.
void judge_leads(Context& cx, const ControlSource& s, const Citation& cite) {
  if (!s.lead_size) return;
  const auto least = ConductorSize::parse(cx.parameter_text("class2-supply", "lead-size")), ordinary = ConductorSize::parse(cx.parameter_text("class2-supply", "ordinary-size"));
  if (!least || !ordinary) cx.not_covered("no size is known for the input leads", cite);
  if (*s.lead_size >= *ordinary) return void(cx.pass(cx.text("input leads of {} are ordinary power wiring", s.lead_size->label()), cite, s.lead_size.where));
  if (*s.lead_size < *least) {
    cx.fail(cx.text("input leads of {} are smaller than {}", s.lead_size->label(), least->label()), cx.text("use {} or larger", least->label()), cite, s.lead_size.where);
    return;
  }
  cx.need(s.lead_length, "control.source.lead_length", cx.text("leads smaller than {} are permitted only while they are short", ordinary->label()));
  Finding& f = cx.require(cx.given("length of the input leads", "Ll", s.lead_length, units::inch), Must::at_most,
                          cx.parameter("class2-supply", "lead-length", "longest lead of that size", "Lx", units::inch), cite, s.lead_length.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("shorten the leads, or use {}", ordinary->label());
}

void run(Context& cx, const Control& c) {
  const ControlSource& s = c.source;
  if (!s.control_class) return void(cx.not_applicable("the class of the source is not given"));
  if (*s.control_class == 1) return void(cx.not_applicable("its source is no Class 2 or 3 source"));
  if (c.poe.where) return void(cx.not_applicable("it is fed over its data cable"));
  if (s.in_equipment.value_or(false) && !s.lead_size)
    return void(cx.pass("the source is part of listed equipment, whose listing covers its input", cx.cite("control-manual"), s.in_equipment.where));
  if (!s.fed_by && !s.primary_device && !s.lead_size) {
    for (const Control& other : cx.job().controls) {
      if (&other == &c) break;
      if (silent(other)) return void(cx.not_applicable("what feeds the source is asked for once, at the first run of this case"));
    }
    const Length leads = cx.parameter("class2-supply", "lead-length", units::inch);
    cx.assume("supply of the source", cx.text("what feeds the source is not given (control.source.fed_by or in_equipment): taken as part of listed equipment, or on a circuit of at most {} A by "
                                              "ordinary power wiring, with leads of up to {} in",
                                              number_text(raw(cx.parameter("class2-supply", "ocpd", units::ampere)), 0), number_text(units::inch.show(leads), 0)), cx.cite("class2-supply"));
    return void(cx.not_applicable("what feeds the source is not given (control.source.fed_by)", cx.cite("class2-supply")));
  }
  const Citation cite = cx.cite("class2-supply");
  if (s.primary_device || s.feeder != nullptr) judge_device(cx, s, cite);
  judge_leads(cx, s, cite);
}

}  // namespace

extern const Check check_control_supply{
    .id = "control-supply",
    .title = "What feeds a control source",
    .family = Family::control,
    .about = "Ahead of a Class 2 or 3 source the wiring is ordinary power wiring, and a transformer that stands by itself is protected by a "
             "device of limited rating, so that a fault in it opens something. Its input leads may be as thin as fixture wire while they "
             "are short. A source inside listed equipment is covered by the listing. The power wiring up to it is checked with its circuit.",
    .formula = "In <= Ix; Ll <= Lx",
    .reads = "control.source.class, control.source.fed_by, control.source.in_equipment, control.source.primary_device, control.source.lead_size, "
             "control.source.lead_length, circuit.breaker.rating",
    .rules = "class2-supply, control-manual",
    .run = run};

}  // namespace pullproof
