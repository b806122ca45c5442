"""Every page at 80 x 24 against the text kept of it."""

from __future__ import annotations

import difflib

from tests.screens.album import album
from tests.screens.make_golden import kept, text_of_pages


def test_pages_are_as_they_were_kept() -> None:
    """`python -m tests.screens.make_golden` keeps them anew, once the difference was looked at."""
    old, new = kept(), text_of_pages()
    changed = [
        "\n".join((f"==== {heading}", *difflib.unified_diff(before, after, lineterm="", n=1)))
        for heading in dict.fromkeys((*old, *new))
        if (before := old.get(heading, "").splitlines()) != (after := new.get(heading, "").splitlines())
    ]
    assert not changed, f"{len(changed)} pages changed\n" + "\n".join(changed)


def test_the_album_holds_every_page() -> None:
    pages = {desk.page for desk in album().values()}
    assert pages == {
        "jobs",
        "step",
        "list",
        "pick",
        "why",
        "keys",
        "sheet",
        "account",
        "damage",
        "text",
        "replacing",
    }
    kinds = {desk.step.kind for desk in album().values() if desk.step is not None}
    assert kinds >= {"number", "choice", "safety", "action", "timer", "result", "text"}
    assert len(album()) > 150
