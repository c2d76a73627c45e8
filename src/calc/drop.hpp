#pragma once
// Voltage drop of constant currents along a run, exactly, in closed form.
//
// The voltage Vr at the end of a circuit is the reference phasor. A load of current I and power factor pf (lagging)
// there draws I (pf - j q), q = sqrt(1 - pf^2). Through R + jX that loses (R pf + X q) I in phase with Vr, and
// (X pf - R q) I ahead of it by a right angle. The current passes c conductors of the loop: both of a two-wire
// circuit (c = 2); of three balanced phases, line to line, sqrt(3), which is the drop to neutral times sqrt(3). With
// A and B the sums over all stretches of the circuit,
//
//     Vs^2 = (Vr + A)^2 + B^2,   so   Vr = sqrt(Vs^2 - B^2) - A.
//
// The usual approximation is A alone: it leaves out that both ends of the circuit are not in phase. A feeder's power
// factor counts at the feeder's end, so a circuit behind it starts from the feeder's Vr as its own Vs.
//
// Method: the phasor diagram of a short line, in any textbook of power engineering; IEEE Std 141 prints the same as
// its exact formula, from memory.
#include <cmath>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr double sqrt3 = 1.7320508075688772;

inline constexpr auto reactive_factor = formula("reactive factor", "q", "sqrt(1 - pf^2)", {"pf"},
    [](double pf) -> double { return std::sqrt(1 - pf * pf); });

/// A voltage held at the panel between lines, to neutral, and the other way round: exact for a balanced supply.
inline constexpr auto half_of_line = formula("source voltage to neutral", "Vs", "V / 2", {"V"},
    [](Voltage v) -> Voltage { return v / 2.0; });
inline constexpr auto neutral_of_wye = formula("source voltage to neutral", "Vs", "V / sqrt(3)", {"V"},
    [](Voltage v) -> Voltage { return v / sqrt3; });
inline constexpr auto twice_neutral = formula("source voltage between lines", "Vs", "2 * V", {"V"},
    [](Voltage v) -> Voltage { return 2.0 * v; });
inline constexpr auto line_of_wye = formula("source voltage between lines", "Vs", "sqrt(3) * V", {"V"},
    [](Voltage v) -> Voltage { return sqrt3 * v; });

/// The two parts of the current, times the conductors of the loop that it passes.
inline constexpr auto active_current = formula("current in phase, times the conductors it passes", "Ip", "c * I * pf",
    {"c", "I", "pf"}, [](double c, Current i, double pf) -> Current { return c * i * pf; });
inline constexpr auto reactive_current = formula("current in quadrature, times the conductors it passes", "Iq", "c * I * q",
    {"c", "I", "q"}, [](double c, Current i, double q) -> Current { return c * i * q; });
inline constexpr auto sum_active = formula("current in phase, so far", "Ip", "Ip1 + Ip2", {"Ip1", "Ip2"},
    [](Current a, Current b) -> Current { return a + b; });
inline constexpr auto sum_reactive = formula("current in quadrature, so far", "Iq", "Iq1 + Iq2", {"Iq1", "Iq2"},
    [](Current a, Current b) -> Current { return a + b; });

inline constexpr auto drop_in_phase = formula("drop in phase", "a", "R * Ip + X * Iq", {"R", "Ip", "X", "Iq"},
    [](Resistance r, Current ip, Resistance x, Current iq) -> Voltage { return r * ip + x * iq; });
inline constexpr auto drop_in_quadrature = formula("drop in quadrature", "b", "X * Ip - R * Iq", {"X", "Ip", "R", "Iq"},
    [](Resistance x, Current ip, Resistance r, Current iq) -> Voltage { return x * ip - r * iq; });
inline constexpr auto sum_in_phase = formula("drop in phase, so far", "A", "A1 + a", {"A1", "a"},
    [](Voltage so_far, Voltage more) -> Voltage { return so_far + more; });
inline constexpr auto sum_in_quadrature = formula("drop in quadrature, so far", "B", "B1 + b", {"B1", "b"},
    [](Voltage so_far, Voltage more) -> Voltage { return so_far + more; });

/// Not a number when |B| > Vs, not positive when A is too large: the load cannot be fed. See `can_be_fed`.
inline constexpr auto end_voltage = formula("voltage at the end", "Vr", "sqrt(Vs^2 - B^2) - A", {"Vs", "A", "B"},
    [](Voltage source, Voltage a, Voltage b) -> Voltage {
      const double vs = source.value(), across = b.value();
      return Voltage::from_value(std::sqrt(vs * vs - across * across)) - a;
    });
inline bool can_be_fed(Voltage source, Voltage a, Voltage b) {
  const double vs = source.value(), across = b.value();
  return std::abs(across) < vs && std::sqrt(vs * vs - across * across) > a.value();
}

/// At a joint before the end: what the circuit loses up to there is Aj and Bj.
inline constexpr auto joint_voltage = formula("voltage at the joint", "Vj", "sqrt((Vr + A - Aj)^2 + (B - Bj)^2)",
    {"Vr", "A", "Aj", "B", "Bj"}, [](Voltage vr, Voltage a, Voltage aj, Voltage b, Voltage bj) -> Voltage {
      return Voltage::from_value(std::hypot((vr + a - aj).value(), (b - bj).value()));
    });
inline constexpr auto lost_voltage = formula("voltage lost", "Vd", "Vs - Vr", {"Vs", "Vr"},
    [](Voltage source, Voltage load) -> Voltage { return source - load; });
inline constexpr auto sum_of_circuits = formula("voltage lost by the usual approximation", "A", "A1 + A2", {"A1", "A2"},
    [](Voltage so_far, Voltage more) -> Voltage { return so_far + more; });
inline constexpr auto voltage_left = formula("voltage at the load", "Vl", "Vs - Vd", {"Vs", "Vd"},
    [](Voltage source, Voltage lost) -> Voltage { return source - lost; });
inline constexpr auto approximate_share = formula("voltage drop by the usual approximation", "da", "A / Vs", {"A", "Vs"},
    [](Voltage in_phase, Voltage source) -> double { return in_phase / source; });
inline constexpr auto share_of_source = formula("voltage drop", "d", "Vd / Vs", {"Vd", "Vs"},
    [](Voltage lost, Voltage source) -> double { return lost / source; });

inline constexpr auto sum_length = formula("length, so far", "L", "L1 + L2", {"L1", "L2"},
    [](Length so_far, Length more) -> Length { return so_far + more; });

/// The voltage that a limit on the share leaves.
inline constexpr auto allowed_voltage = formula("voltage that the limit leaves", "Vt", "Vs * (1 - p)", {"Vs", "p"},
    [](Voltage source, double limit) -> Voltage { return source * (1 - limit); });

/// The length at which exactly Vt is left at the end, all stretches of the circuit lengthened alike: t times the
/// present L, from (Vt + t A)^2 + (t B)^2 = Vs^2. Only for Vt below Vs.
inline constexpr auto longest_run = formula("longest run of this wire within the limit", "Lm",
    "L * (Vs^2 - Vt^2) / (sqrt((Vt * A)^2 + (A^2 + B^2) * (Vs^2 - Vt^2)) + Vt * A)", {"L", "Vt", "Vs", "A", "B"},
    [](Length l, Voltage target, Voltage source, Voltage in_phase, Voltage across) -> Length {
      const double vt = target.value(), vs = source.value(), a = in_phase.value(), b = across.value();
      const double w = vs * vs - vt * vt, p = vt * a;
      return l * (w / (std::sqrt(p * p + (a * a + b * b) * w) + p));
    });

}  // namespace pullproof::calc
