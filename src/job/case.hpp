#pragma once
// The case: what a person knows about the job. Nothing here is filled in; what is absent stays absent, and the
// checks either assume it aloud or ask for it. See vocabulary.hpp for the keys and their meaning.
#include <string>
#include <string_view>
#include <vector>

#include "core/text.hpp"
#include "job/box.hpp"
#include "job/circuit.hpp"
#include "job/control.hpp"
#include "job/place.hpp"
#include "job/supply.hpp"
#include "job/ways.hpp"

namespace pullproof {

struct Case {
  std::string file, text;
  bool whole = true;  ///< false when lines were left out because they are no TOML
  Given<std::string_view> edition;
  std::vector<Given<std::string_view>> amendments;
  std::vector<Given<std::string_view>> adopted_tias;  ///< tentative interim amendments, by name
  Given<Date> date;
  Job job;
  Supply supply;
  std::vector<Raceway> raceways;
  std::vector<Cable> cables;
  std::vector<Box> boxes;
  std::vector<Circuit> circuits;
  std::vector<Control> controls;
  Texts texts;  ///< owns what the views point into
};

}  // namespace pullproof
