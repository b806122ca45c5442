"""Lines of (text, role) and how they are wrapped, clipped and put together.

Invariant: no line is wider than the window, and a page is never taller.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from rich.cells import cell_len, chop_cells, set_cell_size

Span = tuple[str, str]
Line = list[Span]


WITH_UNIT = re.compile(
    r"(?<=\d) (?=(?:mm|in|um|rpm|div|turns?)\b)|(?<=\d turn) (?=\d)|(?<=\d turns) (?=\d)|(?<=\btool) (?=\d)"
)
"""The blanks inside a figure and between it and its unit: never the end of a line."""
HOLD = "\u00a0"


def line(text: str, role: str = "ink") -> Line:
    """A line of one role."""
    return [(text, role)]


def wrapped(text: str, columns: int, role: str = "ink", *, hang: str = "") -> list[Line]:
    """A text over as many lines as it needs; lines after the first begin with `hang`."""
    return [line(piece, role) for piece in folded(text, max(columns, 8), hang)]


@lru_cache(maxsize=256)
def folded(text: str, columns: int, hang: str) -> tuple[str, ...]:
    """The same, as text alone; a page asks for most of it again at every key."""
    held = WITH_UNIT.sub(HOLD, text)
    pieces = textwrap.wrap(held, columns, subsequent_indent=hang, break_on_hyphens=False) or [""]
    return tuple(cut for one in pieces for cut in by_cells(one.replace(HOLD, " "), columns, hang))


def by_cells(text: str, columns: int, hang: str) -> list[str]:
    """A line counted by characters, folded again where its characters are wider than one cell."""
    if cell_len(text) <= columns:
        return [text]
    first, *rest = chop_cells(text, columns - len(hang))
    return [first, *(hang + piece.lstrip() for piece in rest)]


def clipped(text: str, columns: int) -> str:
    """The text cut to the width, with a sign that something is missing."""
    if cell_len(text) <= columns:
        return text
    return set_cell_size(text, max(columns - 2, 0)) + ".."[: max(columns, 0)]


def width(spans: Iterable[Span]) -> int:
    """Cells that a line takes."""
    return sum(cell_len(text) for text, _ in spans)


def apart(left: str, right: str, columns: int, role: str) -> Line:
    """Left and right text on one line of full width; the left one gives way."""
    room = columns - cell_len(right) - 1
    return (
        line(set_cell_size(clipped(left, room), room) + " " + right, role)
        if room > 3
        else line(clipped(left, columns), role)
    )


def beside(left: Sequence[Line], right: Sequence[str], *, at: int, role: str) -> list[Line]:
    """A block of plain lines set beside lines, its left edge at a column."""
    out = []
    for index in range(max(len(left), len(right))):
        spans = list(left[index]) if index < len(left) else []
        if index < len(right):
            spans.append((" " * max(at - width(spans), 1), "ink"))
            spans.append((right[index], role))
        out.append(spans)
    return out


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a page, and when it is left out: 0 never, the highest number first."""

    lines: Sequence[Line]
    expendable: int = 0
    short: Sequence[Line] = field(default=())
    """What is shown instead when there is no room."""
    least: Sequence[Line] = field(default=())
    """What is left when there is no room for more than a line or two of it."""
    whole: bool = False
    """Shown whole or not at all (or by `least`), such as a drawing."""
    ends: bool = False
    """Its end matters most: cut from the front."""
    kept: int = -1
    """When it is cut, where that is later than its turn to be shortened; -1: at the same turn."""

    @property
    def turn(self) -> int:
        """When it is cut: 0 never, the highest number first."""
        return self.expendable if self.kept < 0 else self.kept


SPARE = 6
"""Parts from this number on are extras: they are cut before an answer is shown small."""
READ = 3
"""Parts from this number on are cut before choices are packed."""


def fitted(parts: Sequence[Part], rows: int) -> list[Line]:
    """The parts in their order, cut to the rows."""
    return [list(one) for lines in as_fit(parts, rows) for one in lines][:rows]


def left_out(parts: Sequence[Part], rows: int) -> bool:
    """Whether a word of a part is not there when they are cut to the rows; a short form says enough."""
    shown = as_fit(parts, rows)
    if sum(map(len, shown)) > rows:
        return True
    fit = zip(parts, shown, strict=True)
    return any(
        not (part.short and lines is part.short) and not words_of(part.lines) <= words_of(lines)
        for part, lines in fit
    )


def words_of(lines: Sequence[Line]) -> set[str]:
    """The words of some lines, drawings left out."""
    return {word for one in lines for word in text_of(one).split() if any(map(str.isalnum, word))}


def as_fit(parts: Sequence[Part], rows: int) -> list[Sequence[Line]]:
    """The lines of each part that fit the rows.

    What has a short form is shortened, the highest number first; then extras are cut, blank lines
    dropped, the answer shown small; then the rest is cut as far as READ, choices are packed, and at
    last what is read is cut, and choices where even so they do not fit. A part that is cut ends with a
    sign that more follows.
    """
    shown: dict[int, Sequence[Line]] = {index: part.lines for index, part in enumerate(parts)}

    def over() -> int:
        return sum(map(len, shown.values())) - rows

    def shorten(low: int, high: int) -> None:
        for index in sorted(shown, key=lambda at: -parts[at].expendable):
            if over() > 0 and low <= parts[index].expendable <= high and parts[index].short:
                shown[index] = parts[index].short

    def cut_from(low: int) -> None:
        for index in sorted(shown, key=lambda at: -parts[at].turn):
            part = parts[index]
            if over() > 0 and part.turn >= low:
                shorter = cut_front if part.ends else cut
                shown[index] = (not part.whole and shorter(shown[index], over())) or part.least

    shorten(2, SPARE)
    cut_from(SPARE)
    for index in sorted(shown, key=lambda at: -parts[at].expendable):
        if over() > 0 and shown[index] and not text_of(shown[index][0]).strip():
            shown[index] = shown[index][1:]
    shorten(1, 1)
    cut_from(READ)
    shorten(0, 0)
    cut_from(1)
    for index in shown:
        if over() > 0 and parts[index].turn == 0 and parts[index].least:
            shown[index] = parts[index].least
    return [shown[index] for index in sorted(shown)]


def text_of(spans: Line) -> str:
    """The text of a line."""
    return "".join(text for text, _ in spans)


def cut(lines: Sequence[Line], many: int) -> Sequence[Line]:
    """Lines with the last ones taken away and a sign that they were;
    all of them when hardly one would be left.
    """
    kept = [list(one) for one in lines[: max(len(lines) - many, 0)]]
    if not any(text.strip() for spans in kept for text, _ in spans):
        return []
    last_text, role = kept[-1][-1] if kept[-1] else ("", "note")
    shorter = last_text[:-4].rstrip() if len(last_text) > 20 else last_text  # the sign makes no line wider
    kept[-1] = [*kept[-1][:-1], (f"{shorter} ...", role)]
    return kept


WHOLE = line("  ... the whole: * 1 Enter", "note")


def cut_front(lines: Sequence[Line], many: int) -> Sequence[Line]:
    """Lines with the first ones taken away and a sign of it, and where the whole stands."""
    return [WHOLE, *lines[many + 1 :]] if len(lines) > many else []


def page(top: Sequence[Line], parts: Sequence[Part], bottom: Sequence[Line], *, rows: int) -> list[Line]:
    """A page of exactly `rows` lines: top and bottom fixed, the parts between as they fit."""
    room = max(rows - len(top) - len(bottom), 0)
    middle = fitted(parts, room)
    middle += [line("") for _ in range(room - len(middle))]
    return [*map(list, top), *middle, *map(list, bottom)][:rows]


def scrolled(body: Sequence[Line], first: int, room: int) -> tuple[list[Line], bool]:
    """The part of a long text that is shown from line `first`, and whether more follows below."""
    start = min(max(first, 0), max(len(body) - room, 0))
    return [list(one) for one in body[start : start + room]], start + room < len(body)
