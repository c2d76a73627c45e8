"""Every cell of the copied tables against what the program holds, edition by edition.

usage: tables_test.py DUMP      (the program that prints the rules as they were read)
"""
import copy
import json
import random
import subprocess
import sys

import tables


def held(dump):
    return json.loads(subprocess.run([dump, "rules"], capture_output=True, text=True, check=True).stdout)


def another(cell, r):
    """What a slip of the pen would make of a cell."""
    if cell is None:
        return r.choice([1.0, "yes"])
    return cell + 1 if isinstance(cell, float) else f"{cell}0"


def main(dump):
    editions, wrong = held(dump), []
    r = random.Random(1)
    for edition in tables.EDITIONS:
        book = editions[edition]
        compared, differences = tables.compare(edition, book)
        wrong += differences
        cells = sum(len(table["rows"]) * len(table["columns"]) for table in book["tables"].values())
        print(f"{edition}: {len(compared)} of {cells} cells compared with a second copy, {len(differences)} differ")
        rules, differences = tables.compare_parameters(edition, book)
        wrong += differences
        print(f"{edition}: {len(rules)} parameters of rules compared, {len(differences)} differ")
        # A comparison that lets a slip through is none.
        for name, row, column in r.sample(sorted(compared), 20):
            changed = {"tables": dict(book["tables"])}
            changed["tables"][name] = copy.deepcopy(book["tables"][name])
            cell = changed["tables"][name]["rows"][row][column]
            cell[0] = another(cell[0], r)
            if not tables.compare(edition, changed)[1]:
                wrong.append(f"{edition}: {name} row {row} column {column} may be changed unseen")
    for edition in tables.UNSEEN:
        rules, differences = tables.compare_parameters(edition, editions[edition])
        wrong += differences
        print(f"{edition}: {len(rules)} parameters of rules compared, {len(differences)} differ")
    for line in wrong[:60]:
        print(line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
