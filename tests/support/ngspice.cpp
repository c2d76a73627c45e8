#include "support/ngspice.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace pullproof::test {

std::map<std::string, double> ngspice(const std::string& netlist) {
  static int count = 0;
  const auto file = std::filesystem::path(testing::TempDir()) / fmt::format("pullproof-{}-{}.cir", getpid(), ++count);
  std::ofstream(file) << netlist;
  std::map<std::string, double> values;
  if (FILE* out = popen(fmt::format("ngspice -b '{}' 2>&1", file.string()).c_str(), "r")) {
    char line[256], name[64];
    double value = 0;
    while (std::fgets(line, sizeof line, out) != nullptr)
      if (std::sscanf(line, "%63s = %lf", name, &value) == 2) values[name] = value;
    pclose(out);
  }
  std::filesystem::remove(file);
  if (values.empty()) ADD_FAILURE() << "ngspice gave no answer: is it installed?\n" << netlist;
  return values;
}

}  // namespace pullproof::test
