"""The page that shows a desk: a pure function from desk to lines of (text, role).

Invariant: the desk decides, a page only shows; a page is exactly as tall as the window.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from bench.desk.desk import SMALLEST, Desk
from screens.layout import Line, clipped, line
from screens.pages.frame import Look

Page = Callable[[Desk, Look], list[Line]]
PAGES = {
    "jobs": ("screens.pages.jobs", "jobs"),
    "step": ("screens.pages.step", "step_page"),
    "list": ("screens.pages.numbered", "listing"),
    "pick": ("screens.pages.numbered", "picking"),
    "why": ("screens.pages.reading", "why"),
    "keys": ("screens.pages.reading", "keys"),
    "sheet": ("screens.pages.reading", "sheet"),
    "account": ("screens.pages.reading", "account"),
    "damage": ("screens.pages.reading", "damage"),
    "text": ("screens.pages.reading", "writing"),
}
"""Module and name of each page; loaded with the first page of it, so that the list of jobs opens at once."""


def view(desk: Desk, look: Look) -> list[Line]:
    """The lines of the page that the desk is on."""
    if desk.too_small:
        words = f"No key counts: {SMALLEST[0]} x {SMALLEST[1]} window needed"
        return [line(clipped(words, max(desk.columns, 1)), "strong")]
    if desk.page == "left":
        return [line("")]
    module, name = PAGES[desk.page]
    page: Page = getattr(import_module(module), name)
    return page(desk, look)
