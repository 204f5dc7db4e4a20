"""Columns of texts by Python's own tables of Unicode: a list of texts -> a list of numbers."""
import json
import sys
import unicodedata


def columns(text):
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text
    )


print(json.dumps([columns(text) for text in json.load(sys.stdin)]))
