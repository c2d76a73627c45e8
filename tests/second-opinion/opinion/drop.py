"""Voltage drop: a constant current at a power factor, exactly, from the supply through every feeder to the load."""
import cmath
import math

from quantities import SIZES, feet, si, size_order, split

from .basics import Answer, Open, Silent, covers, lookup, metal
from .circuits import ARMORED

STEEL = ("EMT", "RMC", "IMC", "FMC", "LFMC")
ALPHA = {"cu": 0.00323, "al": 0.00330}  # Chapter 9 Table 8 Note 2, at 75 °C


class Drop:
    def impedance(self, c, name):
        """Ohms of one conductor one way. Table 8 for direct current and up to 10 AWG, Table 9 above; reactance of Table 9."""
        cable, raceway = self.stretch(name)
        size = self.wire_on(c, name)[0]
        steel = raceway is not None and raceway["type"] in STEEL or cable is not None and cable["type"] in (*ARMORED, "MC-jacketed")
        around = "steel" if steel else "pvc"
        wire, of = c["wire"], metal(c["wire"]["material"])
        listed = size if lookup("ac-impedance", self.edition, "size", size=size) else next(
            s for s in reversed(SIZES[:size_order(size)]) if lookup("ac-impedance", self.edition, "size", size=s))
        if self.dc or size_order(size) <= size_order("10 AWG"):
            solid = wire.get("stranding", "stranded") == "solid" and size_order(size) <= size_order("8 AWG")
            column = "al" if of == "al" else "cu-coated" if wire.get("coated") else "cu-uncoated"
            r = lookup("conductor-properties", self.edition, column, size=size, stranding="solid" if solid else "stranded")
        else:
            r = lookup("ac-impedance", self.edition, f"{of}-{around}", size=listed)
            if of == "cu" and wire.get("coated"):  # Table 9 is for bare copper: tinned has as much more as in Table 8
                bare, tinned = (lookup("conductor-properties", self.edition, f"cu-{kind}", size=listed, stranding="stranded") for kind in ("uncoated", "coated"))
                r *= tinned / bare
        x = 0.0 if self.dc else lookup("ac-impedance", self.edition, f"xl-{around}", size=listed)
        if r is None or x is None:
            raise Open("no impedance")
        if "temperature" in wire:
            value, unit = split(wire["temperature"])
            r *= 1 + ALPHA[of] * ((value if unit == "°C" else (value - 32) / 1.8) - 75)
        length = feet(self.part(name)["length"]) / 1000
        return r * length / self.sets(c), x * length / self.sets(c)

    def supply_volts(self, c):
        """What the supply holds for a circuit: nominal, or as measured between lines or from one to neutral."""
        volts = self.line(c)[3]
        if "voltage" not in self.case["supply"]:
            return volts
        measured = si(self.case["supply"]["voltage"])
        if self.dc:
            return measured
        levels = self.levels()
        nearest = min(levels, key=lambda level: abs(level - measured))
        if nearest == volts:
            return measured
        between = math.sqrt(3) if self.wye else 2.0
        return measured * between if nearest < volts else measured / between

    def by_marked_minimum(self, c):
        return self.marked_minimum(c) and not self.motors(c) and not self.says_current(c)

    def drawn(self, c):
        """What the load draws, a range all of its nameplate; a marked minimum stands for it where nothing else is said,
        which is more than runs."""
        if self.by_marked_minimum(c):
            return si(c["load"]["minimum_circuit_ampacity"])
        if self.household_cooking(c) and self.says_current(c):
            return self.nameplate(c) + self.others(c)
        return self.current(c)

    def impedance_of(self, c):
        parts = [self.impedance(c, name) for name in c["path"]]
        return complex(sum(p[0] for p in parts), sum(p[1] for p in parts))

    def phasor(self, c, worst=False):
        """The current in the frame of the load's voltage; at the power factor that loses most if `worst`."""
        lag = cmath.phase(self.impedance_of(c)) if worst else math.acos(1.0 if self.dc else self.power_factor(c))
        return cmath.rect(self.drawn(c), -lag)

    def left(self, c, volts, worst=False, seen=None):
        """Volts left at the end of a circuit that starts with so many; between the conductors of another one behind it if `seen`."""
        seen = seen or c
        if self.carries_what_it_feeds(c):
            current, factor = self.fed_by_it(c), self.loop(seen)
        else:
            # Balanced: of the volts between the lines the same share is lost as of those that another circuit takes from them.
            current, factor = self.phasor(c, worst), self.loop(c) * self.ratio(seen) / self.ratio(c)
        # In the frame of the load's voltage the conductors lose this phasor; the source is as long as both together.
        lost = factor * self.impedance_of(c) * current
        if abs(lost.imag) >= volts or math.sqrt(volts**2 - lost.imag**2) <= lost.real:
            raise Open("it cannot be fed")
        return math.sqrt(volts**2 - lost.imag**2) - lost.real

    def ratio(self, c):
        """The volts of a circuit in those between the lines."""
        if self.dc or self.line(c)[3] == self.levels()[-1]:
            return 1.0
        return 1 / math.sqrt(3) if self.wye else 0.5

    def delta_to_neutral(self, feeder, seen):
        """A load from one line of a delta to its mid-tap: what one line of a balanced feeder loses is no share of it."""
        return self.line(feeder)[0] == 3 and not self.wye and self.ratio(seen) < 1

    def loop(self, c):
        """How often the drop of one conductor counts between the conductors of a circuit."""
        return math.sqrt(3) if self.line(c)[0] == 3 else 2.0

    # Feeders that are given no load: they carry what they feed, all of it on the same line.

    def carries_what_it_feeds(self, c):
        return self.is_feeder(c) and not self.says_current(c)

    def fed_by_it(self, feeder):
        """The current of such a feeder, by circuits that take the same volts in the same way; mixtures are left to others."""
        fed = [c for c in self.circuits if c.get("fed_by") == feeder["name"]]
        if not fed:
            raise Open("nothing is said of what it carries")
        if any(self.is_feeder(c) for c in fed):
            raise Silent("further feeders")
        if len({(self.loop(c), self.line(c)[3]) for c in fed}) > 1 or any(self.power_factor_unknown(c) for c in fed):
            raise Silent("a mixture")
        return sum(self.phasor(c) for c in fed)

    def seen_by(self, c):
        """Whose conductors a drop is counted between: of a feeder that is given no load, of those behind it."""
        if self.carries_what_it_feeds(c):
            return next((other for other in self.circuits if other.get("fed_by") == c["name"]), c)
        return c

    def drop_answers(self, c):
        """The circuit alone, as if its beginning held what the supply holds."""
        start = self.supply_volts(self.seen_by(c))
        return self.share_answers("drop-feeder" if self.is_feeder(c) else "drop-branch", c, start, start, 3)

    def share_answers(self, check, c, start, whole, limit):
        """The share of `whole` that is lost at the end of a circuit which starts with so many volts."""
        seen = self.seen_by(c)
        share = (whole - self.left(c, start, seen=seen)) / whole * 100
        if self.power_factor_unknown(c) and covers(limit, share) and not covers(limit, (whole - self.left(c, start, True, seen)) / whole * 100):
            raise Open("the power factor decides")
        return [Answer(check, f"circuit {c['name']}", "pass" if covers(limit, share) else "advice", share, limit)]

    def power_factor_unknown(self, c):
        return not self.carries_what_it_feeds(c) and not self.dc and "power_factor" not in c["load"]

    def starts_with(self, c, seen=None):
        """Volts between the conductors of a circuit, or of one `seen` behind it, where the circuit begins."""
        feeder, seen = self.feeder_of(c), seen or c
        if feeder is None:
            return self.supply_volts(seen)
        if not self.carries_what_it_feeds(feeder):
            if not self.by_marked_minimum(seen) and not covers(self.drawn(feeder), self.drawn(seen)):
                raise Open("less on the feeder than one circuit draws from it")
            if self.delta_to_neutral(feeder, seen):
                raise Open("not worked out")
            if self.wye and self.line(feeder)[0] == 1 and self.ratio(seen) < self.ratio(feeder):
                raise Silent("the neutral of two lines of a wye carries what they do")
            if self.power_factor_unknown(feeder):
                raise Silent("the feeder's power factor is not known")
        return self.left(feeder, self.starts_with(feeder, seen), seen=seen)

    def total_answers(self, c):
        """Feeders and branch circuit together: the shares that each leaves, one after the other."""
        if self.is_feeder(c) or self.feeder_of(c) is None:
            return []
        return self.share_answers("drop-total", c, self.starts_with(c), self.supply_volts(c), 5)

    def appliance_drop_answers(self, c):
        """110.3(B): the lowest voltage that the maker of the appliance says."""
        left = self.left(c, self.starts_with(c))
        least = si(c["load"]["minimum_voltage"])
        return [Answer("drop-appliance", f"circuit {c['name']}", "pass" if covers(left, least) else "fail", left, least)]
