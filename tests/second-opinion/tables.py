"""The published tables as they were copied out a second time, and their comparison with what the program holds.

Every file in tables/ begins with where its figures were read. Its name and columns are those of the program's table, so
that cells can be told apart by name; its figures come from the source alone. A column `edition` limits rows to one edition.
"""
import csv
import functools
import pathlib

FOLDER = pathlib.Path(__file__).resolve().parent / "tables"
LISTS = FOLDER.parent / "lists"
EDITIONS = ("us-2017", "us-2020", "us-2023")
UNSEEN = ("us-2026",)  # of which no more is copied than is said of it by name

# Leading columns that name a row; 1 unless it is said here, 0 where rows are bands in order.
KEYS = {"raceway-dimensions": 2, "box-sizes": 2, "compact-dimensions": 2, "conductor-properties": 2, "support": 2, "whip": 2,
        "egc-raceways": 2, "transformer-fault": 4, "poe-ampacity": 2, "cable-substitution": 2, "receptacles": 2,
        "gfci-places": 2, "gfci-limits": 2, "afci-places": 2, "overhead-clearance": 1, "fixture-wire-protection": 2,
        "ambient-correction": 0, "lighting-demand": 0, "count-adjustment": 0, "fill-percent": 0, "egc": 0, "electrode-conductor": 0, "bonding-jumper": 0,
        "dryers": 0, "ranges": 0, "working-space": 0, "pvc-expansion": 0, "class2-ac": 0, "class2-dc": 0, "class3-ac": 0,
        "class3-dc": 0, "bus-lengths": 2, "bus-sizes": 2}
# A source may speak of sizes that are not made in a type: rows of the copy that the program need not have.
OF_MADE_SIZES = {"support", "whip", "egc-raceways"}
# Types that the copy does not speak of; their rows stay unprotected here.
MAY_EXCEED = {"insulation", "support", "cable-support", "raceway-types", "cable-types", "cable-types-control"}
OPEN_END = 1e9
NOT_SAID = "-"


def value(text):
    """A cell: a number where it reads as one, None where it is blank."""
    if text == "":
        return None
    try:
        return float(text)
    except ValueError:
        return text


@functools.cache
def rows_of(name, edition):
    """The rows of a copied table for one edition, each a dict by column; numbers are numbers, blanks are None."""
    with open(FOLDER / f"{name}.csv", newline="", encoding="utf-8") as file:
        lines = [line for line in file if not line.startswith("#")]
    rows = []
    for row in csv.DictReader(lines):
        if row.pop("edition", edition) in ("", edition):
            rows.append({column: (text or None) if column == "clause" else value(text) for column, text in row.items()})
    return rows


def basis(name):
    """Where the copy of a table was read, as its file begins."""
    file = {"conductor-dimensions": "dimensions", "raceway-sections": "sections", "cable-sections": "sections"}.get(name, name)
    path = next(path for folder in (FOLDER, LISTS) if (path := folder / f"{file}.csv").exists())
    return " ".join(line[1:].strip() for line in path.read_text(encoding="utf-8").splitlines() if line.startswith("#"))


@functools.cache
def names():
    return sorted(path.stem for path in FOLDER.glob("*.csv"))


def key_text(cell):
    """Keys as text, so that a size in text and a number in a key compare as they are printed."""
    return f"{cell:g}" if isinstance(cell, float) else cell


def same(copied, held, column):
    if copied is None and column.startswith(("through", "to")):
        return held is None or held == OPEN_END
    if isinstance(held, str) and isinstance(copied, float):
        return held == key_text(copied)
    return held == copied


def compare_table(name, edition, held, made=frozenset()):
    """Holds one table of the program (`columns` and `rows`) against the copy.

    `made` are the trade sizes of each type of raceway. Returns the cells that were compared, as (row, column) indices of the program's table, and what differs, as text.
    """
    copied = rows_of(name, edition)
    columns = held["columns"]
    cells = [[cell[0] for cell in row] for row in held["rows"]]
    keys = KEYS.get(name, 1)
    compared, wrong = set(), []
    if not copied:
        return compared, [f"{name}: the copy has no rows for {edition}"] if cells and name not in MAY_EXCEED else []
    mine = list(copied[0])
    for column in mine:
        if column not in columns:
            return compared, [f"{name} has no column {column}"]
    at = [columns.index(column) for column in mine]
    # A row that says nothing beside its key is of another edition.
    empty = {number for number, row in enumerate(cells) if keys and not any(cell for cell in row[keys:])}
    if keys == 0:
        if len(cells) != len(copied):
            wrong.append(f"{name}: {len(cells)} rows, the copy has {len(copied)}")
        pairs = [(number, copied[number]) for number in range(min(len(cells), len(copied)))]
    else:
        index = {tuple(key_text(row[at[k]]) for k in range(keys)): number for number, row in enumerate(cells)}
        if len(index) != len(cells):
            wrong.append(f"{name}: a key stands twice")
        pairs, seen = [], set()
        for row in copied:
            key = tuple(key_text(row[mine[k]]) for k in range(keys))
            if key in index:
                seen.add(key)
                pairs.append((index[key], row))
            elif name not in OF_MADE_SIZES or key in made:
                wrong.append(f"{name}: no row {key}")
        known = {key[0] for key in seen} if name in MAY_EXCEED else {key[0] for key in index}
        for key in set(index) - seen:
            if key[0] in known:
                if index[key] in empty:
                    compared |= {(index[key], place) for place in range(keys, len(columns))}
                else:
                    wrong.append(f"{name}: row {key} is not in the copy")
    for number, row in pairs:
        for column, place in zip(mine, at):
            if row[column] == NOT_SAID:
                continue
            compared.add((number, place))
            if not same(row[column], cells[number][place], column):
                wrong.append(f"{name} row {[c for c in cells[number][:max(keys, 1)]]} {column}: {cells[number][place]}, printed {row[column]}")
    return compared, wrong


# Types in the head of another type in Chapter 9 Table 5, from memory; one that has a head of its own is under it.
SHARED_HEADS = {"TFF": "TF", "FEPB": "FEP"}


@functools.cache
def copied_dimensions():
    """The copy by kind, covering and size."""
    copied = {}
    for row in rows_of("dimensions", "any"):
        covering = {"without": "without", "no": "without"}.get(row["covering"], "with")
        copied[(row["type"].rstrip("*"), "without" if row["type"].endswith("*") else covering, row["size"])] = row
    return copied


@functools.cache
def dimensions_of(known, bare):
    """What a wire that is all of these kinds has, as ((covering, size), row of the copy); `bare` is one without covering."""
    copied, want = copied_dimensions(), {}
    for (kind, covering, size), row in copied.items():
        if kind in known:
            want[(covering if any((k, "without", size) in copied for k in known) else "with", size)] = row
    return [(item, row) for item, row in want.items() if not (bare and item[0] == "with")]


def by_type(dump):
    """Dimensions by wire type: the copy has a row for each type, the program groups of types that are alike."""
    tables = dump["tables"]
    kinds = {kind for kind, _, _ in copied_dimensions()}
    held = tables["conductor-dimensions"]
    index = {(row[0][0], row[1][0]): number for number, row in enumerate(held["rows"])}
    groups = {label for label, _ in index}

    def label_of(group, covering):
        return group if covering == "with" or group.endswith("*") else f"{group}*"

    def fits(group, named, wanted):
        if named.endswith("*") != group.endswith("*") and f"{group}*" in groups:
            return False
        at = [index.get((label_of(group, covering), size)) for (covering, size), _ in wanted]
        return None not in at and all(held["rows"][r][held["columns"].index(column)][0] == copy[column]
                                      for r, (_, copy) in zip(at, wanted) for column in ("diameter", "area"))

    compared, wrong = set(), []
    for table in ("insulation", "fixture-wire"):
        columns = tables[table]["columns"]
        place = columns.index("dimensions")
        for number, row in enumerate(tables[table]["rows"]):
            named, group = row[0][0], row[place][0]
            plain = named.rstrip("*").split("/")
            known = [part for part in plain if part in kinds]
            if not known:
                if group is not None:
                    wrong.append(f"{table} {named} has dimensions, of which the copy knows nothing")
                else:
                    compared.add((table, number, place))
                continue
            if group is None:
                wrong.append(f"{table} {named} has no dimensions")
                continue
            wanted_of_all = dimensions_of(tuple(known), named.endswith("*"))
            head = SHARED_HEADS.get(named, named if named in groups else group)
            if group != head:
                wrong.append(f"{table} {named} is not under {head}, but under {group}")
            # Where the figures of another group are the same, a slip in the name of the group is not seen but by its head.
            if named in SHARED_HEADS or named in groups or not any(fits(other, named, wanted_of_all) for other in groups - {group}):
                compared.add((table, number, place))
            if named.endswith("*") != group.endswith("*") and f"{group}*" in groups:
                wrong.append(f"{table} {named} has the dimensions of {group}")
            for (covering, size), copy in wanted_of_all:
                label = label_of(group, covering)
                if (label, size) not in index:
                    wrong.append(f"conductor-dimensions has no {label} {size} for {named}")
                    continue
                r = index[(label, size)]
                for column in ("diameter", "area"):
                    c = held["columns"].index(column)
                    compared.add(("conductor-dimensions", r, c))
                    if held["rows"][r][c][0] != copy[column]:
                        wrong.append(f"conductor-dimensions {label} {size} {column}: {held['rows'][r][c][0]}, printed {copy[column]} for {named}")
                compared |= {("conductor-dimensions", r, 0), ("conductor-dimensions", r, 1)}
    return compared, wrong


def dual_marks(edition, held):
    """A wire marked as two types has the better column of both in each place; an asterisk is the type without covering."""
    copied = {row["type"]: row for row in rows_of("insulation", edition)}
    columns = held["columns"]
    compared, wrong = set(), []
    for number, row in enumerate(held["rows"]):
        named = row[0][0]
        parts = named.rstrip("*").split("/")
        if named in copied:
            continue
        if not all(part in copied for part in parts):
            wrong.append(f"insulation {named}: the copy knows nothing of it")
            continue
        compared.add((number, 0))
        wanted = {column: max((copied[part][column] or 0 for part in parts)) or None for column in ("dry", "damp", "wet")}
        for column in ("smallest", "largest", "copper", "aluminum"):
            alike = {copied[part][column] for part in parts}
            if len(alike) == 1:
                wanted[column] = alike.pop()
        for column, want in wanted.items():
            place = columns.index(column)
            compared.add((number, place))
            if row[place][0] != want:
                wrong.append(f"insulation {named} {column}: {row[place][0]}, its types give {want}")
    return compared, wrong


# The heads of Chapter 9 Table 5A; the types made for wet places at 90 °C have the walls of those without the mark.
COMPACT = {"THW": "THW", "THW-2": "THW", "THHW": "THW", "THHN": "THHN", "THWN": "THHN", "THWN-2": "THHN", "XHHW": "XHHW", "XHHW-2": "XHHW"}


def compacts(held):
    """Which group of Table 5A a type has when it is compact, if any."""
    place = held["columns"].index("compact")
    compared, wrong = set(), []
    for number, row in enumerate(held["rows"]):
        groups = {COMPACT.get(part) for part in row[0][0].rstrip("*").split("/")}
        compared.add((number, place))
        if row[place][0] not in groups:
            wrong.append(f"insulation {row[0][0]} compact: {row[place][0]}, Table 5A has {groups}")
    return compared, wrong


def cords(held):
    """Flexible cords by Article 400: ampacity of 60 °C; only types marked W outdoors, in the wet and in the sun; neither concealed
    nor buried nor where they are damaged (EC&M magazine, Q&A of 2020; 400.10 and 400.12); a J is for the smaller sizes; damp and
    corrosive places, spaces for air and the sizes of Table 400.4 from memory."""
    columns = held["columns"]
    compared, wrong = set(), []
    for number, row in enumerate(held["rows"]):
        named = row[0][0]
        if not named.startswith("S") or named in ("SE", "SER"):
            continue
        marked = "yes" if "W" in named else "no"
        wanted = {"column": 60, "derate-from": 60, "insulation": None, "dry": "yes", "damp": "yes", "wet": marked, "outdoors": marked, "sunlight": marked, "buried": "no",
                  "concealed": "no", "exposed": "yes", "damage": "no", "corrosive": "no", "plenum": "no", "duct": "no", "smallest-cu": "18 AWG",
                  "largest-cu": "10 AWG" if "J" in named else "500 kcmil", "smallest-al": None, "largest-al": None, "ground": "wire", "cord": "yes", "clause": "400.5(A)"}
        for column, want in wanted.items():
            place = columns.index(column)
            compared |= {(number, 0), (number, place)}
            if row[place][0] != want:
                wrong.append(f"cable-types {named} {column}: {row[place][0]}, a cord has {want}")
    return compared, wrong


@functools.cache
def lines_of(name, edition="any"):
    """The rows of a file of lists/ that hold in an edition, each a dict by column."""
    with open(LISTS / f"{name}.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    return [row for row in rows if row.get("edition", "") in ("", edition)]


def sections(edition, dump):
    """Which section speaks of what, written down article by article; the program has it by wiring method."""
    cords_held = [row[0][0] for row in dump["tables"]["cable-types"]["rows"] if row[dump["tables"]["cable-types"]["columns"].index("cord")][0] == "yes"]
    wanted = {}
    compared, wrong = set(), []
    for line in lines_of("sections", edition):
        for method in cords_held if line["types"] == "cord" else line["types"].split():
            for topic in line["topics"].split():
                if (method, topic) in wanted:
                    wrong.append(f"sections: {method} {topic} stands twice")
                wanted[method, topic] = line["section"]
    for table in ("raceway-sections", "cable-sections"):
        held = dump["tables"][table]
        for number, row in enumerate(held["rows"]):
            for place, topic in enumerate(held["columns"][1:], 1):
                want = wanted.pop((row[0][0], topic), None)
                compared.add((table, number, place))
                if row[place][0] != want:
                    wrong.append(f"{table} {row[0][0]} {topic}: {row[place][0]}, the copy has {want}")
            compared.add((table, number, 0))
    return compared, wrong + [f"sections: the program has no {method} {topic}" for method, topic in wanted]


def sorted_out(name, dump):
    """A table by appliance, sorted out once more: by column and value, the appliances that have it; a star is all others.

    One column names every appliance, or the table has those of the table `appliances`."""
    held = dump["tables"][name]
    columns = held["columns"]
    lines = lines_of(name)
    usual = {line["column"]: line["value"] or None for line in lines if line["appliances"] == "*"}
    named = {(line["column"], appliance): line["value"] for line in lines if line["appliances"] != "*" for appliance in line["appliances"].split(";")}
    whole = {line["column"] for line in lines} - usual.keys()
    compared, wrong = set(), []
    for number, row in enumerate(held["rows"]):
        compared.add((name, number, 0))
        if not whole and row[0][0] != dump["tables"]["appliances"]["rows"][number][0][0]:
            wrong.append(f"{name}: {row[0][0]} is not in its place among the appliances")
        for column in usual.keys() | whole:
            place = columns.index(column)
            if column in whole and (column, row[0][0]) not in named:
                wrong.append(f"{name}: the copy knows nothing of {row[0][0]} ({column})")
                continue
            want = named.pop((column, row[0][0]), usual.get(column))
            if want == NOT_SAID:
                continue
            compared.add((name, number, place))
            if row[place][0] != want:
                wrong.append(f"{name} {row[0][0]} {column}: {row[place][0]}, the copy has {want}")
    return compared, wrong + [f"{name}: the program has no {appliance} ({column})" for column, appliance in named]


def in_table(name, compare_rows, edition, dump):
    """A comparison of one table's rows as (table, row, column) cells and differences."""
    cells, differences = compare_rows(edition, dump)
    return {(name, row, column) for row, column in cells}, differences


def of_copy(name, edition, dump):
    made = frozenset()
    if name in OF_MADE_SIZES:
        sizes = dump["tables"]["raceway-dimensions"]
        made = {(row[0][0], row[1][0]) for row in sizes["rows"] if row[sizes["columns"].index("inside")][0] is not None}
    return compare_table(name, edition, dump["tables"][name], made)


def comparisons():
    """Each comparison: the tables that it looks at, and what it says of an edition and its tables."""
    for name in names():
        if name != "dimensions":
            yield {name}, functools.partial(in_table, name, functools.partial(of_copy, name))
    yield {"insulation", "fixture-wire", "conductor-dimensions"}, lambda edition, dump: by_type(dump)
    yield {"raceway-sections", "cable-sections", "cable-types"}, sections
    yield {"appliances"}, lambda edition, dump: sorted_out("appliances", dump)
    yield {"starters", "appliances"}, lambda edition, dump: sorted_out("starters", dump)
    yield {"insulation"}, functools.partial(in_table, "insulation", lambda edition, dump: dual_marks(edition, dump["tables"]["insulation"]))
    yield {"insulation"}, functools.partial(in_table, "insulation", lambda edition, dump: compacts(dump["tables"]["insulation"]))
    yield {"cable-types"}, functools.partial(in_table, "cable-types", lambda edition, dump: cords(dump["tables"]["cable-types"]))


def compare(edition, dump, table=None):
    """All tables of one edition of the program, or what looks at one of them. Returns compared cells as (table, row, column) and differences."""
    compared, wrong = set(), []
    for looks_at, comparison in comparisons():
        if table is None or table in looks_at:
            cells, differences = comparison(edition, dump)
            compared |= cells
            wrong += differences
    return compared, [f"{edition}: {text}" for text in wrong]


def parameters(edition):
    """The copied parameters of rules that hold in one edition: (rule, parameter) to a list of values."""
    with open(FOLDER.parent / "parameters.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    rows = [row for row in rows if row["edition"] in ("", edition)] + lines_of("parameters", edition)
    if edition in UNSEEN:
        rows = [row for row in rows if row["edition"] == edition]
    return {(row["rule"], row["parameter"]): [value(item) for item in row["value"].split(";")] for row in rows}


def compare_parameters(edition, dump):
    """The same for parameters of rules: (rule, parameter) pairs that were compared, and what differs."""
    compared, wrong = set(), []
    for (rule, parameter), copied in parameters(edition).items():
        held = dump["rules"].get(rule, {}).get("parameters", {}).get(parameter)
        compared.add((rule, parameter))
        held = held if isinstance(held, list) else [held]
        if [key_text(item) for item in held] != [key_text(item) for item in copied]:
            wrong.append(f"{edition}: rule {rule} {parameter}: {held}, printed {copied}")
    return compared, wrong
