"""Holds what the program reads against a second reader: compare_readers.py DUMP-PROGRAM."""
import datetime
import json
import subprocess
import sys

import second_reader


def plain(value):
    """What tomllib read, as the dump writes it. Integers and floating numbers stay apart."""
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain(item) for item in value]
    if isinstance(value, datetime.date):
        return {"date": value.isoformat()}
    return value


def differences(ours, theirs, where):
    if type(ours) is not type(theirs):
        yield f"{where}: {ours!r} ({type(ours).__name__}) against {theirs!r} ({type(theirs).__name__})"
    elif isinstance(ours, dict):
        for key in ours.keys() | theirs.keys():
            if key in ours and key in theirs:
                yield from differences(ours[key], theirs[key], f"{where}.{key}")
            else:
                yield f"{where}.{key} is read by one of the two alone"
    elif isinstance(ours, list):
        if len(ours) != len(theirs):
            yield f"{where}: {len(ours)} items against {len(theirs)}"
        for number, (a, b) in enumerate(zip(ours, theirs)):
            yield from differences(a, b, f"{where}[{number}]")
    elif ours != theirs:
        yield f"{where}: {ours!r} against {theirs!r}"


def entry(of):
    return {**of.entry, "seen": of.seen}


def resolved():
    out = {}
    for name, edition in second_reader.editions().items():
        tables = {
            key: {**entry(t), "columns": t.columns, "rows": [[list(pair) for pair in zip(r, b)] for r, b in zip(t.rows, t.basis)]}
            for key, t in edition.tables.items()
        }
        rules = {key: {**entry(r), "parameters": r.parameters} for key, r in edition.rules.items()}
        out[name] = {"base": edition.base, "tables": tables, "rules": rules}
    return out


def main():
    dump = sys.argv[1]

    def run(*words):
        return json.loads(subprocess.run([dump, *words], capture_output=True, check=True, text=True).stdout)

    root = second_reader.ROOT
    files = [str(p) for folder in ("rules", "cases", "tests/checks") for p in sorted((root / folder).rglob("*.toml"))]
    wrong = list(differences(run("toml", *files), {name: plain(second_reader.load(name)) for name in files}, "files"))
    wrong += differences(run("rules"), resolved(), "editions")
    for line in wrong[:40]:
        print(line.replace(str(root) + "/", ""))
    print(f"{len(files)} files and {len(resolved())} editions compared, {len(wrong)} differences")
    return 1 if wrong or len(files) < 100 else 0


if __name__ == "__main__":
    sys.exit(main())
