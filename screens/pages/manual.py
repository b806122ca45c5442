"""The pages of the manual: its chapters by number, and one chapter.

Invariant: a chapter is shown page by page and whole; nothing of it is cut off.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from bench.desk.manual import CHAPTER, CHAPTERS, chapter_at, room, text_of
from bench.manual.chapters import chapters
from screens.layout import Line, Part, line, page
from screens.look import Look
from screens.pages.frame import message, top
from screens.pages.numbered import numbered

KEYS = ("/ to the chapters   + reads on   - the page before", "/ chapters   + reads on   - back")
"""The keys of a chapter, as many words as there is room for."""


def listed(desk: Desk, look: Look) -> list[Line]:
    """The chapters by their numbers."""
    return numbered(desk, "the manual", [(one.number, one.title, True) for one in chapters()])


def chapter(desk: Desk, look: Look) -> list[Line]:
    """A page of one chapter."""
    found, text = chapter_at(desk), text_of(desk)
    pages, at = -(-len(text) // room(desk)), desk.scroll // room(desk) + 1
    shown = [line(f"  {words}", role) for words, role in text[desk.scroll : desk.scroll + room(desk)]]
    keys = next(one for one in KEYS if len(one) < desk.columns - 1)
    below = [*message(desk)[:1], line(f" {keys}".ljust(desk.columns), "key")]
    heading = f"{found.number} {found.title}, {at} of {pages}"
    return page(top(desk, heading), [Part(shown)], below, rows=desk.rows)


PAGES = {CHAPTERS: listed, CHAPTER: chapter}
