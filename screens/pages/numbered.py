"""Numbered lists: "everything else" and the lists one picks from.

Invariant: an entry has the same number on whatever page it stands; nine stand on one page where not all fit.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from bench.desk.entries import NOT_NOW, items
from bench.desk.pages import PAGEFUL, number_at
from screens.layout import Line, Part, clipped, line, page
from screens.look import Look
from screens.pages.frame import bottom, top

ListLine = tuple[int, str, bool]
"""Number, text, and whether it can be chosen now."""


def listing(desk: Desk, look: Look) -> list[Line]:
    """The list "everything else"."""
    return numbered(desk, "everything else", [(one.number, one.text, one.now) for one in items(desk)])


def picking(desk: Desk, look: Look) -> list[Line]:
    """A list to pick from."""
    rows = [(number_at(index), text, True) for index, (_, text) in enumerate(desk.picks)]
    return numbered(desk, "pick one", rows)


def numbered(desk: Desk, heading: str, rows: list[ListLine]) -> list[Line]:
    """The entries with their numbers: all of them, or those of one page and how to see the next."""
    below, last = bottom(desk), rows[-1][0]
    shown = rows
    if len(rows) > PAGEFUL and len(rows) + 2 + len(below) > desk.rows:
        shown = [row for row in rows if row[0] // 10 == desk.offset // PAGEFUL]
        heading = f"{heading} {shown[0][0]}-{shown[-1][0]} of {last}"
    lines = [entry_line(desk, row) for row in shown]
    if shown is not rows:
        beyond = "more" if shown[-1][0] < last else "the first"
        lines.append(line(f"     + shows {beyond}", "note"))
    answer = line(f"  {desk.line.text or '_'}  Enter", "entry")
    return page(
        top(desk, heading),
        [Part([line("")], 2), Part(lines), Part([line(""), answer], 1, [answer])],
        below,
        rows=desk.rows,
    )


def entry_line(desk: Desk, row: ListLine) -> Line:
    """One entry; the one whose number is typed stands out, and one that makes no sense now says so."""
    number, text, now = row
    if not now:
        return line(clipped(f"-{number:2}  {NOT_NOW}{text}", desk.columns), "note")
    role = "chosen" if desk.line.text == str(number) else "ink"
    return line(clipped(f" {number:2}  {text}", desk.columns), role)


PAGES = {"list": listing, "pick": picking}
