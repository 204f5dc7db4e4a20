"""Judges documents by JSON Schemas with Python's jsonschema (MIT). Reads {schemas, cases} as JSON, writes {faults, verdicts}."""

import json
import sys
import warnings

from jsonschema import Draft202012Validator

with warnings.catch_warnings():
    # Newer versions have another way to name schemas; the older one of Debian knows this one only.
    warnings.simplefilter("ignore")
    from jsonschema import RefResolver


def refuse(uri):
    raise RuntimeError(f"asked the network for {uri}")


asked = json.load(sys.stdin)
store = {schema["$id"]: schema for schema in asked["schemas"].values()}
faults = {
    name: [error.message for error in Draft202012Validator(Draft202012Validator.META_SCHEMA).iter_errors(schema)]
    for name, schema in asked["schemas"].items()
}
validators = {}
for name, schema in asked["schemas"].items():
    resolver = RefResolver(schema["$id"], schema, store=store, handlers={"https": refuse, "http": refuse})
    validators[name] = Draft202012Validator(schema, resolver=resolver)
verdicts = [validators[case["schema"]].is_valid(case["value"]) for case in asked["cases"]]
json.dump({"faults": faults, "verdicts": verdicts}, sys.stdout)
