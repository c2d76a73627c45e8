"""Overcurrent devices: 210.20, 215.3, 240.4, 240.5, 240.6, 422.11, and those of motors and cooling equipment, 430.52, 430.53, 440.22."""
from quantities import si

from .basics import Answer, Open, Silent, at_least, at_most, covers, lookup, metal, next_rating, rating_within
from .circuits import is_cord
from .loads import horsepower

# Single appliances without a motor, 422.11(E).
CEILING = {"electric water heater, storage", "electric water heater, on demand", "wall oven", "cooktop", "instant hot water dispenser", "towel warmer", "kiln"}


class Devices:
    def rating(self, c):
        return si(c["breaker"]["rating"])

    def device_kind(self, c):
        return c["breaker"].get("kind", "breaker")

    # Against the conductors, 240.4 and 240.5.

    def largest_device(self, c, usable, name, size):
        cable, _ = self.stretch(name)
        if is_cord(cable):
            return usable  # 240.5(A): neither the next size up nor the limits of small conductors are for cords
        most = usable
        several = c["load"].get("receptacles", False) and not self.is_feeder(c)
        cooking = self.household_cooking(c)  # 210.19(C): at least the circuit's rating
        if not several and not cooking and covers(800, usable):
            rating = next_rating(self.edition, self.device_kind(c), usable)
            if rating is not None and covers(800, rating):
                most = rating
        fixed = lookup("small-conductors", self.edition, "copper" if metal(c["wire"]["material"]) == "cu" else "aluminum", size=size)
        return most if fixed is None else min(most, fixed)

    def device_limit(self, c, size=None):
        usable = self.ampacity(c, size)[0]
        limit = min(self.largest_device(c, usable, name, size or self.wire_on(c, name)[0]) for name in c["path"])
        if c.get("entire_dwelling") and self.case["supply"].get("dwelling"):  # 310.12: 83 % of the rating, 100 through 400 A
            rating = self.rating(c)
            if covers(rating, 100) and covers(400, rating):
                limit = max(limit, usable / 0.83)
        return limit

    def conductor_answers(self, c):
        if self.own_device(c):
            return []
        answer = at_most("device-conductor", f"circuit {c['name']}", self.rating(c), self.device_limit(c))
        return [] if answer.verdict == "fail" and self.motor_circuits(c) else [answer]  # 430.62 may allow more

    # Against the load.

    def load_answers(self, c):
        subject, rating = f"circuit {c['name']}", self.rating(c)
        if self.marked_minimum(c):
            # The minimum raises the largest motor alone, so that at least four fifths of it run, 440.33. No section asks the whole of the device.
            marked = si(c["load"]["minimum_circuit_ampacity"])
            if covers(rating, marked):
                return [Answer("device-load", subject, "pass", rating, marked)]
            runs = self.current(c) if self.says_current(c) else marked / 1.25
            if covers(rating, runs):
                return [Answer("device-load", subject, "advice", rating, marked)]
            return [Answer("device-load", subject, "fail", rating, runs)]
        if self.motors(c):
            return [at_least("device-load", subject, rating, self.current(c))]
        answers = [at_least("device-load", subject, rating, self.raised(c))]
        load = c["load"]
        if load.get("appliance") == "range" and self.household_cooking(c) and "power" in load and covers(si(load["power"]), 8750):
            answers.append(at_least("device-load", subject, rating, 40.0))  # 210.19(C)
        return answers

    def marked_answers(self, c):
        """110.3(B), 422.11(A), 440.4(B): not above what the nameplate says."""
        return [at_most("device-marked-maximum", f"circuit {c['name']}", self.rating(c), si(c["load"]["maximum_device"]))]

    def appliance_answers(self, c):
        """422.11(E): 20 A through 13.3 A, else 150 % and the next standard size."""
        load = c["load"]
        if load.get("appliance") not in CEILING or "maximum_device" in load or c.get("also_feeds"):
            return []
        amperes = self.nameplate(c)
        most = 20.0 if covers(13.3, amperes) else next_rating(self.edition, self.device_kind(c), 1.5 * amperes)
        return [at_most("appliance-device", f"circuit {c['name']}", self.rating(c), most)]

    # Of motors, 430.52; of compressors, 440.22.

    def motor_percent(self, c, motor):
        """Table 430.52(C)(1)."""
        kind = self.device_kind(c)
        column = "breaker" if kind == "breaker" else "time-delay-fuse" if c["breaker"].get("time_delay") else "fuse"
        return lookup("motor-device", self.edition, column, motor=self.motor_kind(c, motor))

    def raised_share(self, c, motor):
        """Amperes that the device of a motor which will not start otherwise may have, 430.52(C)(1) Exception No. 2."""
        amperes = self.motor_current(c, motor)
        if self.device_kind(c) == "breaker":
            return amperes * (4 if covers(100, amperes) else 3)
        if c["breaker"].get("time_delay"):
            return amperes * 2.25
        # Nontime-delay fuses: 400 % through 600 A; those of the larger class 300 %.
        return 4 * amperes if covers(600, 4 * amperes) else max(600.0, 3 * amperes)

    def motor_device(self, c, motor):
        """The largest device of one motor: the next standard size, Exception No. 1, or what Exception No. 2 allows, which is
        not rounded up and takes nothing away."""
        kind = self.device_kind(c)
        most = next_rating(self.edition, kind, self.motor_current(c, motor) * self.motor_percent(c, motor) / 100)
        if most is None:
            raise Open("larger than the standard ratings")
        if c["load"].get("hard_start"):
            most = max(most, rating_within(self.edition, kind, self.raised_share(c, motor)) or 0)
        return most

    def compressor_device(self, c):
        """175 %, or 225 % where it will not start, of the largest compressor and all others; never rounded up, nor below 15 A."""
        currents = [(self.motor_current(c, motor), self.is_compressor(motor)) for motor in self.motors(c)]
        largest = max(amperes for amperes, compressor in currents if compressor)
        if largest < max(amperes for amperes, _ in currents):
            raise Open("the compressor is not the largest")
        percent = 225 if c["load"].get("hard_start") else 175
        amperes = largest * percent / 100 + sum(amperes for amperes, _ in currents) - largest + self.beside(c) + self.others(c)
        return max(rating_within(self.edition, self.device_kind(c), amperes) or 0, 15.0)

    def motor_device_answers(self, c):
        if "maximum_device" in c["load"] or not self.motors(c):
            return []
        subject, motors = f"circuit {c['name']}", self.motors(c)
        if any(self.is_compressor(motor) for motor in motors):
            most = self.compressor_device(c)
        elif len(motors) == 1 and not self.beside(c) and not c.get("also_feeds"):
            most = self.motor_device(c, motors[0])
        else:
            return []  # 430.53 holds
        return [at_most("motor-device", subject, self.rating(c), most)]

    def group_answers(self, c):
        """430.53: small motors on a small device; any on a device that the smallest may have; or listed for it."""
        motors = self.motors(c)
        if any(self.is_compressor(motor) for motor in motors) or "maximum_device" in c["load"]:
            return []
        if len(motors) < 2 and not (motors and (self.beside(c) or c.get("also_feeds"))):
            return []
        subject, rating = f"circuit {c['name']}", self.rating(c)
        small = 20.0 if covers(120, si(c["voltage"])) else 15.0
        currents = [self.motor_current(c, motor) for motor in motors]
        if all(covers(1, horsepower(motor["horsepower"])) and covers(6, amperes) for motor, amperes in zip(motors, currents)) and covers(small, rating):
            return [at_most("motor-group", subject, rating, small)]
        least = min((self.motor_current(c, motor), self.motor_device(c, motor)) for motor in motors)[1]
        listed = c["load"].get("group_listed")
        if covers(least, rating) or listed is False:
            return [at_most("motor-group", subject, rating, least)]
        if listed is None:
            raise Open("whether they are listed is not said")
        largest = max(motors, key=lambda motor: self.motor_current(c, motor))
        share = self.raised_share(c, largest) if c["load"].get("hard_start") else max(currents) * self.motor_percent(c, largest) / 100
        most = share + sum(currents) - max(currents) + self.beside(c) + self.others(c)
        return [at_most("motor-group", subject, rating, most)]

    # Feeders of motors, 430.24 and 430.62.

    def motor_circuits(self, feeder):
        """Circuits of motors and cooling equipment behind a feeder."""
        return [c for c in self.branches_behind(feeder) if self.is_feeder(feeder) and self.own_device(c)]

    def motor_feeder_answers(self, feeder):
        """A quarter more of the largest motor and all else, what runs for hours raised; the device of the largest with the currents of all else."""
        behind = self.motor_circuits(feeder)
        if not behind:
            return []
        if any(self.marked_minimum(c) for c in behind):
            raise Silent("what runs behind a marked minimum is not said")
        others = [c for c in self.branches_behind(feeder) if c not in behind]
        total = sum(self.current(c) for c in behind) + sum(self.raised(c) for c in others)
        subject, rating, answers = f"circuit {feeder['name']}", self.rating(feeder), []
        if not others or not self.says_current(feeder):  # else its load is as Article 220 has it
            largest = max(self.motor_current(c, motor) for c in behind for motor in self.motors(c))
            raised = 0.25 * (largest + sum(self.continuous_others(c) for c in behind))
            answers.append(at_least("motor-feeder", subject, self.ampacity(feeder)[0], total + raised))
        device, own = max((self.largest_branch_device(c), self.current(c)) for c in behind)
        limit = device + total - own
        if not covers(limit, rating) and covers(self.device_limit(feeder), rating):
            limit = self.device_limit(feeder)  # 430.62(B): the conductors may have it by themselves
        return [*answers, at_most("motor-feeder", subject, rating, limit)]

    def largest_branch_device(self, c):
        """The largest that 430.52 or 440.22 allow, whatever is installed; of a group, only what is installed is known."""
        motors = self.motors(c)
        if "maximum_device" in c["load"]:
            return si(c["load"]["maximum_device"])
        if any(self.is_compressor(motor) for motor in motors):
            return self.compressor_device(c)
        if len(motors) > 1 or self.beside(c) or c.get("also_feeds"):
            return self.rating(c)
        return self.motor_device(c, motors[0])

    def overload_answers(self, c):
        """430.32(A)(1) and (C): by the nameplate, more for a service factor of 1.15 or a rise of at most 40 °C."""
        answers = []
        for motor in self.motors(c):
            if "overload" not in motor:
                continue
            sturdy = motor.get("service_factor", 0) >= 1.15 or float(motor.get("temperature_rise", "99 °C").split(" ")[0]) <= 40
            percent = (140 if sturdy else 130) if c["load"].get("hard_start") else 125 if sturdy else 115
            answers.append(at_most("motor-overload", f"circuit {c['name']}", si(motor["overload"]), percent / 100 * si(motor["nameplate_current"])))
        return answers
