"""What physics and the code demand of any case, held against random cases and against the demo cases.

usage: properties_test.py PROGRAM [COUNT] [SEED]
"""
import copy
import datetime
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

from program import close, findings, stream
from quantities import INCH, SIZES, feet, si, size_order, split, toml_text
from random_cases import Maker
from random_wiring import CABLES
from shrink import shrink

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO = sorted((ROOT / "cases").rglob("*.toml"))


# Pairs of cases of which the second may not do better, or not worse.

def longer(case, maker):
    for part in case.get("raceway", []) + case.get("cable", []):
        part["length"] = f"{feet(part['length']) * maker.r.uniform(1, 1.5) + 1:.4f} ft"
        part.pop("nipple", None)
    return case


def larger(case, maker):
    del maker
    for c in case.get("circuit", []):
        c["wire"]["size"] = SIZES[min(size_order(c["wire"]["size"]) + 1, size_order("1000 kcmil"))]
    for k in case.get("cable", []):
        # Bundles of AC and MC of 12 AWG, and of no other size, need no factor, 310.15(C)(1)(d).
        if "size" in k and not (k["type"] in ("AC", "MC") and k["size"] == "12 AWG" and "bundled" in k):
            k["size"] = SIZES[min(size_order(k["size"]) + 1, size_order(CABLES.get(k["type"], ("", "4/0 AWG"))[1]))]
    return case


def hotter(case, maker):
    more = maker.r.randint(1, 20)
    for part in case.get("raceway", []) + case.get("cable", []):
        degrees, unit = split(part.get("ambient", "30 °C"))
        part["ambient"] = f"{min(degrees + more, 89 if unit == '°C' else 190):g} {unit}"
    return case


def fuller(case, maker):
    for part in case.get("raceway", []):
        part.setdefault("also", []).append({"count": maker.r.randint(1, 9), "size": "12 AWG", "type": "THHN"})
    for k in case.get("cable", []):
        k["bundled"] = k.get("bundled", 1) + maker.r.randint(1, 3)
    return case


def another(case, maker):
    """One more wire in every raceway, from hardly any area to more than all that is in it."""
    for part in case.get("raceway", []):
        part.setdefault("also", []).append({"count": 1, "size": maker.pick(["14 AWG", "10 AWG", "4 AWG", "4/0 AWG"]), "type": "THHN"})
    return case


def larger_device(case, maker):
    """Up to 100 A and above it terminals without a mark are for another temperature, 110.14(C), so each stays on its side; the
    conductors of a whole dwelling have a share of the ratings of 100 to 400 A, 310.12."""
    for c in case.get("circuit", []):
        rating = si(c["breaker"]["rating"])
        if not c.get("entire_dwelling"):
            more = rating * maker.r.uniform(1, 1.5)
            c["breaker"]["rating"] = f"{min(more, 100) if rating <= 100 else more:.4f} A"
    return case


def drops(report):
    """Voltage drop in percent, by subject; a circuit that cannot be fed has no number and loses everything."""
    return {key: answers[0].demand for key, answers in findings(report).items() if key[0] in ("drop-branch", "drop-feeder", "drop-total")}


def carried(report):
    """Usable ampacity after all factors, by circuit; nothing where the insulation may carry none."""
    out = {}
    for f in report["findings"]:
        if f["check"] == "ampacity" and f["demand"] and f["demand"]["name"].startswith("usable ampacity"):
            out[f["subject"]] = f["demand"]["value"]
    return out


def filled(report):
    """Percent of the inside of each raceway that is in use."""
    found = {}
    for f in report["findings"]:
        match = re.search(r"fill (\S+)% of", f["message"]) if f["check"] == "raceway-fill" else None
        if match:
            found[f["subject"]] = float(match[1])
    return found


def protection(report):
    """How far the device of each circuit is within what its conductors allow: above one it fails. Groups of motors and feeders of
    motors may take another of several limits when one does not do, so that only the verdict can be compared."""
    found = {}
    for (check, subject), answers in findings(report).items():
        if check in ("device-conductor", "motor-device", "device-marked-maximum"):
            found[(check, subject)] = answers[0].demand / answers[0].limit
        elif check in ("motor-group", "motor-feeder"):
            found[(check, subject)] = sum(answer.verdict == "fail" for answer in answers)
    return found


ORDERED = [("longer never drops less", longer, drops, lambda before, after: after >= before * (1 - 1e-9)),
           ("larger never carries less", larger, carried, lambda before, after: after >= before * (1 - 1e-9)),
           ("hotter never carries more", hotter, carried, lambda before, after: after <= before * (1 + 1e-9)),
           ("more counted conductors never carry more", fuller, carried, lambda before, after: after <= before * (1 + 1e-9)),
           ("another wire in a raceway never lowers its fill", another, filled, lambda before, after: after >= before),
           ("another wire in a raceway never lets its conductors carry more", another, carried, lambda before, after: after <= before * (1 + 1e-9)),
           ("a larger device is never nearer to what its conductors allow", larger_device, protection, lambda before, after: after >= before * (1 - 1e-9))]


# Other ways to write the same case.

def shuffled(node, maker):
    """The same keys in another order; rows of lists stay, since their order may mean something."""
    if isinstance(node, dict):
        keys = list(node)
        maker.r.shuffle(keys)
        return {key: shuffled(node[key], maker) for key in keys}
    return [shuffled(item, maker) for item in node] if isinstance(node, list) else node


def respelt(node, maker):
    """Quantities in other units that are the same exactly: feet in inches, amperes in kiloamperes ..."""
    def spell(text):
        match = re.fullmatch(r"(\d+(?:\.\d+)?) (ft|in|A|kA|W|kW|VA|kVA|V|m|mm)", text)
        if not match:
            return text
        number, unit = float(match[1]), match[2]
        other = {"ft": (12, "in"), "in": (1 / 12, "ft"), "A": (1e-3, "kA"), "kA": (1e3, "A"), "W": (1e-3, "kW"), "kW": (1e3, "W"),
                 "VA": (1e-3, "kVA"), "kVA": (1e3, "VA"), "V": (1e-3, "kV"), "m": (100, "cm"), "mm": (0.1, "cm")}[unit]
        return f"{number * other[0]:.12g} {other[1]}" if maker.chance(0.7) else text

    if isinstance(node, dict):
        return {key: respelt(item, maker) for key, item in node.items()}
    if isinstance(node, list):
        return [respelt(item, maker) for item in node]
    return spell(node) if isinstance(node, str) else node


def metric(node, maker):
    """Feet, inches, cubic inches and °F as metres, millimetres, cubic centimetres and °C, exactly."""
    def convert(text):
        match = re.fullmatch(r"(-?\d+(?:\.\d+)?) (ft|in|in³|°F)", text)
        if match:
            number, unit = float(match[1]), match[2]
            if unit == "°F":
                return f"{(number - 32) / 1.8:.12g} °C"
            factor, new = {"ft": (12 * INCH, "m"), "in": (INCH * 1000, "mm"), "in³": ((INCH * 100) ** 3, "cm³")}[unit]
            return f"{number * factor:.15g} {new}"
        match = re.fullmatch(r"(\d+) ft (\d+(?:\.\d+)?) in", text)
        return f"{(float(match[1]) * 12 + float(match[2])) * INCH:.15g} m" if match else text

    if isinstance(node, dict):
        return {key: metric(item, maker) for key, item in node.items()}
    if isinstance(node, list):
        return [metric(item, maker) for item in node]
    return convert(node) if isinstance(node, str) else node


def on_a_roof_in_fahrenheit(node):
    """The addition on a roof is printed as 33 °C and as 60 °F, which are not the same: such a case may differ."""
    parts = node.get("raceway", []) + node.get("cable", [])
    return any("above_roof" in part for part in parts)


def said(report):
    """What a report comes to, but for words: verdicts and figures of every finding."""
    out = []
    for f in report["findings"]:
        figures = [(f[part]["value"], f[part]["unit"]) if f[part] else None for part in ("demand", "limit")]
        out.append((f["check"], f["subject"], f["verdict"], figures))
    return sorted(out, key=lambda item: (item[:3], repr(item[3])))


def same(a, b):
    """Figures may differ in the last digits, which the conversion rounds. Two that stand in another order for that are
    still the same two."""
    if len(a) != len(b):
        return False
    rest = list(b)
    for one in a:
        fits = [other for other in rest if one[:3] == other[:3] and all(
            (x is None) == (y is None) and (x is None or x[0] == y[0] or (x[0] is not None and y[0] is not None and close(x[0], y[0])))
            for x, y in zip(one[3], other[3]))]
        if not fits:
            return False
        rest.remove(fits[0])
    return True


WRITTEN = [("the order of keys says nothing", shuffled, lambda case: False),
           ("the spelling of units says nothing", respelt, lambda case: False),
           ("a case in metric units has the same findings", metric, on_a_roof_in_fahrenheit)]


def plain(node):
    """A case as tomllib reads it, with dates as the writer of these tests knows them."""
    if isinstance(node, dict):
        return {key: plain(item) for key, item in node.items()}
    if isinstance(node, list):
        return [plain(item) for item in node]
    return Date(node.isoformat()) if isinstance(node, datetime.date) else node


class Date(float):
    """A TOML date among the values: written without quotes."""

    def __new__(cls, text):
        self = super().__new__(cls, 0)
        self.text = text
        return self

    def __format__(self, spec):
        return self.text

    def __deepcopy__(self, memo):
        return self


class Tester:
    def __init__(self, program, seed):
        self.program, self.seed, self.wrong = program, seed, 0

    def reports(self, cases):
        return stream(self.program, [toml_text(case) for case in cases])

    def fault(self, what, case, detail):
        self.wrong += 1
        if self.wrong <= 4:
            print(f"\nnot so: {what}\n{detail}\n\n{toml_text(case)}")

    def ordered(self, cases, what, change, measure, holds):
        pairs = self.measured(cases, change)
        compared = 0
        for case, before, after in pairs:
            broken = self.broken(before, after, measure, holds)
            compared += len(set(measure(before)) & set(measure(after)))
            if broken:
                def shows(candidates, change=change):
                    try:
                        return [bool(self.broken(b, a, measure, holds)) for _, b, a in self.measured(candidates, change)]
                    except (KeyError, IndexError, ValueError):
                        return [False] * len(candidates)
                small = shrink(case, lambda c: [shows([one])[0] for one in c], 8)
                self.fault(what, small, broken)
        print(f"{what}: {len(cases)} pairs, {compared} figures")
        if compared < len(cases) / 3:
            self.fault(what, {}, "too few figures were compared")

    def measured(self, cases, change):
        makers = [Maker(f"{self.seed}:{n}:change") for n in range(len(cases))]
        changed = [change(copy.deepcopy(case), maker) for case, maker in zip(cases, makers)]
        return list(zip(cases, self.reports(cases), self.reports(changed)))

    def broken(self, before, after, measure, holds):
        mine, theirs = measure(before), measure(after)
        return [f"{key}: {mine[key]} before, {theirs[key]} after" for key in mine if key in theirs and not holds(mine[key], theirs[key])]

    def written(self, cases, what, change, excepted):
        cases = [case for case in cases if not excepted(case)]
        for case, before, after in self.measured(cases, change):
            a, b = said(before), said(after)
            if not same(a, b):
                lone = [item for item in a if item not in b][:4], [item for item in b if item not in a][:4]
                self.fault(what, change(copy.deepcopy(case), Maker("x")), f"{lone[0]}\n{lone[1]}\n{after['complaints']}")
        print(f"{what}: {len(cases)} cases")

    def remedies(self, cases):
        """What a remedy changes is changed; nothing fails then that did not fail before, but for what it names."""
        tried = 0
        with tempfile.TemporaryDirectory() as folder:
            files = []
            for n, case in enumerate(cases):
                files.append(pathlib.Path(folder) / f"{n}.toml")
                files[-1].write_text(toml_text(case), encoding="utf-8")
            done = subprocess.run([self.program, "check", "--format", "json", "--remedies", "always", *map(str, files)], capture_output=True, text=True, check=False)
            reports = json.loads(done.stdout)["reports"]
        changed, claims = [], []
        for case, report in zip(cases, reports):
            fails = {(f["check"], f["subject"]) for f in report["findings"] if f["verdict"] == "fail"}
            together, seen = copy.deepcopy(case), set()
            for f in report["findings"]:
                remedy = f["remedy"]
                if not remedy or remedy["grade"] == "hint" or repr(remedy) in seen:
                    continue
                seen.add(repr(remedy))
                if remedy["alone"]:
                    changed.append(apply(copy.deepcopy(case), remedy))
                    claims.append((case, f, fails, {"left": remedy["left"], "changes": remedy["changes"], "mends": (f["check"], f["subject"])}))
                else:
                    apply(together, remedy)
            rest = [f for f in report["findings"] if f["remedy"] and f["remedy"]["grade"] != "hint" and not f["remedy"]["alone"]]
            if rest:  # these hold with each other
                left = sorted({name for f in rest for name in f["remedy"]["left"]})
                for f in rest:
                    changed.append(together)
                    claims.append((case, f, fails, {"left": left, "changes": "all of those that do not stand alone", "mends": (f["check"], f["subject"])}))
        for (case, f, fails, claim), report in zip(claims, self.reports(changed)):
            tried += 1
            now = {(g["check"], g["subject"]) for g in report["findings"] if g["verdict"] == "fail"}
            named = {tuple(reversed(left.rsplit(": ", 1))) for left in claim["left"]}
            new = now - fails - named
            still = {claim["mends"]} & now - named
            if report["outcome"] == "unreadable" or new or still:
                self.fault("a remedy mends what it says, and introduces no fail that it does not name", case,
                           f"{f['check']} {f['subject']} {claim}\nfails after it: {new or still} {report['complaints']}")
        print(f"a remedy mends what it says, and introduces no fail that it does not name: {len(cases)} cases, {tried} remedies tried")
        if tried < len(cases) / 4:
            self.fault("remedies", {}, "too few were offered")


def apply(case, remedy):
    for change in remedy["changes"]:
        put(case, change["path"], tomllib.loads(f"x = {change['now']}")["x"])
    return case


def put(node, path, value):
    steps = [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in steps[:-1]:
        if isinstance(node, dict) and step not in node:
            node[step] = {}
        node = node[step]
    node[steps[-1]] = value


def main(program, count=300, seed="1"):
    tester = Tester(program, seed)
    cases = [Maker(f"{seed}:{n}:property").case() for n in range(count)]
    for what, change, measure, holds in ORDERED:
        tester.ordered(cases, what, change, measure, holds)
    demo = [plain(tomllib.loads(path.read_text(encoding="utf-8"))) for path in DEMO]
    demo = [case for case in demo if case.get("edition", "").startswith("us-") and "amendments" not in case]
    for what, change, excepted in WRITTEN:
        tester.written(cases + demo, what, change, excepted)
    tester.remedies(cases[: max(count // 10, 10)])
    return 1 if tester.wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], *(int(n) for n in sys.argv[2:3]), *sys.argv[3:4]))
