"""The load of a dwelling on its service: 220.42 to 220.60 piece by piece, 220.82 for a whole dwelling, 220.83 for an existing
one, 220.87 by measurement. The circuits of the case are left out here: only loads that are listed are counted."""
import math

from quantities import si, split

from .basics import Open, Silent, at_most, band, lookup

HEATING_COOLING = ("cooling", "heat pump", "heat pump supplement", "electric heat")


class Services:
    def service_loads(self, kind=None):
        """Volt-amperes of each load, every one of several alike by itself."""
        found = []
        for load in self.case["supply"]["service"].get("load", []):
            if kind in (None, load["kind"]):
                found += [si(load["power"])] * int(load.get("units", 1))
        return found

    def general(self):
        """220.41 (220.12 before 2023) and 220.52: 3 VA for each square foot, 1500 VA for each circuit of kitchen and laundry."""
        service = self.case["supply"]["service"]
        area, unit = split(service["floor_area"])
        return 3 * (area if unit == "ft²" else area / 0.3048**2) + 1500 * (service["small_appliance_circuits"] + service["laundry_circuits"])

    def range_loads(self):
        """Table 220.55: one household range, or several above 8.75 kW with their average, Notes 1 and 2."""
        ranges = [watts / 1000 for watts in self.service_loads("range")]
        if len(ranges) <= 1:
            return [self.range_demand(kilowatts) * 1000 for kilowatts in ranges]
        if min(ranges) <= 8.75:
            raise Silent("small ranges among others")
        average = sum(max(12, kilowatts) for kilowatts in ranges) / len(ranges)
        over = math.floor(average - 12 + 0.5 + 1e-9)
        return [band("ranges", self.edition, "c", len(ranges)) * 1000 * (1 + 0.05 * over)]

    def dryer_load(self):
        """220.54: at least 5000 VA each; the table takes something off from the fifth on."""
        dryers = [max(5000, watts) for watts in self.service_loads("dryer")]
        return sum(dryers) * (band("dryers", self.edition, "percent", len(dryers)) / 100 if dryers else 0)

    def chargers(self):
        """220.57 of 2023: at least 7200 VA each."""
        return sum(max(7200, watts) if self.edition == "us-2023" else watts for watts in self.service_loads("charger"))

    def standard_load(self):
        first, rest = self.general(), 0.0
        below = 0.0
        for through, percent in ((3000, 100), (120000, 35), (math.inf, 25)):  # Table 220.45
            rest += (min(first, through) - below) * percent / 100
            below = min(first, through)
        appliances = self.service_loads("appliance")
        rest += sum(appliances) * (0.75 if len(appliances) >= 4 else 1)  # 220.53
        rest += sum(self.range_loads()) + self.dryer_load() + self.chargers()
        heat, cool = sum(self.service_loads("electric heat")), sum(self.service_loads("cooling"))
        if heat and cool or self.service_loads("heat pump") or self.service_loads("heat pump supplement"):
            raise Silent("which of heating and cooling counts is for others to say")
        motors = self.service_loads("motor") + self.service_loads("cooling")
        return rest + heat + cool + sum(self.service_loads("motor")) + 0.25 * max(motors, default=0)  # 220.50

    def climate(self):
        """220.82(C): the largest of what heats or cools."""
        def percent(choice):
            return lookup("optional-heating", self.edition, "percent", choice=choice) / 100

        pump, supplement, heat = (sum(self.service_loads(kind)) for kind in ("heat pump", "heat pump supplement", "electric heat"))
        few = len(self.service_loads("electric heat")) < 4
        return max(sum(self.service_loads("cooling")) * percent("air conditioning"),
                   pump * percent("heat pump compressor") + supplement * percent("heat pump supplement") if supplement else
                   pump * percent("heat pump without supplement"),
                   heat * percent("electric heat under four units" if few else "electric heat of four units or more"))

    def nameplates(self):
        """What an optional method takes at its nameplate."""
        return sum(sum(self.service_loads(kind)) for kind in ("appliance", "range", "dryer", "motor")) + self.chargers()

    def optional_load(self):
        others = self.general() + self.nameplates()
        return min(others, 10000) + 0.4 * max(others - 10000, 0) + self.climate()

    def existing_load(self):
        loads = self.case["supply"]["service"].get("load", [])
        if any(load["kind"] in HEATING_COOLING for load in loads):
            raise Silent("additions of heating and cooling")
        others = self.general() + self.nameplates()
        return min(others, 8000) + 0.4 * max(others - 8000, 0)

    def service_answers(self, supply):
        service = supply["service"]
        volts = self.levels()[-1] * (math.sqrt(3) if "3-phase" in self.system else 1)
        if service["method"] == "measured":
            if service["measured_days"] < 30 or service["measured_days"] < 365 and service.get("measured_interval", 15) > 15:
                raise Open("recorded too shortly")
            added = [si(load["power"]) * load.get("units", 1) for load in service.get("load", []) if load.get("added")]
            if not added:
                raise Open("nothing is added")
            amperes = 1.25 * si(service["measured_demand"]) + sum(added) / volts
        else:
            if service["method"] == "optional" and si(service["rating"]) < 100:
                raise Open("the optional method is for services of 100 A and more, 220.82(A)")
            load = {"standard": self.standard_load, "optional": self.optional_load, "existing": self.existing_load}[service["method"]]()
            amperes = load / volts
        return [at_most("service-load", "supply", amperes, si(service["rating"]))]
