#include "derive/runs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "derive/control.hpp"

namespace pullproof::derive {
namespace {

using Users = std::map<const Raceway*, RacewayUsers>;

Users find_users(const Context& cx) {
  std::map<std::string_view, const Raceway*> by_name;
  for (const Raceway& r : cx.job().raceways)
    if (r.name) by_name[*r.name] = &r;
  const auto around = [&](const Stretch& s) -> const Raceway* {
    if (s.raceway != nullptr || s.cable == nullptr || !s.cable->inside) return s.raceway;
    const auto at = by_name.find(*s.cable->inside);
    return at == by_name.end() ? nullptr : at->second;
  };
  Users users;
  const auto add = [](auto& all, auto one) {
    if (all.empty() || all.back() != one) all.push_back(one);
  };
  for (const Circuit& c : cx.job().circuits)
    for (const Stretch& s : c.path)
      if (const Raceway* r = around(s)) add(users[r].circuits, &c);
  for (const Control& c : cx.job().controls)
    for (const Stretch& s : c.path)
      if (s.raceway != nullptr) add(users[s.raceway].runs[known_class(c).value_or(0)], &c);
  const auto control_cables = cx.edition().table("cable-types-control");
  for (const Raceway& r : cx.job().raceways)
    for (const Other& o : r.also) {
      if (o.bare.value_or(false) || !o.current_carrying.value_or(true)) continue;
      RacewayUsers& u = users[&r];
      if (!o.type) {
        if (u.untold == nullptr) u.untold = &o;
      } else if ((!control_cables || !control_cables->find(*o.type)) && std::find(u.power.begin(), u.power.end(), *o.type) == u.power.end()) {
        u.power.push_back(*o.type);
      }
    }
  return users;
}

using Sources = std::map<std::string_view, std::vector<const Control*>>;

}  // namespace

const RacewayUsers& users_of(const Context& cx, const Raceway& r) {
  static const RacewayUsers nobody;
  const Users& users = cx.memory().once<Users>("users of raceways", &cx.job(), [&] { return find_users(cx); });
  const auto at = users.find(&r);
  return at == users.end() ? nobody : at->second;
}

const std::vector<const Control*>& runs_of_source(const Context& cx, const Control& c) {
  if (!c.source.name) return cx.memory().once<std::vector<const Control*>>("run of its own source", &c, [&] { return std::vector<const Control*>{&c}; });
  const Sources& sources = cx.memory().once<Sources>("sources of control runs", &cx.job(), [&] {
    Sources all;
    for (const Control& each : cx.job().controls)
      if (each.source.name) all[*each.source.name].push_back(&each);
    return all;
  });
  return sources.at(*c.source.name);
}

std::string_view listed_names(Context& cx, std::string_view noun, const std::vector<std::string_view>& first, std::size_t count) {
  std::string out = fmt::format("{}{} {}", noun, count > 1 ? "s" : "", first.front());
  const std::size_t shown = count > most_names ? most_names - 1 : std::min(count, first.size());
  for (std::size_t i = 1; i < shown; ++i) {
    out += i + 1 == count ? " and " : ", ";
    out += first[i];
  }
  return shown < count ? cx.text("{} and {} others", out, count - shown) : cx.text("{}", out);
}

}  // namespace pullproof::derive
