#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Check JSON files against a schema: validate_json.py SCHEMA FILE...

Prints one line per fault and ends with 1 if there is any. NaN and Infinity, which Python's reader would let pass though
JSON has no such words, are faults.
"""

import json
import sys

import jsonschema


def refuse(word):
    raise ValueError(f"{word} is not JSON")


def main(schema_file, *files):
    with open(schema_file, encoding="utf-8") as stream:
        schema = json.load(stream)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    faults = 0
    for file in files:
        with open(file, encoding="utf-8") as stream:
            document = json.load(stream, parse_constant=refuse)
        for error in validator.iter_errors(document):
            faults += 1
            print(f"{file}: {'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")
    return 1 if faults or not files else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
