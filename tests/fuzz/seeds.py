#!/usr/bin/env python3
"""Writes what fuzzing of a target begins with: seeds.py TARGET FOLDER DICTIONARY. All of it comes from the cases, the
rules and the keys of this project."""
import json
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parents[2]
target, folder, dictionary = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])


def texts(*patterns):
    for pattern in patterns:
        for path in sorted(root.glob(pattern)):
            yield path.read_bytes()


cases = list(texts("cases/**/*.toml", "tests/checks/*/*.toml", "tests/broken/*.toml"))
whole = list(texts("cases/**/*.toml", "tests/inspection/*/*.toml"))
rules = list(texts("rules/*.toml", "rules/local/*.toml", "rules/us-2017/*.toml"))
quoted = sorted({m.decode("utf-8", "ignore") for text in cases + whole for m in re.findall(rb'"([^"\\\n]{1,40})"', text)})
words = sorted({m.decode("utf-8", "ignore") for text in cases + whole + rules for m in re.findall(rb"^\s*([a-z_-]{2,30})\s*=", text, re.M)})
heads = sorted({m.decode("utf-8", "ignore") for text in cases + whole + rules for m in re.findall(rb"^(\[+[a-z_.]{2,40}\]+)", text, re.M)})

seeds = {
    # The first byte of an input says which dimension is asked for.
    "quantity": [bytes([i % 13]) + q.encode() for i, q in enumerate(quoted)],
    "case": cases,
    "rules": [r[:8000] for r in rules],
    "line": [json.dumps({"name": "x", "case": c.decode("utf-8", "replace")}).encode() for c in cases[::7]],
    "job": whole,
}[target]
for i, text in enumerate(seeds):
    (folder / f"{i:04}").write_bytes(text)
entries = quoted if target == "quantity" else words + heads + quoted
with open(dictionary, "w", encoding="utf-8") as out:
    for entry in entries[:3000]:
        out.write('"' + "".join(c if 32 <= ord(c) < 127 and c not in '"\\' else "".join(f"\\x{b:02x}" for b in c.encode()) for c in entry) + '"\n')
