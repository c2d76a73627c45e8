#pragma once
// Circuits: device, load, wire, ground and path.
#include <vector>
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "job/disconnect.hpp"
#include "job/given.hpp"
#include "job/measured.hpp"
#include "job/motor.hpp"
#include "job/place.hpp"
#include "job/receptacle.hpp"
#include "job/sharing.hpp"
#include "job/ways.hpp"

namespace pullproof {

enum class Stranding : std::uint8_t { solid, stranded };
enum class DeviceKind : std::uint8_t { breaker, fuse };
enum class CircuitRole : std::uint8_t { branch, feeder };
enum class GroundKind : std::uint8_t { wire, raceway };
/// What a grounding electrode conductor goes to and to nothing else.
enum class ElectrodeKind : std::uint8_t { rods, concrete_encased, other };
enum class GasPiping : std::uint8_t { steel, copper, csst, plastic };

struct Breaker {
  Given<std::string_view> model;
  Given<Current> rating, interrupting;
  Given<DeviceKind> kind;
  Given<double> poles;
  Given<Temperature> terminals;
  Given<GfciClass> gfci_class;
  Given<bool> gfci, afci, full_load_rated;  ///< full_load_rated: listed for 100 % of its rating continuously
  Given<bool> time_delay;  ///< of a fuse
  Given<bool> tandem, listed_for_panel;
  Given<bool> handle_ties;                  ///< identified ties that trip or switch its poles together
  Given<Length> bending_space;              ///< from its terminals to the wall opposite
  Given<double> wires_per_terminal;
  Given<double> terminal_wires;             ///< wires that one of its terminals is marked for
  Given<bool> aluminum_terminals;           ///< they are marked for aluminum
  Given<bool> marked_for_small;             ///< listed and marked for 18 or 16 AWG
  Where where;
};

struct Load {
  Given<std::string_view> appliance, maker, model, listing;
  Given<Current> current;
  Given<Power> power, apparent_power;
  Given<double> power_factor;
  Given<bool> continuous;
  Given<Current> continuous_current;  ///< the part of the current that runs three hours or more
  Given<Current> minimum_circuit_ampacity, maximum_device;
  Given<Voltage> minimum_voltage;
  Given<Temperature> terminals;
  Given<bool> aluminum_terminals;  ///< they are marked for aluminum
  Given<Place> place;
  Given<TradeSize> opening;  ///< the hole that its wiring comes in by
  Given<bool> reducer;       ///< a reducing bushing or washers suit the raceway to that hole
  Given<bool> vibrates;
  Given<bool> cord_permitted;  ///< its maker identifies it for a cord
  std::vector<Motor> motors;
  Given<Current> other_current;  ///< of what runs beside the motors
  Given<bool> hard_start;        ///< it will not start on the ordinary short-circuit device
  Given<bool> group_listed;      ///< several motors: listed for a group on this device
  Given<Current> short_circuit_rating;  ///< as marked
  Given<bool> needs_neutral;
  Given<Connection> connection;
  Given<bool> fastened;          ///< of a plugged-in one: it is fastened in place
  Given<bool> gfci;              ///< the appliance, its cord or its plug protects people from ground faults
  Given<bool> replacement;       ///< only the equipment is replaced
  Given<bool> public_use;
  Given<bool> power_conversion;  ///< a variable-speed compressor
  Given<bool> controls_within_reach;
  Given<Length> cord_length;
  Given<Current> largest_subdivision;  ///< resistance elements: the largest part with a device of its own
  Given<Current> subdivision_device;   ///< the largest of those devices
  Given<GasPiping> gas_piping;
  Given<bool> gas_bonded;              ///< the piping is bonded to the grounding system by more than the circuit
  Given<ConductorSize> gas_bond;       ///< of a bonding conductor of its own
  Given<Length> gas_bond_length;
  Given<bool> hot_cold_jumper;         ///< water heater: a jumper bonds hot and cold pipe
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
  Given<bool> white_remarked;   ///< a white conductor in a cable that is used as hot is re-marked
  Given<bool> neutral_marked;   ///< a large neutral is marked white or gray at its ends
  Given<Length> diameter;
  Given<Voltage> insulation_voltage;
  Where where;
};

struct Circuit;

struct Ground {
  Given<GroundKind> kind;
  Given<ConductorSize> size;
  Given<Material> material;
  Given<std::string_view> type, color;
  Given<bool> bare, compact;
  Given<bool> marked;  ///< a large ground of another colour is stripped, marked or taped green at its ends
  Given<Length> diameter;
  Given<std::string_view> shared_with;  ///< the circuit whose grounding wire serves this one too
  Where where;
  const Circuit* shared = nullptr;  ///< set when names are linked
};

/// The grounding conductor of a whole circuit.
struct CircuitGround : Ground {
  Given<bool> isolated;  ///< it runs apart from all other grounds to the panel or the service
  Given<bool> second;    ///< beside it another grounding conductor bonds boxes and raceways
};

/// One stretch of a circuit's path: a raceway or cable, with other wire than the circuit's where it changes.
struct Stretch {
  Given<std::string_view> in;
  Wire wire;
  Ground ground;
  Given<bool> tap;  ///< smaller conductors that the circuit's device alone protects, to one of its appliances
  Where where;
  // Set when names are linked; exactly one is found.
  const Raceway* raceway = nullptr;
  const Cable* cable = nullptr;
};

struct Circuit {
  Given<std::string_view> name, number;  ///< number: its place in the panel
  Given<CircuitRole> role;
  Given<std::string_view> fed_by;  ///< the feeder that this circuit starts from
  Given<Voltage> voltage;
  Given<double> phases;
  std::vector<Stretch> path;
  std::vector<Given<std::string_view>> neutral_path, ground_path;  ///< where they run elsewhere than the rest
  Breaker breaker;
  Load load;
  Wire wire;
  CircuitGround ground;
  Where where;
  CircuitMeasured measured;
  Given<bool> multiwire;           ///< it feeds loads from more than one line to one neutral
  Given<bool> neutral_pigtailed;   ///< of such a one: its neutral goes on where a device is taken off
  Given<bool> entire_dwelling;     ///< of a feeder: it carries the whole load of a dwelling unit
  Given<Current> panel_bus, panel_main;  ///< of a feeder: busbars and main device of the panel that it feeds
  const Circuit* feeder = nullptr;  ///< set when names are linked
  Given<Purpose> purpose;
  Given<std::string_view> directory;  ///< its line in the panel's directory
  Given<bool> neutral_bonded;         ///< of a feeder: neutral and ground are joined at the panel that it feeds
  Given<bool> other_building;         ///< it feeds something in or at another building
  Given<ConductorSize> electrode_wire;     ///< to the electrodes of that building, copper
  Given<ElectrodeKind> electrode_kind;
  Given<bool> electrode;              ///< that building has a grounding electrode system bonded to it
  Given<bool> individual;           ///< it feeds this load alone
  Given<Length> extension;          ///< wire added to a circuit that was there, without a new outlet
  std::vector<Share> also_feeds;
  Disconnect disconnect;
  OutletReceptacle receptacle;
  ServiceReceptacle service_receptacle;
};

}  // namespace pullproof
