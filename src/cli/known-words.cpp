#include "cli/known-words.hpp"

#include <algorithm>

#include "engine/check.hpp"
#include "engine/load.hpp"
#include "job/key-list.hpp"
#include "starter/plan.hpp"

namespace pullproof::cli {
namespace {

std::vector<std::string> editions(const code::Edition& edition) {
  std::vector<std::string> out;
  for (const std::string_view id : edition_ids(*edition.store())) out.emplace_back(id);
  return out;
}

}  // namespace

Words words_after(std::string_view usage, const code::Edition& edition) {
  const auto has = [&](std::string_view w) { return usage.find(w) != std::string_view::npos; };
  Words out;
  out.files = has("FILE") || has("CASE") || has("EDITION") || usage == "A B";
  if (has("CHECK"))
    for (const Check* c : all_checks()) out.words.emplace_back(c->id);
  if (has("TABLE"))
    for (const KeyTable& t : key_tables())
      if (!t.name.empty()) out.words.push_back(t.name);
  if (has("NAME")) {
    for (std::size_t i = 0; i < edition.table_count(); ++i) out.words.emplace_back(edition.table_at(i).name());
    for (std::size_t i = 0; i < edition.rule_count(); ++i) out.words.emplace_back(edition.rule_at(i).name());
  }
  if (has("APPLIANCE"))
    for (const std::string_view a : starter::appliances(edition)) out.words.emplace_back(a);
  if (has("EDITION") || usage == "A B") out.words = editions(edition);
  if (has("SHELL")) out.words = {"bash", "zsh", "fish"};
  std::sort(out.words.begin(), out.words.end());
  out.words.erase(std::unique(out.words.begin(), out.words.end()), out.words.end());
  return out;
}

Words words_after(const OptionInfo& option, const code::Edition& edition) {
  Words out;
  out.words.assign(option.choices.begin(), option.choices.end());
  if (option.value == "ID|FILE") out.words = editions(edition);
  out.files = option.value.find("FILE") != std::string_view::npos || option.value == "DIR";
  return out;
}

std::string_view family_of(const Command& command) { return command.name.substr(0, command.name.find(' ')); }

std::string_view member_of(const Command& command) {
  const std::size_t space = command.name.find(' ');
  return space == std::string_view::npos ? std::string_view{} : command.name.substr(space + 1);
}

}  // namespace pullproof::cli
