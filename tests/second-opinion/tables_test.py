"""Every cell of the copied tables against what the program holds, edition by edition.

usage: tables_test.py DUMP      (the program that prints the rules as they were read)
"""
import json
import subprocess
import sys

import tables


def held(dump):
    return json.loads(subprocess.run([dump, "rules"], capture_output=True, text=True, check=True).stdout)


def unit(number):
    """One unit of the last digit that a number is printed with."""
    digits = f"{number:.10g}".partition(".")[2]
    return 10.0 ** -len(digits) if "e" not in digits else number / 2


def slips(rows, row, column):
    """What a slip of the pen makes of a cell: a number one unit more or less, a flag turned over, a neighbour's text, a blank filled."""
    cell = rows[row][column][0]
    others = [line[column][0] for line in rows[row:] + rows[:row] if line[column][0] not in (None, cell)]
    if isinstance(cell, float):
        return [cell + unit(cell), cell - unit(cell)]
    if cell in ("yes", "no"):
        return ["no" if cell == "yes" else "yes"]
    return others[:1] or ["something else"]


def unseen(edition, book, compared):
    """Cells that are said to be compared, though a slip in them is not noticed: a comparison that lets one through is none."""
    for name, row, column in sorted(compared):
        rows = book["tables"][name]["rows"]
        cell = rows[row][column]
        was = cell[0]
        for slip in slips(rows, row, column):
            cell[0] = slip
            if not tables.compare(edition, book, name)[1]:
                yield f"{edition}: {name} row {row} column {column}, {was}: {slip} is not seen"
        cell[0] = was


def main(dump):
    editions, wrong, before = held(dump), [], {}
    for edition in tables.EDITIONS:
        book = editions[edition]
        compared, differences = tables.compare(edition, book)
        wrong += differences
        cells = sum(len(table["rows"]) * len(table["columns"]) for table in book["tables"].values())
        print(f"{edition}: {len(compared)} of {cells} cells compared with a second copy, {len(differences)} differ")
        rules, differences = tables.compare_parameters(edition, book)
        wrong += differences
        print(f"{edition}: {len(rules)} parameters of rules compared, {len(differences)} differ")
        # A cell that two editions share is tried once.
        cells_now = {(name, row, column): book["tables"][name]["rows"][row][column] for name, row, column in compared}
        wrong += unseen(edition, book, {cell for cell, held_now in cells_now.items() if before.get(cell) != held_now})
        before |= {cell: list(held_now) for cell, held_now in cells_now.items()}
    for edition in tables.UNSEEN:
        rules, differences = tables.compare_parameters(edition, editions[edition])
        wrong += differences
        print(f"{edition}: {len(rules)} parameters of rules compared, {len(differences)} differ")
    for line in wrong[:60]:
        print(line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
