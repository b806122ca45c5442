"""The entries of the list "everything else": one table of numbers, the same on every page.

Invariant: a number means one thing for good; what makes no sense now is shown as such and does nothing.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.desk.pages import PAGEFUL, number_at

if TYPE_CHECKING:
    from bench.desk.desk import Desk

PAGES = (
    (
        ("why", "why this is asked, and how it is done"),
        ("usual", "usual values and further readings: look, change"),
        ("replace", "replace an earlier answer"),
        ("sheet", "the sheet as it stands"),
        ("note", "write a note"),
        ("spoiled", "the piece is spoiled: start another {seal}"),
        ("keys", "the keys, and the words used here"),
        ("jobs", "the list of jobs"),
        ("leave", "leave; the job is kept"),
    ),
    (
        ("undo", "take back the last answer"),
        ("note_back", "take back the last note"),
        ("print", "write the sheet to a text file"),
        ("copy", "save a complete copy of the job elsewhere"),
        ("night", "day or night colours"),
        ("bell", "bell at the end of a hold: on or off"),
        ("series", "a gauge sends a stored series: take its readings as they come"),
        ("shop", "my shop: lathe, tools, bars, press, tester"),
    ),
    (
        ("stage", "only jobs of one stage"),
        ("sample", "look at a sample job"),
        ("stop", "stop the questions about the shop: what is not complete is not written"),
        ("result", "only jobs with one result"),
        ("watch", "only watches with a word in one letter"),
        ("manual", "the manual"),
        ("drawer", "the drawer: what was made and not used, and bars"),
        ("like", "a new job like an old one: its parts known, everything measured again"),
    ),
)
"""Page by page, at most nine each; a new entry goes to the end of a page, and none is ever moved."""
NUMBERS = {
    word: number_at(page * PAGEFUL + place)
    for page, entries in enumerate(PAGES)
    for place, (word, _) in enumerate(entries)
}
"""The number of each entry, by its word."""
OF_THE_JOBS = {
    "stage",
    "result",
    "watch",
    "sample",
    "shop",
    "keys",
    "night",
    "leave",
    "manual",
    "drawer",
    "like",
}
"""What makes sense on the list of jobs, and the first four nowhere else."""
OF_THE_SHOP = {"why", "stop", "keys", "night", "leave", "manual"}
"""What makes sense while the shop is asked about."""
WRITING = {"replace", "usual", "note", "note_back", "spoiled", "undo"}
"""What makes no sense in a job that is open to read only."""

NOT_NOW = "not now: "
"""Before the text of an entry that makes no sense now."""


@dataclass(frozen=True, slots=True)
class ListItem:
    """One entry as it stands on the list."""

    number: int
    word: str
    text: str
    now: bool
    """Whether it makes sense now."""


def items(desk: Desk) -> tuple[ListItem, ...]:
    """Every entry, in the order of its number."""
    senseless, seal = not_now(desk), desk.walk.seal if desk.walk is not None else "piece"
    return tuple(
        ListItem(NUMBERS[word], word, said_of(desk, word, text).format(seal=seal), word not in senseless)
        for entries in PAGES
        for word, text in entries
    )


def said_of(desk: Desk, word: str, text: str) -> str:
    """What an entry is called now: that of leaving says what would be left so."""
    return f"leave: STOP, {desk.left_so.partition('.')[0]}" if word == "leave" and desk.left_so else text


def not_now(desk: Desk) -> AbstractSet[str]:
    """The entries that make no sense on this desk."""
    if desk.asked_shop is not None:
        return NUMBERS.keys() - OF_THE_SHOP
    if desk.job is None:
        return NUMBERS.keys() - OF_THE_JOBS
    from bench.seals.several import in_hand  # comes with the first job, not with the list of jobs

    out = {"stage", "result", "watch", "sample", "stop"}
    if desk.walk is None or desk.walk.open is None:
        out |= {"why", "spoiled"}
    one = in_hand(desk.job, desk.walk) if desk.walk is not None else None
    if one is None or desk.walk is None or desk.walk.answer(one.own(one.seal.accepted)) is None:
        out.add("spoiled")
    if desk.sample:
        out.add("like")
    if not desk.writable:
        out |= WRITING
    if not desk.job.notes:
        out.add("note_back")
    if desk.step is None or desk.step.kind != "number" or desk.by_lines:
        out.add("series")
    return out
