#pragma once
// Low-voltage runs: the resistance of a loop, what is lost in it, and how long it may be. Ohm's law and Kirchhoff's
// laws; the conductors of a small cable have no reactance to speak of. Loads draw in phase, which loses the most.
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "core/working.hpp"

namespace pullproof::calc::control {

// --- resistance: NBS Handbook 100; NFPA 70 Chapter 9 Table 8 Note 2 ---

inline constexpr auto conductor_at = formula("resistance of one conductor at its temperature", "r", "rt * (1 + a * (T - Tr))",
    {"rt", "a", "T", "Tr"}, [](ResistancePerLength r, double alpha, Temperature t, Temperature reference) -> ResistancePerLength {
      return r * (1 + alpha * (t.celsius - reference.celsius));
    });
inline constexpr auto in_metal = formula("resistance in this metal", "rt", "rc * fm", {"rc", "fm"},
    [](ResistancePerLength copper, double factor) -> ResistancePerLength { return copper * factor; });

// Printed lengths are feet or metres and printed resistances for a thousand of them, hence the 1000.
inline constexpr auto loop = formula("resistance of the loop, out and back", "R", "2 * L * r / 1000", {"L", "r"},
    [](Length l, ResistancePerLength r) -> Resistance { return 2.0 * l * r; });
inline constexpr auto loop_unlike = formula("resistance of the loop, out and back", "R", "L * (r + rc) / 1000", {"L", "r", "rc"},
    [](Length l, ResistancePerLength r, ResistancePerLength common) -> Resistance { return l * (r + common); });
inline constexpr auto one_way = formula("resistance of one conductor", "Ra", "L * r / 1000", {"L", "r"},
    [](Length l, ResistancePerLength r) -> Resistance { return l * r; });
inline constexpr auto path_length = formula("length of the path so far", "L", "La + Lb", {"La", "Lb"},
    [](Length a, Length b) -> Length { return a + b; });

// --- what a load draws ---

inline constexpr auto current_of_power = formula("current at the source's voltage", "I", "S / Vs", {"S", "Vs"},
    [](Power s, Voltage v) -> Current { return s / v; });
inline constexpr auto power_of_current = formula("power at the source's voltage", "S", "Vs * I", {"Vs", "I"},
    [](Voltage v, Current i) -> Power { return v * i; });
inline constexpr auto current_at_device = formula("current at the voltage that reaches it", "I", "S / V", {"S", "V"},
    [](Power s, Voltage v) -> Current { return s / v; });
inline constexpr auto both_currents = formula("currents together", "It", "Ia + Ib", {"Ia", "Ib"},
    [](Current a, Current b) -> Current { return a + b; });

// --- voltage at the device ---

inline constexpr auto drop = formula("voltage lost in the loop", "Vd", "I * R", {"I", "R"},
    [](Current i, Resistance r) -> Voltage { return i * r; });
/// Its own conductor carries the device's current, the common one that of all.
inline constexpr auto drop_shared = formula("voltage lost, own conductor and common", "Vd", "I * Ra + (I + Io) * Rc",
    {"I", "Ra", "Io", "Rc"},
    [](Current i, Resistance own, Current others, Resistance common) -> Voltage { return i * own + (i + others) * common; });
/// Side by side on the same two conductors, which carry the current of all.
inline constexpr auto drop_together = formula("voltage lost in the loop that they share", "Vd", "(I + Io) * R", {"I", "Io", "R"},
    [](Current i, Current others, Resistance r) -> Voltage { return (i + others) * r; });
inline constexpr auto voltage_left = formula("voltage at the device", "V", "Vs - Vd", {"Vs", "Vd"},
    [](Voltage source, Voltage lost) -> Voltage { return source - lost; });
inline constexpr auto left_by_others = formula("source voltage less what the others lose in what they share", "Vo", "Vs - Io * Rc",
    {"Vs", "Io", "Rc"}, [](Voltage source, Current others, Resistance common) -> Voltage { return source - others * common; });
/// The larger root of V² − Vs·V + S·R = 0; the smaller one is not stable. At the most power the two meet.
inline constexpr auto voltage_of_power = formula("voltage at the device", "V", "(Vs + sqrt(max(0, Vs * Vs - 4 * S * R))) / 2",
    {"Vs", "S", "R"}, [](Voltage vs, Power s, Resistance r) -> Voltage {
      const double v = raw(vs), under = v * v - 4 * raw(s) * raw(r);
      return Voltage::from_value((v + std::sqrt(std::max(0.0, under))) / 2);
    });
inline constexpr auto most_power = formula("most power that the line can bring", "Pm", "Vs * Vs / (4 * R)", {"Vs", "R"},
    [](Voltage vs, Resistance r) -> Power { return vs * vs / (4.0 * r); });
inline constexpr auto share_lost = formula("voltage drop", "p", "(Vs - V) / Vs", {"Vs", "V"},
    [](Voltage source, Voltage at) -> double { return (source - at) / source; });
inline constexpr auto lowest_after_drop = formula("lowest voltage that the drop leaves", "Vm", "Vs * (1 - p)", {"Vs", "p"},
    [](Voltage source, double share) -> Voltage { return source * (1 - share); });
inline constexpr auto share_of_voltage = formula("voltage that it has to pull in at", "Vm", "Vs * p", {"Vs", "p"},
    [](Voltage source, double share) -> Voltage { return source * share; });

// --- the longest run ---

inline constexpr auto longest = formula("longest run", "Lx", "1000 * (Vs - Vm) / (I * (r + rc))", {"Vs", "Vm", "I", "r", "rc"},
    [](Voltage vs, Voltage lowest, Current i, ResistancePerLength r, ResistancePerLength common) -> Length {
      return (vs - lowest) / (i * (r + common));
    });
inline constexpr auto longest_shared = formula("longest run", "Lx", "1000 * (Vs - Vm) / (I * r + (I + Io) * rc)",
    {"Vs", "Vm", "I", "r", "Io", "rc"},
    [](Voltage vs, Voltage lowest, Current i, ResistancePerLength r, Current others, ResistancePerLength common) -> Length {
      return (vs - lowest) / (i * r + (i + others) * common);
    });
inline constexpr auto longest_together = formula("longest run", "Lx", "1000 * (Vs - Vm) / ((I + Io) * (r + rc))",
    {"Vs", "Vm", "I", "Io", "r", "rc"},
    [](Voltage vs, Voltage lowest, Current i, Current others, ResistancePerLength r, ResistancePerLength common) -> Length {
      return (vs - lowest) / ((i + others) * (r + common));
    });
/// Below half the source's voltage a load of constant power does not hold, however low it may go.
inline constexpr auto longest_of_power = formula("longest run", "Lx",
    "1000 * (Vs - max(Vm, Vs / 2)) * max(Vm, Vs / 2) / (S * (r + rc))", {"Vs", "Vm", "S", "r", "rc"},
    [](Voltage vs, Voltage lowest, Power s, ResistancePerLength r, ResistancePerLength common) -> Length {
      const Voltage v = std::max(lowest, vs / 2.0);
      return (vs - v) * v / (s * (r + common));
    });
inline constexpr auto longest_of_resistance = formula("longest run", "Lx", "1000 * Rx / (r + rc)", {"Rx", "r", "rc"},
    [](Resistance most, ResistancePerLength r, ResistancePerLength common) -> Length { return most / (r + common); });

// --- sources ---

inline constexpr auto volts_times = formula("limit at this voltage", "Sx", "n * Vx", {"n", "Vx"},
    [](double n, Voltage v) -> Power { return Power::from_value(n * raw(v)); });
inline constexpr auto over_volts = formula("limit at this voltage", "Ix", "n / Vx", {"n", "Vx"},
    [](double n, Voltage v) -> Current { return Current::from_value(n / raw(v)); });

// --- several loads on one common conductor ---

/// What one load draws: a current whatever its voltage, or a power.
struct Draw {
  bool constant_power = false;
  double amount = 0;  ///< A or W, not negative
};

/// The voltages at loads that run together, each on a conductor of its own (`own`, one way) and all back through one
/// (`common`, one way): V_k = Vs − own·I_k − common·ΣI. Nothing when no voltage is stable. Newton's method on the
/// total current, from below: the sum of the currents is convex in it, so it comes to the smallest total, which is
/// the stable one, and never past it.
std::optional<std::vector<Voltage>> voltages_together(Voltage source, Resistance own, Resistance common, std::span<const Draw> loads);

}  // namespace pullproof::calc::control
