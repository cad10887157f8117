"""Checks design files against the schema that `boardwright schema` prints, by an independent validator.

Arguments: the schema, and a JSON list of {"name", "text", "sound"}. Prints how many were accepted and refused.
"""

import json
import sys
import tomllib

import jsonschema

schema = json.load(open(sys.argv[1], encoding="utf-8"))
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)
counts = {"accepted": 0, "refused": 0}
faults = []
for case in json.load(open(sys.argv[2], encoding="utf-8")):
    errors = list(validator.iter_errors(tomllib.loads(case["text"])))
    if case["sound"] and errors:
        faults.append(f"{case['name']}: {errors[0].message[:300]} at {list(errors[0].absolute_path)}")
    if not case["sound"] and not errors:
        faults.append(f"{case['name']} is not refused: {case['text']}")
    counts["refused" if errors else "accepted"] += 1
if faults:
    print("\n".join(faults[:40]), file=sys.stderr)
    sys.exit(1)
print(json.dumps(counts))
