"""Changes every cell of the rule data by one step, and reports which changes no test sees.

usage: run.py BUILD [NAME...]      (BUILD: a build folder made with -DWITH_MUTATION=ON)
Without names everything is changed. With names ("cautions", "rule torque") only those tables and rules are, and the others
keep what came of them in the run before, as long as the value is still the same; what was held against a second copy is
looked up anew each time. After a case or page was taken away, run it whole. Results stay in BUILD/mutation.tsv; the page
unprotected.md beside this file is written anew.
"""
import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(ROOT / "tests" / "second-opinion"))

import tables  # noqa: E402
from opinion import Opinion  # noqa: E402
from quantities import toml_text  # noqa: E402
from random_cases import Maker  # noqa: E402

RANDOM_CASES = 500  # of the ten thousand: what these see, those see as well
LONGEST = 60  # of a value in the page
WORKERS = "2"


def random_lines():
    for number in range(RANDOM_CASES):
        case = Maker(f"GNU:{number}").case()
        asks = sorted({check for (check, _), answers in Opinion(case).answers().items() if answers is not None})
        yield json.dumps({"case": toml_text(case), "asks": asks}) + "\n"


def compared_lines(dump):
    editions = json.loads(subprocess.run([dump, "rules"], capture_output=True, text=True, check=True).stdout)
    for edition in tables.EDITIONS:
        for name, row, column in sorted(tables.compare(edition, editions[edition])[0]):
            yield f"{edition} {name} {row} {column}\n"
    for edition in tables.EDITIONS + tables.UNSEEN:
        for rule, parameter in sorted(tables.compare_parameters(edition, editions[edition])[0]):
            yield f"{edition} rule {rule} {parameter}\n"


def mutate(build, names):
    with tempfile.TemporaryDirectory() as folder:
        random, compared = pathlib.Path(folder) / "random.jsonl", pathlib.Path(folder) / "compared"
        random.write_text("".join(random_lines()), encoding="utf-8")
        compared.write_text("".join(compared_lines(build / "tests" / "dump")), encoding="utf-8")
        words = [build / "tests" / "pullproof_mutate", ROOT, random, compared, WORKERS, *names]
        return [line.split("\t") for line in subprocess.run(words, stdout=subprocess.PIPE, text=True, check=True).stdout.splitlines()]


def what_it_is(row):
    """A cell and its value, without what came of it and the line where it stands."""
    what, name, key, column, where, value, missed, by, edition, basis = row
    return name, key, column, where.split(":")[0], value, edition, basis


def with_earlier(rows, file):
    """Fills in what was passed over from the results of an earlier run, which have to be of the same cells and values."""
    if all(row[0] != "passed over" for row in rows):
        return rows
    earlier = {}
    for line in file.read_text(encoding="utf-8").splitlines():
        row = line.split("\t")
        if row[0] != "compared":
            earlier[what_it_is(row)] = row
    out, unknown = [], set()
    for row in rows:
        if row[0] != "passed over":
            out.append(row)
        elif (before := earlier.get(what_it_is(row))) is None:
            unknown.add(row[1])
        else:
            out.append([before[0], *row[1:6], *before[6:8], *row[8:]])
    if unknown:
        sys.exit(f"nothing is known of some cells of: {', '.join(sorted(unknown))}; name them, too")
    return out


def short(text):
    text = text.replace("|", "\\|")
    return text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"


def page(rows):
    counts = collections.Counter(row[0] for row in rows)
    numbers = collections.Counter(row[0] for row in rows if re.match(r"-?[\d.]", row[5]) and row[3] not in ("clause", "article", "rule") and not row[1].endswith("-sections"))
    per_table = collections.defaultdict(collections.Counter)
    for row in rows:
        per_table[row[1]][row[0]] += 1
    safe = counts["compared"] + counts["caught"]
    by_page = sum(row[0] == "caught" and row[7].startswith(("page of", "tests/golden")) for row in rows)
    out = ["# Cells that may be changed unseen", "",
           "Made by `tests/mutation/run.py`: every cell of every table and every parameter of every rule of the code books is changed by",
           "one step (a number by one unit of its last digit, both ways; a text to a neighbour's; a blank to a value; a flag turned over),",
           "and the cases that look at it are checked again. A cell is protected when each change makes a test fail: one of",
           "`tests/checks`, `tests/inspection`, `tests/editions`, `tests/published/examples` or `cases`, the first case of an appliance, a",
           "page of `tests/golden` that prints a table or rule, a random case of the second opinion, or the comparison of a table with its",
           "second copy in `tests/second-opinion`. What only other tests look at (geometry and order in `tests/rules`, printed conduit",
           "counts) is not counted.", "",
           f"**{safe} of {len(rows)} cells protected, {100 * safe / len(rows):.2f} %**: {counts['compared']} by a second copy, {counts['caught'] - by_page} by cases, {by_page} by pages of our own words and choices that were read.",
           f"Of those that begin with a number (figures, quantities, sizes) {numbers['compared'] + numbers['caught']} of {sum(numbers.values())}, {100 * (numbers['compared'] + numbers['caught']) / max(sum(numbers.values()), 1):.2f} %.",
           f"{counts['missed']} may be changed unseen in at least one way, {counts['unasked']} are read by no case."]
    if safe < len(rows):
        out += ["", "## Not protected", "", "| table or rule | row | column | from | value | change that is missed |", "| --- | --- | --- | --- | --- | --- |"]
    for what, name, row, column, where, value, missed, _, edition, _ in sorted(rows, key=lambda r: (r[1], r[4].split(":")[0], int(r[4].split(":")[1] or 0) if ":" in r[4] else 0, r[3])):
        if what in ("missed", "unasked"):
            out.append(f"| {name} | {short(row)} | {column} | {edition} | {short(value)} | {short(missed) if what == 'missed' else 'not read'} |")
    out += ["", "## By table and rule", "",
            "On memory: protected cells that the data themselves give as memory. On practice: as common practice without a source. A second copy",
            "of these guards against slips of the pen; where it was written from memory, too, by somebody who knew the data, not against what",
            "two memories have wrong alike.", "",
            "| table or rule | cells | second copy | cases and pages | missed | not read | on memory | on practice |", "| --- | --- | --- | --- | --- | --- | --- | --- |"]
    weak = collections.defaultdict(collections.Counter)
    for row in rows:
        if row[0] in ("compared", "caught"):
            weak[row[1]][row[9]] += 1
    total = collections.Counter()
    for name, c in sorted(per_table.items()):
        memory, practice = weak[name]["memory"], weak[name]["common practice"]
        total.update(memory=memory, practice=practice)
        out.append(f"| {name} | {sum(c.values())} | {c['compared']} | {c['caught']} | {c['missed']} | {c['unasked']} | {memory} | {practice} |")
    out.append(f"| all | {len(rows)} | {counts['compared']} | {counts['caught']} | {counts['missed']} | {counts['unasked']} | {total['memory']} | {total['practice']} |")
    return "\n".join(out) + "\n"


def main(build, *names):
    build = pathlib.Path(build)
    rows = with_earlier(mutate(build, names), build / "mutation.tsv")
    (build / "mutation.tsv").write_text("".join("\t".join(row) + "\n" for row in rows), encoding="utf-8")
    made = page(rows)
    (HERE / "unprotected.md").write_text(made, encoding="utf-8")
    print(next(line for line in made.splitlines() if line.startswith("**")))


if __name__ == "__main__":
    main(*sys.argv[1:])
