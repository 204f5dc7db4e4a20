"""Reads documents with types that were generated for Python, and writes them again. Reads {types, cases} as JSON; writes what each became, or its fault."""

import json
import sys

asked = json.load(sys.stdin)
types = {"__name__": "leeway_types"}
exec(compile(asked["types"], "types.py", "exec"), types)


def again(case):
    try:
        return {"value": types[case["type"]].from_dict(case["value"]).to_dict()}
    except Exception as fault:  # noqa: BLE001: whatever it is, the test shows it
        return {"fault": f"{type(fault).__name__}: {fault}"}


json.dump([again(case) for case in asked["cases"]], sys.stdout)
