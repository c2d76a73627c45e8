"""Voltage drop of random cases against ngspice: single phase, multiwire, three phases in star and delta, direct current, branch
circuits behind feeders, and control runs whose loads have a constant current or constant volt-amperes. Impedances are of the
copied tables.

usage: spice_test.py PROGRAM [COUNT] [SEED]
"""
import collections
import math
import sys

from netlist import Netlist, simulate
from opinion import Opinion
from program import stream
from quantities import si, toml_text
from random_cases import Maker
from tables import rows_of

WITHIN = 1e-6  # of the voltage left at the load: neither side approximates anything
# name: supply system; voltage, phases and neutral of the branch circuit, and of the feeder in front of it if there is one
SHAPES = {"to neutral": ("120/240 V 1-phase 3-wire", (120, 1, "white"), None),
          "between lines": ("120/240 V 1-phase 3-wire", (240, 1, "none"), None),
          "multiwire": ("120/240 V 1-phase 3-wire", (240, 1, "white"), None),
          "two lines of a star": ("208Y/120 V 3-phase 4-wire", (208, 1, "none"), None),
          "star": ("208Y/120 V 3-phase 4-wire", (208, 3, "white"), None),
          "star of 480 V": ("480Y/277 V 3-phase 4-wire", (480, 3, "none"), None),
          "delta": ("240 V 3-phase 3-wire", (240, 3, "none"), None),
          "direct current": ("48 V dc", (48, 1, "white"), None),
          "direct current behind a feeder": ("48 V dc", (48, 1, "white"), (48, 1, "white")),
          "lines behind a feeder": ("120/240 V 1-phase 3-wire", (240, 1, "none"), (240, 1, "white")),
          "neutral behind a feeder": ("120/240 V 1-phase 3-wire", (120, 1, "white"), (240, 1, "white")),
          "star behind a feeder": ("480Y/277 V 3-phase 4-wire", (480, 3, "none"), (480, 3, "white")),
          "neutral behind a star": ("208Y/120 V 3-phase 4-wire", (120, 1, "white"), (208, 3, "white")),
          "lines behind a star": ("208Y/120 V 3-phase 4-wire", (208, 1, "none"), (208, 3, "white")),
          "delta behind a feeder": ("240 V 3-phase 3-wire", (240, 3, "none"), (240, 3, "none"))}


def circuit_of(maker, case, name, take):
    """A circuit of one to three stretches."""
    volts, phases, neutral = take
    path = []
    for n in range(maker.pick([1, 1, 2, 3])):
        path.append(f"{name} way {n}")
        case["raceway"].append({"name": path[-1], "type": maker.pick(["EMT", "PVC-40", "RMC"]), "size": "4", "length": maker.length(10, 120), "place": "indoors, dry"})
    feeder = name == "feeder"
    wire = {"size": maker.pick(["2 AWG", "2/0 AWG", "250 kcmil"]) if feeder else maker.wire_size(False), "material": "copper", "type": "THHN/THWN-2",
            "hot": "black", "neutral": neutral}
    if maker.chance(0.3) and not feeder:
        wire["material"], wire["size"] = "aluminum", maker.pick(["10 AWG", "6 AWG", "1/0 AWG"])
    load = {"current": f"{maker.r.uniform(60, 120) if feeder else maker.r.uniform(4, 30):.2f} A", "continuous": False}
    if not case["supply"]["system"].endswith("dc"):
        load["power_factor"] = maker.pick([1, 0.95, 0.85, 0.7, 0.5])
    c = {"name": name, "voltage": f"{volts} V", "path": path, "breaker": {"rating": "100 A"}, "wire": wire, "ground": {"kind": "raceway"}, "load": load}
    if "3-phase" in case["supply"]["system"]:
        c["phases"] = phases
    return c | ({"role": "feeder"} if feeder else {})


def case_of(maker, shape):
    system, branch, feeder = shape
    case = {"edition": "us-2023", "supply": {"system": system, "dwelling": False}, "raceway": [], "circuit": []}
    if feeder:
        case["circuit"].append(circuit_of(maker, case, "feeder", feeder))
    case["circuit"].append(circuit_of(maker, case, "branch", branch))
    if feeder:
        case["circuit"][-1]["fed_by"] = "feeder"
    return case


class Wiring:
    """One case in the netlist: sources, the lines of its feeder, its branch circuit, and its loads."""

    def __init__(self, netlist, number, case, shape):
        self.net, self.number, self.case = netlist, number, case
        system, (self.volts, self.phases, _), self.feeder = shape
        self.wye, self.dc = "Y/" in system, system.endswith("dc")
        opinion = Opinion(case)
        self.parts = {c["name"]: [opinion.impedance(c, name) for name in c["path"]] for c in case["circuit"]}
        load = case["circuit"][-1]["load"]
        self.amperes, self.pf = si(load["current"]), load.get("power_factor", 1)
        self.three = (self.feeder or shape[1])[1] == 3
        self.whole = (self.feeder or shape[1])[0]  # volts between lines

    def node(self, name):
        return f"{name}{self.number}"

    def sources(self):
        """Lines by letter, and the neutral, from the supply; with their volts to the neutral in degrees."""
        if self.three or self.wye:
            to_neutral = self.phases == 1 and self.volts < 0.7 * self.whole  # nominal volts are rounded: those of the branch circuit hold
            star = self.volts if to_neutral else self.volts / math.sqrt(3)
            lines = {"a": 0.0, "b": -120.0, "c": 120.0}
            for line, degrees in lines.items():
                self.net.source(self.node(f"s{line}"), "0", star, degrees)
            return star, lines
        if self.dc or self.whole <= 120:
            self.net.source(self.node("sa"), "0", self.whole)
            return self.whole, {"a": 0.0}
        self.net.source(self.node("sa"), "0", self.whole / 2, 0)
        self.net.source(self.node("sb"), "0", self.whole / 2, 180)
        return self.whole / 2, {"a": 0.0, "b": 180.0}

    def to(self, circuit, line, start):
        return self.net.run(start, self.parts[circuit], self.node(f"{circuit}{line}"))

    def build(self):
        """Puts it all into the netlist. Returns the load whose voltage counts, and the factor to the one that the program speaks of."""
        volts, lines = self.sources()
        starts = {line: self.node(f"s{line}") for line in lines} | {"n": "0"}
        if not self.feeder:
            return self.branch(starts, volts, lines)
        ends = {line: self.to("feeder", line, start) for line, start in starts.items()}
        load, factor, flows = self.branch(ends, volts, lines, True)
        feeder = self.case["circuit"][0]["load"]
        for line, degrees in lines.items():  # the rest of what the feeder carries, shared by its lines
            # What one load between lines takes from a line stands in the phase of its own voltage.
            self.net.load(ends[line], ends["n"], si(feeder["current"]), feeder.get("power_factor", 1), volts, degrees, flows.get(line, ()))
        return load, factor

    def branch(self, ends, volts, lines, fed=False):
        """The branch circuit from the nodes that it starts at."""
        net, flows = self.net, collections.defaultdict(tuple)

        def draw(plus, minus, amperes, across, degrees):
            number = net.load(self.last(plus, ends), self.last(minus, ends), amperes, self.pf, across, degrees)
            for line, sign in ((plus, 1), (minus, -1)):
                if line in lines:
                    flows[line] += ((number, sign),)
            return number

        if self.phases == 3 and self.wye:
            number = [draw(line, "n", self.amperes, volts, degrees) for line, degrees in lines.items()][0]
            factor = math.sqrt(3)
        elif self.phases == 3:  # a delta of loads
            around = [("a", "b", 30), ("b", "c", -90), ("c", "a", 150)]
            number, factor = [draw(plus, minus, self.amperes / math.sqrt(3), self.volts, degrees) for plus, minus, degrees in around][0], 1.0
        elif self.dc or self.volts in (120, 277):
            number, factor = draw("a", "n", self.amperes, self.volts, 0), 1.0
        elif self.case["circuit"][-1]["wire"]["neutral"] != "none":  # multiwire: a load on each line, to one neutral
            number = [draw(line, "n", self.amperes, volts, degrees) for line, degrees in lines.items()][0]
            factor = 2.0
        else:
            number, factor = draw("a", "b", self.amperes, self.volts, 30 if self.three or self.wye else 0), 1.0
        return (number, factor, flows) if fed else (number, factor)

    def last(self, line, ends):
        """The node at the end of a line of the branch circuit; each is put in once."""
        self.placed = getattr(self, "placed", {})
        if line not in self.placed:
            self.placed[line] = self.to("branch", line, ends[line])
        return self.placed[line]


def circuits(program, count, maker):
    cases, shapes, wirings = [], [], []
    netlist = Netlist()
    for number in range(count):
        name = list(SHAPES)[number % len(SHAPES)]
        shapes.append(name)
        cases.append(case_of(maker, SHAPES[name]))
        wirings.append(Wiring(netlist, number, cases[-1], SHAPES[name]).build())
    netlist.settle()
    for case, name, (load, factor), report in zip(cases, shapes, wirings, stream(program, [toml_text(case) for case in cases])):
        check = "drop-total" if len(case["circuit"]) > 1 else "drop-branch"
        found = [f for f in report.get("findings") or [] if f["check"] == check and f["subject"] == "circuit branch" and f["demand"]]
        volts = float(case["circuit"][-1]["voltage"].split(" ")[0])
        yield name, case, volts * (1 - found[0]["demand"]["value"] / 100) if found else math.nan, netlist.across(load) * factor, report


# Control runs: every load has a conductor of its own and shares the common one.

COPPER = {row["size"]: row for row in rows_of("small-gauge", "us-2023")}


def control_of(maker):
    """A run with one to four loads, not so long that it collapses."""
    size, common = maker.pick(["22 AWG", "20 AWG", "18 AWG"]), maker.pick(["20 AWG", "18 AWG"])
    stranding, celsius = maker.pick(["solid", "stranded"]), maker.pick([20, 20, 40, 60])
    loads = []
    for n in range(maker.pick([1, 1, 2, 3, 4])):
        amperes = round(maker.r.uniform(0.02, 0.5), 3)
        constant = {"kind": "constant power", "apparent_power": f"{amperes * 24:.3f} VA"} if maker.chance(0.5) else {"kind": "constant current", "current": f"{amperes} A"}
        loads.append({"name": f"load {n}", "minimum_voltage": "0.1 V"} | constant)
    volts = maker.pick(["24 V ac", "24 V dc", "12 V dc"])
    run = {"name": "run", "length": maker.length(10, 250), "source": {"voltage": volts},
           "cable": {"size": size, "common_size": common, "stranding": stranding, "temperature": f"{celsius} °C", "material": "copper"}, "load": loads[0]}
    if loads[1:]:
        run["also"] = loads[1:]
    return {"edition": "us-2023", "control": [run]}, loads


def simulated(case, loads):
    """Volts at each load by simulation; a load of constant volt-amperes is a source whose current follows its voltage."""
    run = case["control"][0]
    volts, length = float(run["source"]["voltage"].split(" ")[0]), si(run["length"]) / 0.3048 / 1000
    warm = 1 + 0.00393 * (float(run["cable"]["temperature"].split(" ")[0]) - 20)  # NBS Circular 31
    own, common = (COPPER[run["cable"][key]][f"{run['cable']['stranding']}-20"] * warm * length for key in ("size", "common_size"))
    text, ask, start = f"* control\nV1 s 0 dc {volts}\nRc c 0 {common:.15g}\n", "", ".nodeset v(c)=0"
    for n, load in enumerate(loads):
        text += f"R{n} s d{n} {own:.15g}\n"
        start += f" v(d{n})={volts}"
        if load["kind"] == "constant power":
            text += f"B{n} d{n} c I = {si(load['apparent_power']):.12g} / max(v(d{n})-v(c), 0.01)\n"
        else:
            text += f"I{n} d{n} c dc {si(load['current']):.12g}\n"
        ask += f"let v{n} = v(d{n})-v(c)\nprint v{n}\n"
    options = "\n.options reltol=1e-10 abstol=1e-14 vntol=1e-12 itl1=500\n.control\nset numdgt=14\nop\n"
    values = simulate(text + start + options + ask + "quit\n.endc\n.end\n")
    return [values[f"v{n}"] for n in range(len(loads))]


def controls(program, count, maker):
    runs = [control_of(maker) for _ in range(count)]
    for (case, loads), report in zip(runs, stream(program, [toml_text(case) for case, _ in runs])):
        theirs = simulated(case, loads)
        if min(theirs) < 0.6 * float(case["control"][0]["source"]["voltage"].split(" ")[0]):
            continue  # near collapse, or past it, where a simulator finds whatever root it comes to
        for n, load in enumerate(loads):
            found = [f for f in report.get("findings") or [] if f["check"] == "control-drop" and f["demand"] and f"'{load['name']}'" in f["message"] or
                     len(loads) == 1 and f["check"] == "control-drop" and f["demand"]]
            yield f"control, {load['kind']}", case, found[0]["demand"]["value"] if found else math.nan, theirs[n], report


def main(program, count=165, seed="1"):
    maker, seen, worst, wrong = Maker(f"spice {seed}"), collections.Counter(), 0.0, 0
    for results in (circuits(program, count, maker), controls(program, count // 3, maker)):
        for name, case, ours, theirs, report in results:
            seen[name] += 1
            off = abs(ours - theirs) / theirs
            worst = max(worst, off if off == off else 0)
            if not off <= WITHIN:
                wrong += 1
                if wrong <= 3:
                    print(f"{name}: {ours} V left by the program, {theirs} V by simulation:\n{report.get('complaints')}\n{toml_text(case)}")
    for name in [*SHAPES, "control, constant current", "control, constant power"]:
        if seen[name] < 5:
            print(f"too few of {name}: {seen[name]}")
            wrong += 1
    print(f"{seen.total()} voltages against ngspice, {seen.total() - wrong} agree; the largest difference is {worst:.2g} of the voltage left: " +
          ", ".join(f"{name} {n}" for name, n in seen.items()))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], *(int(n) for n in sys.argv[2:3]), *sys.argv[3:4]))
