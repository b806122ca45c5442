"""Why a line of shop.toml cannot be read, and what to write instead, by what people do write.

Invariant: what is not known here is said as the TOML reader says it.
"""

from __future__ import annotations

import re

KEYED = re.compile(r"\s*([A-Za-z0-9_-]+)\s*=\s*(.*?)\s*")
SOFT_QUOTES = re.compile("[\u201c\u201d\u201e\u201f\u2018\u2019\u00ab\u00bb]")
COMMA = re.compile(r"([+-]?\d+),(\d+)")
WITH_UNIT = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*([A-Za-z\"'%]+)")
YES = {"yes": "true", "on": "true", "no": "false", "off": "false"}
TWICE = ("Cannot overwrite", "twice", "Cannot mutate")
"""How the reader begins to say that something stands there already."""
SAYS = {
    "Exceeds the limit": "a number has too many digits",
    "Invalid value": "the value cannot be read; a text stands in quotation marks, a number without",
}
"""What the reader says, and plainer words for it."""


def reason(line: str, said: str) -> str:
    """Why a line cannot be read; `said`: what the TOML reader says."""
    if any(word in said for word in TWICE):
        named = line.partition("=")[0].strip()
        return f"{named} stands twice; take one of them out"
    return by_line(line.partition(" #")[0].strip()) or next(
        (words for begin, words in SAYS.items() if said.startswith(begin)), said
    )


def by_line(line: str) -> str:
    """What is wrong with a line by the look of it; empty where it looks right."""
    if SOFT_QUOTES.search(line):
        plain = SOFT_QUOTES.sub('"', line)
        return f"quotation marks of a text program; write plain ones: {plain}"
    if line.startswith("[") and "=" not in line:
        return bracket(line)
    found = KEYED.fullmatch(line)
    if found is None:
        key, colon, value = line.partition(":")
        return f"a colon where = belongs; write {key.strip()} = {value.strip()}" if colon else ""
    return by_value(*found.groups())


def bracket(line: str) -> str:
    """What is wrong with a header."""
    inner = line.strip("[] ")
    wanted = f"[[{inner}]]" if line.startswith("[[") or line.endswith("]]") else f"[{inner}]"
    return f"a bracket is missing; write {wanted}" if wanted != line else ""


def by_value(key: str, value: str) -> str:
    """What is wrong with a value."""
    if found := COMMA.fullmatch(value):
        return f"a comma in a number; write a point: {key} = {found[1]}.{found[2]}"
    if found := WITH_UNIT.fullmatch(value):
        return f"{found[2]} behind a number, whose unit stands in its name; write {key} = {found[1]}"
    if (word := value.lower()) in ("true", "false") or word in YES:
        return f"{key} must be true or false, in small letters; write {key} = {YES.get(word, word)}"
    if value.count('"') == 1:
        bare = value.strip('" ')
        return f'a quotation mark is missing; write {key} = "{bare}"'
    if value and value[0].isalpha():
        return f'a text stands in quotation marks; write {key} = "{value}"'
    return ""
