#pragma once
// The case: what a person knows about the job. Nothing here is filled in; what is absent stays absent, and the
// checks either assume it aloud or ask for it. See vocabulary.hpp for the keys and their meaning.
#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "core/text.hpp"
#include "job/given.hpp"

namespace pullproof {

enum class Material : std::uint8_t { copper, aluminum, copper_clad };
enum class Stranding : std::uint8_t { solid, stranded };
enum class Moisture : std::uint8_t { dry, damp, wet };
enum class DeviceKind : std::uint8_t { breaker, fuse };
enum class CircuitRole : std::uint8_t { branch, feeder };
enum class GroundKind : std::uint8_t { wire, raceway };
enum class ControlLoadKind : std::uint8_t { constant_current, constant_power };

/// A day, as TOML writes it.
struct Date {
  int year = 0, month = 0, day = 0;
  friend constexpr auto operator<=>(const Date&, const Date&) = default;
};

/// Where something is: words of `place_words`, separated by commas ("outdoors, wet, sunlight").
struct Place {
  enum Word : std::uint32_t {
    indoors = 1u << 0, outdoors = 1u << 1, underground = 1u << 2, dry = 1u << 3, damp = 1u << 4, wet = 1u << 5,
    rooftop = 1u << 6, attic = 1u << 7, concealed = 1u << 8, exposed = 1u << 9, sunlight = 1u << 10,
    damage = 1u << 11, plenum = 1u << 12, garage = 1u << 13, kitchen = 1u << 14, laundry = 1u << 15,
    bathroom = 1u << 16, basement = 1u << 17, crawl_space = 1u << 18, accessory_building = 1u << 19,
    sink = 1u << 20, thermal_insulation = 1u << 21, corrosive = 1u << 22,
  };
  std::uint32_t words = 0;
  bool has(Word w) const { return (words & w) != 0; }
};

/// A supply system: "120/240 V 1-phase 3-wire", "208Y/120 V 3-phase 4-wire", "24 V dc".
struct System {
  Voltage line_to_line{};     ///< the only voltage of a two-wire system
  Voltage line_to_neutral{};  ///< 0 without a neutral; the mid-tap to line voltage of a high-leg delta
  int phases = 1, wires = 2;
  bool dc = false, wye = false;
};

/// A voltage that says what it is: "24 V ac", "12 V dc".
struct SourceVoltage {
  Voltage volts{};
  bool dc = false;
};

struct Job {
  Given<std::string_view> title, site, permit, description, contractor, license, prepared_by, checked_by;
};

/// The panel or other equipment that the circuits start from.
struct Supply {
  Where where;
  Given<System> system;
  Given<std::string_view> name;
  Given<bool> dwelling;
  Given<Current> available_fault;
  Given<Voltage> voltage;  ///< measured or held at the panel; the system's nominal when absent
  Given<Temperature> terminals;
};

/// Conductors that run along without being part of a described circuit: spares, another trade's wires.
struct Other {
  Given<double> count;
  Given<ConductorSize> size;
  Given<std::string_view> type;
  Given<bool> current_carrying, bare, compact;
  Given<Length> diameter;  ///< of one conductor or cable, when the tables do not list it
  Given<bool> cable;       ///< a multiconductor cable or cord: it counts as one conductor for fill
  Where where;
};

struct Raceway {
  Given<std::string_view> name, type;
  Given<TradeSize> size;
  Given<Length> length;
  Given<Place> place;
  Given<Temperature> ambient;
  Given<Length> above_roof;  ///< roof to the bottom of the raceway
  Given<Angle> bends;        ///< total between pull points
  Given<bool> nipple;        ///< between boxes, cabinets or similar enclosures
  Given<bool> sleeve;        ///< a short piece that only protects; no complete raceway
  Given<bool> moves;         ///< flexes or vibrates in use, or has to be moved after installation
  Given<bool> listed_fittings;
  Given<Length> inside_diameter;  ///< the maker's, instead of the table's
  std::vector<Other> also;
  Where where;
};

/// A multiconductor cable or cord that carries one circuit over a stretch.
struct Cable {
  Given<std::string_view> name, type;
  Given<ConductorSize> size;
  Given<Material> material;
  Given<double> conductors;      ///< insulated ones, the ground not among them
  Given<ConductorSize> ground;
  Given<std::string_view> insulation;  ///< conductor type inside, for armored and tray cable
  Given<Length> length, diameter;      ///< diameter: the larger of a flat cable
  Given<Place> place;
  Given<Temperature> ambient;
  Given<Length> above_roof;
  Given<double> bundled;  ///< cables bundled or in one opening or in insulation together, this one among them
  Given<std::string_view> inside;  ///< a raceway that it is pulled into
  Where where;
};

struct Breaker {
  Given<Current> rating, interrupting;
  Given<DeviceKind> kind;
  Given<double> poles;
  Given<Temperature> terminals;
  Given<bool> gfci, afci, full_load_rated;  ///< full_load_rated: listed for 100 % of its rating continuously
  Given<bool> marked_for_small;             ///< listed and marked for 18 or 16 AWG
  Where where;
};

struct Load {
  Given<std::string_view> appliance;
  Given<Current> current;
  Given<Power> power, apparent_power;
  Given<double> power_factor;
  Given<bool> continuous;
  Given<Current> continuous_current;  ///< the part of the current that runs three hours or more
  Given<Current> minimum_circuit_ampacity, maximum_device;
  Given<Voltage> minimum_voltage;
  Given<Temperature> terminals;
  Given<Place> place;
  Given<bool> nonlinear, receptacles;  ///< receptacles: more than one for cord-and-plug portable loads
  Where where;
};

struct Wire {
  Given<ConductorSize> size;
  Given<Material> material;
  Given<std::string_view> type;
  Given<Stranding> stranding;
  Given<bool> compact, coated;
  Given<bool> covering;  ///< outer covering of RHH, RHW and RHW-2
  Given<double> parallel;
  Given<Temperature> temperature;  ///< of the conductor in use, for resistance
  Given<std::string_view> hot, neutral;
  Given<Length> diameter;
  Where where;
};

struct Ground {
  Given<GroundKind> kind;
  Given<ConductorSize> size;
  Given<Material> material;
  Given<std::string_view> type, color;
  Given<bool> bare, compact;
  Where where;
};

/// One stretch of a circuit's path: a raceway or cable, with other wire than the circuit's where it changes.
struct Stretch {
  Given<std::string_view> in;
  Wire wire;
  Ground ground;
  Where where;
  // Set when names are linked; exactly one is found.
  const Raceway* raceway = nullptr;
  const Cable* cable = nullptr;
};

struct Circuit {
  Given<std::string_view> name;
  Given<CircuitRole> role;
  Given<std::string_view> fed_by;  ///< the feeder that this circuit starts from
  Given<Voltage> voltage;
  Given<double> phases;
  std::vector<Stretch> path;
  Breaker breaker;
  Load load;
  Wire wire;
  Ground ground;
  Where where;
  const Circuit* feeder = nullptr;  ///< set when names are linked
};

struct ControlSource {
  Given<double> control_class;
  Given<SourceVoltage> voltage;
  Given<Voltage> maximum_voltage;  ///< no load
  Given<Power> rating;
  Given<Current> current, overcurrent;
  Given<bool> listed, inherently_limited;
  Where where;
};

struct ControlCable {
  Given<ConductorSize> size;
  Given<double> conductors;
  Given<std::string_view> type;
  Given<Material> material;
  Given<Stranding> stranding;
  Given<Length> diameter;
  Given<Temperature> temperature;
  Given<Voltage> insulation;
  Where where;
};

struct ControlLoad {
  Given<std::string_view> name;
  Given<ControlLoadKind> kind;
  Given<Current> current, inrush;
  Given<Power> apparent_power, inrush_power;
  Given<Voltage> minimum_voltage;
  Where where;
};

struct Control {
  Given<std::string_view> name, serves;
  ControlSource source;
  ControlCable cable;
  Given<Length> length;
  std::vector<Stretch> path;
  ControlLoad load;
  std::vector<ControlLoad> also;  ///< loads whose current returns through the same common conductor
  Given<Length> maximum_length;
  Given<Resistance> maximum_loop_resistance;
  Given<double> allowed_drop;  ///< the maker's, as a ratio
  Given<bool> reclassified;
  Given<Length> separation;  ///< from power conductors, outside raceways
  Given<bool> barrier;
  Where where;
  const Circuit* served = nullptr;
};

struct Case {
  std::string file, text;
  Given<std::string_view> edition;
  std::vector<Given<std::string_view>> amendments;
  Given<Date> date;
  Job job;
  Supply supply;
  std::vector<Raceway> raceways;
  std::vector<Cable> cables;
  std::vector<Circuit> circuits;
  std::vector<Control> controls;
  Texts texts;  ///< owns what the views point into
};

}  // namespace pullproof
