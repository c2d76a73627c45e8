"""Ampacity: 310.14 to 310.16, 110.14(C), the cable articles, and flexible cords by Article 400."""
from quantities import feet, inches, si, size_order, split

from .basics import Answer, Open, at_least, band, covers, lookup, metal
from .circuits import ARMORED, LAST_COLUMN, NM, SERVICE, is_cord


class Ampacity:
    def ambient_factor(self, name, insulation, column):
        """310.15(B): the band in the unit that was given; on a sunny roof and close to it the air is raised first."""
        cable, raceway = self.stretch(name)
        around = [part for part in (cable, raceway) if part is not None]
        given = [part["ambient"] for part in around if "ambient" in part]
        degrees, unit = 30.0, "°C"
        if given:
            degrees, unit = max((split(text) for text in given), key=lambda t: t[0] if t[1] == "°C" else (t[0] - 32) / 1.8)
        outer = raceway if raceway is not None else cable
        if any("rooftop" in part.get("place", "") for part in around) and insulation != "XHHW-2":
            clearance = 0.75 if self.edition == "us-2023" else 0.875
            if not covers(inches(outer["above_roof"]), clearance):
                degrees += 33 if unit == "°C" else 60
        factor = band("ambient-correction", self.edition, f"f-{column}", degrees, "through-c" if unit == "°C" else "through-f")
        if factor is None:
            raise Open("too hot")
        return factor

    def counted_of(self, c, cable):
        """What counts of a circuit, and conductors of its cable that it leaves unused."""
        _, conductors, counted, _ = self.line(c)
        spare = max(cable["conductors"] - conductors, 0) if cable is not None and "conductors" in cable else 0
        return counted + spare

    def count_factor(self, c, name, size):
        """310.15(C)(1): by what counts in the raceway, or in the bundle of cables; not in a nipple of at most 24 in."""
        cable, raceway = self.stretch(name)
        if raceway is not None:
            if raceway.get("nipple") and covers(24, inches(raceway["length"])):
                return 1.0
            count = sum(self.counted_of(other, k) * self.sets_in(other, raceway) for other, k in self.in_raceway(raceway))
            for other in raceway.get("also", []):
                if other.get("current_carrying", True) and not other.get("bare", False):
                    count += other["count"] * (other["conductors"] if other.get("cable") else 1)
            return band("count-adjustment", self.edition, "percent", count) / 100
        count = self.counted_of(c, cable)
        bundled = cable.get("bundled", 1)
        if bundled > 1:
            # Bundled over more than 24 in; more than two in thermal insulation whatever the length, 334.80 and 338.10(B)(4)(a).
            crowded = "thermal insulation" in cable["place"] and bundled > 2 and cable["type"] in NM + SERVICE
            if not crowded and covers(24, inches(cable["length"])):
                return 1.0
            # 310.15(C)(1)(d): AC and MC without a jacket, of 12 AWG copper and at most three that count, up to twenty in all; more have 60 %.
            if cable["type"] in ARMORED and count <= 3 and c["wire"]["material"] == "copper" and size == "12 AWG":
                return 1.0 if count * bundled <= 20 else 0.6
            count *= bundled
        return band("count-adjustment", self.edition, "percent", count) / 100

    def terminal_columns(self, c):
        """The column of all ends, and that of the device's end. Up to 100 A unmarked terminals are for 60 °C, above for 75;
        those of motors of design B have 75 °C, 110.14(C)(1)(a)(4)."""
        low = covers(100, si(c["breaker"]["rating"]))

        def column(mark, unmarked):
            if mark is None:
                return unmarked
            return 75 if split(mark)[0] >= 75 else 60

        usual = 60 if low else 75
        ends = [c["breaker"].get("terminals")]
        if "fed_by" not in c and "terminals" in self.case["supply"]:
            ends.append(self.case["supply"]["terminals"])
        design = bool(self.motors(c)) and all(motor.get("kind") == "polyphase design B" for motor in self.motors(c))
        device = min(column(mark, usual) for mark in ends)
        return min(device, column(c["load"].get("terminals"), 75 if design else usual)), device

    def table(self, c, size, column):
        amperes = lookup("ampacity", self.edition, f"{metal(c['wire']['material'])}-{column}", size=size)
        if amperes is None:
            raise Open("no ampacity")
        return amperes * self.sets(c)

    def insulation_column(self, name, insulation):
        """A wire marked as two types has the better column of each place."""
        place = self.moisture(name)
        columns = [lookup("insulation", self.edition, place, type=part) for part in insulation.split("/")]
        best = max((column for column in columns if column is not None), default=None)
        if best is None:
            raise Open("insulation not for this place")
        return int(best)

    def last_column(self, name, size):
        """Where the article of a cable ends, if it says so: 334.80, 340.80; 320.80(A) and 338.10(B)(4) in thermal insulation."""
        cable, _ = self.stretch(name)
        if cable["type"] in LAST_COLUMN:
            return LAST_COLUMN[cable["type"]]
        if "thermal insulation" in cable["place"]:
            if cable["type"] == "AC" or cable["type"] in SERVICE and size_order(size) <= size_order("10 AWG"):
                return 60
        return None

    def cord_ampacity(self, c, name, size):
        """Table 400.5(A)(1), the column of as many conductors as carry current, at 60 °C, which no end is below."""
        _, _, counted, _ = self.line(c)
        amperes = lookup("cord-ampacity", self.edition, "two" if counted <= 2 else "three", size=size)
        if amperes is None:
            raise Open("no cord of this size")
        return min(amperes * self.ambient_factor(name, "cord", 60) * self.count_factor(c, name, size), amperes), amperes, amperes, True

    def stretch_ampacity(self, c, name, size=None):
        """After all factors; before them at all ends; before them at the device's end; whether it may keep a neighbour's."""
        own, insulation = self.wire_on(c, name)
        size = size or own
        cable, _ = self.stretch(name)
        if is_cord(cable):
            return self.cord_ampacity(c, name, size)
        column = self.insulation_column(name, insulation)
        ends, device = self.terminal_columns(c)
        table = self.table(c, size, column)
        factor = self.ambient_factor(name, insulation, column) * self.count_factor(c, name, size)
        caps = [self.table(c, size, ends)]
        last = self.last_column(name, size) if cable is not None else None
        if last is not None and last < ends:
            caps.append(self.table(c, size, last))
        at_device = self.table(c, size, min(device, last or device))
        return min([table * factor] + caps), min([table] + caps), min(table, at_device), len(caps) == 1

    def ampacity(self, c, size=None):
        """The weakest stretch. A short weaker part may keep the ampacity of the rest: at most 10 ft and 10 % of the rest."""
        found = {name: self.stretch_ampacity(c, name, size) for name in c["path"]}
        usable = min(a[0] for a in found.values())
        alike = len({self.wire_on(c, name)[0] for name in c["path"]}) == 1 or size is not None
        if alike:
            for level in sorted({a[0] for a in found.values()}, reverse=True):
                lower = [name for name in c["path"] if found[name][0] < level]
                upper = [name for name in c["path"] if found[name][0] >= level]
                if not lower or not all(found[name][3] for name in lower):
                    continue
                length = [sum(feet(self.part(name)["length"]) for name in part) for part in (lower, upper)]
                if covers(min(10, 0.1 * length[1]), length[0]):
                    usable = level
                    break
        return usable, min(a[1] for a in found.values()), min(a[2] for a in found.values())

    def ampacity_answers(self, c):
        usable, plain, at_device = self.ampacity(c)
        subject = f"circuit {c['name']}"
        if self.marked_minimum(c):  # 440.4(B): marked, with everything in it
            return [at_least("ampacity", subject, usable, si(c["load"]["minimum_circuit_ampacity"]))]
        if self.motors(c):
            return [at_least("ampacity", subject, usable, self.motor_conductors(c))]
        raised = self.raised(c)
        answers = [at_least("ampacity", subject, usable, self.current(c))]
        if self.continuous(c) > 0:
            # The load is raised for the device's sake: the device's end counts. A strict reader holds all ends against it.
            if not covers(plain, raised) and covers(at_device, raised):
                answers.append(Answer("ampacity", subject, "pass", at_device, raised))
                answers.append(Answer("ampacity", subject, "advice", plain, raised))
            else:
                answers.append(at_least("ampacity", subject, plain, raised))
        return answers
