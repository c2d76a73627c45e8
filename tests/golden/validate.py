"""Holds a JSON report against its schema, and against what a schema cannot say: validate.py SCHEMA REPORTS."""
import json
import math
import sys

import jsonschema


def check_finding(finding, at):
    """Problems of one finding beyond its shape."""
    steps = finding["working"]
    for index, step in enumerate(steps):
        for given in step["inputs"]:
            if given["step"] >= index:
                yield f"{at}: step {index} rests on step {given['step']}, which comes after it"
        if step["kind"] == "formula" and step["expression"] is None:
            yield f"{at}: step {index} is a formula without an expression"
        if step["value"] is not None and step["shown"].split()[0].rstrip("%\u00b0") not in ("unlimited", "-unlimited"):
            shown = float(step["shown"].split()[0].rstrip("%\u00b0"))
            if not math.isclose(shown, step["value"], rel_tol=1e-3, abs_tol=1e-5):
                yield f"{at}: step {index} shows {step['shown']} for {step['value']} {step['unit']}"
    if finding["limit"] is not None and finding["must"] is None:
        yield f"{at}: a limit without how the demand has to stand to it"
    if finding["verdict"] == "fail" and finding["used"] is not None and finding["used"] <= 1 - 1e-9:
        yield f"{at}: it fails and uses only {finding['used']} of its limit"
    if finding["verdict"] == "fail" and not finding["change"]:
        yield f"{at}: it fails and does not say what to change"
    if finding["verdict"] == "needs_input" and not finding["missing"]:
        yield f"{at}: it needs input and does not say which"


def check_report(report, at):
    """Problems of one report beyond its shape."""
    for verdict, number in report["counts"].items():
        found = sum(1 for finding in report["findings"] if finding["verdict"] == verdict)
        if found != number:
            yield f"{at}: {number} {verdict} counted, {found} found"
    for finding in report["findings"]:
        yield from check_finding(finding, f"{at}: {finding['check']} of {finding['subject']}")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    with open(sys.argv[2], encoding="utf-8") as file:
        reports = json.load(file)
    validator = jsonschema.Draft202012Validator
    validator.check_schema(schema)
    problems = [f"{error.json_path}: {error.message[:300]}" for error in validator(schema).iter_errors(reports)]
    if not problems:
        for number, report in enumerate(reports["reports"]):
            if report["outcome"] != "unreadable":
                problems += check_report(report, report["file"])
    if problems:
        print("\n".join(problems))
        return 1
    print(len(reports["reports"]), "reports are valid")
    return 0


sys.exit(main())
