"""Random loads: ordinary ones sized by their wire, and motors, cooling equipment and household appliances that their wire is sized by."""
from tables import rows_of

RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700,
           800, 1000, 1200, 1600, 2000]
# system: (voltage, phases) of its circuits
SYSTEMS = {"120/240 V 1-phase 3-wire": [(120, 1), (240, 1), (240, 1)],
           "208Y/120 V 3-phase 4-wire": [(120, 1), (208, 1), (208, 3)],
           "208Y/120 V 1-phase 3-wire": [(120, 1), (208, 1)],
           "480Y/277 V 3-phase 4-wire": [(277, 1), (480, 1), (480, 3)],
           "600Y/347 V 3-phase 4-wire": [(347, 1), (600, 3)],
           "120/240 V 3-phase 4-wire": [(120, 1), (240, 1), (240, 3)],
           "240 V 3-phase 3-wire": [(240, 1), (240, 3)],
           "480 V 3-phase 3-wire": [(480, 1), (480, 3)],
           "48 V dc": [(48, 1)], "120 V dc": [(120, 1)], "240 V dc": [(240, 1)]}
# The column of the motor tables for a system's volts.
MOTOR_VOLTS = {120: "v-115", 208: "v-208", 240: "v-230", 480: "v-460", 600: "v-575"}


def label(number):
    return f"{number:g}" if isinstance(number, float) else number


class LoadMaker:
    def near_rating(self, amperes):
        """A device about as large as a current asks for; seldom one that is no standard rating."""
        at = min((n for n, rating in enumerate(RATINGS) if rating >= amperes), default=len(RATINGS) - 1)
        rating = RATINGS[max(0, min(len(RATINGS) - 1, at + self.pick([-1, 0, 0, 0, 1])))]
        return rating + self.pick([1, 2, 2.5]) if self.chance(0.03) else rating

    def ordinary(self, carries, volts, dc):
        """A load near what its wire carries, and what its device should be near."""
        current = round(carries * self.pick([0.3, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1]) * self.r.uniform(0.7, 1.1), self.pick([0, 1]))
        load = {} if dc else {"power_factor": self.pick([1, 0.95, 0.9, 0.85, 0.8, 0.7])}
        how = self.r.random()
        if how < 0.75 or dc:
            load["current"] = f"{max(current, 1):g} A"
        elif how < 0.9:
            load["apparent_power"] = f"{max(current, 1) * volts:.0f} VA"
        else:
            load["power"] = f"{max(current, 1) * volts / 1000:.2f} kW"
        load["continuous"] = self.chance(0.5)
        if self.chance(0.1) and "current" in load:
            load["continuous"] = True
            load["continuous_current"] = f"{max(round(max(current, 1) * self.r.random(), 1), 0.1):g} A"
        elif self.chance(0.12) and not dc:
            load["appliance"] = self.pick(["electric water heater, storage", "electric water heater, on demand", "vehicle charger", "electric space heater", "baseboard heater", "room air conditioner"])
        elif self.chance(0.1):
            load["receptacles"] = True
        return load, max(current, 1)

    def motor(self, volts, phases, dc):
        """A motor of the tables and about what it draws."""
        if dc:
            name, column, kind = "motor-dc", f"v-{volts}", "direct current"
        elif phases == 3:
            name, column = "motor-three-phase", MOTOR_VOLTS[volts]
            kind = self.pick(["polyphase", "polyphase", "polyphase design B", "wound rotor", "synchronous"])
            if kind == "synchronous":
                column = column.replace("v-", "synchronous-")
                if volts == 208:
                    column, kind = "v-208", "polyphase"
        else:
            name, column, kind = "motor-single-phase", MOTOR_VOLTS[volts], "single-phase"
        rows = [row for row in rows_of(name, "us-2023") if row.get(column) is not None]
        row = self.pick(rows[: self.pick([6, 9, 16, 30])])
        out = {"horsepower": f"{label(row['hp'])} hp", "kind": kind}
        amperes = row[column]
        if self.chance(0.7):
            plate = round(amperes * self.r.uniform(0.75, 1.02), 1) or 0.1
            out["nameplate_current"] = f"{plate:g} A"
            if self.chance(0.7):
                if self.chance(0.6):
                    out["service_factor"] = self.pick([1.0, 1.15, 1.15, 1.25])
                if self.chance(0.4) or "service_factor" not in out:
                    out["temperature_rise"] = self.pick(["40 °C", "50 °C", "80 °C"])
                out["overload"] = f"{plate * self.pick([1.1, 1.15, 1.25, 1.3, 1.4]):.2f} A"
        return out, amperes

    def motor_load(self, volts, phases, dc):
        motors = [self.motor(volts, phases, dc) for _ in range(self.pick([1, 1, 1, 2, 3]))]
        load = {"motors": [motor for motor, _ in motors], "appliance": "motor"}
        if not dc:
            load["power_factor"] = self.pick([1, 0.9, 0.8]) if any(motor["kind"] == "synchronous" for motor, _ in motors) else self.pick([0.95, 0.85, 0.8, 0.7])
        if self.chance(0.2):
            load["hard_start"] = True
        if self.chance(0.12):
            load["other_current"] = f"{self.r.uniform(0.5, 9):.1f} A"
        if (len(motors) > 1 or "other_current" in load) and self.chance(0.7):
            load["group_listed"] = self.chance(0.6)
        largest = max(amperes for _, amperes in motors)
        return load, sum(amperes for _, amperes in motors) + 0.25 * largest, largest * self.pick([1.5, 1.75, 2.5, 3]) + sum(a for _, a in motors) - largest

    def cooling_load(self):
        load = {"appliance": self.pick(["air conditioner", "heat pump"]), "power_factor": self.pick([1, 0.9, 0.8])}
        compressor = round(self.r.uniform(4, 45), 1)
        if self.chance(0.4):
            minimum = round(compressor * 1.25 + self.r.uniform(0, 4), 1)
            load |= {"minimum_circuit_ampacity": f"{minimum:g} A", "maximum_device": f"{self.near_rating(minimum * 1.5)} A"}
            if self.chance(0.4):
                load["current"] = f"{minimum / 1.2:.1f} A"
            return load, minimum, minimum * self.pick([0.7, 1, 1.3, 1.7])
        main = {"rated_load_current": f"{compressor:g} A"}
        if self.chance(0.4):
            main["branch_selection_current"] = f"{compressor * self.pick([0.95, 1.1, 1.2]):.1f} A"
        fans = [round(self.r.uniform(0.5, 3.5), 1) for _ in range(self.pick([0, 1, 1, 2]))]
        load["motors"] = [main] + [{"nameplate_current": f"{fan:g} A"} for fan in fans]
        if self.chance(0.3):
            load["hard_start"] = True
        if self.chance(0.2):
            load["other_current"] = f"{self.r.uniform(1, 10):.1f} A"
        return load, compressor * 1.3 + sum(fans), compressor * self.pick([1.5, 1.75, 2.25]) + sum(fans)

    def household_load(self, volts):
        appliance = self.pick(["range", "range", "range", "wall oven", "cooktop", "clothes dryer"])
        kilowatts = self.pick([round(self.r.uniform(1.2, 9), 2), round(self.r.uniform(8, 18), 1), self.r.randint(2, 27), 8.75, 12, 12.5, 3.5])
        if appliance != "range":
            kilowatts = min(kilowatts, 9.6)
        if appliance == "range" and kilowatts > 8.75:
            demand = 8 * (1 + 0.05 * max(kilowatts - 12, 0))
        else:
            demand = kilowatts * (0.8 if appliance == "range" else 1)
        load = {"appliance": appliance, "power": f"{kilowatts:g} kW", "power_factor": 1, "continuous": False}
        return load, demand * 1000 / volts, max(demand * 1000 / volts, 33 if kilowatts >= 8.75 and self.chance(0.7) else 0)

    def service(self):
        """What a dwelling has, and the service that it hangs on."""
        method = self.pick(["standard", "standard", "optional", "optional", "existing", "measured"])
        out = {"method": method, "rating": f"{self.pick([60, 100, 125, 150, 200, 200])} A"}
        if method == "measured":
            out |= {"measured_demand": f"{self.r.uniform(20, 150):.1f} A", "measured_days": self.pick([365, 365, 400, 30, 45, 29])}
            if self.chance(0.5):
                out["measured_interval"] = self.pick([15, 15, 60])
        else:
            out |= {"floor_area": self.pick([f"{self.r.randint(400, 5000)} ft²", f"{self.r.uniform(40, 400):.1f} m²"]),
                    "small_appliance_circuits": self.r.randint(2, 5), "laundry_circuits": self.r.randint(0, 2)}
        watts = {"appliance": (600, 6000), "range": (2000, 20000), "dryer": (3000, 8000), "charger": (3000, 12000), "motor": (500, 3000),
                 "cooling": (1500, 8000), "heat pump": (2000, 8000), "heat pump supplement": (3000, 12000), "electric heat": (500, 6000)}
        kinds = ["appliance"] * self.pick([0, 1, 2, 4, 5]) + [kind for kind in watts if kind != "appliance" and self.chance(0.35)]
        if "heat pump supplement" in kinds and "heat pump" not in kinds:
            kinds.remove("heat pump supplement")
        loads = []
        for n, kind in enumerate(kinds):
            load = {"name": f"load {n + 1}", "kind": kind, "power": f"{self.r.randint(*watts[kind])} VA" if self.chance(0.5) else f"{self.r.uniform(*watts[kind]) / 1000:.2f} kW"}
            if kind in ("dryer", "range", "electric heat", "appliance") and self.chance(0.25):
                load["units"] = self.r.randint(2, 6)
            if method == "measured":
                load["added"] = self.chance(0.7)
            loads.append(load)
        return out | ({"load": loads} if loads else {})
