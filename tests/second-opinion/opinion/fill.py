"""Raceway fill: Chapter 9 Tables 1, 4, 5, 5A and 8 with their notes."""
import math

from quantities import inches
from tables import COMPACT, rows_of

from .basics import SLACK, Open, at_most, band, covers, lookup, value_of


def circle(diameter):
    return math.pi / 4 * diameter**2


class Fill:
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

    def bare_area(self, size):
        found = lookup("conductor-properties", self.edition, "area", size=size, stranding="stranded")
        return found or lookup("conductor-properties", self.edition, "area", size=size, stranding="solid")

    def contents(self, raceway):
        """Number and area of everything in a raceway."""
        found = []
        for c in self.circuits:
            if raceway["name"] not in c["path"]:
                continue
            wire, ground = c["wire"], c.get("ground", {})
            _, conductors, _, _ = self.line(c)
            own = (circle(inches(wire["diameter"])) if "diameter" in wire else
                   self.wire_area(wire["size"], wire["type"], wire.get("compact", False), wire.get("covering", True)))
            found.append((conductors * self.sets_in(c, raceway), own))
            if "size" in ground:
                found.append((1, self.bare_area(ground["size"]) if ground.get("bare") else
                              self.wire_area(ground["size"], ground.get("type", wire["type"]), False, wire.get("covering", True))))
        for other in raceway.get("also", []):
            if other.get("cable"):
                area = circle(inches(other["diameter"]))
            else:
                area = self.bare_area(other["size"]) if other.get("bare") else self.wire_area(other["size"], other["type"])
            found.append((other["count"], area))
        # Note 9: a cable is one conductor, of its larger diameter where it is flat.
        return found + [(1, circle(inches(cable["diameter"]))) for cable in self.cables.values() if cable.get("inside") == raceway["name"]]

    def fill_answers(self, raceway):
        contents = self.contents(raceway)
        if not contents:
            return []
        inside = (inches(raceway["inside_diameter"]) if "inside_diameter" in raceway else
                  lookup("raceway-dimensions", self.edition, "inside", type=raceway["type"], size=value_of(raceway["size"])))
        if inside is None:
            raise Open("no such size")
        count = sum(n for n, _ in contents)
        nipple = raceway.get("nipple") and covers(24, inches(raceway["length"]))
        percent = 60 if nipple else band("fill-percent", self.edition, "percent", count)
        subject = f"raceway {raceway['name']}"
        if all(math.isclose(area, contents[0][1], rel_tol=SLACK) for _, area in contents):  # Note 7: 0.8 and more counts as one more
            return [at_most("raceway-fill", subject, count, math.floor(percent / 100 * circle(inside) / contents[0][1] + 0.2 + SLACK))]
        return [at_most("raceway-fill", subject, sum(n * area for n, area in contents), percent / 100 * circle(inside))]
