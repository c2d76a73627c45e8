#pragma once
// What is in a raceway and how much of it that fills (NFPA 70 Chapter 9 Tables 1, 4, 5, 5A and 8).
#include <optional>
#include <vector>

#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

enum class Part : std::uint8_t { circuit, ground, other, cable, control };

/// Things of one kind and size in a raceway.
struct Content {
  Part part = Part::circuit;
  std::string_view owner;  ///< name of the circuit, cable or control run; empty for the rest
  Traced<double> count;
  double neutrals = 0;      ///< of the count, for circuit conductors
  Traced<Area> area;        ///< of one, insulation and all
  Length diameter{};        ///< of one; what the area is a circle of
  std::string_view type;    ///< insulation, "bare", or empty
  std::string_view group;   ///< its group in the table of dimensions, if it was looked up there
  Given<ConductorSize> size;
};

struct Contents {
  std::vector<Content> parts;
  double count = 0;
  bool alike = false;  ///< every one of them has the same area
};

/// Everything that runs in `r`: the conductors of its circuits and their grounding wires (each circuit its own, unless
/// the case says that it shares another's), the other conductors, the cables pulled in and the control cables. Needs
/// what decides their areas. Sets in parallel all run in this one raceway, but for raceways alike side by side.
Contents contents_of(Context& cx, const Raceway& r);

/// The inside diameter: the maker's where given, else the table's. Needs the trade size.
Traced<Length> inside_of(Context& cx, const Raceway& r);

/// The contents against the room.
struct Fill {
  Traced<Area> used, allowed;
  Traced<double> share, percent;
  std::optional<Traced<double>> most;  ///< all alike: how many of them fit
  Traced<double> count;
  bool good = false;
};
/// `nipple`: a short raceway between enclosures, which has its own percentage.
Fill fill_of(Context& cx, const Contents& contents, const Traced<Length>& inside, bool nipple);
bool is_fill_nipple(Context& cx, const Raceway& r);

/// The smallest trade size of this type that holds the contents; nothing when none does.
std::optional<std::string_view> smallest_size(const Context& cx, const Contents& contents, std::string_view type, bool nipple);

/// How many conductors alike fit in a raceway, as Annex C counts them: `group` is a group of the table of conductor
/// dimensions ("THHN", "TW", "XHHW", "RHW", "RHW*"). Nothing when the edition does not list the raceway or the conductor.
std::optional<int> count_that_fits(const code::Edition& edition, std::string_view raceway_type, std::string_view trade_size,
                                   std::string_view group, std::string_view conductor_size);

}  // namespace pullproof::derive
