"""Random cases for the second opinion: of every material, insulation, raceway, cable, load and edition, mostly near a limit."""
import random

from quantities import SIZES, size_order
from random_loads import MOTOR_VOLTS, SYSTEMS, LoadMaker
from random_wiring import WiringMaker
from tables import rows_of

COPPER_75 = {row["size"]: row["cu-75"] for row in rows_of("ampacity", "us-2023")}
TWO_WIRE = (120, 277, 347)  # volts of a line to its neutral
NO_NEUTRAL = ("240 V 3-phase 3-wire", "480 V 3-phase 3-wire")


class Maker(LoadMaker, WiringMaker):
    def __init__(self, seed):
        self.r = random.Random(seed)

    def chance(self, p):
        return self.r.random() < p

    def pick(self, items):
        return self.r.choice(items)

    def wire_size(self, heavy):
        if heavy:
            return self.pick(SIZES[size_order("4 AWG"):size_order("750 kcmil")])
        return self.pick(["14 AWG", "12 AWG", "12 AWG", "10 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG", "1/0 AWG"])

    def size_for(self, amperes):
        """A copper size about as large as a current asks for."""
        large = [size for size in SIZES[size_order("14 AWG"):size_order("750 kcmil")] if COPPER_75[size] >= amperes] or ["700 kcmil"]
        return SIZES[max(size_order("14 AWG"), size_order(large[0]) + self.pick([-1, 0, 0, 0, 1, 2]))]

    def kind(self, system, volts, phases, dwelling):
        """What a circuit feeds."""
        dc = system.endswith("dc")
        kinds = ["ordinary"] * 12
        if (dc or volts in MOTOR_VOLTS) and (phases == 3 or 48 < volts < 277):
            kinds += ["motor"] * 4
        if phases == 1 and volts in (208, 240) and not dc:
            kinds += ["cooling"] * 3 + (["household"] * 6 if dwelling else [])
        return self.pick(kinds)

    def neutral(self, system, volts, phases):
        if system.endswith("dc") or phases == 1 and volts in TWO_WIRE:
            return "white"
        return "white" if self.chance(0.35) and system not in NO_NEUTRAL else "none"

    def circuit(self, name, system, heavy, dwelling=False, take=None):
        volts, phases = take or self.pick(SYSTEMS[system])
        dc = system.endswith("dc")
        kind = "ordinary" if heavy or take else self.kind(system, volts, phases, dwelling)
        sets = 1
        if kind == "ordinary":
            size = self.wire_size(heavy)
            if heavy and self.chance(0.4):
                sets = self.pick([2, 2, 3, 4])
                if size_order(size) < size_order("1/0 AWG") and self.chance(0.9):
                    size = self.pick(SIZES[size_order("1/0 AWG"):size_order("600 kcmil")])
            wire = self.wire(size, sets)
            load, amperes = self.ordinary(COPPER_75[wire["size"]] * sets * (0.8 if wire["material"] != "copper" else 1), volts, dc)
            device = amperes * self.pick([1.25, 1.5, 2] if "water heater" in load.get("appliance", "") else [0.8, 1.0, 1.25, 1.25, 1.5])
        else:
            load, amperes, device = (self.motor_load(volts, phases, dc) if kind == "motor" else
                                     self.cooling_load() if kind == "cooling" else self.household_load(volts))
            wire = self.wire(self.size_for(amperes), 1)
        wire["neutral"] = self.neutral(system, volts, phases)
        if self.chance(0.8):
            load["terminals"] = self.pick(["60 °C", "75 °C", "75 °C", "90 °C"])
        if phases == 3 and wire["neutral"] != "none":
            load["nonlinear"] = self.chance(0.4)
        if self.chance(0.08):
            load["minimum_voltage"] = f"{volts * self.r.uniform(0.88, 1):.1f} V"
        if kind in ("ordinary", "household") and self.chance(0.05):
            load["maximum_device"] = f"{self.near_rating(amperes * 1.3):g} A"
        out = {"name": name, "voltage": f"{volts} V", "path": []}
        if phases == 3 or system not in ("120/240 V 1-phase 3-wire", "208Y/120 V 1-phase 3-wire") and not dc:
            out["phases"] = phases
        if kind == "ordinary" and not take and "appliance" not in load and self.chance(0.1):
            out["role"] = "feeder"
        elif (kind == "ordinary" or "motors" in load) and self.chance(0.06):
            out["also_feeds"] = [{"name": "another", "kind": "fixed", "current": f"{self.r.uniform(0.5, 8):.1f} A", "continuous": self.chance(0.4)}]
        out |= {"breaker": self.breaker(device, wire), "load": load, "wire": wire, "ground": self.ground(wire)}
        return out

    def breaker(self, amperes, wire):
        breaker = {"rating": f"{self.near_rating(amperes):g} A"}
        if self.chance(0.8):
            breaker["terminals"] = self.pick(["60 °C", "75 °C", "75 °C"])
        if self.chance(0.2):
            breaker["kind"] = "fuse"
            if self.chance(0.6):
                breaker["time_delay"] = True
        if self.chance(0.08):
            breaker["full_load_rated"] = True
        if self.chance(0.15):
            breaker["bending_space"] = self.pick(["1.5 in", "2 in", "3 in", "3.5 in", "4.5 in", "6 in", "8 in", "10 in", "200 mm"])
            if wire.get("parallel", 1) > 1:
                breaker["wires_per_terminal"] = min(wire["parallel"], 5)
        return breaker

    def cabled(self, system, c, case):
        """One circuit in a cable or cord, seldom in a raceway."""
        volts = float(c["voltage"].split(" ")[0])
        conductors = 2 if volts in TWO_WIRE or system.endswith("dc") else (3 if c.get("phases") == 3 else 2) + (c["wire"]["neutral"] != "none")
        c["ground"], c["path"] = {}, ["cable 1"]
        cable = self.cable("cable 1", c, conductors)
        case["cable"].append(cable)
        if self.chance(0.2) and cable["place"] == "indoors, dry":
            pipe = self.raceway("raceway 1")
            pipe["place"] = cable["place"]
            pipe.pop("above_roof", None)
            case["raceway"].append(pipe)
            cable["inside"] = "raceway 1"
            cable.pop("bundled", None)

    def piped(self, circuits, case, ways):
        for n in range(ways):
            name = f"raceway {n + 1}"
            users = circuits if n == 0 else [c for c in circuits if self.chance(0.5)] or circuits[:1]
            pipe = self.raceway(name, self.area_of(users))
            sets = {c["wire"].get("parallel", 1) for c in users}
            if len(sets) == 1 and max(sets) > 1 and self.chance(0.5):
                pipe["alike"] = max(sets)
            case["raceway"].append(pipe)
            for c in users:
                c["path"].append(name)
        for c in circuits[1:]:
            # The grounding wire of the first circuit for others that run with it all the way.
            if self.chance(0.2) and c["path"] == circuits[0]["path"] and "size" in circuits[0]["ground"] and circuits[0]["wire"].get("parallel", 1) == 1:
                c["ground"] = {"shared_with": "circuit 1"}

    def feeder(self, name, system, dwelling):
        """A feeder with all lines of its supply; often without a load of its own, so that it carries what it feeds."""
        take = max(SYSTEMS[system], key=lambda of: (of[1], of[0]))
        feeder = self.circuit(name, system, self.chance(0.5), take=take)
        feeder["role"] = "feeder"
        feeder.pop("also_feeds", None)
        for key in ("appliance", "receptacles", "maximum_device", "minimum_voltage"):
            feeder["load"].pop(key, None)
        if take[0] not in TWO_WIRE and system not in NO_NEUTRAL:
            feeder["wire"]["neutral"] = "white"
        if dwelling and self.chance(0.6):
            feeder["entire_dwelling"] = self.chance(0.8)
        if self.chance(0.35):
            feeder["load"] = {key: value for key, value in feeder["load"].items() if key == "terminals"}
        return feeder

    def case(self):
        system = self.pick(["120/240 V 1-phase 3-wire"] * 8 + ["208Y/120 V 3-phase 4-wire"] * 5 + ["480Y/277 V 3-phase 4-wire"] * 2 + list(SYSTEMS))
        dwelling = system in ("120/240 V 1-phase 3-wire", "208Y/120 V 1-phase 3-wire") and self.chance(0.4)
        out = {"edition": self.pick(["us-2017", "us-2020", "us-2023"]), "supply": {"system": system, "dwelling": dwelling}, "raceway": [], "cable": []}
        if self.chance(0.3):
            out["supply"]["terminals"] = self.pick(["60 °C", "75 °C"])
        if self.chance(0.1):
            nominal = max(volts for volts, _ in SYSTEMS[system])
            out["supply"]["voltage"] = f"{nominal * self.r.uniform(0.94, 1.05):.1f} V"
        if dwelling and self.chance(0.2):  # a dwelling and its service, without circuits of this job
            out["supply"]["service"] = self.service()
            return {key: value for key, value in out.items() if value != []}
        heavy = self.chance(0.25)
        if self.chance(0.12):
            circuits = [self.feeder("circuit 1", system, dwelling)]
            if self.chance(0.2):  # a feeder behind a feeder
                circuits.append(self.feeder("circuit 2", system, False) | {"fed_by": "circuit 1"})
            last = circuits[-1]["name"]
            for n in range(self.pick([1, 1, 2])):
                circuits.append(self.circuit(f"circuit {len(circuits) + 1}", system, False, dwelling))
                circuits[-1].pop("role", None)
                circuits[-1]["fed_by"] = last
            self.piped(circuits, out, self.pick([1, 2, 3]))
        else:
            circuits = [self.circuit(f"circuit {n + 1}", system, heavy and n == 0, dwelling) for n in range(self.pick([1, 1, 1, 1, 2, 2, 3, 5]))]
            if self.chance(0.3) and not heavy and not system.endswith("dc"):
                circuits = circuits[:1]
                self.cabled(system, circuits[0], out)
            else:
                self.piped(circuits, out, self.pick([1, 1, 1, 2, 3]))
        out["circuit"] = circuits
        used = sorted({name for c in circuits for name in c["path"]})
        if heavy and len(used) > 1 and self.chance(0.7):
            out["box"] = [self.pull_box("box 1", used)]
        elif self.chance(0.35):
            out["box"] = [self.box("box 1", used[: self.pick([1, 2])])]
        return {key: value for key, value in out.items() if value != []}
