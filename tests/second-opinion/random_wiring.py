"""Random wiring: raceways, cables, cords and boxes, of every kind that the second opinion speaks of."""
from quantities import SIZES, size_order
from random_loads import label
from tables import rows_of

TYPES = ["THHN/THWN-2"] * 6 + ["THHN", "THWN", "THWN-2", "TW", "THW", "THW-2", "THHW", "XHHW", "XHHW-2", "XHHW-2", "RHH", "RHW-2", "RHW",
         "THHN/THWN", "XHH", "RHH/RHW-2", "USE-2/RHH/RHW-2"]
RACEWAYS = ["EMT", "EMT", "EMT", "RMC", "IMC", "PVC-40", "PVC-40", "PVC-80", "FMC", "LFMC", "LFNC-B", "ENT", "HDPE"]
PLACES = ["indoors, dry"] * 6 + ["indoors, damp", "indoors, wet", "outdoors, wet", "outdoors", "underground", "outdoors, rooftop, sunlight",
                                 "attic, dry", "crawl space, damp"]
TRADE = ["1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6"]
# type: smallest and largest size
CABLES = {"NM-B": ("14 AWG", "2 AWG"), "UF-B": ("14 AWG", "4/0 AWG"), "AC": ("14 AWG", "1 AWG"), "MC": ("14 AWG", "500 kcmil"),
          "MC-jacketed": ("14 AWG", "500 kcmil"), "SER": ("10 AWG", "4/0 AWG"), "SE": ("10 AWG", "4/0 AWG"), "SOOW": ("18 AWG", "2 AWG"),
          "STW": ("18 AWG", "2 AWG"), "SJTOW": ("18 AWG", "10 AWG")}
CORDS = {"SOOW", "STW", "SJTOW"}


class WiringMaker:
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
        rooms = {label(row["size"]): row["fill-40"] for row in rows_of("raceway-dimensions", "us-2023") if row["type"] == kind and row["fill-40"] is not None}
        made = [size for size in rooms if size in TRADE]
        size = self.pick(made[:6]) if area is None else self.near(made, rooms, area)
        out = {"name": name, "type": kind, "size": size, "length": self.length(3, 300, self.chance(0.2)), "place": self.pick(PLACES)}
        if self.chance(0.12):
            out["nipple"] = True
            out["length"] = self.pick(["18 in", "24 in", "25 in", "0.6 m", "2 ft"])
        if self.chance(0.04):
            out["inside_diameter"] = f"{self.r.uniform(0.6, 3):.3f} in"
        self.around(out)
        for _ in range(self.pick([0, 0, 0, 1, 2])):
            out.setdefault("also", []).append(self.other())
        return out

    def near(self, made, rooms, area):
        """A size whose room at 40 % is about what the conductors need."""
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

    def area_of(self, circuits):
        """About what they fill, by THHN."""
        area = {row["size"]: row["area"] for row in rows_of("dimensions", "us-2023") if row["type"] == "THHN"}
        return sum(3 * area.get(c["wire"]["size"], 0.5) * c["wire"].get("parallel", 1) * 1.1 for c in circuits)

    def wire(self, size, sets):
        """Conductors but for their neutral."""
        wire = {"size": size, "material": self.pick(["copper"] * 4 + ["aluminum", "copper-clad aluminum"])}
        if wire["material"] != "copper" and size_order(size) < size_order("12 AWG"):
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
        if self.chance(0.1):
            wire["temperature"] = self.pick(["50 °C", "60 °C", "90 °C", "122 °F", "104 °F"])
        if self.chance(0.04):
            wire["diameter"] = f"{self.r.uniform(0.1, 0.6):.3f} in"
        if sets > 1:
            wire["parallel"] = sets
        wire["hot"] = "black"
        return wire

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

    def cable(self, name, circuit, conductors):
        """A cable or cord in place of the circuit's conductors."""
        wire = circuit["wire"]
        kind = self.pick(["NM-B"] * 6 + ["UF-B"] * 3 + ["AC", "AC", "MC", "MC", "MC", "MC-jacketed", "SER", "SER", "SE", "SOOW", "SOOW", "STW", "SJTOW"])
        smallest, largest = CABLES[kind]
        if kind in CORDS or kind == "AC":
            wire["material"] = "copper"
        if kind in ("AC", "MC") and self.chance(0.4):  # bundles of these have rules of their own
            wire["size"], wire["material"] = "12 AWG", "copper"
        if wire["material"] != "copper":
            smallest = max(smallest, "12 AWG", key=size_order)
        for key in ("compact", "parallel", "diameter"):
            wire.pop(key, None)
        size = SIZES[min(max(size_order(wire["size"]), size_order(smallest)), size_order(largest))]
        wire["size"] = size
        if kind in CORDS:
            place = self.pick(["indoors, dry", "indoors, dry", "indoors, damp", "outdoors, wet"])
        else:
            place = self.pick(["indoors, dry"] * 4 + ["attic, dry", "indoors, dry, thermal insulation", "indoors, dry, thermal insulation", "indoors, damp", "outdoors", "underground"])
        out = {"name": name, "type": kind, "size": size, "material": wire["material"], "conductors": self.pick([2, 2, 3, 3, 4]),
               "ground": SIZES[max(size_order(smallest), size_order(size) - self.pick([0, 0, 1, 2]))],
               "length": self.length(1, 200, self.chance(0.2)), "place": place, "diameter": f"{self.r.uniform(0.25, 0.7):.2f} in"}
        if kind in ("SE", "SER", "MC", "MC-jacketed") or kind == "AC" and self.chance(0.6):
            out["insulation"] = self.pick(["XHHW-2", "THHN/THWN-2", "THHN", "XHHW"])
        if kind in CORDS:
            out["conductors"] = conductors
        elif self.chance(0.35):
            out["bundled"] = self.r.randint(2, 6) if kind not in ("AC", "MC") else self.pick([2, 5, 10, 11, 15])
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

    def pull_box(self, name, entries):
        """A box that large conductors are pulled through, bent or straight."""
        walls = ["left", "right", "top", "bottom"]
        first = self.pick(walls)
        out = {"name": name, "passes_through": self.chance(0.6), "entries": []}
        for n, entry in enumerate(entries):
            wall = first if n == 0 else self.pick([{"left": "right", "right": "left", "top": "bottom", "bottom": "top"}[first], self.pick(walls)])
            out["entries"].append({"in": entry, "wall": wall} | ({"row": self.pick([1, 1, 2])} if self.chance(0.3) else {}))
        for side in ("width", "height", "apart"):
            out[side] = self.pick([f"{self.r.uniform(6, 40):.1f} in", f"{self.r.randint(8, 40)} in", f"{self.r.randint(200, 900)} mm"])
        return out
