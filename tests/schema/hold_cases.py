"""Holds cases against the schema of a case: hold_cases.py SCHEMA SOURCE_TREE. TOML is read by another reader than the
program's, and the schema by another program than the one that wrote it."""
import datetime
import json
import pathlib
import re
import sys
import tomllib

import jsonschema


def plain(value):
    """As editors see it: a date is a text."""
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain(item) for item in value]
    return value.isoformat() if isinstance(value, (datetime.date, datetime.time)) else value


def keys_of(error):
    """The keys that an error is about, of the tables inside a choice too."""
    names = {str(part) for part in error.absolute_path}
    if error.validator == "additionalProperties":
        names |= set(error.instance) - set(error.schema["properties"])
    for inner in error.context:
        names |= keys_of(inner)
    return names


# What the reader says of keys, types and words, with the key in it. All else is about TOML itself, other parts of the case,
# the worth of a number or the tables of an edition, which a schema does not see.
BY_KEY = re.compile(r"unknown key '([^']+)'|'([^']+)' is (?:a|an|true or false)\b.*, not (?:a|an|true or false)\b|is not known as (?:a )?'([^']+)'")
# A date is a text to JSON, with quotes or without.
NOT_TOLD = {"date-is-a-text", "date-with-a-time", "edition-is-a-date"}


def main(schema_file, source):
    schema = json.loads(pathlib.Path(schema_file).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    judge = jsonschema.Draft202012Validator(schema)
    troubles, good, bad = [], 0, 0
    for folder in ("cases", "tests/checks"):
        for path in sorted(pathlib.Path(source, folder).rglob("*.toml")):
            if path.parent.name == "amendments" or re.search(r"^\[edition\]", path.read_text(encoding="utf-8"), re.M):
                continue
            good += 1
            for error in judge.iter_errors(plain(tomllib.loads(path.read_text(encoding="utf-8")))):
                troubles.append(f"{path}: {list(error.absolute_path)}: {error.message[:200]}")
    for path in sorted(pathlib.Path(source, "tests/broken").glob("*.toml")):
        expected = path.with_suffix(".expected").read_text(encoding="utf-8")
        wanted = {next(filter(None, found.groups())) for found in BY_KEY.finditer(expected)}
        if not wanted or path.stem in NOT_TOLD:
            continue
        try:
            case = tomllib.loads(path.read_text(encoding="utf-8-sig"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError):
            continue
        bad += 1
        told = set()
        for error in judge.iter_errors(plain(case)):
            told |= {re.sub(r"[\x00-\x1f\x7f-\x9f]", "\ufffd", name) for name in keys_of(error)}  # as the reader shows it
        if wanted - told:
            troubles.append(f"{path.name}: the reader complains of {sorted(wanted)}, the schema of {sorted(told)}")
    print("\n".join(troubles + [f"{good} good cases, {bad} broken ones"]))
    return 1 if troubles or good < 200 or bad < 15 else 0


sys.exit(main(*sys.argv[1:]))
