// Which row and column a conductor's impedance is read from, and what is done to it. Numbers: NFPA 70 Chapter 9
// Tables 8 and 9 as the rule data have them.
#include <gtest/gtest.h>

#include <cmath>

#include "code/edition.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

struct Read {
  double ohms = 0, reactance = 0;  ///< of a conductor over 1000 ft
  Report report;
};

bool assumed(const Report& r, std::string_view what) {
  return std::any_of(r.assumptions.begin(), r.assumptions.end(), [&](const Assumption& a) { return a.text.find(what) != a.text.npos; });
}

Read read(const std::string& way, const std::string& wire, const std::string& supply = "120/240 V 1-phase 3-wire") {
  Read out;
  out.report = test::check_text("edition = \"us-2023\"\nsupply = { system = \"" + supply + "\" }\n" + way +
                                "name = \"way\"\nlength = \"1000 ft\"\nplace = \"indoors, dry\"\n[[circuit]]\nname = \"c\"\nvoltage = \"240 V\"\n"
                                "path = [\"way\"]\nload = { current = \"0.3 A\", power_factor = 0.9 }\nwire = { " + wire + " }\n");
  const auto found = test::findings(out.report, "drop-branch");
  EXPECT_EQ(found.size(), 1u);
  if (found.empty()) return out;
  EXPECT_EQ(found[0]->verdict, Verdict::pass) << found[0]->message;
  out.ohms = test::step_value(out.report, *found[0], "R");
  out.reactance = test::step_value(out.report, *found[0], "X");
  return out;
}

const std::string steel = "[[raceway]]\ntype = \"RMC\"\nsize = \"6\"\n";
const std::string pvc = "[[raceway]]\ntype = \"PVC-40\"\nsize = \"6\"\n";
std::string cable(const std::string& type, const std::string& size) {
  return "[[cable]]\ntype = \"" + type + "\"\nsize = \"" + size + "\"\nconductors = 2\n";
}
std::string wire(const std::string& size, const std::string& more = "") { return "size = \"" + size + "\", material = \"copper\"" + more; }

TEST(Impedance, SmallSizesReadTheDirectCurrentTable) {
  EXPECT_DOUBLE_EQ(read(steel, wire("10 AWG")).ohms, 1.24);
  EXPECT_DOUBLE_EQ(read(steel, wire("10 AWG")).reactance, 0.063);
  EXPECT_DOUBLE_EQ(read(pvc, wire("10 AWG")).reactance, 0.050);
  EXPECT_DOUBLE_EQ(read(steel, wire("12 AWG", ", stranding = \"solid\"")).ohms, 1.93);
  EXPECT_DOUBLE_EQ(read(steel, wire("12 AWG", ", coated = true")).ohms, 2.05);
  EXPECT_DOUBLE_EQ(read(steel, "size = \"10 AWG\", material = \"aluminum\"").ohms, 2.04);
}

TEST(Impedance, LargerSizesReadTheAlternatingCurrentTable) {
  EXPECT_DOUBLE_EQ(read(steel, wire("8 AWG")).ohms, 0.78);
  EXPECT_DOUBLE_EQ(read(steel, wire("500 kcmil")).ohms, 0.029);
  EXPECT_DOUBLE_EQ(read(steel, wire("500 kcmil")).reactance, 0.048);
  EXPECT_DOUBLE_EQ(read(pvc, wire("500 kcmil")).ohms, 0.027);
  EXPECT_DOUBLE_EQ(read(pvc, wire("500 kcmil")).reactance, 0.039);
  EXPECT_DOUBLE_EQ(read(steel, "size = \"4/0 AWG\", material = \"aluminum\"").ohms, 0.10);
}

TEST(Impedance, DirectCurrentHasNoReactance) {
  const Read r = read(steel, wire("500 kcmil"), "240 V dc");
  EXPECT_DOUBLE_EQ(r.ohms, 0.0258);
  EXPECT_DOUBLE_EQ(r.reactance, 0);
}

TEST(Impedance, LargeSolidCountsAsStrandedAloud) {
  const Read r = read(steel, wire("4 AWG", ", stranding = \"solid\""), "240 V dc");
  EXPECT_DOUBLE_EQ(r.ohms, 0.308);
  EXPECT_TRUE(assumed(r.report, "4 AWG solid is taken as stranded"));
}

TEST(Impedance, TinRaisesTheAlternatingCurrentResistanceAsItRaisesTheOther) {
  EXPECT_NEAR(read(steel, wire("4/0 AWG", ", coated = true")).ohms, 0.063 * 0.0626 / 0.0608, 1e-12);
}

TEST(Impedance, TemperatureMovesResistanceAndNotReactance) {
  // Table 8 Note 2, 0.00323 for copper and 0.00330 for aluminum, from 75 °C.
  const Read warm = read(steel, wire("6 AWG", ", temperature = \"90 °C\""));
  EXPECT_NEAR(warm.ohms, 0.49 * (1 + 0.00323 * 15), 1e-12);
  EXPECT_DOUBLE_EQ(warm.reactance, 0.064);
  EXPECT_NEAR(read(steel, "size = \"6 AWG\", material = \"aluminum\", temperature = \"-4 °F\"").ohms, 0.81 * (1 - 0.00330 * 95), 1e-12);
  EXPECT_FALSE(assumed(warm.report, "wire.temperature is not given"));
  EXPECT_TRUE(assumed(read(steel, wire("6 AWG")).report, "wire.temperature is not given: resistance is taken at 75 °C"));
}

TEST(Impedance, ParallelSetsShareTheCurrent) {
  const Read r = read(steel, wire("4/0 AWG", ", parallel = 3"));
  EXPECT_NEAR(r.ohms, 0.063 / 3, 1e-15);
  EXPECT_NEAR(r.reactance, 0.051 / 3, 1e-15);
}

TEST(Impedance, CopperCladCountsAsAluminumAloud) {
  const Read r = read(steel, "size = \"8 AWG\", material = \"copper-clad aluminum\"");
  EXPECT_DOUBLE_EQ(r.ohms, 1.3);
  EXPECT_TRUE(assumed(r.report, "copper-clad aluminum is taken as aluminum"));
}

TEST(Impedance, SizesThatTheTableLeavesOutCountAsTheNextSmallerAloud) {
  for (const auto& [size, taken, ohms] : {std::tuple{"700 kcmil", "600 kcmil", 0.025}, {"900 kcmil", "750 kcmil", 0.021},
                                          {"1250 kcmil", "1000 kcmil", 0.018}, {"2000 kcmil", "1000 kcmil", 0.018}}) {
    const Read r = read(steel, wire(size));
    EXPECT_DOUBLE_EQ(r.ohms, ohms) << size;
    EXPECT_TRUE(assumed(r.report, std::string("does not list ") + size + ": taken as " + taken)) << size;
  }
}

TEST(Impedance, SmallerThanTheTableHasItsFirstReactanceAloud) {
  const Read r = read(steel, wire("18 AWG"));
  EXPECT_DOUBLE_EQ(r.ohms, 7.95);
  EXPECT_DOUBLE_EQ(r.reactance, 0.073);
  EXPECT_TRUE(assumed(r.report, "lists no reactance for 18 AWG: taken as for 14 AWG"));
}

TEST(Impedance, CablesTakeTheColumnOfWhatIsAroundTheirConductors) {
  EXPECT_DOUBLE_EQ(read(cable("NM-B", "6 AWG"), wire("6 AWG")).reactance, 0.051);
  EXPECT_DOUBLE_EQ(read(cable("SOOW", "6 AWG"), wire("6 AWG")).reactance, 0.051);
  const Read armored = read(cable("MC", "6 AWG"), wire("6 AWG"));
  EXPECT_DOUBLE_EQ(armored.reactance, 0.064);
  EXPECT_TRUE(assumed(armored.report, "the armor of 'way' is taken as steel"));
  const Read mineral = read(cable("MI", "500 kcmil"), wire("500 kcmil"));
  EXPECT_DOUBLE_EQ(mineral.ohms, 0.032);
  EXPECT_TRUE(assumed(mineral.report, "the sheath of 'way'"));
}

TEST(Impedance, ACableInARacewayTakesTheRaceway) {
  const Read r = read("[[raceway]]\nname = \"pipe\"\ntype = \"RMC\"\nsize = \"2\"\nplace = \"indoors, dry\"\n" + cable("NM-B", "6 AWG") +
                      "inside = \"pipe\"\n", wire("6 AWG"));
  EXPECT_DOUBLE_EQ(r.reactance, 0.064);
}

TEST(Impedance, EveryCableTypeHasAColumn) {
  for (const std::string_view id : {"us-2017", "us-2020", "us-2023"}) {
    const auto edition = code::Edition::find(code::built_in(), id);
    ASSERT_TRUE(edition);
    const auto types = edition->table("cable-types");
    const auto rule = edition->rule("cable-impedance");
    ASSERT_TRUE(types && rule);
    for (std::size_t r = 0; r < types->rows(); ++r) {
      int listed = 0;
      for (const std::string_view around : {"pvc", "steel", "aluminum"})
        for (const code::CellRef& c : rule->list(around)) listed += c.text() == types->cell(r, std::size_t{0}).text() ? 1 : 0;
      EXPECT_EQ(listed, 1) << types->cell(r, std::size_t{0}).text() << " in " << id;
    }
  }
}

}  // namespace
}  // namespace pullproof
