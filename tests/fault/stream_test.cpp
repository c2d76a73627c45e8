// `pullproof stream` from outside: one line in, one line out, whatever stands on it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include <fstream>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

using test::run;
using test::RunOptions;
using test::Scratch;
using test::shell;
using testing::HasSubstr;

std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string demo(const char* name) { return read_file(test::source_dir() / "cases" / (std::string(name) + ".toml")); }

std::string quoted(const std::string& text) {
  rapidjson::StringBuffer out;
  rapidjson::Writer<rapidjson::StringBuffer> writer(out);
  writer.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
  return {out.GetString(), out.GetSize()};
}

std::string line(const std::string& name, const std::string& text) { return "{\"name\": " + quoted(name) + ", \"case\": " + quoted(text) + "}\n"; }

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> all;
  std::istringstream in(text);
  for (std::string s; std::getline(in, s);) all.push_back(s);
  return all;
}

struct Record {
  unsigned line = 0;
  std::string file, outcome, complaint;
};

Record record(const std::string& text) {
  rapidjson::Document d;
  d.Parse(text.data(), text.size());
  EXPECT_FALSE(d.HasParseError()) << text;
  if (d.HasParseError()) return {};
  const auto& report = d["report"];
  const auto& complaints = report["complaints"];
  return {d["line"].GetUint(), report["file"].GetString(), report["outcome"].GetString(),
          complaints.Empty() ? "" : complaints[0]["message"].GetString()};
}

TEST(Stream, AnswersEachLineInOrder) {
  const std::vector<std::pair<const char*, const char*>> cases{{"wash-house", "pass"}, {"dozen-faults", "fail"}, {"first-look", "open"}};
  std::string input;
  constexpr std::size_t rounds = 40;
  for (std::size_t i = 0; i < rounds; ++i) input += line(fmt::format("case {}", i), demo(cases[i % 3].first));
  for (const char* jobs : {"1", "2", "7"}) {
    const auto r = run({"stream", "--jobs", jobs}, {.input = input});
    EXPECT_EQ(r.status, 1);
    const auto out = lines_of(r.out);
    ASSERT_EQ(out.size(), rounds) << jobs;
    for (std::size_t i = 0; i < rounds; ++i) {
      const Record got = record(out[i]);
      EXPECT_EQ(got.line, i + 1);
      EXPECT_EQ(got.file, fmt::format("case {}", i));
      EXPECT_EQ(got.outcome, cases[i % 3].second);
    }
    EXPECT_EQ(r.err, "pullproof: 40 cases: 14 pass, 13 fail, 13 open\n");
  }
}

TEST(Stream, SaysWhatIsWrongWithALineAndGoesOn) {
  const std::string input = "\n[]\n{\"case\": 3}\n{\"cas\": \"\"}\nnope\n\"\\ud800\"\n\"\xff\"\n" + std::string(200'000, '[') + "\n{\"case\": \"x = 1\"}\n" +
                            quoted(demo("wash-house")) + "\n{\"name\": \"no break at its end\", \"case\": \"edition =\"}";
  const auto r = run({"stream"}, {.input = input});
  EXPECT_EQ(r.status, 2);
  const auto out = lines_of(r.out);
  ASSERT_EQ(out.size(), 11u);
  const char* const messages[] = {"the line is empty", "a case is a text or an object, not an array", "'case' is a text, not a number",
                                  "\"case\" is missing", "this is no JSON", "this is no JSON", "this is no JSON", "this is no JSON", "the case does not say which edition"};
  for (std::size_t i = 0; i < std::size(messages); ++i) {
    const Record got = record(out[i]);
    EXPECT_EQ(got.outcome, "unreadable");
    EXPECT_EQ(got.file, fmt::format("line {}", i + 1));
    EXPECT_THAT(got.complaint, HasSubstr(messages[i])) << out[i];
  }
  EXPECT_EQ(record(out[9]).outcome, "pass");
  EXPECT_EQ(record(out[10]).file, "no break at its end");
  EXPECT_EQ(record(out[10]).outcome, "unreadable");
}

TEST(Stream, SkipsALineThatIsTooLongForACase) {
  const auto r = run({"stream"}, {.input = "\"" + std::string(7'000'000, 'x') + "\"\n" + quoted(demo("wash-house")) + "\n"});
  const auto out = lines_of(r.out);
  ASSERT_EQ(out.size(), 2u);
  EXPECT_EQ(record(out[0]).complaint, "the line is too long for a case");
  EXPECT_EQ(record(out[1]).outcome, "pass");
}

TEST(Stream, BeginsWithTheLineThatIsAskedFor) {
  const auto r = run({"stream", "--from", "3"}, {.input = "1\n2\n" + quoted(demo("wash-house")) + "\n"});
  EXPECT_EQ(r.status, 0);
  const auto out = lines_of(r.out);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(record(out[0]).line, 3u);
}

TEST(Stream, GivesTheSameReportsAsCheck) {
  // The working makes the difference between a short record and a full one; what is found must not.
  const auto brief = record(lines_of(run({"stream"}, {.input = line("a", demo("dozen-faults"))}).out).at(0));
  const std::string full = run({"stream", "--full"}, {.input = line("a", demo("dozen-faults"))}).out;
  EXPECT_EQ(record(full).outcome, brief.outcome);
  EXPECT_THAT(full, HasSubstr("\"expression\""));
  const auto json = run({"check", "--format", "json", "-"}, {.input = demo("dozen-faults")});
  rapidjson::Document a, b;
  a.Parse(full.data(), full.size());
  b.Parse(json.out.data(), json.out.size());
  EXPECT_TRUE(a["report"]["counts"] == b["reports"][0]["counts"]);
  EXPECT_EQ(a["report"]["findings"].Size(), b["reports"][0]["findings"].Size());
  EXPECT_TRUE(a["report"]["findings"][0]["message"] == b["reports"][0]["findings"][0]["message"]);
}

TEST(Stream, AnswersALineBeforeTheNextOneComes) {
  const Scratch scratch;
  const std::string one = scratch.file("one", quoted(demo("wash-house")) + "\n");
  // The sender waits for the answer to its first line before it sends the second.
  const auto r = shell(fmt::format("mkfifo in answers; exec 4<>answers; \"$PULLPROOF\" stream in >answers 4<&- & exec 3>in; "
                                   "cat '{0}' >&3; read -r -t 15 first <&4 || exit 9; cat '{0}' >&3; exec 3>&-; read -r -t 15 second <&4 || exit 8; "
                                   "echo ${{first:0:50}}; echo ${{second:0:50}}; wait $!", one));
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("\"line\":1"));
  EXPECT_THAT(r.out, HasSubstr("\"line\":2"));
}

TEST(Stream, KeepsWhatIsFinishedWhenInterruptedAndSaysWhereToGoOn) {
  const Scratch scratch;
  const std::string one = scratch.file("one", quoted(demo("wash-house")) + "\n");
  for (const auto& [signal, status] : {std::pair{"INT", 130}, std::pair{"TERM", 143}}) {
    const auto r = shell(fmt::format("mkfifo in; set -m; \"$PULLPROOF\" stream in >done & exec 3>in; cat '{0}' '{0}' >&3; "
                                     "until [ \"$(wc -l <done)\" = 2 ]; do sleep 0.05; done; kill -{1} $!; wait $!; echo $?; wc -l <done", one, signal));
    EXPECT_EQ(r.out, fmt::format("{}\n2\n", status)) << signal << r.err;
    EXPECT_THAT(r.err, HasSubstr("stopped after line 2: 2 cases: 2 pass\n  note: go on with --from 3\n"));
  }
}

TEST(Stream, EndsWhenNobodyReadsOn) {
  std::string input;
  for (int i = 0; i < 200; ++i) input += line("a", demo("wash-house"));
  const auto r = run({"stream"}, {.input = input, .close_output = true, .ignore_pipe_signal = true});
  EXPECT_EQ(r.status, 0) << r.err;
}

TEST(Stream, CanBeSpreadByAnEngineThatPipesLines) {
  // GNU parallel stands for any of them: it cuts its input at line breaks and keeps the order of the pieces.
  const Scratch scratch;
  std::string input;
  constexpr int rounds = 24;
  for (int i = 0; i < rounds; ++i) input += line(fmt::format("case {}", i), demo(i % 3 == 0 ? "dozen-faults" : "wash-house"));
  const std::string file = scratch.file("cases.jsonl", input);
  const auto r = shell(fmt::format("HOME=$PWD parallel --will-cite --pipe --keep-order --block 20k -j 2 \"$PULLPROOF\" stream --jobs 1 <{}", file));
  const auto out = lines_of(r.out);
  ASSERT_EQ(out.size(), static_cast<std::size_t>(rounds)) << r.err;
  bool several = false;
  for (int i = 0; i < rounds; ++i) {
    const Record got = record(out[static_cast<std::size_t>(i)]);
    EXPECT_EQ(got.file, fmt::format("case {}", i));
    EXPECT_EQ(got.outcome, i % 3 == 0 ? "fail" : "pass");
    several = several || (i > 0 && got.line == 1);  // a piece of its own begins here
  }
  EXPECT_TRUE(several);
}

TEST(Stream, ReportsAFullDisk) {
  const auto r = run({"stream"}, {.input = line("a", demo("wash-house")), .output = "/dev/full"});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("the output cannot be written"));
}

TEST(Stream, RefusesFilesAndNumbersThatAreNone) {
  EXPECT_THAT(run({"stream", "nowhere.jsonl"}).err, HasSubstr("'nowhere.jsonl' cannot be read"));
  EXPECT_EQ(run({"stream", "nowhere.jsonl"}).status, 2);
  EXPECT_EQ(run({"stream", "."}).status, 2);
  for (const char* number : {"0", "-1", "x", "1.5", "99999999999999999999", ""}) {
    const auto r = run({"stream", "--jobs", number});
    EXPECT_EQ(r.status, 2) << number;
    EXPECT_THAT(r.err, HasSubstr("--jobs"));
  }
}

}  // namespace
}  // namespace pullproof
