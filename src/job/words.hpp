#pragma once
// The words that stand for choices in a case.
#include <span>
#include <string_view>
#include <utility>

#include "job/case.hpp"

namespace pullproof {

template <class E>
struct Words;

template <class E>
using WordList = std::span<const std::pair<std::string_view, E>>;

template <>
struct Words<Material> {
  static constexpr std::pair<std::string_view, Material> all[] = {
      {"copper", Material::copper}, {"aluminum", Material::aluminum}, {"copper-clad aluminum", Material::copper_clad}};
};
template <>
struct Words<Stranding> {
  static constexpr std::pair<std::string_view, Stranding> all[] = {{"solid", Stranding::solid},
                                                                   {"stranded", Stranding::stranded}};
};
template <>
struct Words<DeviceKind> {
  static constexpr std::pair<std::string_view, DeviceKind> all[] = {{"breaker", DeviceKind::breaker},
                                                                    {"fuse", DeviceKind::fuse}};
};
template <>
struct Words<CircuitRole> {
  static constexpr std::pair<std::string_view, CircuitRole> all[] = {{"branch", CircuitRole::branch},
                                                                     {"feeder", CircuitRole::feeder}};
};
template <>
struct Words<Wall> {
  static constexpr std::pair<std::string_view, Wall> all[] = {{"left", Wall::left},
                                                              {"right", Wall::right},
                                                              {"top", Wall::top},
                                                              {"bottom", Wall::bottom},
                                                              {"back", Wall::back}};
};
template <>
struct Words<Barrier> {
  static constexpr std::pair<std::string_view, Barrier> all[] = {{"metal", Barrier::metal},
                                                                 {"nonmetallic", Barrier::nonmetallic}};
};
template <>
struct Words<LoadMethod> {
  static constexpr std::pair<std::string_view, LoadMethod> all[] = {{"standard", LoadMethod::standard},
                                                                    {"optional", LoadMethod::optional},
                                                                    {"existing", LoadMethod::existing},
                                                                    {"measured", LoadMethod::measured}};
};
template <>
struct Words<ServiceLoadKind> {
  static constexpr std::pair<std::string_view, ServiceLoadKind> all[] = {
      {"appliance", ServiceLoadKind::appliance},
      {"range", ServiceLoadKind::range},
      {"dryer", ServiceLoadKind::dryer},
      {"charger", ServiceLoadKind::charger},
      {"motor", ServiceLoadKind::motor},
      {"cooling", ServiceLoadKind::cooling},
      {"heat pump", ServiceLoadKind::heat_pump},
      {"heat pump supplement", ServiceLoadKind::heat_pump_supplement},
      {"electric heat", ServiceLoadKind::electric_heat}};
};
template <>
struct Words<MotorKind> {
  static constexpr std::pair<std::string_view, MotorKind> all[] = {{"single-phase", MotorKind::single_phase},
                                                                   {"polyphase", MotorKind::polyphase},
                                                                   {"polyphase design B", MotorKind::design_b},
                                                                   {"synchronous", MotorKind::synchronous},
                                                                   {"wound rotor", MotorKind::wound_rotor},
                                                                   {"direct current", MotorKind::direct_current}};
};
template <>
struct Words<ElectrodeKind> {
  static constexpr std::pair<std::string_view, ElectrodeKind> all[] = {
      {"rods", ElectrodeKind::rods}, {"concrete-encased", ElectrodeKind::concrete_encased}, {"other", ElectrodeKind::other}};
};
template <>
struct Words<GroundKind> {
  static constexpr std::pair<std::string_view, GroundKind> all[] = {{"wire", GroundKind::wire},
                                                                    {"raceway", GroundKind::raceway}};
};
template <>
struct Words<Under> {
  static constexpr std::pair<std::string_view, Under> all[] = {{"ground", Under::ground},
                                                               {"concrete", Under::concrete},
                                                               {"building", Under::building},
                                                               {"slab", Under::slab},
                                                               {"street", Under::street},
                                                               {"parking lot", Under::street},
                                                               {"driveway", Under::driveway},
                                                               {"dwelling driveway", Under::dwelling_driveway},
                                                               {"runway", Under::runway}};
};
template <>
struct Words<Holder> {
  static constexpr std::pair<std::string_view, Holder> all[] = {{"structure", Holder::structure},
                                                                {"ceiling grid", Holder::ceiling_grid},
                                                                {"raceway", Holder::raceway},
                                                                {"pipe", Holder::pipe},
                                                                {"duct", Holder::duct}};
};
template <>
struct Words<RoofDeck> {
  static constexpr std::pair<std::string_view, RoofDeck> all[] = {{"corrugated metal", RoofDeck::corrugated_metal},
                                                                  {"other", RoofDeck::other}};
};
template <>
struct Words<Fittings> {
  static constexpr std::pair<std::string_view, Fittings> all[] = {{"set-screw", Fittings::set_screw},
                                                                  {"compression", Fittings::compression},
                                                                  {"raintight", Fittings::raintight},
                                                                  {"threaded", Fittings::threaded}};
};
template <>
struct Words<ControlLoadKind> {
  static constexpr std::pair<std::string_view, ControlLoadKind> all[] = {
      {"constant current", ControlLoadKind::constant_current}, {"constant power", ControlLoadKind::constant_power}};
};
template <>
struct Words<ControlUse> {
  static constexpr std::pair<std::string_view, ControlUse> all[] = {
      {"general", ControlUse::general}, {"irrigation", ControlUse::irrigation}, {"landscape lighting", ControlUse::landscape_lighting}};
};
template <>
struct Words<Topology> {
  static constexpr std::pair<std::string_view, Topology> all[] = {{"point to point", Topology::point_to_point},
                                                                  {"daisy chain", Topology::daisy_chain},
                                                                  {"star", Topology::star},
                                                                  {"tree", Topology::tree},
                                                                  {"ring", Topology::ring}};
};
template <>
struct Words<Place::Word> {
  static constexpr std::pair<std::string_view, Place::Word> all[] = {
      {"indoors", Place::indoors},         {"outdoors", Place::outdoors},
      {"underground", Place::underground}, {"dry", Place::dry},
      {"damp", Place::damp},               {"wet", Place::wet},
      {"rooftop", Place::rooftop},         {"attic", Place::attic},
      {"concealed", Place::concealed},     {"exposed", Place::exposed},
      {"sunlight", Place::sunlight},       {"damage", Place::damage},
      {"plenum", Place::plenum},           {"garage", Place::garage},
      {"kitchen", Place::kitchen},         {"laundry", Place::laundry},
      {"bathroom", Place::bathroom},       {"basement", Place::basement},
      {"crawl space", Place::crawl_space}, {"accessory building", Place::accessory_building},
      {"sink", Place::sink},               {"thermal insulation", Place::thermal_insulation},
      {"corrosive", Place::corrosive},     {"hazardous", Place::hazardous},
      {"pool", Place::pool},               {"riser", Place::riser},
      {"severe damage", Place::severe_damage},
      {"duct", Place::duct},
      {"finished basement", Place::finished_basement}, {"unfinished basement", Place::unfinished_basement},
      {"kitchen countertop", Place::countertop}, {"food preparation area", Place::food_preparation},
      {"near sink", Place::sink},          {"near bathtub or shower", Place::bath},
      {"boathouse", Place::boathouse},     {"buffet", Place::buffet},
      {"locker room", Place::locker_room}, {"near open tank", Place::tank},
      {"utility room", Place::utility_room}, {"bedroom", Place::bedroom},
      {"living room", Place::living_room}, {"dining room", Place::dining_room},
      {"family room", Place::family_room}, {"den", Place::den},
      {"library", Place::library},         {"parlor", Place::parlor},
      {"sunroom", Place::sunroom},         {"recreation room", Place::recreation_room},
      {"closet", Place::closet},           {"hallway", Place::hallway},
      {"laundry area", Place::laundry},    {"office", Place::similar_room},
      {"similar room", Place::similar_room}};
};
template <>
struct Words<GasPiping> {
  static constexpr std::pair<std::string_view, GasPiping> all[] = {
      {"steel", GasPiping::steel}, {"copper", GasPiping::copper}, {"CSST", GasPiping::csst}, {"plastic", GasPiping::plastic}};
};
template <>
struct Words<DisconnectKind> {
  static constexpr std::pair<std::string_view, DisconnectKind> all[] = {
      {"breaker", DisconnectKind::breaker},
      {"switch", DisconnectKind::switch_},
      {"fusible switch", DisconnectKind::fusible_switch},
      {"molded-case switch", DisconnectKind::molded_case_switch},
      {"snap switch", DisconnectKind::snap_switch},
      {"pull-out", DisconnectKind::pull_out},
      {"unit switch", DisconnectKind::unit_switch},
      {"cord and plug", DisconnectKind::plug},
      {"none", DisconnectKind::none}};
};
template <>
struct Words<Opposite> {
  static constexpr std::pair<std::string_view, Opposite> all[] = {
      {"nothing", Opposite::nothing}, {"grounded", Opposite::grounded}, {"live parts", Opposite::live}};
};
template <>
struct Words<OtherMeans> {
  static constexpr std::pair<std::string_view, OtherMeans> all[] = {{"service", OtherMeans::service},
                                                                    {"in the unit", OtherMeans::in_unit},
                                                                    {"same floor", OtherMeans::same_floor},
                                                                    {"outside", OtherMeans::outside},
                                                                    {"branch", OtherMeans::branch}};
};
template <>
struct Words<GfciClass> {
  static constexpr std::pair<std::string_view, GfciClass> all[] = {{"A", GfciClass::a},
                                                                   {"C", GfciClass::c},
                                                                   {"D", GfciClass::d},
                                                                   {"E", GfciClass::e},
                                                                   {"equipment", GfciClass::equipment}};
};
template <>
struct Words<ReceptacleKind> {
  static constexpr std::pair<std::string_view, ReceptacleKind> all[] = {{"single", ReceptacleKind::single},
                                                                        {"duplex", ReceptacleKind::duplex}};
};
template <>
struct Words<Cover> {
  static constexpr std::pair<std::string_view, Cover> all[] = {
      {"in use", Cover::in_use}, {"closed", Cover::closed}, {"plain", Cover::plain}};
};
template <>
struct Words<Connection> {
  static constexpr std::pair<std::string_view, Connection> all[] = {{"hard-wired", Connection::hard_wired},
                                                                    {"cord and plug", Connection::plug}};
};
template <>
struct Words<Occupancy> {
  static constexpr std::pair<std::string_view, Occupancy> all[] = {
      {"one-family dwelling", Occupancy::one_family},
      {"two-family dwelling", Occupancy::two_family},
      {"multifamily dwelling", Occupancy::multifamily},
      {"dormitory", Occupancy::dormitory},
      {"hotel room", Occupancy::hotel_room},
      {"nursing home", Occupancy::nursing_home},
      {"station sleeping quarters", Occupancy::station_quarters},
      {"other", Occupancy::other}};
};
template <>
struct Words<Purpose> {
  static constexpr std::pair<std::string_view, Purpose> all[] = {{"small appliance", Purpose::small_appliance},
                                                                 {"laundry", Purpose::laundry},
                                                                 {"bathroom", Purpose::bathroom},
                                                                 {"garage", Purpose::garage},
                                                                 {"general", Purpose::general}};
};
template <>
struct Words<ShareKind> {
  static constexpr std::pair<std::string_view, ShareKind> all[] = {{"fixed", ShareKind::fixed},
                                                                   {"portable", ShareKind::portable},
                                                                   {"lighting", ShareKind::lighting},
                                                                   {"auxiliary", ShareKind::auxiliary},
                                                                   {"air conditioning", ShareKind::air_conditioning}};
};

/// The word for a choice.
template <class E>
constexpr std::string_view word(E value) {
  for (const auto& [text, e] : Words<E>::all)
    if (e == value) return text;
  return {};
}

}  // namespace pullproof
