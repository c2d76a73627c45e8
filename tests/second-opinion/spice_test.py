"""Voltage drop of random cases against ngspice: every conductor is a resistance and an inductance of its own, every load a
current source whose phase follows the voltage across it. Impedances are of the copied tables; nothing of any formula for
the drop is in a netlist.

usage: spice_test.py PROGRAM [COUNT] [SEED]
"""
import cmath
import math
import re
import subprocess
import sys
import tempfile

from opinion import Opinion
from program import stream
from quantities import si, toml_text
from random_cases import Maker

WITHIN = 1e-3  # of the voltage left at the load
OMEGA = 2 * math.pi * 60
ROUNDS = 12  # until the phases of the loads have settled


class Netlist:
    """Many circuits in one run: nodes of each carry its number."""

    def __init__(self):
        self.lines, self.loads, self.count = [], [], 0

    def add(self, kind, a, b, rest):
        self.count += 1
        self.lines.append(f"{kind}{self.count} {a} {b} {rest}")

    def source(self, a, b, volts, degrees=0.0):
        self.add("V", a, b, f"dc {volts:.12g} ac {volts:.12g} {degrees:.12g}")

    def conductor(self, a, b, r, x):
        self.count += 1
        middle = f"m{self.count}"
        self.add("R", a, middle, f"{max(r, 1e-12):.15g}")
        self.add("L", middle, b, f"{max(x, 1e-12) / OMEGA:.15g}")

    def load(self, a, b, amperes, power_factor, volts, degrees=0.0):
        """A constant current at a power factor, drawn from a to b; `volts` and `degrees` are a first guess of its voltage."""
        self.loads.append([a, b, amperes, math.acos(power_factor), cmath.rect(volts, math.radians(degrees))])
        return len(self.loads) - 1

    def settle(self):
        """Runs until the voltages across the loads stay as they are, and leaves them in the loads."""
        for _ in range(ROUNDS):
            text, asks = "* drop\n" + "\n".join(self.lines) + "\n", ""
            for n, (a, b, amperes, lag, across) in enumerate(self.loads):
                text += f"I{n} {a} {b} dc 0 ac {amperes:.15g} {math.degrees(cmath.phase(across) - lag):.15g}\n"
                seen = f"v({a})" if b == "0" else f"v({a})-v({b})"
                asks += f"let r{n}=real({seen})\nlet i{n}=imag({seen})\nprint r{n} i{n}\n"
            values = simulate(text + ".control\nset numdgt=14\nac lin 1 60 60\n" + asks + "quit\n.endc\n.end\n")
            moved = 0.0
            for n, load in enumerate(self.loads):
                now = complex(values[f"r{n}"], values[f"i{n}"])
                moved = max(moved, abs(now - load[4]) / abs(now))
                load[4] = now
            if moved < 1e-7:
                return
        raise RuntimeError(f"the loads of the netlist do not settle: {moved}")


def simulate(text):
    with tempfile.NamedTemporaryFile("w", suffix=".cir") as file:
        file.write(text)
        file.flush()
        done = subprocess.run(["ngspice", "-b", file.name], capture_output=True, text=True, check=False)
    values = {name: float(value) for name, value in re.findall(r"^(\w+) = ([-+.\deE]+)", done.stdout, re.M)}
    if not values:
        raise RuntimeError(f"ngspice gave no answer: {done.stdout[-300:]}{done.stderr[-300:]}")
    return values


SHAPES = [("120/240 V 1-phase 3-wire", 120, 1, "white"), ("120/240 V 1-phase 3-wire", 240, 1, "none"), ("120/240 V 1-phase 3-wire", 240, 1, "white"),
          ("208Y/120 V 3-phase 4-wire", 208, 1, "none"), ("208Y/120 V 3-phase 4-wire", 208, 3, "white"), ("480Y/277 V 3-phase 4-wire", 480, 3, "none"),
          ("240 V 3-phase 3-wire", 240, 3, "none"), ("48 V dc", 48, 1, "white")]


def case_of(maker, shape, fed):
    """A circuit of one to three stretches, or one behind a feeder."""
    system, volts, phases, neutral = shape
    case = {"edition": "us-2023", "supply": {"system": system, "dwelling": False}, "raceway": [], "circuit": []}
    for name in ["feeder", "branch"] if fed else ["branch"]:
        path = []
        for n in range(maker.pick([1, 1, 2, 3])):
            kind = maker.pick(["EMT", "PVC-40", "RMC"])
            path.append(f"{name} way {n}")
            case["raceway"].append({"name": path[-1], "type": kind, "size": "4", "length": maker.length(10, 120), "place": "indoors, dry"})
        wire = {"size": maker.pick(["2 AWG", "2/0 AWG", "250 kcmil"]) if name == "feeder" else maker.wire_size(False), "material": "copper", "type": "THHN/THWN-2",
                "hot": "black", "neutral": neutral}
        if maker.chance(0.3) and name == "branch":
            wire["material"], wire["size"] = "aluminum", maker.pick(["10 AWG", "6 AWG", "1/0 AWG"])
        c = {"name": name, "voltage": f"{volts} V", "path": path, "breaker": {"rating": "100 A"}, "wire": wire, "ground": {"kind": "raceway"}}
        if "3-phase" in system:
            c["phases"] = phases
        if name == "feeder":
            c |= {"role": "feeder"}
        else:
            c["load"] = {"current": f"{maker.r.uniform(4, 30):.2f} A", "continuous": False}
            if not system.endswith("dc"):
                c["load"]["power_factor"] = maker.pick([1, 0.95, 0.85, 0.7, 0.5])
            if fed:
                c["fed_by"] = "feeder"
        case["circuit"].append(c)
    return case


def put(netlist, number, case, shape):
    """The case as a netlist; returns its load, and the factor from the load's voltage to the one the program speaks of."""
    system, volts, phases, _ = shape
    opinion = Opinion(case)
    parts = [opinion.impedance(c, name) for c in case["circuit"] for name in c["path"]]
    load = case["circuit"][-1]["load"]
    amperes, pf = si(load["current"]), load.get("power_factor", 1)

    def run(line):
        at = f"s{line}{number}"
        for n, (r, x) in enumerate(parts):
            netlist.conductor(at, f"n{line}{n}{number}", r, x)
            at = f"n{line}{n}{number}"
        return at

    if phases == 3 and "Y/" not in system:
        # A delta: two of its three sources hold all lines, and the load is a delta as well.
        netlist.source(f"sa{number}", f"sb{number}", volts, 0)
        netlist.source(f"sb{number}", f"sc{number}", volts, -120)
        netlist.add("R", f"sb{number}", "0", "1e6")
        a, b, c = (run(line) for line in "abc")
        first = netlist.load(a, b, amperes / math.sqrt(3), pf, volts, 0)
        netlist.load(b, c, amperes / math.sqrt(3), pf, volts, -120)
        netlist.load(c, a, amperes / math.sqrt(3), pf, volts, 120)
        return first, 1.0
    if phases == 3:
        for line, degrees in zip("abc", (0, -120, 120)):
            netlist.source(f"s{line}{number}", "0", volts / math.sqrt(3), degrees)
        # Balanced, so the star of the loads is where that of the source is.
        loads = [netlist.load(run(line), "0", amperes, pf, volts / math.sqrt(3), degrees) for line, degrees in zip("abc", (0, -120, 120))]
        return loads[0], math.sqrt(3)
    netlist.source(f"sa{number}", f"sb{number}", volts)
    netlist.add("R", f"sb{number}", "0", "1e6")
    return netlist.load(run("a"), run("b"), amperes, pf, volts), 1.0


def main(program, count=160, seed="1"):
    maker, cases, shapes = Maker(f"spice {seed}"), [], []
    for number in range(count):
        shapes.append(SHAPES[number % len(SHAPES)])
        cases.append(case_of(maker, shapes[-1], number // len(SHAPES) % 2 == 1))
    netlist = Netlist()
    seen = [put(netlist, number, case, shape) for number, (case, shape) in enumerate(zip(cases, shapes))]
    netlist.settle()
    wrong, worst = 0, 0.0
    for case, shape, (load, factor), report in zip(cases, shapes, seen, stream(program, [toml_text(case) for case in cases])):
        check = "drop-total" if len(case["circuit"]) > 1 else "drop-branch"
        found = [f for f in report.get("findings") or [] if f["check"] == check and f["subject"] == "circuit branch" and f["demand"]]
        theirs = abs(netlist.loads[load][4]) * factor
        ours = shape[1] * (1 - found[0]["demand"]["value"] / 100) if found else math.nan
        off = abs(ours - theirs) / theirs
        worst = max(worst, off if found else 0)
        if not off <= WITHIN:
            wrong += 1
            if wrong <= 3:
                print(f"{ours} V left by the program, {theirs} V by simulation:\n{report.get('complaints')}\n{toml_text(case)}")
    print(f"{count} cases against ngspice, {count - wrong} agree; the largest difference is {worst:.2g} of the voltage left")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], *(int(n) for n in sys.argv[2:3]), *sys.argv[3:4]))
