"""The QR code by which a scanner that types opens a job: the number of the job and nothing else.

Invariant: version 1 with the highest correction (ISO/IEC 18004), which the longest number fits; the quiet
zone around it is part of its place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.paper.page import NotOnPaper, Paper

if TYPE_CHECKING:
    from collections.abc import Sequence

MODULE_MM = 0.5
"""Four dots of a label printer with 203 to the inch."""
QUIET = 4
"""Modules that stay white all round (ISO/IEC 18004)."""
SIDE_MM = (21 + 2 * QUIET) * MODULE_MM
"""What the code takes of the paper, quiet zone included."""


def modules(number: int) -> Sequence[Sequence[int]]:
    """The rows of the code, 1 for a dark module; raises NotOnPaper without the library for it."""
    try:
        import segno
    except ImportError as why:
        raise NotOnPaper("a slip needs the library segno; install ringwright with its extra 'paper'") from why
    return tuple(segno.make(str(number), version=1, error="h", mode="numeric", boost_error=False).matrix)


def draw_code(paper: Paper, number: int, *, left: float, top: float) -> None:
    """Print the code with its quiet zone at a place, mm; dark modules side by side as one bar."""
    paper.pdf.set_fill_color(0)
    for row, line in enumerate(modules(number)):
        y = top + (QUIET + row) * MODULE_MM
        ends = [at for at in range(len(line) + 1) if (0, *line, 0)[at] != (0, *line, 0)[at + 1]]
        for start, end in zip(ends[::2], ends[1::2], strict=True):
            x = left + (QUIET + start) * MODULE_MM
            paper.pdf.rect(x, y, (end - start) * MODULE_MM, MODULE_MM, style="F")
