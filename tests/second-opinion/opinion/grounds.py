"""The equipment grounding conductor, 250.122."""
import math

from quantities import SIZES, si, size_order

from .basics import Answer, Open, band, covers
from .circuits import is_cord


class Grounds:
    def would_do(self, c, size):
        try:
            usable, _, at_device = self.ampacity(c, size)
        except Open:
            return False
        if self.marked_minimum(c):
            enough = covers(usable, si(c["load"]["minimum_circuit_ampacity"]))
        elif self.motors(c):
            enough = covers(usable, self.motor_conductors(c))
        elif self.says_current(c):
            enough = covers(usable, self.current(c)) and covers(at_device, self.raised(c))
        else:
            enough = True  # no load is said: the device alone decides
        return enough and (self.own_device(c) or covers(self.device_limit(c, size), self.rating(c)))

    def smallest(self, c):
        """The smallest conductors that would do: for the load, under the device, and permitted at all, 310.3, 310.10(G)."""
        installed = max((self.wire_on(c, name)[0] for name in c["path"]), key=size_order)
        least = "1/0 AWG" if self.sets(c) > 1 else "14 AWG" if c["wire"]["material"] == "copper" else "12 AWG"
        if not self.would_do(c, installed):
            return installed
        best = installed
        for size in reversed(SIZES[:size_order(installed)]):
            if size_order(size) < size_order(least) or not self.would_do(c, size):
                break
            best = size
        return best

    def ground_answers(self, c):
        ground, answers, done = self.ground_of(c), [], set()
        for name in c["path"]:
            cable, _ = self.stretch(name)
            if cable is None and "size" not in ground or cable is not None and "ground" not in cable:
                continue
            size, material = (cable["ground"], cable["material"]) if cable is not None else (ground["size"], ground["material"])
            wire = self.wire_on(c, name)[0]
            if (size, wire, material, cable is not None) in done:
                continue
            done.add((size, wire, material, cable is not None))
            installed, has = self.circular_mils(wire), self.circular_mils(size)
            if is_cord(cable) and size_order(wire) <= size_order("10 AWG"):  # 250.122(E)
                need = installed
            else:
                need = self.needed_ground(c, size, material, installed)
            answers.append(Answer("ground-size", f"circuit {c['name']}", "pass" if covers(has, need) else "fail", has, need))
        return answers

    def needed_ground(self, c, size, material, installed):
        """By the device, 250.122(A) and (D); grown with the ungrounded conductors, (B); and never larger than they are."""
        same_metal = material == c["wire"]["material"]
        by_device = self.circular_mils(band("egc", self.edition, "copper" if material == "copper" else "aluminum", self.rating(c)))
        cap = installed * self.sets(c) if same_metal else math.inf
        wanted = by_device
        if wanted < cap:
            try:
                self.ampacity(c)
                wanted *= max(1.0, installed / self.circular_mils(self.smallest(c)))
            except Open:  # what would do is not known; as large as the ungrounded ones is enough whatever it is
                if not covers(self.circular_mils(size), cap):
                    raise
                wanted = cap
        wanted = min(wanted, cap)
        large_enough = [self.circular_mils(s) for s in SIZES if covers(self.circular_mils(s), wanted)]
        if not large_enough:
            raise Open("no conductor is large enough")
        return min(large_enough)
