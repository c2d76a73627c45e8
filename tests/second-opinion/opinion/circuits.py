"""What a case says of its circuits: lines, conductors, cables, raceways, places."""
from quantities import si
from tables import rows_of

from .basics import Open

NM, ARMORED, SERVICE = ("NM-B",), ("MC", "AC"), ("SE", "SER")  # armor without a jacket
LAST_COLUMN = {"NM-B": 60, "UF-B": 60}  # that the article of a cable ends with, 334.80, 340.80
# What is inside a cable where nothing is said.
INSIDE = {"NM-B": "NM-B", "UF-B": "UF", "AC": "THHN", "MC": "THHN", "MC-jacketed": "THHN"}
MOTOR_PARTS = ("rated_load_current", "branch_selection_current")


def is_cord(cable):
    """Flexible cords of Table 400.4: hard service, junior hard service and the like all begin with S."""
    return cable is not None and cable["type"].startswith("S") and cable["type"] not in SERVICE


class Circuits:
    """Everything that is read of one case, before any rule."""

    def __init__(self, case):
        self.case, self.edition = case, case["edition"]
        self.raceways = {r["name"]: r for r in case.get("raceway", [])}
        self.cables = {k["name"]: k for k in case.get("cable", [])}
        self.circuits = case.get("circuit", [])
        self.system = case["supply"]["system"]
        self.dc = self.system.endswith("dc")
        self.wye = "Y/" in self.system

    def levels(self):
        """Voltages of the supply, the lower one to neutral."""
        name = self.system.split(" ")[0].replace("Y", "")
        return sorted(float(v) for v in name.split("/"))

    def line(self, c):
        """Phases, conductors of one set, counted conductors of one set (310.15(E)), volts of the supply that it takes."""
        volts = si(c["voltage"])
        neutral = c["wire"].get("neutral", "none") != "none"
        if self.dc:
            return 1, 2, 2, volts
        levels = self.levels()
        low, high = levels[0], levels[-1]
        if c.get("phases", 1) == 3:
            # The neutral of a wye carries harmonics of nonlinear loads; otherwise what the lines are apart.
            harmonic = neutral and self.wye and c["load"].get("nonlinear", False)
            return 3, 3 + neutral, 3 + harmonic, high
        if len(levels) > 1 and volts == low:
            return 1, 2, 2, low  # a line and its neutral, which carries the full current
        # Two lines; a neutral carries the difference, or as much as the lines where they are two of a wye.
        return 1, 2 + neutral, 2 + (1 if neutral and self.wye else 0), high

    def is_feeder(self, c):
        return c.get("role", "branch") == "feeder"

    def feeder_of(self, c):
        return next((other for other in self.circuits if other["name"] == c.get("fed_by")), None)

    def branches_behind(self, feeder):
        """Branch circuits that a feeder carries, through further feeders too."""
        def carried(c):
            above = self.feeder_of(c)
            return above is not None and (above is feeder or carried(above))
        return [c for c in self.circuits if not self.is_feeder(c) and carried(c)]

    def ground_of(self, c):
        """The grounding conductor of a circuit, which may be that of another one in the same raceway, 250.122(C)."""
        ground = c.get("ground", {})
        if "shared_with" in ground:
            return next(other for other in self.circuits if other["name"] == ground["shared_with"]).get("ground", {})
        return ground

    def sets(self, c):
        return c["wire"].get("parallel", 1)

    def sets_in(self, c, raceway):
        return self.sets(c) / raceway.get("alike", 1)

    # Where conductors run.

    def part(self, name):
        return self.raceways.get(name) or self.cables[name]

    def stretch(self, name):
        """The cable or None, the raceway around it or None."""
        if name in self.raceways:
            return None, self.raceways[name]
        cable = self.cables[name]
        return cable, self.raceways.get(cable.get("inside"))

    def wire_on(self, c, name):
        """Size and insulation on a stretch."""
        cable, _ = self.stretch(name)
        if cable is None:
            return c["wire"]["size"], c["wire"]["type"]
        return cable.get("size", c["wire"].get("size")), cable.get("insulation", INSIDE.get(cable["type"]))

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

    def in_raceway(self, raceway):
        """Each circuit that runs in a raceway, with the cable that it runs in, if any."""
        for c in self.circuits:
            for name in c["path"]:
                cable, around = self.stretch(name)
                if around is raceway:
                    yield c, cable
                    break

    def circular_mils(self, size):
        for stranding in ("stranded", "solid"):
            for row in rows_of("conductor-properties", self.edition):
                if row["size"] == size and row["stranding"] == stranding and row["circular-mils"] is not None:
                    return row["circular-mils"]
        raise Open("no area of this size")
