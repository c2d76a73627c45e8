"""A second opinion on a case: ampacity, device, grounding conductor, raceway fill, boxes, voltage drop and the load on a service, worked out
from
the copied tables and from what the code asks, here alone. Nothing is shared with the program.

Sections are of NFPA 70-2023; where an edition differs it is said. An answer is what a check of the program should find:
its verdict, and the figure that is held against a limit, both in full.
"""
from .ampacity import Ampacity
from .basics import Answer, Open, Silent
from .boxes import Boxes
from .circuits import Circuits
from .devices import Devices
from .drop import Drop
from .fill import Fill
from .grounds import Grounds
from .loads import Loads
from .services import Services

__all__ = ["Answer", "Opinion"]


class Opinion(Circuits, Loads, Ampacity, Devices, Grounds, Fill, Boxes, Drop, Services):
    """Everything about one case."""

    def answers(self):
        """Everything, as {(check, subject): [answers] or None where it is open}."""
        found = {}

        def put(check, subject, ask, of):
            try:
                found[(check, subject)] = ask(of)
            except Open:
                found[(check, subject)] = None
            except Silent:
                pass

        for c in self.circuits:
            subject = f"circuit {c['name']}"
            put("ampacity", subject, self.ampacity_answers, c)
            put("device-conductor", subject, self.conductor_answers, c)
            put("device-load", subject, self.load_answers, c)
            put("ground-size", subject, self.ground_answers, c)
            put("appliance-device", subject, self.appliance_answers, c)
            put("motor-device", subject, self.motor_device_answers, c)
            put("motor-group", subject, self.group_answers, c)
            put("motor-feeder", subject, self.motor_feeder_answers, c)
            put("motor-overload", subject, self.overload_answers, c)
            if "maximum_device" in c["load"]:
                put("device-marked-maximum", subject, self.marked_answers, c)
            if "bending_space" in c["breaker"]:
                put("bending-space", subject, self.bending_answers, c)
            put("drop-feeder" if self.is_feeder(c) else "drop-branch", subject, self.drop_answers, c)
            put("drop-total", subject, self.total_answers, c)
            if "minimum_voltage" in c["load"]:
                put("drop-appliance", subject, self.appliance_drop_answers, c)
        for raceway in self.raceways.values():
            put("raceway-fill", f"raceway {raceway['name']}", self.fill_answers, raceway)
        for box in self.case.get("box", []):
            put("box-volume", f"box {box['name']}", self.box_answers, box)
            put("pull-box", f"box {box['name']}", self.pull_answers, box)
        if "service" in self.case["supply"]:
            put("service-load", "supply", self.service_answers, self.case["supply"])
        return found
