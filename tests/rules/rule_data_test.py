"""What has to hold in the rule data whatever the books say: physics, geometry, order, and names that lead somewhere.

Sources of the methods: ASTM B258 (diameters of wire gauges), IEC 60028 (annealed copper, 1/58 ohm mm²/m at 20 °C, 0.00393
per kelvin) and 61 % of its conductivity with 0.00403 per kelvin for aluminum, NFPA 70 equation 310.15(B) for the ambient,
and plain circles.
"""
import decimal
import math
import re
import tomllib
import unittest
from decimal import ROUND_HALF_UP, Decimal

import second_reader
from second_reader import RULES

EDITIONS = second_reader.editions()
BASE = EDITIONS["us-2017"]
# With the digits as they are printed: "2.00" is not "2".
PRINTED = {}
for path in sorted((RULES / "us-2017").glob("*.toml")):
    PRINTED |= tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal).get("table", {})

LADDER = [f"{n} AWG" for n in range(40, 0, -1)] + [f"{n}/0 AWG" for n in range(1, 5)]
MM2_PER_CMIL = math.pi / 4 * 0.0254**2
COPPER_20 = 0.017241  # ohm mm²/m, 1/58 as the standards print it
TO_75_COPPER, TO_75_ALUMINUM = 1 + 0.00393 * 55, 1 + 0.00403 * 55
METRES_PER_KFT = 304.8


def circular_mils(size):
    """Exact area of a size label."""
    number, unit = size.rsplit(" ", 1)
    if unit == "kcmil":
        return float(number) * 1000
    gauge = 1 - int(number[0]) if "/" in number else int(number)
    return (5 * 92 ** ((36 - gauge) / 39)) ** 2


def rounded(value, places):
    exponent = Decimal(1).scaleb(-places)
    return float(Decimal(repr(value)).quantize(exponent, ROUND_HALF_UP))


def half_unit(printed):
    return 0.5 * 10.0 ** decimal.Decimal(printed).as_tuple().exponent


def ohm_per_kft(cmil, resistivity):
    return resistivity * METRES_PER_KFT / (cmil * MM2_PER_CMIL)


def printed_rows(table):
    raw = PRINTED[table]
    return [dict(zip(raw["columns"], row)) for row in raw["rows"]]


def trade(size):
    whole, _, fraction = size.partition("-") if "-" in size else ("0", "", size) if "/" in size else (size, "", "")
    top, _, bottom = fraction.partition("/")
    return int(whole) + (int(top) / int(bottom) if top else 0)


class Entries(unittest.TestCase):
    def every(self):
        for edition_id, edition in EDITIONS.items():
            for kind in ("tables", "rules"):
                for name, entry in edition.of_kind(kind).items():
                    yield f"{edition_id} {name}", entry

    def test_each_says_what_it_is_and_where_it_was_read(self):
        for where, entry in self.every():
            for key in second_reader.ENTRY:
                self.assertTrue(entry.entry[key].strip(), f"{where} has no {key}")
            self.assertIn(entry.entry["basis"], ("published", "derived", "memory", "common practice"), where)

    def test_sources_can_be_followed_by_a_stranger(self):
        for path in RULES.rglob("*.toml"):
            text = path.read_text(encoding="utf-8")
            self.assertNotRegex(text, r"(/work|/tmp|/home|shared/|reference/|\.csv)", path.name)
            for source in re.findall(r'^source\s*=\s*"(.*)"', text, re.MULTILINE):
                self.assertNotRegex(source, r"\b[SN]\d{1,3}\b(?!\w)", f"{path.name}: a key of somebody's list: {source}")

    def test_texts_are_no_longer_than_needed(self):
        for where, entry in self.every():
            longest = 200 if isinstance(entry, second_reader.Rule) else 420  # a table's title explains its columns
            self.assertLessEqual(len(entry.entry["title"]), longest, where)
            self.assertLessEqual(len(entry.entry["clause"]), 80, where)
            for text in getattr(entry, "parameters", {}).values():
                if isinstance(text, str):
                    self.assertLessEqual(len(text), 80, where)

    def test_published_data_names_a_source_beyond_memory(self):
        for where, entry in self.every():
            if entry.entry["basis"] == "published":
                self.assertNotRegex(entry.entry["source"], r"^memory\b", where)

    def test_later_editions_keep_what_they_inherit(self):
        for name, edition in EDITIONS.items():
            if edition.base:
                before = EDITIONS[edition.base]
                self.assertLessEqual(before.tables.keys(), edition.tables.keys(), name)
                self.assertLessEqual(before.rules.keys(), edition.rules.keys(), name)

    def test_article_310_was_renumbered(self):
        old = {"us-2017": "Table 310.15(B)(16)", "us-2020": "Table 310.16", "us-2023": "Table 310.16"}
        for edition, clause in old.items():
            self.assertEqual(EDITIONS[edition].tables["ampacity"].entry["clause"], clause)


class Order(unittest.TestCase):
    def test_keys_are_unique(self):
        for edition_id, edition in EDITIONS.items():
            for name, table in edition.tables.items():
                keys = [tuple(row[: len(table.key)]) for row in table.rows]
                if table.key:
                    self.assertEqual(len(keys), len(set(keys)), f"{edition_id} {name}")

    def test_bands_ascend(self):
        for edition_id, edition in EDITIONS.items():
            for name, table in edition.tables.items():
                for column in table.columns:
                    if table.key or not column.startswith("through"):
                        continue
                    limits = [v for v in table.column(column) if v is not None]
                    self.assertEqual(limits, sorted(set(limits)), f"{edition_id} {name}.{column}")

    def test_conductor_sizes_ascend_within_what_is_before_them(self):
        seen = 0
        for edition_id, edition in EDITIONS.items():
            for name, table in edition.tables.items():
                if "size" not in table.key or not str(table.rows[0][table.key.index("size")]).endswith(("AWG", "kcmil")):
                    continue
                at = table.key.index("size")
                last = {}
                for row in table.rows:
                    group, area = tuple(row[:at]), circular_mils(row[at])
                    # Two strandings of one size stand side by side.
                    self.assertLessEqual(last.get(group, 0), area, f"{edition_id} {name}: {row[: at + 1]}")
                    last[group] = area
                    seen += 1
        self.assertGreater(seen, 1000)

    def test_trade_sizes_ascend(self):
        for name in ("raceway-dimensions", "egc-raceways", "support", "whip"):
            last = {}
            for kind, size, *_ in BASE.tables[name].rows:
                self.assertLess(last.get(kind, 0), trade(size), f"{name}: {kind} {size}")
                last[kind] = trade(size)

    def rising(self, name, columns, by="down", group=None):
        table = BASE.tables[name]
        for column in columns:
            last = {}
            for row in table.rows:
                key = row[table.columns.index(group)] if group else None
                value = row[table.columns.index(column)]
                if value is None:
                    continue
                value = circular_mils(value) if isinstance(value, str) else value
                if key in last:
                    compare = {"down": self.assertLess, "even": self.assertLessEqual, "falling": self.assertGreater, "fall": self.assertGreaterEqual}
                    compare[by](last[key], value, f"{name}.{column}: {row}")
                last[key] = value

    def test_what_physics_orders_is_in_order(self):
        columns = ["cu-60", "cu-75", "cu-90", "al-60", "al-75", "al-90"]
        self.rising("ampacity", columns)
        self.rising("cord-ampacity", ["three", "two"], "even")
        self.rising("fixture-wire-ampacity", ["ampacity"])
        self.rising("small-conductors", ["copper", "aluminum"])
        self.rising("egc", ["copper", "aluminum"], "even")
        self.rising("electrode-conductor", ["copper", "aluminum"], "even")
        self.rising("bonding-jumper", ["copper", "aluminum"], "even")
        self.rising("conductor-dimensions", ["diameter", "area"], group="group")
        self.rising("compact-dimensions", ["diameter", "area"], group="group")
        self.rising("compact-conductors", ["diameter"])
        self.rising("raceway-dimensions", ["inside", "area", "fill-60", "fill-53", "fill-31", "fill-40"], group="type")
        self.rising("raceway-dimensions", ["outside"], group="type")
        self.rising("conductor-properties", ["cu-uncoated", "cu-coated", "al"], "falling", group="stranding")
        self.rising("conductor-properties", ["diameter", "area"], "even", group="stranding")
        self.rising("ac-impedance", [c for c in BASE.tables["ac-impedance"].columns if c[0] in "caz"], "fall")
        self.rising("small-gauge", ["solid-20", "stranded-20"], "falling")
        self.rising("small-gauge", ["circular-mils", "diameter"])
        self.rising("metric-conductors", ["solid", "flexible"], "falling")
        self.rising("ambient-correction", ["f-60", "f-75", "f-90"], "falling")
        self.rising("count-adjustment", ["percent"], "falling")
        self.rising("standard-ratings", ["rating"])
        self.rising("box-volume", ["volume"])
        self.rising("bending-space", ["one", "two", "three", "four", "five"], "even")
        self.rising("pvc-expansion", ["change"])
        for name in ("motor-single-phase", "motor-three-phase", "motor-dc", "locked-rotor-single-phase", "locked-rotor-three-phase"):
            self.rising(name, [c for c in BASE.tables[name].columns if re.match(r"v-|synchronous|horsepower", c)])

    def test_hotter_insulation_carries_more_and_copper_more_than_aluminum(self):
        for key, row in BASE.tables["ampacity"].by_key().items():
            for metal in ("cu", "al"):
                values = [row[f"{metal}-{t}"] for t in (60, 75, 90) if row[f"{metal}-{t}"] is not None]
                self.assertEqual(values, sorted(set(values)), key)
            for t in (60, 75, 90):
                if row[f"al-{t}"] is not None:
                    self.assertLess(row[f"al-{t}"], row[f"cu-{t}"], key)
        for name in ("egc", "electrode-conductor", "bonding-jumper"):
            table = BASE.tables[name]
            for copper, aluminum in zip(table.column("copper"), table.column("aluminum")):
                if copper is None or aluminum is None:
                    continue
                self.assertLess(circular_mils(copper), circular_mils(aluminum), name)

    def test_motors_draw_more_at_less_voltage(self):
        for name in ("motor-single-phase", "motor-three-phase", "motor-dc", "locked-rotor-single-phase", "locked-rotor-three-phase"):
            for key, row in BASE.tables[name].by_key().items():
                at = sorted((int(c[2:]), v) for c, v in row.items() if c.startswith("v-") and v is not None)
                values = [v for _, v in at]
                self.assertEqual(values, sorted(values, reverse=True), f"{name} {key}")


class Derived(unittest.TestCase):
    def test_ambient_factors_follow_the_equation_at_the_top_of_their_band(self):
        for row in BASE.tables["ambient-correction"].rows:
            c, f, *factors = row
            self.assertAlmostEqual(f, c * 1.8 + 32)
            for limit, factor in zip((60, 75, 90), factors):
                if c >= limit:
                    self.assertIsNone(factor, row)
                else:
                    self.assertEqual(factor, rounded(math.sqrt((limit - c) / (limit - 30)), 2), row)

    def test_gauges_follow_astm_b258_exactly(self):
        for size, cmil, solid, stranded, diameter in BASE.tables["small-gauge"].rows:
            exact = circular_mils(size)
            resistance = ohm_per_kft(exact, COPPER_20)
            self.assertEqual(cmil, rounded(exact, 1), size)
            self.assertEqual(diameter, rounded(math.sqrt(exact) / 1000, 5), size)
            self.assertAlmostEqual(solid, resistance, delta=0.5001e-3, msg=size)
            self.assertAlmostEqual(stranded, resistance * 1.02, delta=0.5001e-3, msg=size)

    def test_table_8_follows_geometry_and_resistivity(self):
        for row in printed_rows("conductor-properties"):
            exact = circular_mils(row["size"])
            lay = 1.02 if row["stranding"] == "stranded" else 1
            where = f"{row['size']} {row['stranding']}"
            # Printed from the diameter rounded to a tenth of a mil, to four digits.
            cmil = float(row["circular-mils"])
            of_diameter = 2 * math.sqrt(exact) * 0.05 + 0.05**2
            of_digits = 0.5 * 10 ** (math.floor(math.log10(cmil)) - 3)
            self.assertLessEqual(abs(cmil - exact), of_diameter + of_digits, where)
            copper, aluminum = COPPER_20 * TO_75_COPPER * lay, COPPER_20 / 0.61 * TO_75_ALUMINUM * lay
            for column, resistivity in (("cu-uncoated", copper), ("al", aluminum)):
                value = ohm_per_kft(cmil, resistivity)
                self.assertLessEqual(abs(float(row[column]) - value), value * 0.005 + half_unit(row[column]), f"{where} {column}")
            self.assertGreater(float(row["cu-coated"]), float(row["cu-uncoated"]) * 1.02, where)
            self.assertLess(float(row["cu-coated"]), float(row["cu-uncoated"]) * 1.07, where)

    def circles(self, name, diameter, area, allowed, known=()):
        """Areas follow from diameters within `allowed` of the row; `known` print otherwise, each as said."""
        other = set()
        for row in printed_rows(name):
            if row[diameter] == "" or row[area] == "":
                continue
            difference = float(row[area]) - math.pi / 4 * float(row[diameter]) ** 2
            if not -allowed(row)[0] <= difference <= allowed(row)[1]:
                other.add((*row.values(),)[:2])
        self.assertEqual(other, set(known), name)

    def test_areas_are_circles(self):
        def to_the_digit(column):
            return lambda row: (half_unit(row[column]) * 1.0001,) * 2

        # One cell in each of the two tables is off by a unit of its last place, as the copies print it.
        self.circles("conductor-dimensions", "diameter", "area", to_the_digit("area"), {("XHHW", "1500 kcmil")})
        self.circles("raceway-dimensions", "inside", "area", to_the_digit("area"), {("IMC", "2")})
        # The table of compact conductors cuts off instead of rounding.
        self.circles("compact-dimensions", "diameter", "area", lambda row: (2 * half_unit(row["area"]), half_unit(row["area"]) * 1.0001))
        # In Table 8 the printed diameter itself is rounded to a mil; one small area is printed a unit low.
        spread = lambda row: (math.pi / 2 * float(row["diameter"]) * half_unit(row["diameter"]) + half_unit(row["area"]) * 1.0001,) * 2
        self.circles("conductor-properties", "diameter", "area", spread, {("12 AWG", "stranded")})

    def test_fill_columns_are_shares_of_the_area(self):
        other = set()
        for row in printed_rows("raceway-dimensions"):
            area = math.pi / 4 * float(row["inside"]) ** 2
            for percent in (60, 53, 31, 40):
                printed = row[f"fill-{percent}"]
                if abs(float(printed) - area * percent / 100) > half_unit(printed) * 1.0001:
                    other.add((row["type"], row["size"], percent))
                    # Worked out from the rounded area instead.
                    self.assertLessEqual(abs(float(printed) - float(row["area"]) * percent / 100), half_unit(printed) * 1.0001, row)
        self.assertEqual(other, {("RMC", "3", 53)})

    def test_effective_impedance_is_that_at_085(self):
        sine = math.sqrt(1 - 0.85**2)
        for row in printed_rows("ac-impedance"):
            for metal in ("cu", "al"):
                for conduit in ("pvc", "aluminum", "steel"):
                    r, x, z = row[f"{metal}-{conduit}"], row[f"xl-{conduit}"], row[f"z-{metal}-{conduit}"]
                    self.assertEqual(r == "", z == "", row)
                    if r == "":
                        continue
                    allowed = half_unit(z) + 0.85 * half_unit(r) + sine * half_unit(x)
                    self.assertLessEqual(abs(float(z) - 0.85 * float(r) - sine * float(x)), allowed, f"{row['size']} {metal} in {conduit}")

    def test_alternating_current_meets_no_less_resistance(self):
        direct = BASE.tables["conductor-properties"].by_key()
        for row in printed_rows("ac-impedance"):
            dc = direct[(row["size"], "stranded")]
            for column, of in (("cu-pvc", "cu-uncoated"), ("al-pvc", "al")):
                if row[column] != "":
                    self.assertGreaterEqual(float(row[column]) + half_unit(row[column]), dc[of], f"{row['size']} {column}")

    def test_temperature_coefficients_agree(self):
        rule = BASE.rules["resistance-temperature"].parameters
        self.assertAlmostEqual(rule["alpha-cu"], 0.00393 / TO_75_COPPER, places=5)
        self.assertAlmostEqual(rule["alpha-al"], 0.00403 / TO_75_ALUMINUM, places=5)

    def test_infinite_bus_fault_currents_follow(self):
        table = BASE.tables["transformer-fault"]
        for row in table.rows:
            line = dict(zip(table.columns, row))
            volts = max(float(v) for v in re.findall(r"\d+", line["secondary"]))
            full = line["kva"] * 1000 / (volts * {"single": 1, "three": math.sqrt(3)}[line["phases"]])
            self.assertAlmostEqual(line["full-load"], full, delta=0.051, msg=str(row))
            self.assertAlmostEqual(line["line-line"] / (full * 100 / line["impedance"]), 1, delta=0.001, msg=str(row))


class Names(unittest.TestCase):
    """Every name in the data leads to the row that a check will look for."""

    def column(self, table, column):
        return {v for v in BASE.tables[table].column(column) if v is not None}

    def test_groups_of_dimensions(self):
        groups, compact = self.column("conductor-dimensions", "group"), self.column("compact-dimensions", "group")
        asked = self.column("insulation", "dimensions") | self.column("fixture-wire", "dimensions")
        self.assertEqual(asked, groups)
        self.assertEqual(self.column("insulation", "compact"), compact)

    def test_every_size_that_a_type_is_made_in_has_dimensions_and_an_ampacity(self):
        dimensions = BASE.tables["conductor-dimensions"].by_key()
        sizes = [key[0] for key in BASE.tables["ampacity"].by_key()]
        asked = 0
        for (kind, *_), row in BASE.tables["insulation"].by_key().items():
            for size in sizes:
                if row["dimensions"] and circular_mils(row["smallest"]) <= circular_mils(size) <= circular_mils(row["largest"]):
                    self.assertIn((row["dimensions"], size), dimensions, kind)
                    asked += 1
        self.assertGreater(asked, 500)

    def test_sizes_stand_in_every_table_that_is_asked_for_them(self):
        ampacity = {key[0] for key in BASE.tables["ampacity"].by_key()}
        stranded = {size for size, stranding in BASE.tables["conductor-properties"].by_key() if stranding == "stranded"}
        self.assertEqual(ampacity, stranded)
        for table, columns in {"egc": ("copper", "aluminum"), "electrode-conductor": ("copper", "aluminum"),
                               "bonding-jumper": ("copper", "aluminum"), "ac-impedance": ("size",), "small-conductors": ("size",),
                               "bending-space": ("size",), "fault-constants": ("size",), "box-volume": ("size",)}.items():
            for column in columns:
                self.assertLessEqual(self.column(table, column), stranded | ampacity, f"{table}.{column}")
        solid = {size for size, stranding in BASE.tables["conductor-properties"].by_key() if stranding == "solid"}
        self.assertEqual(solid, {"18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG"})

    def test_raceways(self):
        types = self.column("raceway-types", "type")
        for table in ("raceway-dimensions", "raceway-sections"):
            self.assertEqual(self.column(table, "type"), types, table)
        for table in ("egc-raceways", "support", "whip"):
            self.assertLessEqual(self.column(table, "type"), types, table)
        for kind, row in BASE.tables["raceway-types"].by_key().items():
            have = {size for k, size, *_ in BASE.tables["raceway-dimensions"].rows if k == kind[0]}
            for size in have:
                self.assertTrue(trade(row["smallest"]) <= trade(size) <= trade(row["largest"]), f"{kind} {size}")
            self.assertIn(row["smallest"], have, kind)
            self.assertIn(row["impedance"], ("steel", "aluminum", "pvc"), kind)

    def test_cables_and_appliances(self):
        cables, insulation = self.column("cable-types", "type"), self.column("insulation", "type")
        self.assertLessEqual(self.column("cable-types", "insulation"), insulation)
        self.assertLessEqual(self.column("cable-sections", "type"), cables)
        self.assertLessEqual(self.column("cable-support", "type"), cables)
        self.assertLessEqual(self.column("burial-column", "type"), cables | self.column("raceway-types", "type"))
        appliances = self.column("appliances", "appliance")
        for table in ("cord-lengths", "raised-appliances"):
            self.assertLessEqual(self.column(table, "appliance"), appliances, table)
        # Two appliances have a clause of their own for ground-fault protection; the others stand in that one's list.
        of_their_own = {"electric floor heating", "heating cable"}
        self.assertEqual(self.column("appliances", "gfci") - of_their_own, self.column("gfci-appliances", "appliance"))
        for table, column in (("appliances", "individual-rule"), ("raised-appliances", "rule")):
            for edition in EDITIONS.values():
                named = {v for v in edition.tables[table].column(column) if v is not None}
                self.assertLessEqual(named, edition.rules.keys() | edition.tables.keys(), f"{table}.{column}")

    def test_columns_that_insulation_names_exist(self):
        for column in ("dry", "damp", "wet"):
            self.assertLessEqual(self.column("insulation", column) - {60.0, 75.0, 90.0}, {150.0, 200.0, 250.0})
        self.assertLessEqual(self.column("cable-types", "column"), {60.0, 75.0, 90.0})


if __name__ == "__main__":
    unittest.main()
