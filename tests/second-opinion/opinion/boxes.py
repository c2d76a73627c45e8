"""Boxes: volume, 314.16(B); pull boxes, 314.28(A); room to bend at terminals, 312.6."""
from quantities import INCH, inches, si, size_order

from .basics import Open, Silent, at_least, at_most, lookup

OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
DIRECTION = {"left": "width", "right": "width", "top": "height", "bottom": "height"}


def trade_inches(size):
    """A trade size as a number, "1-1/4" as 1.25."""
    whole, _, part = size.rpartition("-") if "/" in size else (size, "", "")
    top, _, bottom = part.partition("/") if part else ("0", "", "1")
    return float(whole or 0) + float(top) / float(bottom)


def entry_name(entry):
    return entry if isinstance(entry, str) else entry["in"]


class Boxes:
    def box_entries(self, box):
        return [entry_name(entry) for entry in box["entries"]]

    def entering(self, box):
        """Sizes and numbers of the conductors that count, and sizes of the grounds."""
        entering, grounds = [], []
        for c in self.circuits:
            _, conductors, _, _ = self.line(c)
            entries = [name for name in self.box_entries(box) if name in c["path"]]
            for number, name in enumerate(entries):
                cable, _ = self.stretch(name)
                if number == 0 or not box["passes_through"]:
                    entering.append((self.wire_on(c, name)[0], conductors * self.sets(c)))
                ground = cable.get("ground") if cable is not None else c.get("ground", {}).get("size")  # a shared one is with its owner
                if ground is not None:
                    grounds.append(ground)
        for other in box.get("also", []):
            if other.get("bare"):
                grounds += [other["size"]] * other["count"]
            else:
                entering.append((other["size"], other["count"]))
        return entering, grounds

    def box_answers(self, box):
        entering, grounds = self.entering(box)
        if not entering:
            return []
        largest = max([size for size, _ in entering] + [other["size"] for other in box.get("also", [])], key=size_order)
        if size_order(largest) > size_order("6 AWG"):
            return []  # 314.28 holds
        if "volume" not in box and "kind" not in box:
            raise Open("its volume is not said")

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
        return [at_most("box-volume", f"box {box['name']}", need, room)]

    # Pull boxes, 314.28(A): raceways with conductors of 4 AWG or larger.

    def large_circuits(self, name):
        """Circuits with conductors of 4 AWG and larger in a raceway."""
        return [c for c in self.circuits if name in c["path"] and size_order(self.wire_on(c, name)[0]) >= size_order("4 AWG")]

    def pull_answers(self, box):
        """Straight pulls, (A)(1); angle and U pulls and what is spliced or ends there, (A)(2)."""
        entries = {entry_name(entry): entry for entry in box["entries"] if not isinstance(entry, str) and entry_name(entry) in self.raceways}
        trade = {name: trade_inches(self.raceways[name]["size"]) for name in entries}
        large = {name: self.large_circuits(name) for name in entries if self.large_circuits(name)}
        answers, subject = [], f"box {box['name']}"

        def hold(limit, of):
            answers.append(at_least("pull-box", subject, inches(box[of]), limit))

        straight, bent, turned = [], [], set()
        for c in self.circuits:
            mine = [name for name in large if c in large[name]]
            if box["passes_through"] and len(mine) == 2:
                walls = [entries[name]["wall"] for name in mine]
                (straight if OPPOSITE.get(walls[0]) == walls[1] else bent).append(mine)
            elif box["passes_through"] and len(mine) > 2:
                raise Silent("which way a conductor goes is not said")
            else:
                turned.update(mine)
        for pair in straight:
            hold(8 * max(trade[name] for name in pair), DIRECTION[entries[pair[0]]["wall"]])
        for pair in bent:  # entries of the same conductors
            turned.update(pair)
            hold(6 * max(trade[name] for name in pair), "apart")
        for wall in OPPOSITE:
            for row in {entries[name].get("row", 1) for name in turned if entries[name]["wall"] == wall}:
                beside = [trade[name] for name in entries if entries[name]["wall"] == wall and entries[name].get("row", 1) == row]
                hold(6 * max(beside) + sum(beside) - max(beside), DIRECTION[wall])  # of all raceways in that row
        return answers

    def bending_answers(self, c):
        """Table 312.6(A) by size and wires a terminal; from 8 AWG up."""
        wires = int(c["breaker"].get("wires_per_terminal", 1))
        size = c["wire"].get("size") or self.wire_on(c, c["path"][0])[0]
        space = lookup("bending-space", self.edition, ["one", "two", "three", "four", "five"][wires - 1], size=size)
        if space is None:
            return []
        return [at_least("bending-space", f"circuit {c['name']}", inches(c["breaker"]["bending_space"]), space)]
