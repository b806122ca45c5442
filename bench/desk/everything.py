"""The numbered list "everything else", and the lists one picks from.

Invariant: every item is data; what it does is decided in one place, `choose`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk import shop_asked
from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Effect, ReadShop, Sample, SaveCopy, WriteSheet
from bench.desk.gauges import announce
from bench.desk.pages import PAGEFUL, Outcome, back, over, say, show
from bench.desk.token import Leave
from bench.desk.typed import AnswerLine
from bench.job import keys

if TYPE_CHECKING:
    from bench.job.job import Job

ON_A_STEP = (
    ("why", "why this is asked, and how it is done"),
    ("usual", "usual values and further readings: look, change"),
    ("replace", "replace an earlier answer"),
    ("sheet", "the sheet as it stands"),
    ("note", "write a note"),
    ("spoiled", "the piece is spoiled: start another {seal}"),
    ("keys", "the keys, and the words used here"),
    ("jobs", "the list of jobs"),
    ("leave", "leave; the job is kept"),
    ("undo", "take back the last answer"),
    ("print", "write the sheet to a text file"),
    ("copy", "save a complete copy of the job elsewhere"),
    ("night", "day or night colours"),
    ("bell", "bell at the end of a hold: on or off"),
    ("shop", "my shop: lathe, tools, bars, press, tester"),
    ("series", "a gauge sends a stored series: take its readings as they come"),
)
ON_JOBS = (
    ("stage", "only jobs of one stage"),
    ("sample", "look at a sample job"),
    ("keys", "the keys, and the words used here"),
    ("night", "day or night colours"),
    ("leave", "leave"),
    ("shop", "my shop: lathe, tools, bars, press, tester"),
)
ON_SHOP = (
    ("why", "why this is asked"),
    ("stop", "stop these questions: what is not complete is not written"),
    ("keys", "the keys, and the words used here"),
    ("night", "day or night colours"),
    ("leave", "leave; the job is kept"),
)
EFFECTS: dict[str, Effect] = {
    "jobs": Close(),
    "copy": SaveCopy(),
    "print": WriteSheet(),
    "sample": Sample(),
    "shop": ReadShop(),
}
STAGE_PICKS = (
    ("", "all stages"),
    ("measure", "measure"),
    ("size", "size"),
    ("cut", "cut"),
    ("verify", "verify"),
    ("finished", "finished"),
)


def items(desk: Desk) -> tuple[tuple[str, str], ...]:
    """(word, text) of the entries of the list, as they apply now."""
    if desk.asked_shop is not None:
        return ON_SHOP
    if desk.job is None:
        return ON_JOBS
    from bench.seals import seal_of  # comes with the first job, not with the list of jobs

    seal, left_out = seal_of(desk.job), set()
    if desk.walk is None or desk.walk.answer(seal.accepted) is None:
        left_out.add("spoiled")
    if not desk.writable:
        left_out |= {"replace", "usual", "note", "spoiled", "undo"}
    if desk.walk is None or desk.walk.open is None:
        left_out |= {"why", "spoiled"}
    if desk.step is None or desk.step.kind != "number" or desk.by_lines:
        left_out.add("series")
    return tuple((word, text.format(seal=seal.short)) for word, text in ON_A_STEP if word not in left_out)


def choose(desk: Desk) -> Outcome:
    """Enter on the list."""
    found = picked(desk, items(desk))
    if found is None:
        return say(desk, f"there is no entry {desk.line.text}")
    below = back(replace(desk, line=AnswerLine(), message=""))
    if found == "leave":
        return replace(below, page="left"), (Leave(0, saved_words(desk)),)
    if found == "stop":
        return shop_asked.left_off(below)
    if found in EFFECTS:
        return below, (EFFECTS[found],)
    if found in ("why", "keys", "sheet"):
        return over(below, found), ()
    if found == "night":
        return replace(below, night=not desk.night), ()
    if found == "bell":
        return replace(below, bell=not desk.bell), ()
    if found == "series":
        return announce(below), ()
    if found == "note":
        return replace(below, page="text", trail=(), at=keys.NOTE), ()
    return choose_on_job(desk, below, found)


def choose_on_job(desk: Desk, below: Desk, found: str) -> Outcome:
    """The entries that change the job or open another list."""
    if found == "stage":
        return pick_from(below, STAGE_PICKS)
    walk, job = desk.walk, desk.job
    if walk is None or job is None:
        return below, ()
    if found == "usual":
        return pick_from(
            below, tuple((s.key, f"{title_of(s.title)}: {current(desk, s.key)}") for s in walk.optional)
        )
    if found == "replace":
        answered = tuple(
            (s.key, f"{title_of(s.title)}: {(desk.in_force(s) or a).word}")
            for s, a in walk.shown
            if not s.optional
        )
        return pick_from(below, answered[::-1])
    if found == "spoiled":
        spoiled = Append(keys.SPOILED, f"{walk.seal} {job.attempt}")
        mark = Append(keys.ATTEMPT, f"{walk.seal} {job.attempt + 1}", kind="mark")
        return replace(below, pending=spoiled, then=(mark,), at=""), (spoiled,)
    return take_back(below, job)


def take_back(desk: Desk, job: Job) -> Outcome:
    """Take back the last answer, and a further ring that was begun by it;
    a wrong check and a bad result stay.
    """
    if not job.answers:
        return say(desk, "nothing to take back")
    last = job.answers[-1]
    if last.word == "wrong":
        return say(desk, "a wrong check is not taken back: answer the checks again")
    from bench.job.corrections import bad_result  # comes with the first job, not with the list of jobs
    from bench.seals import seal_of

    if bad_result(last, seal_of(job).fitting):
        return say(desk, "a result such as this is not taken back: / goes back to it, to key it again")
    begun = [mark for mark in reversed(job.marks) if mark.key == keys.ATTEMPT and mark.n > last.n]
    first, *rest = (Append(one.key, one.word, kind="undo", of=one.number) for one in (*begun, last))
    return replace(desk, pending=first, then=tuple(rest), at=""), (first,)


def title_of(title: str) -> str:
    """A title short enough for a list."""
    return title if len(title) <= 44 else title[:42] + ".."


def current(desk: Desk, key: str) -> str:
    """The value of an optional step: the person's, or the usual one marked as assumed."""
    walk = desk.walk
    answer = walk.answer(key) if walk else None
    if answer is not None:
        return answer.word
    step = walk.step(key) if walk else None
    return f"{step.usual} (assumed)" if step and step.usual else "-"


def pick_from(desk: Desk, picks: tuple[tuple[str, str], ...]) -> Outcome:
    """Open a numbered list to pick from."""
    if not picks:
        return say(desk, "there is nothing to pick yet")
    return replace(over(desk, "pick"), picks=picks), ()


def pick(desk: Desk) -> Outcome:
    """Enter on a list to pick from."""
    found = picked(desk, desk.picks)
    if found is None:
        return say(desk, f"there is no entry {desk.line.text}")
    cleared = replace(desk, line=AnswerLine(), message="", picks=(), offset=0)
    if desk.picks == STAGE_PICKS:
        return replace(cleared, page="jobs", trail=(), stage_only=found, scroll=0), ()
    return show(cleared, found)


def picked(desk: Desk, entries: tuple[tuple[str, str], ...]) -> str | None:
    """The word of the entry whose number stands in the line; None where there is none."""
    text = desk.line.text
    index = int(text) - 1 if text.isdigit() else -1
    if not 0 <= index < PAGEFUL or desk.offset + index >= len(entries):
        return None
    return entries[desk.offset + index][0]


def saved_words(desk: Desk) -> str:
    """Where the job is kept, printed on leaving."""
    return f"saved: {desk.file}" if desk.file else ""
