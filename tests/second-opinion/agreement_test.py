"""Random cases: the program and the second opinion have to agree in every figure and verdict.

usage: agreement_test.py PROGRAM [COUNT] [SEED]
A disagreement is shrunk and printed as TOML; the same count and seed give the same cases.
"""
import collections
import sys

from opinion import Opinion
from program import judge
from quantities import toml_text
from random_cases import Maker
from shrink import shrink

BATCH = 1000
# How often each check has to pass and to fail, at the least: once in so many cases. Usual is three times that and more.
OFTEN = {"ampacity": 10, "device-conductor": 10, "device-load": 10, "ground-size": 10, "raceway-fill": 10, "box-volume": 100, "pull-box": 100,
         "appliance-device": 500, "bending-space": 100, "device-marked-maximum": 200, "drop-appliance": 100, "motor-device": 100,
         "motor-feeder": 500, "motor-group": 100, "motor-overload": 100, "service-load": 500}


def listed(asked):
    """How often every verdict was compared, check by check."""
    checks = sorted({check for check, _ in asked})
    return "; ".join(f"{check} " + ", ".join(f"{n} {verdict}" for (of, verdict), n in sorted(asked.items()) if of == check) for check in checks)


def kind_of(disagreement):
    """What has to stay the same while a case is made smaller: the check, and what the two say in words."""
    check, _, mine, theirs = disagreement
    if check == "reader":
        return check, [], []
    return check, mine if mine is None else sorted(answer.verdict for answer in mine), sorted(answer.verdict for answer in theirs)


def shrunk(program, case, first):
    def shows(cases):
        usable = []
        for number, candidate in enumerate(cases):
            try:
                Opinion(candidate).answers()
            except (AttributeError, KeyError, IndexError, TypeError, ValueError, StopIteration):
                continue  # no longer a case that the second opinion knows how to read
            usable.append(number)
        verdicts = judge(program, [cases[n] for n in usable])
        found = {n for n, what in zip(usable, verdicts) if any(kind_of(w) == kind_of(first) for w in what)}
        return [n in found for n in range(len(cases))]

    return shrink(case, shows)


def main(program, count=2000, seed="1"):
    asked, wrong, rare = collections.Counter(), 0, 0
    for start in range(0, count, BATCH):
        cases = [Maker(f"{seed}:{n}").case() for n in range(start, min(start + BATCH, count))]
        for number, (case, what) in enumerate(zip(cases, judge(program, cases)), start):
            for check, answers in ((key[0], answers) for key, answers in Opinion(case).answers().items()):
                for answer in answers or []:
                    asked[(check, answer.verdict)] += 1
                if answers is None:
                    asked[(check, "open")] += 1
            if not what:
                continue
            wrong += 1
            if wrong > 3:
                continue
            check, _, _, _ = what[0]
            small = shrunk(program, case, what[0])
            print(f"\ncase {number} of seed {seed}, at its smallest:\n\n{toml_text(small)}")
            for asked_of, subject, mine, theirs in judge(program, [small])[0]:
                if asked_of == check:
                    print(f"{check}, {subject}:\n  second opinion: {mine}\n  program:        {theirs}")
    # A generator that has lost its way proves nothing: every check has to pass and to fail often.
    for check, share in OFTEN.items():
        for verdict in ("pass", "fail"):
            if asked[(check, verdict)] < count / share:
                print(f"too few cases of {check}: {asked[(check, verdict)]} {verdict}")
                rare += 1
    decided = sum(n for (_, verdict), n in asked.items() if verdict != "open")
    print(f"{count} random cases, {count - wrong} agree, {decided} verdicts compared: " + listed(asked))
    return 1 if wrong or rare else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], *(int(n) for n in sys.argv[2:3]), *sys.argv[3:4]))
