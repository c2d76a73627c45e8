"""Currents: nameplates, households (220.54, 220.55), motors (Article 430), cooling equipment (Article 440), and what is raised."""
import math
from fractions import Fraction

from quantities import si
from tables import rows_of

from .basics import SLACK, Open, band
from .circuits import MOTOR_PARTS

# Whose circuits carry 125 % whatever the hours. Fixed electric heat counts as continuous, 424.4(B), so that a device that
# may carry all of its rating spares it the increase, 210.20(A) Exception; of vehicle chargers, 625.41, and storage water
# heaters, 422.13, the percentage is asked for itself; a room air conditioner has at most 80 % of its circuit, 440.62(B).
CONTINUOUS = {"electric space heater", "baseboard heater"}
RAISED = {"electric water heater, storage", "vehicle charger", "room air conditioner"}
COOLING = {"air conditioner", "heat pump"}
COOKING = {"range", "wall oven", "cooktop"}  # household ranges, 220.55, whose single ovens and cooktops have their nameplates
# The columns of the motor tables, and the system volts that the heads of the tables give them for.
RATED_VOLTS = {115: (110, 120), 200: (200, 200), 208: (208, 208), 230: (220, 240), 460: (440, 480), 575: (550, 600)}


def horsepower(text):
    """"1-1/2 hp" as a number."""
    number = text.removesuffix(" hp")
    whole, _, part = number.partition("-")
    return float(Fraction(whole) + Fraction(part)) if part else float(Fraction(number))


class Loads:
    def motors(self, c):
        return c.get("load", {}).get("motors", [])

    def motor_kind(self, c, motor):
        if "kind" in motor:
            return motor["kind"]
        return "direct current" if self.dc else "polyphase" if self.line(c)[0] == 3 else "single-phase"

    def table_current(self, c, motor):
        """Tables 430.247, 430.248, 430.250, 430.6(A)(1)."""
        kind, volts = self.motor_kind(c, motor), si(c["voltage"])
        if kind == "direct current":
            name, heads = "motor-dc", {v: (v, v) for v in (90, 120, 180, 240, 500, 550)}
        else:
            name, heads = "motor-single-phase" if kind == "single-phase" else "motor-three-phase", RATED_VOLTS
        rated = next((head for head, (low, high) in heads.items() if low <= volts <= high), None)
        column = f"synchronous-{rated}" if kind == "synchronous" else f"v-{rated}"
        wanted = horsepower(motor["horsepower"])
        for row in rows_of(name, self.edition):
            if abs(row["horsepower"] - wanted) < 1e-3 and row.get(column) is not None:
                return row[column] * (self.synchronous_share(c) if kind == "synchronous" else 1)
        raise Open("no such column, or no motor of this power")

    def synchronous_share(self, c):
        """The note of Table 430.250: its synchronous columns are for a power factor of one, and two others have a factor."""
        share = {1: 1.0, 0.9: 1.1, 0.8: 1.25}.get(c["load"].get("power_factor"))
        if share is None:
            raise Open("no factor for this power factor")
        return share

    def motor_current(self, c, motor):
        """A compressor has its rated-load or branch-circuit selection current, 440.4(C), 440.6(A), a motor of so many
        horsepower its table current, and a fan motor of cooling equipment that of its nameplate, 440.6(B)."""
        if any(part in motor for part in MOTOR_PARTS):
            return max(si(motor[part]) for part in MOTOR_PARTS if part in motor)
        if "horsepower" in motor:
            return self.table_current(c, motor)
        return si(motor["nameplate_current"])

    def is_compressor(self, motor):
        return any(part in motor for part in MOTOR_PARTS)

    def motor_conductors(self, c):
        """430.22, 430.24, 440.32, 440.33: a quarter more of the largest, and all others whole."""
        currents = [self.motor_current(c, motor) for motor in self.motors(c)]
        return sum(currents) + 0.25 * max(currents) + self.beside(c) + self.others(c) + 0.25 * self.continuous_others(c)

    def beside(self, c):
        return si(c["load"].get("other_current", "0 A"))

    def marked_minimum(self, c):
        return "minimum_circuit_ampacity" in c["load"]

    def cooling(self, c):
        """Whether its own article and nameplate set the device, 440.22, 240.4(G)."""
        load = c["load"]
        return load.get("appliance") in COOLING and (self.marked_minimum(c) or bool(self.motors(c)))

    def own_device(self, c):
        """240.4(G): of motors and cooling equipment the device goes by their own articles."""
        return self.cooling(c) or bool(self.motors(c))

    def household_cooking(self, c):
        return self.case["supply"].get("dwelling", False) and c["load"].get("appliance") in COOKING and not self.is_feeder(c)

    def range_demand(self, kilowatts):
        """Table 220.55 for one household range: column C, Note 1 above 12 kW, Note 3 through 8.75 kW."""
        if kilowatts > 27 + SLACK:
            raise Open("larger than the table knows")
        if kilowatts <= 1.75 + SLACK:
            return kilowatts
        largest = band("ranges", self.edition, "c", 1)
        if kilowatts <= 8.75 + SLACK:
            column = "a" if kilowatts < 3.5 - SLACK else "b"
            return min(largest, kilowatts * band("ranges", self.edition, column, 1) / 100)
        over = math.floor(max(kilowatts - 12, 0) + 0.5 + SLACK)  # each kilowatt over twelve, and a major fraction of one
        return largest * (1 + 0.05 * over)

    def others(self, c):
        """What else is on the circuit."""
        return sum(si(other["current"]) for other in c.get("also_feeds", []))

    def continuous_others(self, c):
        return sum(si(other["current"]) for other in c.get("also_feeds", []) if other.get("continuous"))

    def says_current(self, c):
        return bool({"current", "power", "apparent_power"} & set(c["load"]))

    def nameplate(self, c):
        """The rated current of the load itself."""
        load = c["load"]
        if "current" in load:
            return si(load["current"])
        volts = si(c["voltage"]) * (math.sqrt(3) if self.line(c)[0] == 3 else 1)
        if "apparent_power" in load:
            return si(load["apparent_power"]) / volts
        if "power" in load:
            return si(load["power"]) / volts / self.power_factor(c)
        raise Open("no current is said")

    def power_factor(self, c):
        return c["load"].get("power_factor", 1)

    def current(self, c):
        """What runs: all motors, the demand of a household range, or the nameplate; and what else is on the circuit."""
        others = self.others(c)
        if self.motors(c):
            return sum(self.motor_current(c, motor) for motor in self.motors(c)) + self.beside(c) + others
        load = c["load"]
        if load.get("appliance") == "range" and self.household_cooking(c) and "current" not in load:
            power = si(load["power"]) if "power" in load else si(load["apparent_power"])
            return self.range_demand(power / 1000) * 1000 / si(c["voltage"]) + others
        return self.nameplate(c) + others

    def continuous(self, c):
        load, appliance = c["load"], c["load"].get("appliance")
        others = self.continuous_others(c)
        own = self.current(c) - self.others(c)
        if appliance in RAISED or appliance in CONTINUOUS and not c["breaker"].get("full_load_rated"):
            return own + others
        if "continuous_current" in load:
            return si(load["continuous_current"]) + others
        return (own if load.get("continuous", False) else 0.0) + others

    def raised(self, c):
        """210.19(A)(1), 210.20(A), 215.2(A)(1), 215.3: 125 % of what runs for hours, unless the device is listed for all of it."""
        raised = self.continuous(c)
        if c["breaker"].get("full_load_rated"):
            raised = self.current(c) - self.others(c) if c["load"].get("appliance") in RAISED else 0.0
        return self.current(c) + 0.25 * raised
