"""Random cases for the second opinion: of every material, insulation, raceway and edition, mostly near a limit."""
import random

from quantities import SIZES, size_order
from tables import rows_of

RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700,
           800, 1000, 1200]
TYPES = ["THHN/THWN-2"] * 6 + ["THHN", "THWN", "THWN-2", "TW", "THW", "THW-2", "THHW", "XHHW", "XHHW-2", "XHHW-2", "RHH", "RHW-2", "RHW",
         "THHN/THWN", "XHH", "RHH/RHW-2", "USE-2/RHH/RHW-2"]
RACEWAYS = ["EMT", "EMT", "EMT", "RMC", "IMC", "PVC-40", "PVC-40", "PVC-80", "FMC", "LFMC", "LFNC-B", "ENT", "HDPE"]
PLACES = ["indoors, dry"] * 6 + ["indoors, damp", "indoors, wet", "outdoors, wet", "outdoors", "underground", "outdoors, rooftop, sunlight",
                                 "attic, dry", "crawl space, damp"]
# system: (voltage, phases) of its circuits
SYSTEMS = {"120/240 V 1-phase 3-wire": [(120, 1), (240, 1), (240, 1)],
           "208Y/120 V 3-phase 4-wire": [(120, 1), (208, 1), (208, 3)],
           "480Y/277 V 3-phase 4-wire": [(277, 1), (480, 1), (480, 3)],
           "240 V 3-phase 3-wire": [(240, 1), (240, 3)],
           "48 V dc": [(48, 1)]}
TRADE = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6"]
COPPER_75 = {row["size"]: row["cu-75"] for row in rows_of("ampacity", "us-2023")}


class Maker:
    def __init__(self, seed):
        self.r = random.Random(seed)

    def chance(self, p):
        return self.r.random() < p

    def pick(self, items):
        return self.r.choice(items)

    def length(self, low, high, metric=False):
        value = self.r.uniform(low, high)
        if metric:
            return f"{value * 0.3048:.2f} m"
        return self.pick([f"{value:.0f} ft", f"{max(value, 0.1):.1f} ft"]) if value >= 1 else f"{max(value * 12, 1):.0f} in"

    def temperature(self):
        celsius = self.pick([self.r.randint(-10, 45), self.r.randint(20, 60), self.r.randint(20, 84)])
        return f"{celsius} °C" if self.chance(0.4) else f"{round(celsius * 1.8 + 32)} °F"

    def around(self, part):
        """Air and sun around a raceway or a cable."""
        if self.chance(0.6) or "rooftop" in part["place"] or "attic" in part["place"]:
            part["ambient"] = self.temperature()
        if "rooftop" in part["place"]:
            part["above_roof"] = self.pick(["0.5 in", "0.75 in", "0.8 in", "0.875 in", "1 in", "4 in", "19 mm", "23 mm", "0 in"])

    def raceway(self, name, area=None):
        kind = self.pick(RACEWAYS)
        made = [row["size"] for row in rows_of("raceway-dimensions", "us-2023") if row["type"] == kind and row["fill-40"] is not None]
        made = [f"{s:g}" if isinstance(s, float) else s for s in made]
        made = [s for s in made if s in TRADE]
        size = self.pick(made[:6]) if area is None else self.near(kind, made, area)
        out = {"name": name, "type": kind, "size": size, "length": self.length(3, 300, self.chance(0.2)), "place": self.pick(PLACES)}
        if self.chance(0.12):
            out["nipple"] = True
            out["length"] = self.pick(["18 in", "24 in", "25 in", "0.6 m", "2 ft"])
        self.around(out)
        for _ in range(self.pick([0, 0, 0, 1, 2])):
            out.setdefault("also", []).append(self.other())
        return out

    def near(self, kind, made, area):
        """A size whose room at 40 % is about what the conductors need."""
        rooms = {row["size"]: row["fill-40"] for row in rows_of("raceway-dimensions", "us-2023") if row["type"] == kind}
        rooms = {f"{s:g}" if isinstance(s, float) else s: room for s, room in rooms.items() if room is not None}
        fits = [s for s in made if rooms[s] >= area] or made[-1:]
        at = made.index(fits[0])
        return made[max(0, min(len(made) - 1, at + self.pick([-1, 0, 0, 0, 1, 2])))]

    def other(self):
        kind = self.r.random()
        if kind < 0.2:
            return {"count": self.r.randint(1, 3), "cable": True, "diameter": f"{self.r.uniform(0.2, 0.6):.3f} in", "conductors": self.pick([2, 3])}
        if kind < 0.3:
            return {"count": 1, "size": self.pick(["14 AWG", "12 AWG", "10 AWG", "8 AWG"]), "bare": True}
        out = {"count": self.r.randint(1, 12), "size": self.pick(["14 AWG", "12 AWG", "12 AWG", "10 AWG", "8 AWG"]),
               "type": self.pick(["THHN", "THWN-2", "XHHW-2", "TW"])}
        if self.chance(0.4):
            out["current_carrying"] = self.chance(0.5)
        return out

    def circuit(self, name, system, heavy):
        volts, phases = self.pick(SYSTEMS[system])
        wire = {"size": self.wire_size(heavy), "material": self.pick(["copper"] * 4 + ["aluminum", "copper-clad aluminum"])}
        if wire["material"] != "copper" and size_order(wire["size"]) < size_order("12 AWG"):
            wire["size"] = "12 AWG"
        wire["type"] = self.pick(TYPES)
        if wire["type"].startswith(("RH", "USE")):
            wire["covering"] = self.chance(0.5)
        if self.chance(0.1) and wire["material"] == "aluminum" and size_order("8 AWG") <= size_order(wire["size"]) <= size_order("1000 kcmil"):
            wire["compact"] = True
        if self.chance(0.1) and wire["material"] == "copper":
            wire["coated"] = True
        if self.chance(0.2) and size_order(wire["size"]) <= size_order("10 AWG"):
            wire["stranding"] = "solid"
        sets = 1
        if heavy and self.chance(0.4):
            sets = self.pick([2, 2, 3, 4])
            if size_order(wire["size"]) < size_order("1/0 AWG") and self.chance(0.9):
                wire["size"] = self.pick(SIZES[size_order("1/0 AWG"):size_order("600 kcmil")])
        if sets > 1:
            wire["parallel"] = sets
        wire["hot"] = "black"
        two_wire = phases == 1 and volts in (120, 277)
        if system == "48 V dc":
            wire["neutral"] = "white"
        elif two_wire or (self.chance(0.35) and system != "240 V 3-phase 3-wire"):
            wire["neutral"] = "white"
        else:
            wire["neutral"] = "none"
        carries = COPPER_75[wire["size"]] * sets * (0.8 if wire["material"] != "copper" else 1)
        current = round(carries * self.pick([0.3, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1]) * self.r.uniform(0.7, 1.1), self.pick([0, 1]))
        load = {"power_factor": self.pick([1, 0.95, 0.9, 0.85, 0.8, 0.7])}
        if system == "48 V dc":
            load = {}
        how = self.r.random()
        if how < 0.75 or system == "48 V dc":
            load["current"] = f"{max(current, 1):g} A"
        elif how < 0.9:
            load["apparent_power"] = f"{max(current, 1) * volts:.0f} VA"
        else:
            load["power"] = f"{max(current, 1) * volts / 1000:.2f} kW"
        load["continuous"] = self.chance(0.5)
        if self.chance(0.1) and "current" in load:
            load["continuous"] = True
            load["continuous_current"] = f"{max(round(max(current, 1) * self.r.random(), 1), 0.1):g} A"
        if self.chance(0.8):
            load["terminals"] = self.pick(["60 °C", "75 °C", "75 °C", "90 °C"])
        if phases == 3 and wire["neutral"] != "none":
            load["nonlinear"] = self.chance(0.4)
        if self.chance(0.1):
            load["receptacles"] = True
        wanted = max(current, 1) * self.pick([0.8, 1.0, 1.25, 1.25, 1.5])
        at = min((n for n, rating in enumerate(RATINGS) if rating >= wanted), default=len(RATINGS) - 1)
        rating = RATINGS[max(0, min(len(RATINGS) - 1, at + self.pick([-1, 0, 0, 0, 1])))]
        if self.chance(0.03):
            rating += self.pick([1, 2, 2.5])
        breaker = {"rating": f"{rating:g} A"}
        if self.chance(0.8):
            breaker["terminals"] = self.pick(["60 °C", "75 °C", "75 °C"])
        if self.chance(0.15):
            breaker["kind"] = "fuse"
        if self.chance(0.08):
            breaker["full_load_rated"] = True
        out = {"name": name, "voltage": f"{volts} V", "path": []}
        if phases == 3 or system not in ("120/240 V 1-phase 3-wire", "48 V dc"):
            out["phases"] = phases
        if self.chance(0.1):
            out["role"] = "feeder"
        elif self.chance(0.08):
            load = {"appliance": "air conditioner", "minimum_circuit_ampacity": load.get("current", "20 A"),
                    "maximum_device": breaker["rating"], "terminals": load.get("terminals", "75 °C")}
        elif self.chance(0.12) and system != "48 V dc":
            load["appliance"] = self.pick(["electric water heater, storage", "vehicle charger", "electric space heater", "baseboard heater"])
            load.pop("continuous_current", None)
            load.pop("receptacles", None)
        out |= {"breaker": breaker, "load": load, "wire": wire}
        out["ground"] = self.ground(wire)
        return out

    def ground(self, wire):
        if self.chance(0.12):
            return {"kind": "raceway"}
        size = self.pick(SIZES[max(2, size_order(wire["size"]) - 8):size_order(wire["size"]) + 2])
        out = {"size": size, "material": self.pick(["copper", "copper", "copper", wire["material"]])}
        if out["material"] != "copper" and size_order(size) < size_order("12 AWG"):
            out["size"] = "12 AWG"
        if self.chance(0.2):
            out["bare"] = True
        elif self.chance(0.3):
            out["type"] = self.pick(["THHN", "THWN-2", "XHHW-2", "TW"])
        return out

    def wire_size(self, heavy):
        if heavy:
            return self.pick(SIZES[size_order("4 AWG"):size_order("750 kcmil")])
        return self.pick(["14 AWG", "12 AWG", "12 AWG", "10 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG", "1/0 AWG"])

    def cable(self, name, circuit):
        circuit["wire"].pop("compact", None)
        if self.chance(0.75):
            kind, smallest, largest = "NM-B", "14 AWG", "2 AWG"
        else:
            kind, smallest, largest = "UF-B", "14 AWG", "4/0 AWG"
        wire = circuit["wire"]
        if wire["material"] != "copper":
            smallest = "12 AWG"
        size = SIZES[min(max(size_order(wire["size"]), size_order(smallest)), size_order(largest))]
        wire["size"], wire["parallel"] = size, 1
        del wire["parallel"]
        place = self.pick(["indoors, dry"] * 4 + ["attic, dry", "indoors, dry, thermal insulation", "indoors, damp", "outdoors", "underground"])
        out = {"name": name, "type": kind, "size": size, "material": wire["material"], "conductors": self.pick([2, 2, 3, 3, 4]),
               "ground": SIZES[max(size_order(smallest), size_order(size) - self.pick([0, 0, 1, 2]))],
               "length": self.length(1, 200, self.chance(0.2)), "place": place, "diameter": f"{self.r.uniform(0.25, 0.7):.2f} in"}
        if self.chance(0.35):
            out["bundled"] = self.r.randint(2, 6)
        self.around(out)
        return out

    def box(self, name, entries):
        out = {"name": name, "entries": entries, "passes_through": self.chance(0.3)}
        if self.chance(0.5):
            row = self.pick(rows_of("box-sizes", "us-2023"))
            out["kind"], out["size"] = row["kind"], row["size"]
        else:
            out["volume"] = self.pick([f"{self.r.uniform(8, 60):.1f} in³", f"{self.r.uniform(150, 900):.0f} cm³"])
        if self.chance(0.2):
            out["loops"] = self.r.randint(1, 3)
        if self.chance(0.4):
            out["clamps"] = self.chance(0.7)
        if self.chance(0.2):
            out["fittings"] = self.r.randint(1, 2)
        for _ in range(self.pick([0, 0, 1, 1, 2])):
            device = {}
            if self.chance(0.7):
                device["size"] = self.pick(["14 AWG", "12 AWG", "10 AWG"])
            if self.chance(0.3):
                device["gangs"] = self.r.randint(1, 2)
            if device:
                out.setdefault("devices", []).append(device)
        if self.chance(0.15):
            out["terminal_blocks"] = [{"size": self.pick(["14 AWG", "12 AWG", "10 AWG"])}]
        if self.chance(0.1):
            out["isolated_ground"] = self.pick(["14 AWG", "12 AWG", "10 AWG"])
        if self.chance(0.15):
            out["barrier"] = self.pick(["metal", "nonmetallic"])
            if self.chance(0.4):
                out["barrier_volume"] = f"{self.r.uniform(0.3, 2):.1f} in³"
        for _ in range(self.pick([0, 0, 1, 2])):
            also = {"count": self.r.randint(1, 8), "size": self.pick(["18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG"]), "type": "THHN"}
            if self.chance(0.4):
                also["bare"] = True
                del also["type"]
            out.setdefault("also", []).append(also)
        return out

    def area_of(self, circuits):
        """About what they fill, by THHN."""
        area = {row["size"]: row["area"] for row in rows_of("dimensions", "us-2023") if row["type"] == "THHN"}
        return sum(3 * area.get(c["wire"]["size"], 0.5) * c["wire"].get("parallel", 1) * 1.1 for c in circuits)

    def case(self):
        system = self.pick(["120/240 V 1-phase 3-wire"] * 5 + ["208Y/120 V 3-phase 4-wire"] * 3 + ["480Y/277 V 3-phase 4-wire", "240 V 3-phase 3-wire", "48 V dc"])
        out = {"edition": self.pick(["us-2017", "us-2020", "us-2023"]), "supply": {"system": system, "dwelling": False}}
        if self.chance(0.3):
            out["supply"]["terminals"] = self.pick(["60 °C", "75 °C"])
        heavy = self.chance(0.3)
        circuits = [self.circuit(f"circuit {n + 1}", system, heavy and n == 0) for n in range(self.pick([1, 1, 1, 1, 2, 2, 3, 5]))]
        out["raceway"], out["cable"] = [], []
        if self.chance(0.25) and not heavy and system != "48 V dc":
            c = circuits[0]
            circuits = [c]
            c["ground"] = {}
            cable = self.cable("cable 1", c)
            out["cable"].append(cable)
            c["path"] = ["cable 1"]
            if self.chance(0.2) and cable["place"].startswith("indoors"):
                pipe = self.raceway("raceway 1")
                pipe["place"] = cable["place"]
                pipe.pop("above_roof", None)
                out["raceway"].append(pipe)
                cable["inside"] = "raceway 1"
                cable.pop("bundled", None)
        else:
            for n in range(self.pick([1, 1, 1, 2, 3])):
                name = f"raceway {n + 1}"
                users = circuits if n == 0 else [c for c in circuits if self.chance(0.5)] or circuits[:1]
                pipe = self.raceway(name, self.area_of(users))
                sets = {c["wire"].get("parallel", 1) for c in users}
                if len(sets) == 1 and max(sets) > 1 and self.chance(0.5):
                    pipe["alike"] = max(sets)
                out["raceway"].append(pipe)
                for c in users:
                    c["path"].append(name)
        for c in circuits[1:]:
            # The grounding wire of the first circuit for others that run with it all the way.
            if self.chance(0.2) and c["path"] == circuits[0]["path"] and "size" in circuits[0]["ground"] and circuits[0]["wire"].get("parallel", 1) == 1:
                c["ground"] = {"shared_with": "circuit 1"}
        if len(circuits) == 2 and circuits[0].get("role") == "feeder" and self.chance(0.7):
            circuits[1].pop("role", None)
            circuits[1]["fed_by"] = "circuit 1"
            if "appliance" in circuits[1]["load"]:
                del circuits[1]["fed_by"]
        out["circuit"] = circuits
        if self.chance(0.4):
            used = sorted({name for c in circuits for name in c["path"]})
            out["box"] = [self.box("box 1", used[: self.pick([1, 2])])]
        return {key: value for key, value in out.items() if value != []}
