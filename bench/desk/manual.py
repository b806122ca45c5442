"""The manual in the program: its chapters chosen by number, read page by page.

Invariant: reading writes nothing; a page of a chapter follows the one before without a gap.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.pages import Outcome, over, say
from bench.desk.typed import AnswerLine
from bench.manual.chapters import Chapter, chapters
from bench.manual.lines import ManualLine, lines_of

CHAPTERS, CHAPTER = "chapters", "chapter"
"""The page with the list of chapters, and that of one."""
AROUND = 3
"""Rows of a chapter's page that are not its text: title, message, keys."""
ITS_END = "This is the end of the manual."


def choose(desk: Desk) -> Outcome:
    """Enter on the list of chapters."""
    found = next((one for one in chapters() if str(one.number) == desk.line.text), None)
    if found is None:
        return say(desk, f"there is no chapter {desk.line.text}")
    return over(replace(desk, line=AnswerLine(), message="", chapter=found.number), CHAPTER), ()


def chapter_at(desk: Desk) -> Chapter:
    """The chapter that is read."""
    return chapters()[desk.chapter - 1]


def text_of(desk: Desk) -> tuple[ManualLine, ...]:
    """Its lines, as wide as the window."""
    return lines_of(chapter_at(desk), desk.columns - 3, on_screen=True)


def room(desk: Desk) -> int:
    """Lines of the chapter on one page."""
    return max(desk.rows - AROUND, 1)


def read_on(desk: Desk) -> Outcome:
    """The next page; after the last one the next chapter."""
    beyond = desk.scroll + room(desk)
    if beyond < len(text_of(desk)):
        return replace(desk, scroll=beyond), ()
    if desk.chapter == len(chapters()):
        return say(desk, ITS_END)
    return replace(desk, chapter=desk.chapter + 1, scroll=0), ()


def read_back(desk: Desk) -> Outcome:
    """The page before."""
    return replace(desk, message="", scroll=max(desk.scroll - room(desk), 0)), ()
