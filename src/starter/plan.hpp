#pragma once
// A first case: one appliance, the wiring to it, its control run. A Plan holds what is known or proposed, each value
// as it is written in a case; compose() writes the case; fit_sizes() picks what is left open by running the checks.
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "engine/load.hpp"

namespace pullproof::starter {

/// What a first case says. Every text is what stands in the case, without quotes; an empty one is not known, and its
/// key is written as a comment where the checks ask for it.
struct Plan {
  std::string appliance, title, site, date, edition = "us-2023";
  std::string system = "120/240 V 1-phase 3-wire", dwelling = "yes", available_fault;
  std::string voltage, nameplate;
  std::string second;  ///< marked largest device of cooling equipment, nameplate amperes of a motor
  std::string place, connection;
  std::string method, route, length, ambient = "86 °F", cover = "24 in";
  std::string whip;    ///< length of a flexible raceway at its end; empty when there is none
  std::string control, control_length;  ///< a row of `starter-controls`, or empty
  std::string breaker, wire, ground, raceway, whip_size, disconnect, receptacle, interrupting;
  std::string gfci, afci;  ///< "yes" when the breaker has it
  bool asked = false;      ///< true when a person answered; false for a starter

  // From the appliance's rows of `appliances` and `starters`.
  std::string kind = "ordinary";
  bool neutral = false, vibrates = false, service_receptacle = false, hvac = false, alone = false;

  bool operator==(const Plan&) const = default;
  bool three_phase() const { return system.find("3-phase") != std::string::npos && phases == "3"; }
  std::string phases = "1";
};

/// The proposals for an appliance, from the edition's tables. Throws std::out_of_range for one that is not in them.
Plan plan_for(const code::Edition& edition, std::string_view appliance);

/// What usually goes with the answers so far: the method with the place, the way with the method, the voltage with the
/// supply. Leaves alone what is in `given`.
void follow(const code::Edition& edition, Plan& plan, const std::set<std::string>& given);

/// Names of an edition's appliances, in the order of its table.
std::vector<std::string_view> appliances(const code::Edition& edition);

/// True when the method is a cable of the edition's tables, not a raceway.
bool is_cable(const code::Edition& edition, std::string_view method);

/// The case as TOML, each key with what it means.
std::string compose(const code::Edition& edition, const Plan& plan);

/// What the checks say of a plan, or why it cannot be read.
struct Checked {
  std::vector<Diagnostic> complaints;
  Report report;  ///< only when there are no complaints
};
Checked check(const Shelf& shelf, const Plan& plan);

/// Picks the sizes that are empty: the smallest that pass together, found by raising what a failing check asks to be
/// raised. What cannot be mended so keeps failing; `check` says it.
void fit_sizes(const Shelf& shelf, const code::Edition& edition, Plan& plan);

}  // namespace pullproof::starter
