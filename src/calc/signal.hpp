#pragma once
// Buses and power over Ethernet: reach, load and loss.
#include "core/working.hpp"

namespace pullproof::calc::signal {

/// A rule of thumb of RS-485: metres times bits in a second stay below a product. The rate is shown in kbit/s.
inline constexpr auto reach = formula("longest bus at this bit rate", "Lx", "n / (1000 * f)", {"n", "f"},
    [](double product, BitRate rate) -> Length { return Length::from_value(product / rate.bits_per_second); });
/// Out and back on the line against the time of one bit; the delay is in ns for a metre, the rate shown in kbit/s.
inline constexpr auto echo = formula("travel out and back against one bit", "k", "2 * L * d * f / 1000000", {"L", "d", "f"},
    [](Length l, double delay, BitRate rate) -> double { return 2 * raw(l) * delay * 1e-9 * rate.bits_per_second; });
inline constexpr auto unit_loads = formula("unit loads on the bus", "u", "n * ul", {"n", "ul"},
    [](double nodes, double each) -> double { return nodes * each; });

// --- power over Ethernet: IEEE 802.3. A pair set is two pairs, one out and one back, each of two conductors side by
// side, so its loop has the resistance of one conductor. ---

inline constexpr auto pair_set_resistance = formula("resistance of a pair set, out and back", "R", "L * r / 1000", {"L", "r"},
    [](Length l, ResistancePerLength r) -> Resistance { return l * r; });
inline constexpr auto pair_sets = formula("pair sets that carry power", "n", "np / 2", {"np"}, [](double pairs) -> double { return pairs / 2; });
inline constexpr auto pair_set_current = formula("current in a pair set", "I", "P / (V * n)", {"P", "V", "n"},
    [](Power p, Voltage v, double n) -> Current { return p / v / n; });
inline constexpr auto lost = formula("power lost in the cable", "Pl", "n * I * I * R", {"n", "I", "R"},
    [](double n, Current i, Resistance r) -> Power { return n * (i * r * i); });
inline constexpr auto arrives = formula("power at the far end", "Pd", "P - Pl", {"P", "Pl"},
    [](Power p, Power l) -> Power { return p - l; });
inline constexpr auto per_conductor = formula("current in one conductor", "Ic", "I / 2", {"I"},
    [](Current i) -> Current { return i / 2.0; });
inline constexpr auto in_ambient = formula("ampacity in this ambient", "Iz", "Ib * f", {"Ib", "f"},
    [](Current i, double f) -> Current { return i * f; });

// --- control transformers ---

inline constexpr auto together = formula("volt-amperes so far", "S", "Sa + Sb", {"Sa", "Sb"},
    [](Power a, Power b) -> Power { return a + b; });
inline constexpr auto at_pull_in = formula("volt-amperes as it pulls in", "Si", "S - Sr + Sp", {"S", "Sr", "Sp"},
    [](Power all, Power running, Power pulling) -> Power { return all - running + pulling; });
inline constexpr auto sagged = formula("voltage of the source at that moment", "Vt", "Vx - (Vx - Vs) * Si / Sn", {"Vx", "Vs", "Si", "Sn"},
    [](Voltage idle, Voltage rated, Power asked, Power rating) -> Voltage { return idle - (idle - rated) * (asked / rating).value(); });
inline constexpr auto idle_like = formula("voltage without load", "Vx", "Vs * Vi / Vr", {"Vs", "Vi", "Vr"},
    [](Voltage v, Voltage idle, Voltage rated) -> Voltage { return v * (idle / rated).value(); });

}  // namespace pullproof::calc::signal
