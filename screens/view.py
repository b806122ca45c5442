"""The page that shows a desk: a pure function from desk to lines of (text, role).

Invariant: the desk decides, a page only shows; a page is exactly as tall as the window.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from bench.desk.desk import SMALLEST, Desk
from screens.layout import Line, clipped, line
from screens.look import Look

PageView = Callable[[Desk, Look], list[Line]]
READING = "screens.pages.reading"
MODULES = {
    "jobs": "screens.pages.jobs",
    "step": "screens.pages.step",
    "list": "screens.pages.numbered",
    "pick": "screens.pages.numbered",
    "replacing": "screens.pages.replacing",
    "chapters": "screens.pages.manual",
    "chapter": "screens.pages.manual",
    "drawer": "screens.pages.drawer",
}
"""Modules of the pages that are not plain reading. Each has its pages in a table of its own, PAGES, and is
loaded with the first of them, so that the list of jobs opens at once."""


def view(desk: Desk, look: Look) -> list[Line]:
    """The lines of the page that the desk is on."""
    if desk.too_small:
        words = f"No key counts: {SMALLEST[0]} x {SMALLEST[1]} window needed"
        return [line(clipped(words, max(desk.columns, 1)), "strong")]
    if desk.page == "left":
        return [line("")]
    page: PageView = import_module(MODULES.get(desk.page, READING)).PAGES[desk.page]
    if desk.shop is None or desk.shop.works_in == "mm":
        return page(desk, look)
    from rules.lengths import speaking  # a shop comes with the first job

    with speaking(desk.shop.works_in):
        return page(desk, look)
