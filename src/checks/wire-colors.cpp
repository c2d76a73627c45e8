#include <algorithm>

#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The words of a comma-separated list of colours.
std::vector<std::string_view> words(std::string_view text) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(','), text.size());
    std::string_view w = text.substr(0, end);
    while (w.starts_with(' ')) w.remove_prefix(1);
    while (w.ends_with(' ')) w.remove_suffix(1);
    if (!w.empty()) out.push_back(w);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

bool up_to(const Context& cx, std::string_view rule, const ConductorSize& size) {
  const auto through = ConductorSize::parse(cx.parameter_text(rule, "through"));
  return through && size <= *through;
}

std::string_view choices(Context& cx, std::string_view rule) {
  std::string all;
  for (const auto& c : cx.rule(rule).list("colors")) all += (all.empty() ? "" : ", ") + std::string(c.text());
  return cx.texts().keep(all);
}

void hot(Context& cx, const Circuit& c, const derive::Line& line, const derive::Conductors& k) {
  cx.need(c.wire.hot, "wire.hot", "colours are given for the other conductors");
  const Citation cite = cx.cite("hot-color");
  for (const std::string_view color : words(*c.wire.hot)) {
    if (!cx.listed("hot-color", "forbidden", color)) continue;
    const bool white_in_cable = k.cable != nullptr && (color == "white" || color == "gray");
    if (!white_in_cable) {
      cx.fail(cx.text("an ungrounded conductor is {}", color), "use another colour: white and gray are for neutrals, green for grounds",
              cite, c.wire.hot.where);
      return;
    }
    if (!c.wire.white_remarked.value_or(false)) {
      cx.fail(cx.text("the {} conductor of the cable is used as hot and not re-marked", color),
              "re-mark it with tape or paint wherever it can be seen (white_remarked = true)", cx.cite("white-as-hot"), c.wire.hot.where);
      return;
    }
    cx.pass(cx.text("the {} conductor of the cable is re-marked as hot", color), cx.cite("white-as-hot"), c.wire.white_remarked.where);
  }
  const auto& system = cx.job().supply.system;
  if (system && line.phases == 3 && system->phases == 3 && system->wires == 4 && !system->wye) {
    const std::string_view wanted = cx.parameter_text("hot-color", "high-leg");
    const auto colors = words(*c.wire.hot);
    if (std::find(colors.begin(), colors.end(), wanted) == colors.end()) {
      cx.fail(cx.text("the high leg is not {}", wanted), cx.text("identify the high leg in {}", wanted), cite, c.wire.hot.where);
      return;
    }
  }
  cx.pass(cx.text("ungrounded conductors are {}", *c.wire.hot), cite, c.wire.hot.where);
}

/// A cable without a neutral in use has a white conductor that is hot, whether or not the case lists it among the
/// colours. False where it is not re-marked.
bool white_is_remarked(Context& cx, const Circuit& c, const derive::Line& line, const derive::Conductors& k) {
  if (k.cable == nullptr || line.neutral || line.hots < 2) return true;
  const auto colors = c.wire.hot ? words(*c.wire.hot) : std::vector<std::string_view>{};
  const bool listed = std::any_of(colors.begin(), colors.end(), [](std::string_view color) { return color == "white" || color == "gray"; });
  if (listed || colors.size() >= static_cast<std::size_t>(line.hots)) return true;  // judged by the colours themselves
  constexpr std::string_view change = "re-mark it with tape or paint wherever it can be seen (white_remarked = true)";
  const Given<bool>& remarked = c.wire.white_remarked;
  if (remarked && !*remarked) {
    cx.fail("the white conductor of the cable is hot and not re-marked", change, cx.cite("white-as-hot"), remarked.where);
    return false;
  }
  if (remarked) cx.pass("the white conductor of the cable is re-marked as hot", cx.cite("white-as-hot"), remarked.where);
  else cx.advise("where the cable has a white conductor it is hot here", change, cx.cite("white-as-hot"), c.wire.where);
  return true;
}

void neutral(Context& cx, const Circuit& c, const derive::Line& line, const ConductorSize& size) {
  if (!line.neutral) return;
  const Citation cite = cx.cite("neutral-color");
  cx.need(c.wire.neutral, "wire.neutral", "colours are given for the other conductors");
  if (cx.listed("neutral-color", "colors", *c.wire.neutral)) {
    cx.pass(cx.text("the neutral is {}", *c.wire.neutral), cite, c.wire.neutral.where);
  } else if (!up_to(cx, "neutral-color", size) && c.wire.neutral_marked.value_or(false)) {
    cx.pass(cx.text("the neutral is {} and marked at its ends, as its size allows", *c.wire.neutral), cite, c.wire.neutral.where);
  } else {
    cx.fail(cx.text("the neutral is {}", *c.wire.neutral),
            cx.text("{}: {}", up_to(cx, "neutral-color", size) ? "use one of these over its whole length" : "mark its ends, or use one of these",
                    choices(cx, "neutral-color")),
            cite, c.wire.neutral.where);
  }
}

void ground(Context& cx, const Circuit& c, const derive::GroundOn& g) {
  if (!g.wire || g.bare || !g.size || g.shared != nullptr) return;
  const Citation cite = cx.cite("ground-color");
  cx.need(c.ground.color, "ground.color", "colours are given for the other conductors");
  if (cx.listed("ground-color", "colors", *c.ground.color)) {
    cx.pass(cx.text("the ground is {}", *c.ground.color), cite, c.ground.color.where);
  } else if (!up_to(cx, "ground-color", *g.size) && c.ground.marked.value_or(false)) {
    cx.pass(cx.text("the ground is {} and marked at its ends, as its size allows", *c.ground.color), cite, c.ground.color.where);
  } else {
    cx.fail(cx.text("the ground is {}", *c.ground.color),
            cx.text("{}: {}", up_to(cx, "ground-color", *g.size) ? "use one of these over its whole length" : "mark its ends, or use one of these",
                    choices(cx, "ground-color")),
            cite, c.ground.color.where);
  }
}

void run(Context& cx, const Circuit& c) {
  const bool neutral_color = c.wire.neutral && *c.wire.neutral != "none";
  if (!c.wire.hot && !neutral_color && !c.ground.color && !c.wire.white_remarked) {
    cx.not_applicable("no colours are given: white or gray for the neutral, green or bare for the ground, neither for the rest", cx.cite("hot-color"));
    return;
  }
  if (c.path.empty()) cx.needs_input("circuit.path", "what a colour may be depends on the wiring");
  const derive::Line line = derive::line_of(cx, c);
  const Stretch& first = c.path.front();
  const derive::Conductors k = derive::conductors_on(cx, c, first);
  if (!white_is_remarked(cx, c, line, k)) return;
  if (c.wire.hot || first.cable == nullptr) hot(cx, c, line, k);
  if (first.cable != nullptr) return;  // the colours inside a cable are its maker's
  neutral(cx, c, line, *k.size);
  ground(cx, c, derive::ground_on(cx, c, first));
}

}  // namespace

extern const Check check_wire_colors{
    .id = "wire-colors",
    .title = "Colours of the conductors",
    .family = Family::conductors,
    .about = "Whoever opens the box next trusts the colours. Neutrals are white or gray, grounds green or bare, and no ungrounded "
             "conductor is any of these. Large conductors may be marked at their ends instead; a white conductor of a cable that "
             "is used as hot is re-marked wherever it is seen; the high leg of a four-wire delta has a colour of its own. Looked "
             "at when the case gives colours.",
    .formula = "",
    .reads = "wire.hot, wire.neutral, wire.white_remarked, wire.neutral_marked, ground.color, ground.bare, ground.marked, circuit.path",
    .rules = "hot-color, white-as-hot, neutral-color, ground-color",
    .run = run};

}  // namespace pullproof
