"""Circuits as netlists for ngspice: every conductor is a resistance and an inductance of its own, every load a current source
whose phase follows the voltage across it. Nothing of any formula for the drop is in a netlist."""
import cmath
import math
import re
import subprocess
import tempfile

OMEGA = 2 * math.pi * 60
ROUNDS = 15  # until the phases of the loads have settled


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

    def run(self, start, parts, name):
        """One conductor through all stretches; returns the node at its end."""
        for n, (r, x) in enumerate(parts):
            end = f"{name}x{n}"
            self.conductor(start, end, r, x)
            start = end
        return start

    def load(self, a, b, amperes, power_factor, volts, degrees=0.0, less=()):
        """A constant current at a power factor, drawn from a to b; `volts` and `degrees` are a first guess of its voltage.

        What flows already through other loads, given by number and sign, is no part of it.
        """
        self.loads.append({"a": a, "b": b, "amperes": amperes, "lag": math.acos(power_factor), "less": less,
                           "across": cmath.rect(volts, math.radians(degrees))})
        return len(self.loads) - 1

    def current(self, load):
        """The phasor that a load draws at the voltage which it has now."""
        own = cmath.rect(load["amperes"], cmath.phase(load["across"]) - load["lag"])
        return own - sum(sign * self.current(self.loads[number]) for number, sign in load["less"])

    def across(self, load):
        return abs(self.loads[load]["across"])

    def settle(self):
        """Runs until the voltages across the loads stay as they are, and leaves them in the loads."""
        for _ in range(ROUNDS):
            text, asks = "* drop\n" + "\n".join(self.lines) + "\n", ""
            for n, load in enumerate(self.loads):
                i = self.current(load)
                text += f"I{n} {load['a']} {load['b']} dc 0 ac {abs(i):.15g} {math.degrees(cmath.phase(i)):.15g}\n"
                seen = f"v({load['a']})" if load["b"] == "0" else f"v({load['a']})-v({load['b']})"
                asks += f"let r{n}=real({seen})\nlet i{n}=imag({seen})\nprint r{n} i{n}\n"
            values = simulate(text + ".control\nset numdgt=14\nac lin 1 60 60\n" + asks + "quit\n.endc\n.end\n")
            moved = 0.0
            for n, load in enumerate(self.loads):
                now = complex(values[f"r{n}"], values[f"i{n}"])
                moved = max(moved, abs(now - load["across"]) / abs(now))
                load["across"] = now
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
