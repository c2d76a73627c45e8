"""The program, asked about many cases at once through its stream, and what it found as answers of the second opinion."""
import collections
import json
import subprocess

from opinion import Answer, Opinion
from quantities import toml_text

DECIDED = ("pass", "fail", "advice")


def stream(program, texts):
    """Reports of cases given as TOML texts, in order."""
    lines = "".join(json.dumps({"name": f"case {n}", "case": text}) + "\n" for n, text in enumerate(texts))
    done = subprocess.run([program, "stream"], input=lines, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1, 2, 3):
        raise RuntimeError(f"the program ended with {done.returncode}: {done.stderr[-500:]}")
    reports = [json.loads(line)["report"] for line in done.stdout.splitlines()]
    if len(reports) != len(texts):
        raise RuntimeError(f"{len(texts)} cases, {len(reports)} reports: {done.stderr[-500:]}")
    return reports


def findings(report):
    """What was decided by number, by check and subject."""
    found = collections.defaultdict(list)
    for f in report["findings"]:
        if f["verdict"] in DECIDED and f["demand"] and f["limit"] and f["limit"]["value"] is not None:
            found[(f["check"], f["subject"])].append(Answer(f["check"], f["subject"], f["verdict"], f["demand"]["value"], f["limit"]["value"]))
    return found


def close(a, b):
    return abs(a - b) <= 1e-9 * max(abs(a), abs(b), 1e-9)


def agree(mine, theirs):
    """Whether two lists of answers are the same but for order and the last digits of a double."""
    rest = list(theirs)
    for answer in mine:
        fits = [f for f in rest if f.verdict == answer.verdict and close(f.demand, answer.demand) and close(f.limit, answer.limit)]
        if not fits:
            return False
        rest.remove(fits[0])
    return not rest


def disagreements(case, report):
    """(check, subject, second opinion, program) wherever the two are not of one mind."""
    if report["outcome"] == "unreadable":
        return [("reader", "case", [], report["complaints"])]
    found = findings(report)
    out = []
    for (check, subject), mine in Opinion(case).answers().items():
        theirs = found.get((check, subject), [])
        if mine is None and theirs or mine is not None and not agree(mine, theirs):
            out.append((check, subject, mine, theirs))
    return out


def judge(program, cases):
    return [disagreements(case, report) for case, report in zip(cases, stream(program, [toml_text(case) for case in cases]))]
