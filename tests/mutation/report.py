"""What came of the mutants, in counts and line by line."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from dataclasses import asdict
from pathlib import Path

from tests.mutation.trial import Verdict

EQUIVALENT = Path(__file__).with_name("equivalent.md")
ENTRY = re.compile(r"- `(?P<words>.+?)`: (?P<reason>.+)")


def equivalent() -> dict[str, str]:
    """Mutants that change nothing that anybody could see, each with its reason."""
    found = (ENTRY.fullmatch(line) for line in EQUIVALENT.read_text(encoding="utf-8").splitlines())
    return {one["words"]: one["reason"] for one in found if one}


def room(file: str) -> str:
    """The room of a file, or the floor."""
    return file.rsplit("/", 1)[0] if "/" in file else file


def share(alive: int, of: int) -> str:
    """So many of so many, and between what the share lies to 95 % (Wilson)."""
    if not of:
        return "none"
    z, p = 1.96, alive / of
    middle = (p + z * z / (2 * of)) / (1 + z * z / of)
    half = z * math.sqrt(p * (1 - p) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return f"{alive} of {of}, {100 * p:.1f} % ({100 * (middle - half):.1f} to {100 * (middle + half):.1f} %)"


def counted(verdicts: list[Verdict], named: dict[str, str]) -> list[str]:
    """Counts: all, by room, by operator."""
    alive = [one for one in verdicts if one.alive and one.words not in named]
    ends = Counter(one.end for one in verdicts)
    lines = [f"survived: {share(len(alive), len(verdicts))}"]
    lines.append(", ".join(f"{end} {count}" for end, count in sorted(ends.items())))
    lines.append(f"named as equivalent: {sum(one.alive and one.words in named for one in verdicts)}")
    for title, key in (
        ("room", lambda one: room(one.mutant.file)),
        ("operator", lambda one: one.mutant.operator),
    ):
        lines += ["", f"| {title} | mutants | alive |", "|---|---|---|"]
        every, left = Counter(map(key, verdicts)), Counter(map(key, alive))
        lines += [f"| {name} | {count} | {left[name]} |" for name, count in sorted(every.items())]
    return lines


def written(verdicts: list[Verdict], head: str) -> str:
    """The whole report."""
    named = equivalent()
    lines = [head, "", *counted(verdicts, named), "", "## Survivors", ""]
    kept = ["", "## Named as equivalent", ""]
    for one in sorted(verdicts, key=lambda each: (each.mutant.file, each.mutant.line)):
        if one.alive:
            met = f"{one.run} of {one.reaching} tests" if one.reaching else "no test reaches it"
            line = f"- {one.mutant.file}:{one.mutant.line} ({one.mutant.operator}; {met}): `{one.words}`"
            (kept if one.words in named else lines).append(line)
    return "\n".join([*lines, *kept]) + "\n"


def as_data(verdicts: list[Verdict]) -> str:
    """The same to be read by a program."""
    rows = [
        {key: value for key, value in asdict(one).items() if key != "mutant"}
        | {"file": one.mutant.file, "line": one.mutant.line, "operator": one.mutant.operator}
        for one in verdicts
    ]
    return json.dumps(rows, indent=1)
