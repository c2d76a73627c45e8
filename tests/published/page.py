"""The page of all external checks, made from the tests themselves: page.py DUMP [--write]

Without --write it says whether README.md is up to date. DUMP is the program that prints the rules as they were read.
"""
import collections
import csv
import json
import pathlib
import re
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "second-opinion"))

import tables  # noqa: E402

HEAD = """# What the program is held against

Made by `tests/published/page.py` from the tests; a test keeps it up to date. Everything here is outside the program: figures
that others print, second copies of tables, other computations.

| what | how much | within | differ |
| --- | --- | --- | --- |
"""


def cell(text):
    return " ".join(text.split()).replace("|", "\\|")


def copied_tables(dump):
    editions = json.loads(subprocess.run([dump, "rules"], capture_output=True, text=True, check=True).stdout)
    counts, differ = collections.defaultdict(dict), 0
    for edition in tables.EDITIONS:
        compared, wrong = tables.compare(edition, editions[edition])
        differ += len(wrong)
        for name, _, _ in compared:
            counts[name][edition] = counts[name].get(edition, 0) + 1
    lines, total = [], 0
    for name, per_edition in sorted(counts.items()):
        total += sum(per_edition.values())
        lines.append(f"| {name} | {' / '.join(str(per_edition.get(edition, 0)) for edition in tables.EDITIONS)} | {cell(tables.basis(name))} |")
    return lines, total, differ


def conduit_counts():
    text = (HERE / "conduit_counts_test.cpp").read_text(encoding="utf-8")
    misprints = {label: (int(ours), why) for label, ours, why in re.findall(r'\{"([^"]+)", \{(\d+), "([^"]+)"\}\}', text)}
    per_source, wrong = collections.Counter(), []
    with open(HERE / "conduit-counts.csv", newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            per_source[row["source"]] += 1
            label = f"{row['raceway']} {row['trade_size']} {row['awg']} {row['insulation_column']}"
            if label in misprints and misprints[label][0] != int(row["published_count"]):
                wrong.append(f"| {label} | {row['published_count']} | {misprints[label][0]} | {cell(misprints[label][1])} |")
    return per_source, wrong


def worked_examples():
    """Each example's figures as its head gives them; where ours is another one the head says it, and why."""
    lines, differ = [], 0
    for file in sorted((HERE / "examples").glob("*.toml")):
        marks = [line[2:].split(": ", 1) for line in file.read_text(encoding="utf-8").splitlines() if line.startswith("# ") and ": " in line]
        source = next(value for key, value in marks if key == "source")
        why = next((value for key, value in marks if key == "differs"), "")
        for key, value in marks:
            parts = [part.strip() for part in value.split("|")]
            if key == "figure":
                other = len(parts) > 4
                differ += other
                lines.append(f"| {file.stem} | {cell(source)} | {parts[0]} {parts[1]} | {parts[2]} | {parts[4] if other else parts[2]} | {parts[3]} | {cell(why) if other else ''} |")
            elif key == "verdict":
                lines.append(f"| {file.stem} | {cell(source)} | {parts[0]} | {parts[1]} | {parts[1]} |  |  |")
    return lines, differ


def figures_in_tests():
    """Tests with the printed figures in them: what they say of their source, and the figures with their tolerance."""
    lines, total = [], 0
    for file in sorted(HERE.glob("*_test.cpp")):
        text = file.read_text(encoding="utf-8")
        for match in re.finditer(r"((?:^//[^\n]*\n|^(?!//|TEST)[^\n]*\n)*)^TEST\((\w+), (\w+)\) \{\n(.*?)^\}", text, re.M | re.S):
            before, suite, name, body = match.groups()
            comments = re.findall(r"^//+ ?(.*)$", before.rsplit("\n\n", 2)[-1] if before.count("\n\n") else before, re.M)
            inside = re.findall(r"^\s+// (.*)$", body, re.M)
            near = re.findall(r"EXPECT_NEAR\(.*?, ([\d.e+-]+), ([^;]+)\)(?: <<[^;]*)?;", body)
            if suite in ("PublishedCases", "GoldensOfExamples", "PublishedConduitCounts"):
                continue
            total += len(near)
            figures = "; ".join(f"{theirs} ± {within}" for theirs, within in near) or "see the test"
            lines.append(f"| {suite}.{name} | {cell(' '.join(comments + inside)) or 'see the test'} | {cell(figures)} |")
    return lines, total


def page(dump):
    copies, cells, cells_wrong = copied_tables(dump)
    counts, misprints = conduit_counts()
    examples, examples_differ = worked_examples()
    figures, figure_count = figures_in_tests()
    out = HEAD
    out += f"| second copies of the tables, three editions | {cells} cells | the same | {cells_wrong} |\n"
    out += f"| printed conduit counts | {sum(counts.values())} | the same | {len(misprints)} |\n"
    out += f"| worked examples, by figure or verdict | {len(examples)} | see below | {examples_differ} |\n"
    out += f"| further printed figures, in the tests beside this page | {len(figures)} tests, {figure_count} figures read from them | see below | see the tests |\n"
    out += "| a second computation in another language, random cases (`tests/second-opinion`) | 10000 cases | 1e-9 of the figure | 0 |\n"
    out += "| ngspice, voltage drop and control runs (`tests/property`, `tests/second-opinion/spice_test.py`) | see there | 0.1 % at most | 0 |\n"
    out += "\n## Worked examples\n\n| case | source | what | theirs | ours | within | why they differ |\n| --- | --- | --- | --- | --- | --- | --- |\n"
    out += "\n".join(examples) + "\n"
    out += "\n## Printed conduit counts\n\n| source | counts |\n| --- | --- |\n"
    out += "".join(f"| {cell(source)} | {n} |\n" for source, n in sorted(counts.items()))
    out += "\nThose that differ:\n\n| raceway, size, wire | theirs | ours | why |\n| --- | --- | --- | --- |\n" + "\n".join(misprints) + "\n"
    out += "\n## Further printed figures\n\nWhat each test says of its source, and the printed figures that it compares.\n\n| test | source and remarks | theirs, within |\n| --- | --- | --- |\n"
    out += "\n".join(figures) + "\n"
    out += "\n## Second copies of tables\n\nCells compared in us-2017, us-2020 and us-2023; all are the same.\n\n| table | cells | source of the copy |\n| --- | --- | --- |\n"
    return out + "\n".join(copies) + "\n"


def main(dump, *options):
    made, file = page(dump), HERE / "README.md"
    if "--write" in options:
        file.write_text(made, encoding="utf-8")
        return 0
    if file.exists() and file.read_text(encoding="utf-8") == made:
        return 0
    print("tests/published/README.md is out of date: run tests/published/page.py DUMP --write and read the difference")
    return 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
