// Edits leave everything but the value alone, in any way that TOML may be written.
#include "job/edit.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <random>

#include "answers/choices.hpp"
#include "job/read.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

std::string set(const std::string& text, const std::string& key, const std::string& value) {
  const Edit edits[] = {{key, value}};
  return edited(text, edits).value_or("(cannot)");
}

struct Example {
  std::string name, before, key, value, after;
};

class Edits : public testing::TestWithParam<Example> {};

TEST_P(Edits, ChangesTheValueAndNothingElse) {
  const Example& e = GetParam();
  EXPECT_EQ(set(e.before, e.key, e.value), e.after);
  EXPECT_EQ(value_at(e.after, e.key), e.value);
}

const Example examples[] = {
    {"plain", "a = 1\nb = 2 # two\n", "b", "3", "a = 1\nb = 3 # two\n"},
    {"comment_after_value", "[[raceway]]\nsize = \"1/2\"   # \"3/4\" did not fit = sad\n", "raceway.0.size", "\"1\"",
     "[[raceway]]\nsize = \"1\"   # \"3/4\" did not fit = sad\n"},
    {"hash_in_a_text", "[[raceway]]\nname = 'a # b'\nsize='1/2'# x\n", "raceway.0.size", "\"1\"", "[[raceway]]\nname = 'a # b'\nsize=\"1\"# x\n"},
    {"carriage_returns", "[[raceway]]\r\nsize = \"1/2\" # c\r\nname = \"x\"\r\n", "raceway.0.size", "\"1\"",
     "[[raceway]]\r\nsize = \"1\" # c\r\nname = \"x\"\r\n"},
    {"carriage_returns_new_key", "[[raceway]]\r\nname = \"x\" # c\r\n\r\n[[box]]\r\n", "raceway.0.size", "\"1\"",
     "[[raceway]]\r\nname = \"x\" # c\r\nsize = \"1\"\r\n\r\n[[box]]\r\n"},
    {"inline_replace", "[[circuit]]\nwire={size=\"14 AWG\",type='THHN'} # w\n", "circuit.0.wire.size", "\"12 AWG\"",
     "[[circuit]]\nwire={size=\"12 AWG\",type='THHN'} # w\n"},
    {"inline_add", "[[circuit]]\nwire = { type = 'THHN' } # w\n", "circuit.0.wire.size", "\"12 AWG\"",
     "[[circuit]]\nwire = { type = 'THHN', size = \"12 AWG\" } # w\n"},
    {"inline_empty", "[[circuit]]\nwire = {}\n", "circuit.0.wire.size", "\"12 AWG\"", "[[circuit]]\nwire = { size = \"12 AWG\" }\n"},
    {"inline_deep", "[[circuit]]\ndisconnect = { kind = \"switch\" }\n", "circuit.0.disconnect.working_space.depth", "\"3 ft\"",
     "[[circuit]]\ndisconnect = { kind = \"switch\", working_space = { depth = \"3 ft\" } }\n"},
    {"table_that_is_not_there", "[[circuit]]\nname = \"a\"  # hi\n\n[[circuit]]\nname = \"b\"\n", "circuit.0.ground.size", "\"12 AWG\"",
     "[[circuit]]\nname = \"a\"  # hi\nground = { size = \"12 AWG\" }\n\n[[circuit]]\nname = \"b\"\n"},
    {"second_of_a_list", "[[circuit]]\nname = \"a\"\n[[circuit]]\nname = \"b\"\n", "circuit.1.voltage", "\"240 V\"",
     "[[circuit]]\nname = \"a\"\n[[circuit]]\nname = \"b\"\nvoltage = \"240 V\"\n"},
    {"signs_below_one_another", "[[raceway]]\nname   = \"x\"\nlength = \"3 ft\"\n# end\n", "raceway.0.size", "\"1\"",
     "[[raceway]]\nname   = \"x\"\nlength = \"3 ft\"\nsize   = \"1\"\n# end\n"},
    {"indented", "[[raceway]]\n  name = \"x\"\n  type = \"EMT\"\n", "raceway.0.size", "\"1\"", "[[raceway]]\n  name = \"x\"\n  type = \"EMT\"\n  size = \"1\"\n"},
    {"dotted", "[[circuit]]\nwire.type = \"THHN\"\nname = \"a\"\n", "circuit.0.wire.size", "\"12 AWG\"",
     "[[circuit]]\nwire.type = \"THHN\"\nwire.size = \"12 AWG\"\nname = \"a\"\n"},
    {"dotted_replace", "[[circuit]]\nwire . \"size\"=\"14 AWG\"\n", "circuit.0.wire.size", "\"12 AWG\"", "[[circuit]]\nwire . \"size\"=\"12 AWG\"\n"},
    {"dotted_deeper_beside", "[[circuit]]\ndisconnect.working_space.depth = \"3 ft\"\n", "circuit.0.disconnect.rating", "\"30 A\"",
     "[[circuit]]\ndisconnect.working_space.depth = \"3 ft\"\ndisconnect.rating = \"30 A\"\n"},
    {"dotted_in_inline", "circuit = [{ wire.type = \"THHN\", name = \"a\" }]\n", "circuit.0.wire.size", "\"12 AWG\"",
     "circuit = [{ wire.type = \"THHN\", wire.size = \"12 AWG\", name = \"a\" }]\n"},
    {"dotted_at_the_top", "supply.dwelling = true\n[job]\n", "supply.system", "\"24 V dc\"", "supply.dwelling = true\nsupply.system = \"24 V dc\"\n[job]\n"},
    {"quoted_keys", "[[\"circuit\"]]\n'wire' = { \"size\" = \"14 AWG\" }\n", "circuit.0.wire.size", "\"12 AWG\"",
     "[[\"circuit\"]]\n'wire' = { \"size\" = \"12 AWG\" }\n"},
    {"section_of_a_section", "[[circuit]]\nname = \"a\"\n[circuit.wire] # the wire\ntype = \"THHN\"\n[[box]]\n", "circuit.0.wire.size", "\"12 AWG\"",
     "[[circuit]]\nname = \"a\"\n[circuit.wire] # the wire\ntype = \"THHN\"\nsize = \"12 AWG\"\n[[box]]\n"},
    {"empty_section", "[supply] # panel\n\n[[circuit]]\n", "supply.dwelling", "true", "[supply] # panel\ndwelling = true\n\n[[circuit]]\n"},
    {"section_that_is_not_there", "edition = \"us-2023\"", "supply.dwelling", "true", "edition = \"us-2023\"\n\n[supply]\ndwelling = true\n"},
    {"only_a_part_of_it_is_there", "[supply.panel]\nbus = \"200 A\"\n", "supply.dwelling", "true", "[supply.panel]\nbus = \"200 A\"\n\n[supply]\ndwelling = true\n"},
    {"key_at_the_top", "# a case\nedition = \"us-2023\"\n\n[job]\n", "date", "2026-11-25", "# a case\nedition = \"us-2023\"\ndate = 2026-11-25\n\n[job]\n"},
    {"first_key_at_the_top", "[job]\n", "edition", "\"us-2023\"", "edition = \"us-2023\"\n[job]\n"},
    {"no_line_end_at_the_end", "[[raceway]]\nname = \"x\"", "raceway.0.size", "\"1\"", "[[raceway]]\nname = \"x\"\nsize = \"1\""},
    {"list_over_lines", "[[circuit]]\npath = [ # way\n  \"a\", # one ]\n  \"b\",\n]\nname = \"x\"\n", "circuit.0.name", "\"y\"",
     "[[circuit]]\npath = [ # way\n  \"a\", # one ]\n  \"b\",\n]\nname = \"y\"\n"},
    {"name_becomes_a_table", "[[circuit]]\npath = [\"a\", 'b' ]\n", "circuit.0.path.1.wire.size", "\"12 AWG\"",
     "[[circuit]]\npath = [\"a\", { in = 'b', wire = { size = \"12 AWG\" } } ]\n"},
    {"table_in_a_list", "[[circuit]]\npath = [{in=\"a\",wire={size=\"14 AWG\"}}]\n", "circuit.0.path.0.wire.size", "\"12 AWG\"",
     "[[circuit]]\npath = [{in=\"a\",wire={size=\"12 AWG\"}}]\n"},
    {"not_ascii", "[[raceway]]\nname = \"Süd – 屋根\" # °\nambient = \"40 °C\" # heiß\n", "raceway.0.ambient", "\"30 °C\"",
     "[[raceway]]\nname = \"Süd – 屋根\" # °\nambient = \"30 °C\" # heiß\n"},
    {"byte_order_mark", "\xef\xbb\xbf" "a = 1\n", "a", "2", "\xef\xbb\xbf" "a = 2\n"},
    {"texts_with_quotes", "a = \"x \\\" = 3\"\nb = \"\"\"q \"\" = \n\\\"\"\"\"\"\nc = '''it''s = 4'''\nd = 1\n", "d", "2",
     "a = \"x \\\" = 3\"\nb = \"\"\"q \"\" = \n\\\"\"\"\"\"\nc = '''it''s = 4'''\nd = 2\n"},
    {"dates_and_numbers", "date = 2026-11-25 # day\nn = 1_000\nd = 1979-05-27 07:32:00\n", "date", "2027-01-01",
     "date = 2027-01-01 # day\nn = 1_000\nd = 1979-05-27 07:32:00\n"},
};

INSTANTIATE_TEST_SUITE_P(Edit, Edits, testing::ValuesIn(examples), [](const auto& e) { return e.param.name; });

TEST(Edit, SeveralAreMadeInOrder) {
  const Edit edits[] = {{"circuit.0.wire.type", "\"THHN\""}, {"circuit.0.wire.size", "\"12 AWG\""}, {"circuit.0.wire.size", "\"10 AWG\""}};
  EXPECT_EQ(edited("[[circuit]]\nname = \"a\"\n", edits), "[[circuit]]\nname = \"a\"\nwire = { type = \"THHN\", size = \"10 AWG\" }\n");
}

TEST(Edit, SaysWhenThePlaceCannotBe) {
  EXPECT_EQ(set("[[circuit]]\nname = \"a\"\n", "circuit.1.name", "1"), "(cannot)");
  EXPECT_EQ(set("[[circuit]]\nname = \"a\"\n", "circuit.0.name.size", "1"), "(cannot)");
  EXPECT_EQ(set("a = \n", "a", "1"), "(cannot)");
}

TEST(Edit, NeverReadsPastTheEnd) {
  // Every beginning of a case is tried; most are no TOML, and none may be read past.
  const std::string text = test::read_text(test::source_dir() / "cases/wash-house.toml");
  for (std::size_t n = 0; n <= text.size(); ++n) {
    const std::string part = text.substr(0, n);
    const Edit edits[] = {{"circuit.0.wire.size", "\"12 AWG\""}};
    edited(part, edits);
    value_at(part, "circuit.0.load.current");
  }
}

/// Each value of each demo case, written anew as it is, leaves the text as it was.
TEST(Edit, WritingWhatIsThereChangesNothing) {
  int met = 0;
  for (const auto& file : std::filesystem::directory_iterator(test::source_dir() / "cases")) {
    if (file.path().extension() != ".toml") continue;
    const std::string text = test::read_text(file.path());
    for (const char* key : {"edition", "supply.system", "raceway.0.size", "raceway.1.supports.every", "circuit.0.wire.size", "circuit.0.breaker.rating", "control.0.cable.size"}) {
      const std::string_view was = value_at(text, key);
      if (was.empty()) continue;
      ++met;
      EXPECT_EQ(set(text, key, std::string(was)), text) << file.path() << " " << key;
    }
  }
  EXPECT_GT(met, 40);
}

/// Values by place, of a text.
std::map<std::string, std::string> by_place(const std::string& text) {
  std::map<std::string, std::string> out;
  for (Edit& e : values_of(text)) EXPECT_TRUE(out.emplace(e.key, e.value).second) << e.key << " is there twice";
  return out;
}

/// Several edits in any order: other values, new keys, values inside others that are themselves replaced, the same twice.
TEST(Edit, OfATextGoneThroughBeforeIsTheSame) {
  std::mt19937 random(20261125);
  int changed = 0, refused = 0;
  for (const auto& file : std::filesystem::recursive_directory_iterator(test::source_dir() / "cases")) {
    if (file.path().extension() != ".toml") continue;
    const std::string text = test::read_text(file.path());
    const Editable editable(text);
    const std::vector<Edit> all = values_of(text);
    const auto any = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    for (int round = 0; round < 60; ++round) {
      std::vector<Edit> edits;
      for (std::size_t i = any(5) + 1; i > 0; --i) {
        Edit e = all[any(all.size())];
        switch (any(6)) {
          case 0: e.key = e.key.substr(0, e.key.rfind('.')) + ".added"; break;
          case 1: e.key += ".added"; break;
          case 2: e.key = e.key.substr(0, e.key.rfind('.')); e.value = "{ size = \"8 AWG\" }"; break;
          case 3: e.value = "[\"a\", 1]"; break;
          default: e.value = "\"a much longer value\"";
        }
        edits.push_back(e);
      }
      const auto one = edited(text, edits), other = editable.with(edits);
      EXPECT_EQ(one, other) << file.path() << " " << edits.front().key << " " << edits.back().key;
      ++(one ? changed : refused);
    }
  }
  EXPECT_GT(changed, 500);
  EXPECT_GT(refused, 50);
}

TEST(Edit, PlacesAreTheSameOneByOneAndAllAtOnce) {
  int met = 0;
  for (const auto& file : std::filesystem::recursive_directory_iterator(test::source_dir() / "cases")) {
    if (file.path().extension() != ".toml") continue;
    const std::string text = test::read_text(file.path());
    const Editable places(text);
    for (const auto& [key, value] : by_place(text)) {
      ++met;
      EXPECT_EQ(places.at(key), value) << file.path() << " " << key;
      EXPECT_EQ(places.at(key), value_at(text, key)) << file.path() << " " << key;
      EXPECT_EQ(places.at(key + ".x"), "");
    }
  }
  EXPECT_GT(met, 1000);
}

/// Whatever is written into whatever case: it is read, and nothing but that value is another.
TEST(Edit, OfEveryChoiceInEveryCaseChangesThatValueAlone) {
  int met = 0;
  for (const auto& file : std::filesystem::recursive_directory_iterator(test::source_dir() / "cases")) {
    if (file.path().extension() != ".toml") continue;
    const std::string plain = test::read_text(file.path());
    std::string with_returns;
    for (const char c : plain) with_returns += c == '\n' ? std::string("\r\n") : std::string(1, c);
    for (const std::string& text : {plain, with_returns}) {
      const auto before = by_place(text);
      Diagnostics complaints;
      const auto job = read_case("case.toml", text, complaints);
      ASSERT_TRUE(job) << file.path();
      for (const answers::Part& part : answers::parts_of(*job))
        for (const answers::Choice& choice : answers::all_choices()) {
          if (choice.kind != part.kind) continue;
          const std::string key = answers::path_of(choice, part);
          const std::string after = set(text, key, "\"x\"");
          ASSERT_NE(after, "(cannot)") << file.path() << " " << key;
          auto expected = before, now = by_place(after);
          expected[key] = "\"x\"";
          ASSERT_EQ(now, expected) << file.path() << " " << key;
          Diagnostics of_values;  // "x" is no value of most keys; the text is TOML all the same
          ASSERT_TRUE(read_case_partly("case.toml", after, of_values)->whole) << file.path() << " " << key;
          if (text == with_returns) {
            ASSERT_EQ(std::count(after.begin(), after.end(), '\r'), std::count(after.begin(), after.end(), '\n')) << key;
          }
          ++met;
        }
    }
  }
  EXPECT_GT(met, 2000);
}

}  // namespace
}  // namespace pullproof
