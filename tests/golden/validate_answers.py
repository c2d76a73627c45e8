"""Holds JSON answers against their schema: validate_answers.py SCHEMA ANSWER..."""
import json
import sys

import jsonschema


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    problems = []
    for name in sys.argv[2:]:
        with open(name, encoding="utf-8") as file:
            answer = json.load(file)
        # Against the part for its format alone, so that a complaint says what is wrong and not only that something is.
        kinds = [k for k, d in schema["$defs"].items() if d.get("properties", {}).get("format", {}).get("const") == answer["format"]]
        if len(kinds) != 1 or {"$ref": f"#/$defs/{kinds[0]}"} not in schema["oneOf"]:
            problems.append(f"{name}: the schema does not know the format {answer['format']}")
            continue
        own = {"$defs": schema["$defs"], "$ref": f"#/$defs/{kinds[0]}"}
        problems += [f"{name}: {e.json_path}: {e.message[:300]}" for e in jsonschema.Draft202012Validator(own).iter_errors(answer)]
        # The schema has to refuse what it does not know.
        strange = {**answer, "strange": 1}
        if not list(jsonschema.Draft202012Validator(schema).iter_errors(strange)):
            problems.append(f"{name}: the schema takes a field that is not in it")
    print("\n".join(problems[:20]))
    sys.exit(1 if problems else 0)


main()
