"""The page of the drawer: what lies there, read from the jobs.

Invariant: it is only read; + goes through what does not fit.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from bench.job.drawer_said import EMPTY, drawer_words
from bench.job.in_drawer import Drawer
from screens.layout import Line, line
from screens.look import Look
from screens.pages.reading import paragraph, read


def drawer(desk: Desk, look: Look) -> list[Line]:
    """Rings that no job has used, and what is left of bars."""
    body: list[Line] = []
    for heading, lines in drawer_words(desk.drawer or Drawer((), ())):
        body += [*([line("")] if body else []), line(f"  {heading}", "strong")]
        body += [piece for text in lines for piece in paragraph(text, desk)]
    return read(desk, "the drawer", body or paragraph(EMPTY, desk))


PAGES = {"drawer": drawer}
