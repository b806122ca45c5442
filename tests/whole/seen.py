"""What a person reads on a page: the whole text, as one line, whatever the size of the window."""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from screens.look import Look
from screens.pages.overview import LEAST
from screens.view import view

LOOK = Look("ascii")


def read(desk: Desk) -> str:
    """The text of the page, its lines joined, one blank where there were more; no second column."""
    narrow = replace(desk, columns=min(desk.columns, LEAST[0] - 1))
    return " ".join(" ".join("".join(text for text, _ in spans) for spans in view(narrow, LOOK)).split())
