"""A second reader of the rule files: Python's tomllib and a resolver of editions that shares nothing with the program."""
import pathlib
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
RULES = ROOT / "rules"
ENTRY = ("title", "clause", "source", "basis")


def load(path):
    with open(path, "rb") as file:
        return tomllib.load(file)


def cell(value):
    """A cell as the program keeps it: blank is nothing, flags are words, numbers are floating."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return float(value)
    return value or None


def row_cells(row):
    return [cell(value) for value in row]


class Table:
    def __init__(self, raw):
        self.entry = {key: raw[key] for key in ENTRY}
        self.seen = True
        self.key, self.columns, self.units = raw["key"], raw["columns"], raw["units"]
        self.rows = [row_cells(row) for row in raw["rows"]]
        self.basis = [[raw["basis"]] * len(self.columns) for _ in self.rows]
        for exception in raw.get("except", []):
            for number, row in enumerate(self.rows):
                if "row" in exception and row[: len(exception["row"])] != row_cells(exception["row"]):
                    continue
                for column in exception.get("columns", self.columns):
                    self.basis[number][self.columns.index(column)] = exception["basis"]

    def find(self, key):
        key = row_cells(key)
        for number, row in enumerate(self.rows):
            if row[: len(key)] == key:
                return number
        return None

    def column(self, name):
        at = self.columns.index(name)
        return [row[at] for row in self.rows]

    def by_key(self):
        return {tuple(row[: len(self.key)]): dict(zip(self.columns, row)) for row in self.rows}


class Rule:
    def __init__(self, raw):
        self.entry = {key: raw[key] for key in ENTRY}
        self.seen = True
        self.parameters = {key: parameter(value) for key, value in raw.items() if key not in ENTRY}


def parameter(value):
    return row_cells(value) if isinstance(value, list) else cell(value)


class Edition:
    def __init__(self, base):
        self.base = base
        self.tables, self.rules = {}, {}

    def add(self, raw):
        self.tables |= {name: Table(table) for name, table in raw.get("table", {}).items()}
        self.rules |= {name: Rule(rule) for name, rule in raw.get("rule", {}).items()}

    def of_kind(self, kind):
        return self.tables if kind == "tables" else self.rules

    def lay(self, raw):
        if raw["edition"].get("unseen"):
            for entry in (*self.tables.values(), *self.rules.values()):
                entry.seen = False
        for same in raw.get("same", []):
            for kind in ("tables", "rules"):
                for name in same.get(kind, []):
                    self.of_kind(kind)[name].seen = True
        for renumbered in raw.get("renumbered", []):
            for kind in ("tables", "rules"):
                for name, was, now in renumbered.get(kind, []):
                    entry = self.of_kind(kind)[name]
                    assert entry.entry["clause"] == was and was != now, (name, was, now)
                    entry.entry["clause"], entry.seen = now, True
        for change in raw.get("change", []):
            self.change(change)
        self.add(raw)

    def change(self, change):
        entry = self.tables[change["table"]] if "table" in change else self.rules[change["rule"]]
        entry.seen = True
        assert change.get("was") != change.get("now"), change
        if "row" in change:
            return self.change_row(entry, change)
        field = change["field"]
        if field in ENTRY:
            assert entry.entry[field] == change["was"], change
            entry.entry[field] = change["now"]
            return None
        assert entry.parameters.get(field) == (parameter(change["was"]) if "was" in change else None), change
        if "now" in change:
            entry.parameters[field] = parameter(change["now"])
        else:
            del entry.parameters[field]
        return None

    @staticmethod
    def change_row(table, change):
        at = table.find(change["row"])
        if "column" in change:
            column = table.columns.index(change["column"])
            assert table.rows[at][column] == cell(change["was"]), change
            table.rows[at][column], table.basis[at][column] = cell(change["now"]), change["basis"]
            return
        if "was" in change:
            assert table.rows[at] == row_cells(change["was"]), change
            del table.rows[at], table.basis[at]
        else:
            assert at is None, change
            at = table.find(change["after"]) + 1 if "after" in change else len(table.rows)
        if "now" in change:
            table.rows.insert(at, row_cells(change["now"]))
            table.basis.insert(at, [change["basis"]] * len(table.columns))


def fresh(base_id, deltas, base_files):
    """The edition called `base_id`, made anew, so that what is laid over it changes nobody else's."""
    if base_id in base_files:
        edition = Edition("")
        for raw in base_files[base_id]:
            edition.add(raw)
        return edition
    edition = fresh(deltas[base_id]["edition"]["base"], deltas, base_files)
    edition.base = deltas[base_id]["edition"]["base"]
    edition.lay(deltas[base_id])
    return edition


def editions():
    """All editions by id, resolved."""
    base_files, deltas = {}, {}
    for head in RULES.glob("*/edition.toml"):
        base_files[load(head)["edition"]["id"]] = [load(path) for path in sorted(head.parent.glob("*.toml"))]
    for path in [*RULES.glob("*.toml"), *(RULES / "local").glob("*.toml")]:
        raw = load(path)
        deltas[raw["edition"]["id"]] = raw
    return {name: fresh(name, deltas, base_files) for name in (*base_files, *deltas)}
