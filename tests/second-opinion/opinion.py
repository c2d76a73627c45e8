"""A second opinion on a case: ampacity, device, grounding conductor, raceway fill, box volume and voltage drop, worked out
from the copied tables and from what the code asks, in this file alone. Nothing is shared with the program.

Sections are of NFPA 70-2023; where an edition differs it is said. An answer is what a check of the program should find:
its verdict, and the figure that is held against a limit, both in full.
"""
import functools
import math
from dataclasses import dataclass

from quantities import INCH, SIZES, feet, inches, si, size_order, split
from tables import COMPACT, rows_of

# Whose circuits carry 125 % whatever the hours. Fixed electric heat counts as continuous, 424.4(B), so that a device that
# may carry all of its rating spares it the increase, 210.20(A) Exception; of vehicle chargers, 625.41, and storage water
# heaters, 422.13, the percentage is asked for itself.
CONTINUOUS = {"electric space heater", "baseboard heater"}
RAISED = {"electric water heater, storage", "vehicle charger"}
SLACK = 1e-9  # computed figures that differ by less are the same


class Open(Exception):
    """The case cannot be answered: the tables have no such cell, or the wire may not be there at all."""


@dataclass(frozen=True)
class Answer:
    check: str
    subject: str
    verdict: str
    demand: float | None = None
    limit: float | None = None


def covers(large, small):
    return large >= small - SLACK * abs(small)


@functools.cache
def lookup(table, edition, column, **key):
    for row in rows_of(table, edition):
        if all(row[name] == value for name, value in key.items()):
            return row[column]
    return None


@functools.cache
def band(table, edition, column, value, through="through"):
    for row in rows_of(table, edition):
        if row[through] is None or value <= row[through] + SLACK:
            return row[column]
    return None


def metal(material):
    """Copper-clad aluminum is in the aluminum columns."""
    return "cu" if material == "copper" else "al"


class Opinion:
    """Everything about one case."""

    def __init__(self, case):
        self.case, self.edition = case, case["edition"]
        self.raceways = {r["name"]: r for r in case.get("raceway", [])}
        self.cables = {k["name"]: k for k in case.get("cable", [])}
        self.circuits = case.get("circuit", [])
        self.system = case["supply"]["system"]

    # The circuit: conductors of a set, and those that count for heat, 310.15(E).

    def ground_of(self, c):
        """The grounding conductor of a circuit, which may be that of another one in the same raceway, 250.122(C)."""
        ground = c.get("ground", {})
        if "shared_with" in ground:
            return next(other for other in self.circuits if other["name"] == ground["shared_with"]).get("ground", {})
        return ground

    def line(self, c):
        """Phases, conductors of one set, counted conductors of one set, volts of the supply that it takes."""
        volts = si(c["voltage"])
        neutral = c["wire"].get("neutral", "none") != "none"
        if self.system.endswith("dc"):
            return 1, 2, 2, volts
        levels = [float(v) for v in self.system.split(" ")[0].replace("Y", "").split("/")] if "/" in self.system else [volts]
        high, low = max(levels), min(levels)
        wye = "Y/" in self.system
        if c.get("phases", 1) == 3:
            harmonic = neutral and c["load"].get("nonlinear", False)
            return 3, 3 + neutral, 3 + harmonic, high
        if len(levels) > 1 and volts == low:
            return 1, 2, 2, low  # a line and its neutral, which carries the full current
        # Two lines; a neutral carries the difference, or as much as the lines where they are two of a wye.
        return 1, 2 + neutral, 2 + (1 if neutral and wye else 0), high

    def current(self, c):
        load = c["load"]
        phases, _, _, _ = self.line(c)
        if "current" in load:
            return si(load["current"])
        volts = si(c["voltage"]) * (math.sqrt(3) if phases == 3 else 1)
        if "apparent_power" in load:
            return si(load["apparent_power"]) / volts
        return si(load["power"]) / volts / load.get("power_factor", 1)

    def continuous(self, c):
        appliance = c["load"].get("appliance")
        if appliance in RAISED or appliance in CONTINUOUS and not c["breaker"].get("full_load_rated"):
            return self.current(c)
        if "continuous_current" in c["load"]:
            return si(c["load"]["continuous_current"])
        return self.current(c) if c["load"]["continuous"] else 0.0

    def raised(self, c):
        """210.19(A)(1), 210.20(A), 215.2(A)(1), 215.3: 125 % of what runs for hours, unless the device is listed for all of it."""
        if c["breaker"].get("full_load_rated") and c["load"].get("appliance") not in RAISED:
            return self.current(c)
        return self.current(c) + 0.25 * self.continuous(c)

    # Where conductors run.

    def stretch(self, name):
        """The cable or None, the raceway around it or None."""
        if name in self.raceways:
            return None, self.raceways[name]
        cable = self.cables[name]
        return cable, self.raceways.get(cable.get("inside"))

    def wet(self, place, raceway):
        """300.5(B), 300.9: the inside of a raceway outdoors or underground is wet; so is cable there, 310.10(C)."""
        words = [word.strip() for word in place.split(",")]
        if "underground" in words or "wet" in words:
            return "wet"
        if "damp" in words:
            return "damp"
        return "wet" if "outdoors" in words or "rooftop" in words else "dry"

    def moisture(self, name):
        cable, raceway = self.stretch(name)
        order = ["dry", "damp", "wet"]
        found = [self.wet(part["place"], part is raceway) for part in (cable, raceway) if part is not None and "place" in part]
        return max(found, key=order.index) if found else "dry"

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

    def sets(self, c):
        return c["wire"].get("parallel", 1)

    def sets_in(self, c, raceway):
        return self.sets(c) / raceway.get("alike", 1)

    def counted_of(self, c, cable):
        _, conductors, counted, _ = self.line(c)
        spare = max(cable["conductors"] - conductors, 0) if cable is not None and "conductors" in cable else 0
        return counted + spare

    def in_raceway(self, raceway):
        """Each circuit that runs in a raceway, with the cable that it runs in, if any."""
        for c in self.circuits:
            for name in c["path"]:
                cable, around = self.stretch(name)
                if around is raceway:
                    yield c, cable
                    break

    def count_factor(self, c, name):
        """310.15(C)(1): by what counts in the raceway, or in the bundle of cables; not in a nipple of at most 24 in."""
        cable, raceway = self.stretch(name)
        if raceway is not None:
            if raceway.get("nipple") and covers(24, inches(raceway["length"])):
                return 1.0
            count = sum(self.counted_of(other, k) * self.sets_in(other, raceway) for other, k in self.in_raceway(raceway))
            for other in raceway.get("also", []):
                if other.get("current_carrying", True) and not other.get("bare", False):
                    count += other["count"] * (other["conductors"] if other.get("cable") else 1)
        else:
            count = self.counted_of(c, cable)
            bundled = cable.get("bundled", 1)
            # Bundled over more than 24 in; NM cables in one insulated opening whatever the length, 334.80.
            crowded = "thermal insulation" in cable["place"] and bundled > 2 and cable["type"].startswith("NM")
            if bundled > 1:
                count *= bundled
                if not crowded and covers(24, inches(cable["length"])):
                    return 1.0
        return band("count-adjustment", self.edition, "percent", count) / 100

    # Ampacity, 310.14 to 310.16, 110.14(C), 334.80, 340.80.

    def terminal_columns(self, c):
        """The column of all ends, and that of the device's end. Up to 100 A unmarked terminals are for 60 °C, above for 75."""
        low = covers(100, si(c["breaker"]["rating"]))

        def column(mark):
            if mark is None:
                return 60 if low else 75
            return 75 if split(mark)[0] >= 75 else 60

        ends = [c["breaker"].get("terminals")]
        if "fed_by" not in c and "terminals" in self.case["supply"]:
            ends.append(self.case["supply"]["terminals"])
        device = min(column(mark) for mark in ends)
        return min(device, column(c["load"].get("terminals"))), device

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

    def wire_on(self, c, name):
        """Size, insulation, and the columns that the article of a cable starts from and ends with."""
        cable, _ = self.stretch(name)
        if cable is None:
            return c["wire"]["size"], c["wire"]["type"], 90
        kinds = {"NM-B": ("NM-B", 60), "UF-B": ("UF", 60)}
        insulation, last = kinds[cable["type"]]
        return cable.get("size", c["wire"]["size"]), insulation, last

    def stretch_ampacity(self, c, name, size=None):
        """After all factors; before them at all ends; before them at the device's end; whether it may keep a neighbour's."""
        own, insulation, last = self.wire_on(c, name)
        size = size or own
        cable, _ = self.stretch(name)
        column = self.insulation_column(name, insulation)
        ends, device = self.terminal_columns(c)
        table = self.table(c, size, column)
        factor = self.ambient_factor(name, insulation, column) * self.count_factor(c, name)
        caps = [self.table(c, size, ends)]
        if cable is not None and last < ends:
            caps.append(self.table(c, size, last))
        at_device = self.table(c, size, min(device, last)) if cable is not None else self.table(c, size, device)
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

    def part(self, name):
        return self.raceways.get(name) or self.cables[name]

    def ampacity_answers(self, c):
        usable, plain, at_device = self.ampacity(c)
        subject = f"circuit {c['name']}"
        if "minimum_circuit_ampacity" in c["load"]:  # 440.4(B): marked, with everything in it
            least = si(c["load"]["minimum_circuit_ampacity"])
            return [Answer("ampacity", subject, "pass" if covers(usable, least) else "fail", usable, least)]
        load, raised = self.current(c), self.raised(c)
        answers = [Answer("ampacity", subject, "pass" if covers(usable, load) else "fail", usable, load)]
        if self.continuous(c) > 0:
            # The load is raised for the device's sake: the device's end counts. A strict reader holds all ends against it.
            if not covers(plain, raised) and covers(at_device, raised):
                answers.append(Answer("ampacity", subject, "pass", at_device, raised))
                answers.append(Answer("ampacity", subject, "advice", plain, raised))
            else:
                answers.append(Answer("ampacity", subject, "pass" if covers(plain, raised) else "fail", plain, raised))
        return answers

    # Overcurrent devices, 240.4, 240.6, 210.20, 215.3.

    def cooling(self, c):
        return "minimum_circuit_ampacity" in c["load"]

    def largest_device(self, c, usable, size):
        most = usable
        several = c["load"].get("receptacles", False) and c.get("role", "branch") == "branch"
        if not several and covers(800, usable):
            kind = c["breaker"].get("kind", "breaker")
            standard = [row["rating"] for row in rows_of("standard-ratings", self.edition) if row[kind] == "yes" and covers(row["rating"], usable)]
            if standard and covers(800, min(standard)):
                most = min(standard)
        fixed = lookup("small-conductors", self.edition, "copper" if metal(c["wire"]["material"]) == "cu" else "aluminum", size=size)
        return most if fixed is None else min(most, fixed)

    def device_limit(self, c, size=None):
        usable = self.ampacity(c, size)[0]
        return min(self.largest_device(c, usable, size or self.wire_on(c, name)[0]) for name in c["path"])

    def device_answers(self, c):
        subject, rating = f"circuit {c['name']}", si(c["breaker"]["rating"])
        if self.cooling(c):  # its own article and nameplate set the device
            return []
        answers = []
        try:
            most = self.device_limit(c)
            answers.append(Answer("device-conductor", subject, "pass" if covers(most, rating) else "fail", rating, most))
        except Open:
            pass
        need = self.raised(c)
        answers.append(Answer("device-load", subject, "pass" if covers(rating, need) else "fail", rating, need))
        return answers

    # The equipment grounding conductor, 250.122.

    def circular_mils(self, size):
        found = lookup("conductor-properties", self.edition, "circular-mils", size=size, stranding="stranded")
        return found or lookup("conductor-properties", self.edition, "circular-mils", size=size, stranding="solid")

    def would_do(self, c, size):
        try:
            usable, _, at_device = self.ampacity(c, size)
        except Open:
            return False
        if self.cooling(c):
            return covers(usable, si(c["load"]["minimum_circuit_ampacity"]))
        return covers(usable, self.current(c)) and covers(at_device, self.raised(c)) and covers(self.device_limit(c, size), si(c["breaker"]["rating"]))

    def smallest(self, c):
        """The smallest conductors that would do: for the load, under the device, and permitted at all, 310.3, 310.10(G)."""
        installed = max((self.wire_on(c, name)[0] for name in c["path"]), key=size_order)
        least = "1/0 AWG" if self.sets(c) > 1 else "14 AWG" if c["wire"]["material"] == "copper" else "12 AWG"
        if not self.would_do(c, installed):
            return installed
        best = installed
        for size in reversed(SIZES[:size_order(installed)]):
            if size_order(size) < size_order(least) or not self.would_do(c, size):
                break
            best = size
        return best

    def ground_answers(self, c):
        ground, answers, done = self.ground_of(c), [], set()
        for name in c["path"]:
            cable, _ = self.stretch(name)
            if cable is None and "size" not in ground:
                continue
            size, material = (cable["ground"], cable["material"]) if cable is not None else (ground["size"], ground["material"])
            wire = self.wire_on(c, name)[0]
            if (size, wire, material, cable is not None) in done:
                continue
            done.add((size, wire, material, cable is not None))
            same_metal = material == c["wire"]["material"]
            by_device = band("egc", self.edition, "copper" if material == "copper" else "aluminum", si(c["breaker"]["rating"]))
            installed = self.circular_mils(wire)
            cap = installed * self.sets(c) if same_metal else math.inf  # (A): need not be larger than the ungrounded ones
            wanted = self.circular_mils(by_device)
            if wanted < cap:
                try:
                    self.ampacity(c)
                    wanted *= max(1.0, installed / self.circular_mils(self.smallest(c)))  # (B): grows with them
                except Open:  # what would do is not known; as large as the ungrounded ones is enough whatever it is
                    if not covers(self.circular_mils(size), cap):
                        raise
                    wanted = cap
            wanted = min(wanted, cap)
            large_enough = [self.circular_mils(s) for s in SIZES if covers(self.circular_mils(s), wanted)]
            if not large_enough:
                raise Open("no conductor is large enough")
            need = min(large_enough)
            has = self.circular_mils(size)
            answers.append(Answer("ground-size", f"circuit {c['name']}", "pass" if covers(has, need) else "fail", has, need))
        return answers

    # Raceway fill, Chapter 9 Tables 1, 4, 5, 5A and 8 with their notes.

    def wire_area(self, size, insulation, compact=False, covering=True):
        """The first type of a mark that the tables list, since all that share a mark are alike."""
        for part in insulation.split("/"):
            if compact:
                area = lookup("compact-dimensions", self.edition, "area", group=COMPACT.get(part), size=size)
            else:
                mine = [row for row in rows_of("dimensions", self.edition) if row["type"] == part and row["size"] == size]
                fitting = [row for row in mine if row["covering"] in (None, "with" if covering else "without")]
                area = fitting[0]["area"] if fitting else None
            if area is not None:
                return area
        raise Open("not in the dimension tables")

    def fill_answers(self, raceway):
        contents = []  # number and area
        for c in self.circuits:
            if raceway["name"] not in c["path"]:
                continue
            wire = c["wire"]
            _, conductors, _, _ = self.line(c)
            contents.append((conductors * self.sets_in(c, raceway), self.wire_area(wire["size"], wire["type"], wire.get("compact", False), wire.get("covering", True))))
            ground = c.get("ground", {})
            if "size" in ground:
                area = (self.bare_area(ground["size"]) if ground.get("bare") else
                        self.wire_area(ground["size"], ground.get("type", wire["type"]), False, wire.get("covering", True)))
                contents.append((1, area))
        for other in raceway.get("also", []):
            if other.get("cable"):
                area = math.pi / 4 * inches(other["diameter"]) ** 2
            else:
                area = self.bare_area(other["size"]) if other.get("bare") else self.wire_area(other["size"], other["type"])
            contents.append((other["count"], area))
        for cable in self.cables.values():
            if cable.get("inside") == raceway["name"]:
                contents.append((1, math.pi / 4 * inches(cable["diameter"]) ** 2))
        if not contents:
            return []
        inside = lookup("raceway-dimensions", self.edition, "inside", type=raceway["type"], size=value_of(raceway["size"]))
        if inside is None:
            raise Open("no such size")
        room = math.pi / 4 * inside**2
        count = sum(n for n, _ in contents)
        nipple = raceway.get("nipple") and covers(24, inches(raceway["length"]))
        percent = 60 if nipple else band("fill-percent", self.edition, "percent", count)
        subject = f"raceway {raceway['name']}"
        if all(math.isclose(area, contents[0][1], rel_tol=SLACK) for _, area in contents):  # Note 7: 0.8 and more counts as one more
            most = math.floor(percent / 100 * room / contents[0][1] + 0.2 + SLACK)
            return [Answer("raceway-fill", subject, "pass" if covers(most, count) else "fail", count, most)]
        used, allowed = sum(n * area for n, area in contents) , percent / 100 * room
        return [Answer("raceway-fill", subject, "pass" if covers(allowed, used) else "fail", used, allowed)]

    def bare_area(self, size):
        found = lookup("conductor-properties", self.edition, "area", size=size, stranding="stranded")
        return found or lookup("conductor-properties", self.edition, "area", size=size, stranding="solid")

    # Box volume, 314.16(B).

    def box_answers(self, box):
        entering, grounds = [], []
        for c in self.circuits:
            _, conductors, _, _ = self.line(c)
            entries = [name for name in box["entries"] if name in c["path"]]
            for number, name in enumerate(entries):
                cable, _ = self.stretch(name)
                size = self.wire_on(c, name)[0]
                if number == 0 or not box["passes_through"]:
                    entering.append((size, conductors * self.sets(c)))
                ground = cable["ground"] if cable is not None else c.get("ground", {}).get("size")  # a shared one is with its owner
                if ground is not None:
                    grounds.append(ground)
        for other in box.get("also", []):
            if other.get("bare"):
                grounds += [other["size"]] * other["count"]
            else:
                entering.append((other["size"], other["count"]))
        if not entering:
            return []
        every = [size for size, _ in entering] + [other["size"] for other in box.get("also", [])]
        largest = max(every, key=size_order)
        if size_order(largest) > size_order("6 AWG"):
            return []  # 314.28 holds

        def volume(size):
            found = lookup("box-volume", self.edition, "volume", size=size)
            if found is None:
                raise Open("no volume for this size")
            return found

        need = sum(volume(size) * count for size, count in entering)
        need += box.get("loops", 0) * volume(largest)            # a loop counts twice; once it was counted as passing through
        need += volume(largest) if box.get("clamps") else 0
        need += box.get("fittings", 0) * volume(largest)
        need += sum(2 * device.get("gangs", 1) * volume(device.get("size", largest)) for device in box.get("devices", []))
        if grounds:
            more = 0 if self.edition == "us-2017" else max(len(grounds) - 4, 0) / 4
            need += (1 + more) * volume(max(grounds, key=size_order))
            if "isolated_ground" in box and self.edition == "us-2017":
                need += volume(box["isolated_ground"])
        if self.edition == "us-2023":
            need += sum(volume(block.get("size", largest)) for block in box.get("terminal_blocks", []))
        if "barrier_volume" in box:
            need += si(box["barrier_volume"]) / INCH**3
        else:
            need += {"metal": 0.5, "nonmetallic": 1.0, None: 0}[box.get("barrier")]
        room = si(box["volume"]) / INCH**3 if "volume" in box else lookup("box-sizes", self.edition, "volume", kind=box["kind"], size=box["size"])
        return [Answer("box-volume", f"box {box['name']}", "pass" if covers(room, need) else "fail", need, room)]

    # Voltage drop of a circuit that starts at the supply: a constant current at a power factor, exactly.

    def impedance(self, c, name):
        """Ohms of one conductor one way. Table 8 for direct current and up to 10 AWG, Table 9 above; reactance of Table 9."""
        cable, raceway = self.stretch(name)
        size = self.wire_on(c, name)[0]
        around = "steel" if raceway is not None and raceway["type"] in ("EMT", "RMC", "IMC", "FMC", "LFMC") else "pvc"
        of = metal(c["wire"]["material"])
        dc = self.system.endswith("dc")
        listed = size if lookup("ac-impedance", self.edition, "size", size=size) else next(
            s for s in reversed(SIZES[:size_order(size)]) if lookup("ac-impedance", self.edition, "size", size=s))
        if dc or size_order(size) <= size_order("10 AWG"):
            solid = c["wire"].get("stranding", "stranded") == "solid" and size_order(size) <= size_order("8 AWG")
            column = "al" if of == "al" else "cu-coated" if c["wire"].get("coated") else "cu-uncoated"
            r = lookup("conductor-properties", self.edition, column, size=size, stranding="solid" if solid else "stranded")
        else:
            r = lookup("ac-impedance", self.edition, f"{of}-{around}", size=listed)
            if of == "cu" and c["wire"].get("coated"):  # Table 9 is for bare copper: tinned has as much more as in Table 8
                bare, tinned = (lookup("conductor-properties", self.edition, f"cu-{kind}", size=listed, stranding="stranded") for kind in ("uncoated", "coated"))
                r *= tinned / bare
        x = 0.0 if dc else lookup("ac-impedance", self.edition, f"xl-{around}", size=listed)
        if r is None or x is None:
            raise Open("no impedance")
        length = feet(self.part(name)["length"]) / 1000
        return r * length / self.sets(c), x * length / self.sets(c)

    def drop_answers(self, c):
        feeder = c.get("role") == "feeder"
        phases, _, _, nominal = self.line(c)
        volts = nominal
        factor = math.sqrt(3) if phases == 3 else 2.0
        dc = self.system.endswith("dc")
        pf = 1.0 if dc else c["load"]["power_factor"]
        q = math.sqrt(1 - pf**2)
        parts = [self.impedance(c, name) for name in c["path"]]
        r, x = sum(p[0] for p in parts), sum(p[1] for p in parts)
        i = self.current(c)
        in_phase, across = factor * i * (r * pf + x * q), factor * i * (x * pf - r * q)
        if across >= volts or math.sqrt(volts**2 - across**2) <= in_phase:
            raise Open("it cannot be fed")
        share = (volts - (math.sqrt(volts**2 - across**2) - in_phase)) / volts * 100
        return [Answer("drop-feeder" if feeder else "drop-branch", f"circuit {c['name']}", "pass" if covers(3, share) else "advice", share, 3)]

    def answers(self):
        """Everything, as {(check, subject): [answers] or None where it is open}."""
        found = {}

        def put(check, subject, ask):
            try:
                found[(check, subject)] = ask()
            except Open:
                found[(check, subject)] = None

        for c in self.circuits:
            subject = f"circuit {c['name']}"
            put("ampacity", subject, lambda c=c: self.ampacity_answers(c))
            devices = self.device_answers(c)
            if not self.cooling(c):
                found[("device-load", subject)] = [a for a in devices if a.check == "device-load"]
                limit = [a for a in devices if a.check == "device-conductor"]
                found[("device-conductor", subject)] = limit or None
            put("ground-size", subject, lambda c=c: self.ground_answers(c))
            if not any("fed_by" in other for other in self.circuits) and not self.cooling(c):
                put("drop-feeder" if c.get("role") == "feeder" else "drop-branch", subject, lambda c=c: self.drop_answers(c))
        for raceway in self.raceways.values():
            put("raceway-fill", f"raceway {raceway['name']}", lambda r=raceway: self.fill_answers(r))
        for box in self.case.get("box", []):
            put("box-volume", f"box {box['name']}", lambda b=box: self.box_answers(b))
        return found


def value_of(size):
    """Trade sizes as the copied tables read them: whole ones are numbers there."""
    return float(size) if size.isdigit() else size
