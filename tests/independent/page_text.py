"""What the eye takes from a painted page: its sentences without pictures and large figures, the numbered
choices, the blanks to be filled, and whether more stands elsewhere. Imports nothing of the program.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

CHOICE = re.compile(r"  (\d)  (\S.*)")
GOES_ON = re.compile(r"     (\S.*)")
BESIDE = re.compile(r" {3}(?=\d  \S)")
"""Before a choice that stands behind another."""
OVERVIEW = "The job"
GLYPHS = re.compile(r"[\s▀▄█]*((turns?|div|dial|in|mm|rpm|cross slide|carriage|tailstock)[\s▀▄█]*)*")
CHUCK = "chuck"
"""Stands in a picture of the bar where its last line begins."""
PICTURE_FROM = 40
"""A picture of the bar never begins further left."""
SENTENCE = "  "
"""Begins a line of the page itself; the line that says where one is begins further left."""
CAPTION = "turned "
"""The last line of the picture."""
MORE = re.compile(r"\* 1 Enter")
FURTHER = "... + for more"
BLANKS = re.compile(r"  _(?:[_.]*) ?(mm|in|rpm)?$")
POINT = "▀▀"
"""The large point of an empty answer; a digit is wider."""
BLANK_ROW = re.compile(r"  ▀▀(?:[▀ ]*▀▀)?(?: (mm|in|rpm))?$")


@dataclass(frozen=True)
class Seen:
    """A page as it is read."""

    text: str
    """Its sentences in one line, choices left out."""
    after: str
    """The part of them that stands below the choices."""
    choices: dict[int, str]
    lines: tuple[str, ...]
    more: bool
    """Whether it says that the rest stands behind * 1 Enter."""
    unit: str = ""
    """Beside the blanks of an answer."""
    decimals: int | None = None
    """Blanks behind its point; None where no number is asked."""

    def choice(self, *words: str) -> str:
        """The number of the first choice that holds one of these words; empty where none does."""
        return next((str(n) for word in words for n, text in self.choices.items() if word in text), "")


def without_picture(lines: Sequence[str]) -> list[str]:
    """The lines without the picture of the bar beside them."""
    begins = (line.find(CAPTION, PICTURE_FROM) for line in lines)
    at = next((at for at in begins if at > 0 and any(line[at:].startswith(CHUCK) for line in lines)), -1)
    if at < 0:
        return list(lines)
    end = next((n for n, line in enumerate(lines) if line[at:].startswith(CAPTION)), len(lines) - 2)
    return [line[:at].rstrip() if 0 < n <= end else line for n, line in enumerate(lines)]


def without_overview(lines: Sequence[str]) -> list[str]:
    """The lines without the column of a wide window that says how far the job is."""
    at = next((line.find(OVERVIEW) for line in lines[1:5] if line.endswith(OVERVIEW)), -1)
    return [line[:at].rstrip() if at > 0 and 0 < n < len(lines) - 1 else line for n, line in enumerate(lines)]


def apart(line: str) -> list[str]:
    """The choices that a line holds, each as on a line of its own."""
    first, *further = BESIDE.split(line)
    return [first, *(f"  {text}" for text in further)]


def seen(painted: Sequence[str]) -> Seen:
    """A page from its painted lines; the first may say where one is, the last says the keys."""
    lines = without_picture(without_overview([line.rstrip() for line in painted]))
    sentences: list[str] = []
    after: list[str] = []
    choices: dict[int, str] = {}
    open_choice, unit, decimals = 0, "", None
    first = 0 if lines[0].startswith(SENTENCE) else 1
    for line in (piece for text in lines[first:-1] for piece in apart(text)):
        found, further = CHOICE.fullmatch(line), GOES_ON.fullmatch(line)
        if found:
            open_choice = int(found[1])
            choices[open_choice] = found[2]
        elif further and open_choice:
            choices[open_choice] += f" {further[1]}"
        elif (asked := blanks(line)) is not None:
            unit, decimals = asked
        elif GLYPHS.fullmatch(line):
            open_choice = 0
        else:
            open_choice = 0
            sentences.append(line)
            after += [line] if choices else []
    return Seen(
        flat(sentences),
        flat(after),
        choices,
        tuple(lines),
        any(MORE.search(line) for line in lines),
        unit,
        decimals,
    )


def blanks(line: str) -> tuple[str, int] | None:
    """Unit and decimals of the blanks in a line, small or large; None where it has none."""
    if small := BLANKS.fullmatch(line):
        digits = line.strip().partition(" ")[0]
        return small[1] or "", len(digits.partition(".")[2])
    if large := BLANK_ROW.fullmatch(line):
        groups = [group for group in line.strip().split() if group.startswith("▀")]
        point = next((at for at, group in enumerate(groups) if group == POINT), len(groups) - 1)
        return large[1] or "", len(groups) - 1 - point
    return None


def flat(lines: Sequence[str]) -> str:
    """Lines as one."""
    return " ".join(" ".join(lines).split())
