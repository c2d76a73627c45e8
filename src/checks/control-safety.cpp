#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Control& c) {
  if (!c.safety) return void(cx.not_applicable("it is not said to be the control of something whose failure is a direct hazard (control.safety)"));
  if (!*c.safety) return void(cx.not_applicable("its failure is no direct fire or life hazard"));
  const Citation cite = cx.cite("control-safety");
  const int klass = derive::wiring_class(cx, c);
  if (klass != 1) {
    cx.fail(cx.text("its failure is a direct hazard, and it is wired as Class {}", klass), "wire it as Class 1 throughout, in conduit or a metal-clad cable", cite, c.safety.where);
    return;
  }
  const bool armored = c.cable.type && cx.listed("control-safety", "protected", *c.cable.type);
  if (armored) return void(cx.pass(cx.text("it is wired as Class 1, in {}", *c.cable.type), cite, c.safety.where));
  if (derive::wholly_in_raceway(c)) {
    for (const Stretch& s : c.path)
      if (!s.raceway->type || !cx.listed("control-safety", "protected", *s.raceway->type)) {
        cx.need(s.raceway->type, "raceway.type", "what protects a safety control from damage");
        cx.fail(cx.text("'{}' is {}, which does not protect a safety control from damage", *s.in, *s.raceway->type), "use rigid, intermediate or rigid nonmetallic conduit or EMT", cite, s.in.where);
        return;
      }
    return void(cx.pass("it is wired as Class 1, in conduit all the way", cite, c.safety.where));
  }
  cx.fail("its failure is a direct hazard, and a part of it is not in conduit or metal-clad cable", "run all of it in conduit or in MC or MI cable", cite, c.safety.where);
}

}  // namespace

extern const Check check_control_safety{
    .id = "control-safety",
    .title = "Control whose failure is a hazard",
    .family = Family::control,
    .about = "Where the failure of a control lets something burn or hurt someone, its circuit is Class 1 whatever its source, and protected "
             "from damage all the way. Room thermostats and water temperature controls of a household are not such controls; a commercial "
             "boiler's or heater's manual may say that its limit circuit is.",
    .formula = "",
    .reads = "control.safety, control.source.class, control.reclassified, control.path, control.length, control.cable.type, raceway.type",
    .rules = "control-safety",
    .run = run};

}  // namespace pullproof
