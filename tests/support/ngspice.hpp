#pragma once
// A circuit simulator as a second opinion.
#include <map>
#include <string>

namespace pullproof::test {

/// Runs a netlist in ngspice (`ngspice -b`) and returns what its control section prints, by name, in lower case. Empty
/// when it gives no answer, which fails the test.
std::map<std::string, double> ngspice(const std::string& netlist);

}  // namespace pullproof::test
