"""Quantities as a case writes them, and a case as TOML text."""
import json

INCH = 0.0254
FACTORS = {"in": INCH, "ft": 12 * INCH, "mm": 0.001, "cm": 0.01, "m": 1.0,  # lengths, in metres
           "A": 1.0, "kA": 1000.0, "V": 1.0, "W": 1.0, "kW": 1000.0, "VA": 1.0, "kVA": 1000.0,
           "in³": INCH**3, "cm³": 1e-6}
SIZES = ([f"{n} AWG" for n in (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1)] + [f"{n}/0 AWG" for n in (1, 2, 3, 4)] +
         [f"{n} kcmil" for n in (250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000)])


def split(text):
    number, unit = text.split(" ", 1)
    return float(number), unit


def si(text):
    """A quantity in metres, amperes, volts, watts or cubic metres."""
    number, unit = split(text)
    return number * FACTORS[unit]


def feet(text):
    return si(text) / FACTORS["ft"]


def inches(text):
    return si(text) / INCH


def size_order(label):
    return SIZES.index(label)


def toml_value(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml_value(item)}" for key, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml_value(item) for item in value) + "]"
    return f"{value:g}" if isinstance(value, float) else str(value)


def toml_text(case):
    """The case as TOML: scalars first, then [supply], then the lists of tables."""
    lines = [f"{key} = {toml_value(value)}" for key, value in case.items() if not isinstance(value, dict | list)]
    for key, value in case.items():
        tables = [(f"[{key}]", value)] if isinstance(value, dict) else [(f"[[{key}]]", item) for item in value] if isinstance(value, list) else []
        for head, table in tables:
            lines += ["", head] + [f"{name} = {toml_value(item)}" for name, item in table.items()]
    return "\n".join(lines) + "\n"
