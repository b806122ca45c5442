"""Hand edits of session files, drawn as wide as people make them: values, words, lines and whole blocks.

Nothing of the program is used here: a file is text, cut at its blocks.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass

HEADER = "\n[[entry]]\n"
VALUE = re.compile(r"^value = (.*)$", re.MULTILINE)
QUOTED = re.compile(r'"((?:[^"\\]|\\.)*)"')
NUMBER = re.compile(r"\d+\.\d+")
WITH_UNIT = re.compile(r"(\d+(?:\.\d+)?) (mm|bar|min|C|%|um|cm3|ug/min)\b")
DATE = re.compile(r"(\d{4})-(\d\d)-(\d\d)T(\d\d:\d\d:\d\d)([+-]\d\d:\d\d)")
CRC = re.compile(r'^crc = "[0-9a-f]{8}"$', re.MULTILINE)
WRONG_WORDS = (
    "maybe",
    "yes",
    "32 43",
    "???",
    "about 3",
    "pass",
    "none",
    "done",
    "ok",
    "see note",
    "n/a",
    "-5",
)


@dataclass(frozen=True)
class Edit:
    """A file after an edit."""

    text: str
    what: str
    blocks: tuple[int, ...]
    """Places of the blocks that were changed, from 0."""
    same_meaning: bool
    """The value is only written otherwise, so that nobody could read it as another one."""


def blocks_of(text: str) -> list[str]:
    """The head, then each block with its header."""
    head, *rest = text.split(HEADER)
    return [head, *(HEADER + one for one in rest)]


def _in_value(block: str, dice: random.Random, change: Callable[[str], str]) -> str:
    """One of the quoted words of the value changed; the block as it is where there is none."""
    found = VALUE.search(block)
    words = list(QUOTED.finditer(found[1])) if found else []
    if found is None or not words:
        return block
    fit = [one for one in words if change(one[1]) != one[1]] or words
    one = dice.choice(fit[:1] * 3 + fit)
    line = found[1][: one.start(1)] + change(one[1]) + found[1][one.end(1) :]
    return block[: found.start(1)] + line + block[found.end(1) :]


def _other_number(text: str, dice: random.Random) -> str:
    found = re.search(r"\d+(?:\.\d+)?", text)
    if found is None:
        return text
    old = found[0]
    factor = dice.choice((10, 0.1, 1.02, 0.98, 2, -1))
    decimals = len(old.partition(".")[2])
    near = f"{float(old) + dice.choice((1, -1, 0.1, -0.1, 17)):.{decimals}f}"
    new = dice.choice((f"{float(old) * factor:.{decimals}f}", near, near, old.replace(".", ""), f"{old}0"))
    return text[: found.start()] + new + text[found.end() :]


def _other_date(text: str, dice: random.Random) -> str:
    found = DATE.search(text)
    if found is None:
        return text
    year, month, day, time, zone = found.groups()
    return dice.choice(
        (
            f"{year}-{day}-{month}T{time}{zone}",
            f"{day}.{month}.{year} {time[:5]}",
            f"{year}-{month}-{int(day) % 28 + 1:02d}T{time}{zone}",
            f"{year}-13-45T{time}{zone}",
            f"{year}-{month}-{day}",
            f"{int(year) + dice.choice((-1, 1, 900))}-{month}-{day}T{time}{zone}",
            "yesterday",
        )
    )


FORMS: dict[str, Callable[[str, random.Random], str]] = {
    "comma": lambda text, _: NUMBER.sub(lambda one: one[0].replace(".", ","), text),
    "no space": lambda text, _: WITH_UNIT.sub(r"\1\2", text),
    "capitals": lambda text, dice: text if DATE.search(text) else dice.choice((text.upper(), text.title())),
    "no unit": lambda text, _: WITH_UNIT.sub(r"\1", text),
    "blank": lambda text, dice: dice.choice((f" {text}", f"{text} ", text.replace(" ", "  "))),
    "date otherwise": lambda text, _: DATE.sub(r"\1-\2-\3 \4\5", text),
}
"""The same value, written otherwise."""
CONTENTS: dict[str, Callable[[str, random.Random], str]] = {
    "number": _other_number,
    "word": lambda _, dice: dice.choice(WRONG_WORDS),
    "letters": lambda text, dice: text[: (at := dice.randrange(len(text) + 1))] + text[at + 1 :],
    "unit": lambda text, dice: WITH_UNIT.sub(
        lambda one: f"{one[1]} {dice.choice(('cm', 'in', 'psi'))}", text
    ),
    "date": _other_date,
    "empty": lambda _, __: "",
    "hundred": lambda _, __: "9" * 120,
    "odd signs": lambda text, dice: text + dice.choice(("\\u202e", "\\u001b[2J", "µ", "½", "٣")),
}
"""Another value."""


def _whole_value(block: str, dice: random.Random) -> str:
    new = dice.choice(
        (
            "32.43",
            "32,43",
            "32.43 mm",
            '"32.43 mm',
            "true",
            "[]",
            '["a"]',
            "7",
            "nan",
            "1979-05-27",
            '"""x"""',
        )
    )
    return VALUE.sub(lambda _: f"value = {new}", block, count=1)


def _list(block: str, dice: random.Random) -> str:
    found = VALUE.search(block)
    items = re.findall(r'"(?:[^"\\]|\\.)*"', found[1]) if found else []
    if found is None or not items:
        return block
    at = dice.randrange(len(items))
    match dice.randrange(4):
        case 0:
            del items[at]
        case 1:
            items.insert(at, dice.choice(('"more"', '"3 bar"', '"squeeze 9 %"')))
        case 2:
            items.append(items[at])
        case _:
            dice.shuffle(items)
    return block[: found.start(1)] + "[" + ", ".join(items) + "]" + block[found.end(1) :]


def _line(block: str, dice: random.Random) -> str:
    lines = block.split("\n")
    at = dice.choice([n for n, line in enumerate(lines) if line])
    match dice.randrange(3):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[at])
        case _:
            lines.insert(at, dice.choice(("corrected 3 May", "# corrected", "value = 3", "note = 'x'")))
    return "\n".join(lines)


def _field(block: str, dice: random.Random) -> str:
    name, new = dice.choice(
        (
            ("key", '"case_bore_9"'),
            ("key", '"Case_Bore_1"'),
            ("key", '"case_bor_1"'),
            ("key", '"glass_1"'),
            ("key", '"sitting"'),
            ("key", '"cased_result"'),
            ("key", '"ring"'),
            ("kind", '"note"'),
            ("kind", '"mark"'),
            ("kind", '"Answer"'),
            ("kind", '"undo"'),
            ("n", "3"),
            ("n", "999"),
            ("n", '"7"'),
            ("at", '"3 May"'),
            ("at", '"2026-02-30T10:00:00+00:00"'),
            ("at", "2026-02-03"),
        )
    )
    return re.sub(rf"^{name} = .*$", lambda _: f"{name} = {new}", block, count=1, flags=re.MULTILINE)


IN_BLOCKS = {"whole value": _whole_value, "list": _list, "line": _line, "field": _field}


def _signed(block: str, dice: random.Random) -> str:
    """What the person did about the checksum: mostly what the first line of the file says."""
    new = dice.choice(
        ['crc = "hand"'] * 6 + [None, None, "crc = 'hand'", 'crc="hand"  # mine', 'crc = "Hand"', ""]
    )
    return block if new is None else CRC.sub(lambda _: new, block, count=1)


def _moved(blocks: list[str], dice: random.Random) -> str:
    """Whole blocks: taken out, doubled, put elsewhere."""
    at = dice.randrange(1, len(blocks))
    match dice.randrange(4):
        case 0:
            del blocks[at]
        case 1:
            del blocks[at : at + dice.randint(2, 4)]
        case 2:
            blocks.insert(at, blocks[at])
        case _:
            other = dice.randrange(1, len(blocks))
            blocks[at], blocks[other] = blocks[other], blocks[at]
    return "".join(blocks)


def draw(text: str, dice: random.Random) -> Edit:
    """One edit of a session file; of one block, of a few, or of the order of blocks."""
    blocks = blocks_of(text)
    if len(blocks) > 2 and dice.random() < 0.08:
        return Edit(_moved(blocks, dice), "block", (), False)
    same, what = dice.random() < 0.4, ""
    count = dice.choice((1, 1, 1, 1, 2, 3)) if not same else 1
    places = tuple(sorted(dice.sample(range(1, len(blocks)), min(count, len(blocks) - 1))))
    for at in places:
        table = FORMS if same else CONTENTS
        if not same and dice.random() < 0.35:
            what = dice.choice(list(IN_BLOCKS))
            edited = IN_BLOCKS[what](blocks[at], dice)
        else:
            what = dice.choice(list(table))
            change = table[what]
            edited = _in_value(blocks[at], dice, lambda word, change=change: change(word, dice))  # type: ignore[misc]
        blocks[at] = _signed(edited, dice)
    return Edit("".join(blocks), what, places, same)
