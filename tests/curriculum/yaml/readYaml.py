"""Reads YAML files with ruamel.yaml (MIT) as version 1.2 and as 1.1. Reads a list of paths as JSON, writes [{"1.2": ..., "1.1": ...}]."""

import json
import sys

from ruamel.yaml import YAML


def read(path, version):
    yaml = YAML(typ="safe", pure=True)
    yaml.version = version
    with open(path, encoding="utf-8") as file:
        return yaml.load(file)


json.dump([{"1.2": read(path, (1, 2)), "1.1": read(path, (1, 1))} for path in json.load(sys.stdin)], sys.stdout)
