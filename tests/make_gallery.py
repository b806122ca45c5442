"""`python -m tests.make_gallery`: the pages of a straight job in four windows, as text and contact sheets.

`gallery/COLUMNSxROWS.txt` holds the pages one under the other, `gallery/COLUMNSxROWS.svg` beside each other.
"""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from functools import lru_cache
from html import escape
from itertools import accumulate
from pathlib import Path

from rich.cells import cell_len

from bench.desk.desk import Desk
from screens.layout import Line, text_of
from screens.look import Look
from screens.theme import PALETTES
from screens.view import view
from tests.screens.walk import at_size
from tests.whole.page_words import pages

TARGET = Path(__file__).resolve().parent.parent / "gallery"
SIZES = ((40, 12), (80, 24), (100, 30), (132, 43))
"""Columns and rows of the windows."""
ACROSS = 6
"""Pages beside each other."""
CELL, HIGH, GAP = 6, 12, 12
"""Width and height of a cell and the room round a page, in units of the drawing."""
PAINT = PALETTES["day"]
HEAD = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}">
<style>text {{ font: 10px "DejaVu Sans Mono", Menlo, Consolas, monospace; white-space: pre }}</style>
<rect width="100%" height="100%" fill="#8a8a8a"/>
"""


@lru_cache(maxsize=1)
def straight() -> tuple[Desk, ...]:
    """Each page of the straight job, with nothing typed."""
    with tempfile.TemporaryDirectory() as folder:
        return tuple(pages(Path(folder)))


def painted(desk: Desk, size: tuple[int, int]) -> list[Line]:
    """A page in a window."""
    return view(at_size(desk, *size), Look("half"))


def text(size: tuple[int, int]) -> str:
    """Every page one under the other, each under the key of its step."""
    out = []
    for desk in straight():
        out.append(f"== {desk.step.key if desk.step else desk.page}")
        out += [text_of(one).rstrip() for one in painted(desk, size)]
    return "\n".join(out) + "\n"


def cells(one: Line, row: int) -> str:
    """One painted line: what is not on plain paper, then its letters."""
    drawn, y = "", row * HIGH
    starts = accumulate((cell_len(piece) for piece, _ in one), initial=0)
    for (piece, role), start in zip(one, starts, strict=False):
        paint, x, long = PAINT[role], start * CELL, cell_len(piece) * CELL
        if paint.paper != PAINT["ink"].paper:
            drawn += f'<rect x="{x}" y="{y}" width="{long}" height="{HIGH}" fill="{paint.paper}"/>'
        if piece.strip():
            weight = ' font-weight="bold"' if paint.bold else ""
            drawn += f'<text x="{x}" y="{y + 9}" fill="{paint.ink}"{weight} textLength="{long}">'
            drawn += f"{escape(piece)}</text>"
    return drawn


def sheet(size: tuple[int, int], desks: Sequence[Desk]) -> str:
    """Every page beside and under the others, as one drawing."""
    wide, high = size[0] * CELL + GAP, size[1] * HIGH + GAP
    down = -(-len(desks) // ACROSS)
    out = HEAD.format(wide=ACROSS * wide + GAP, high=down * high + GAP)
    for at, desk in enumerate(desks):
        x, y = GAP + at % ACROSS * wide, GAP + at // ACROSS * high
        out += f'<g transform="translate({x} {y})"><rect width="{wide - GAP}" height="{high - GAP}" '
        out += f'fill="{PAINT["ink"].paper}"/>'
        out += "\n".join(
            cells(one, row) for row, one in enumerate(painted(desk, size)) if text_of(one).strip()
        )
        out += "</g>\n"
    return out + "</svg>\n"


def main() -> None:
    """Write text and contact sheet of every window."""
    TARGET.mkdir(exist_ok=True)
    for size in SIZES:
        name = f"{size[0]}x{size[1]}"
        (TARGET / f"{name}.txt").write_text(text(size), encoding="utf-8")
        (TARGET / f"{name}.svg").write_text(sheet(size, straight()), encoding="utf-8")
        print(f"gallery/{name}.txt, gallery/{name}.svg")


if __name__ == "__main__":
    main()
