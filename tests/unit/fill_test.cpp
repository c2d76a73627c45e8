// Printed conduit counts against the function that the raceway check rests on.
#include <gtest/gtest.h>

#include "code/edition.hpp"
#include "derive/fill.hpp"

namespace pullproof {
namespace {

code::Edition edition() { return *code::Edition::find(code::built_in(), "us-2023"); }

TEST(CountThatFits, PrintedCounts) {
  const auto fit = [](auto... a) { return derive::count_that_fits(edition(), a...); };
  // Trade forum thread 'Annex C1 error', no. 133481: 7.918 counts as 8.
  EXPECT_EQ(fit("EMT", "1", "TW", "8 AWG"), 8);
  // A contractor's page that reproduces a 2008 trade pocket reference: 11.8005 counts as 12, and would not with the
  // rounded inside area.
  EXPECT_EQ(fit("EMT", "1-1/4", "THHN", "6 AWG"), 12);
  EXPECT_EQ(fit("EMT", "1/2", "THHN", "14 AWG"), 12);
  // The same page: two of 6 AWG in 1/2 EMT, by the share for two and the same rounding.
  EXPECT_EQ(fit("EMT", "1/2", "THHN", "6 AWG"), 2);
  // The same page: 0.161 in² for one; 0.1855 in² is 0.87 of one and counts, 0.2223 in² (2/0 AWG) is 0.72 and does not.
  EXPECT_EQ(fit("EMT", "1/2", "THHN", "1/0 AWG"), 1);
  EXPECT_EQ(fit("EMT", "1/2", "THHN", "2/0 AWG"), 0);
  EXPECT_EQ(fit("EMT", "7", "THHN", "14 AWG"), std::nullopt);
  EXPECT_EQ(fit("EMT", "1/2", "NM", "14 AWG"), std::nullopt);
}

}  // namespace
}  // namespace pullproof
