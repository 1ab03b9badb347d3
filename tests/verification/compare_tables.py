#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Compare the committed table of checks with the one just written.

usage: compare_tables.py COMMITTED WRITTEN

All but the obtained values must be the same, letter by letter. These may differ by a tenth of the
row's tolerance: sums come out otherwise by their last bits on another processor, and where a mesh
follows from an estimate of the error, other bits make another mesh. Exit status 1 and the rows
that differ otherwise.
"""

import re
import sys


def allowed(target, tolerance):
    """Of a difference between two obtained values; the tolerance as the table words it."""
    if match := re.fullmatch(r"(\S+) %", tolerance):
        return 1e-3 * float(match[1]) * abs(target)
    if match := re.fullmatch(r"(\S+) of it", tolerance):
        return 0.1 * float(match[1]) * abs(target)
    if match := re.fullmatch(r"± (\S+)", tolerance):
        return 0.1 * float(match[1])
    if match := re.fullmatch(r"× or ÷ (\S+)", tolerance):
        return 0.1 * (float(match[1]) - 1.0) * abs(target)
    raise SystemExit(f"not known how to read the tolerance '{tolerance}'")


def same(committed, written):
    if committed == written:
        return True
    old, new = committed.split(" | "), written.split(" | ")
    # A row begins with "| id", and its cells are parted by " | ".
    if len(old) != 7 or len(new) != 7:
        return False
    if old[:4] + old[5:] != new[:4] + new[5:]:
        return False
    try:
        target, before, now = float(old[3]), float(old[4]), float(new[4])
    except ValueError:
        return False
    # Four digits are shown; the last of them may fall to either side.
    last_digit = 1e-3 * max(abs(before), abs(now))
    return abs(now - before) <= max(allowed(target, old[5]), last_digit)


def main(committed, written):
    with open(committed, encoding="utf-8") as file:
        old = file.read().splitlines()
    with open(written, encoding="utf-8") as file:
        new = file.read().splitlines()
    wrong = [f"- {a}\n+ {b}" for a, b in zip(old, new) if not same(a, b)]
    if len(old) != len(new):
        wrong.append(f"{len(old)} lines are committed, {len(new)} were written")
    if wrong:
        print("\n".join(wrong))
        raise SystemExit(1)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        raise SystemExit(__doc__)
    main(sys.argv[1], sys.argv[2])
