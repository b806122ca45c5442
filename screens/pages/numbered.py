"""Numbered lists: "everything else" and the lists one picks from.

Invariant: nine entries at most are shown, numbered 1 to 9; + shows the next nine.
"""

from __future__ import annotations

from bench.desk import everything
from bench.desk.desk import Desk
from bench.desk.pages import PAGEFUL
from screens.layout import Line, Part, clipped, line, page
from screens.look import Look
from screens.pages.frame import bottom, top


def listing(desk: Desk, look: Look) -> list[Line]:
    """The list "everything else"."""
    return numbered(desk, "everything else", tuple(text for _, text in everything.items(desk)))


def picking(desk: Desk, look: Look) -> list[Line]:
    """A list to pick from."""
    return numbered(desk, "pick one", tuple(text for _, text in desk.picks))


def numbered(desk: Desk, heading: str, entries: tuple[str, ...]) -> list[Line]:
    """Nine entries with their numbers, and how many there are in all."""
    shown = entries[desk.offset : desk.offset + PAGEFUL]
    lines = [
        line(clipped(f"  {number}  {text}", desk.columns), chosen(desk, number))
        for number, text in enumerate(shown, 1)
    ]
    if len(entries) > PAGEFUL:
        last = desk.offset + len(shown)
        beyond = "more" if last < len(entries) else "the first"
        heading = f"{heading} {desk.offset + 1}-{last} of {len(entries)}"
        lines.append(line(f"     + shows {beyond}", "note"))
    answer = line(f"  {desk.line.text or '_'}  Enter", "entry")
    return page(
        top(desk, heading),
        [Part([line("")], 2), Part(lines), Part([line(""), answer], 1)],
        bottom(desk),
        rows=desk.rows,
    )


def chosen(desk: Desk, number: int) -> str:
    """The role of an entry: the one whose number is typed stands out."""
    return "chosen" if desk.line.text == str(number) else "ink"


PAGES = {"list": listing, "pick": picking}
