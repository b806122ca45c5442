"""The numbered list "everything else", and the lists one picks from.

Invariant: what an entry does is decided in one place, `chosen`; what cannot be taken back asks first.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import PurePath
from typing import TYPE_CHECKING

from bench.desk import shop_asked, sure
from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Effect, LookIn, ReadShop, Sample, SaveCopy, Start, WriteSheet
from bench.desk.entries import NOT_NOW, items
from bench.desk.finding import DUE, DUE_WORDS, LETTERS, OTHER, UNTESTED
from bench.desk.gauges import announce
from bench.desk.jobs_page import HOW_LIKE
from bench.desk.manual import CHAPTERS
from bench.desk.pages import Outcome, back, index_at, over, say, show
from bench.desk.token import Leave
from bench.desk.typed import AnswerLine
from bench.found_by import SAID
from bench.job import further, keys
from bench.job.begun import is_attempt, is_spoiled

if TYPE_CHECKING:
    from bench.job.job import Answer, Job
    from bench.job.route import Walk
    from bench.job.steps import Step

EFFECTS: dict[str, Effect] = {
    "jobs": Close(),
    "copy": SaveCopy(),
    "print": WriteSheet(),
    "sample": Sample(),
    "shop": ReadShop(),
    "drawer": LookIn(),
}
PICKS = {
    "stage": (
        ("", "all stages"),
        ("measure", "measure"),
        ("size", "size"),
        ("cut", "cut"),
        ("verify", "verify"),
        ("finished", "finished"),
    ),
    "result": (("", "all results"), *((word, word) for word in (*SAID.values(), UNTESTED)), (DUE, DUE_WORDS)),
    "watch": (("", "all watches"), *((letter, letter) for letter in (*LETTERS, OTHER))),
    "note": (
        (keys.SHOP_NOTE, "for the workshop alone"),
        (keys.NOTE, "for the customer too: it is printed on the sheet"),
    ),
}
"""What is picked from under an entry that always offers the same."""


def choose(desk: Desk) -> Outcome:
    """Enter on the list."""
    found = next((item for item in items(desk) if str(item.number) == desk.line.text), None)
    if found is None:
        return say(desk, f"there is no entry {desk.line.text}")
    if not found.now:
        return say(desk, f"{NOT_NOW}{found.text}")
    return chosen(back(replace(desk, line=AnswerLine(), message="")), found.word)


def chosen(desk: Desk, word: str) -> Outcome:
    """What an entry does, on the page that the list lay over."""
    if word == "leave":
        last = Leave(0, saved_words(desk))
        if desk.left_so:
            return sure.of_leaving(desk, word, "leave all the same", last)
        return replace(desk, page="left"), (last,)
    if word == "jobs" and desk.left_so:
        return sure.of_leaving(desk, word, "to the list of jobs all the same", EFFECTS[word])
    if word == "like":
        return of_like(desk)
    if word == "stop":
        return shop_asked.left_off(desk)
    if word in EFFECTS:
        return desk, (EFFECTS[word],)
    if word in ("why", "keys", "sheet"):
        return over(desk, word), ()
    if word == "manual":
        return over(desk, CHAPTERS), ()
    if word == "night":
        return replace(desk, night=not desk.night, night_chosen=True), ()
    if word == "bell":
        return replace(desk, bell=not desk.bell), ()
    if word == "series":
        return announce(desk), ()
    if word in PICKS:
        return pick_from(desk, PICKS[word])
    assert desk.walk is not None and desk.job is not None, f"{word} makes no sense without a job"
    return on_a_job(desk, desk.walk, desk.job, word)


def of_like(desk: Desk) -> Outcome:
    """A new job like the one that is open; on the list of jobs, how it is keyed."""
    if desk.job is None:
        return say(desk, HOW_LIKE)
    begun = Start(like=PurePath(desk.file).name)
    if desk.left_so:
        return sure.of_leaving(desk, "like", "to a new job all the same", begun)
    return desk, (begun,)


def on_a_job(desk: Desk, walk: Walk, job: Job, word: str) -> Outcome:
    """The entries that change the job or open another list."""
    if word == "usual":
        return pick_from(
            desk, tuple((s.key, f"{title_of(s.title)}: {current(desk, s)}") for s in walk.optional)
        )
    if word == "replace":
        answered = tuple(
            (s.key, f"{titled(s)}: {s.in_words((desk.in_force(s) or a).word)}")
            for s, a in walk.shown
            if not s.optional
        )
        return pick_from(desk, answered[::-1])
    if word == "spoiled":
        return sure.of_another(desk, walk, job)
    if word == "note_back":
        note = job.notes[-1]
        return sure.if_over(desk, (Append(note.key, note.word, kind="undo", of=note.number),), note.word)
    return take_back(desk, job)


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
    from bench.seals.several import of_key

    about = of_key(job, last.key)
    if bad_result(replace(last, key=further.theirs(about.number, last.key)), about.seal.fitting):
        return say(desk, "a result such as this is not taken back: / goes back to it, to key it again")
    begun = [mark for mark in reversed(job.marks) if is_attempt(mark.key) and mark.n > last.n]
    taken = tuple(Append(one.key, one.word, kind="undo", of=one.number) for one in (*begun, last))
    one = of_key(job, begun[0].key) if begun else about
    not_begun = f"; {one.seal.short} {one.job.attempt} is not begun" if begun else ""
    return sure.if_over(desk, taken, said_of(desk.walk, last) + not_begun)


def said_of(walk: Walk | None, answer: Answer) -> str:
    """An answer with its question, as a person reads them."""
    if is_spoiled(answer.key):
        return f"{answer.word} was given up as spoiled"
    asked = walk.asked_by(answer) if walk is not None else None
    return asked.with_answer(answer.word) if asked is not None else "an answer that does not count now"


def title_of(title: str) -> str:
    """A title short enough for a list."""
    return title if len(title) <= 44 else title[:42] + ".."


def titled(step: Step) -> str:
    """A step in a list of answers: its title, of passes at the lathe with the figure they began with."""
    figure = next((one.figure for one in step.targets if one.figure), "")
    return title_of(f"{step.title.partition(':')[0]}, from {figure}" if figure else step.title)


def current(desk: Desk, step: Step) -> str:
    """The value of an optional step: the person's, or the usual one marked as assumed."""
    answer = desk.walk.answer(step.key) if desk.walk else None
    if answer is not None:
        return step.in_words(answer.word)
    return f"{step.in_words(step.usual)} (assumed)" if step.usual else "-"


def pick_from(desk: Desk, picks: tuple[tuple[str, str], ...]) -> Outcome:
    """Open a numbered list to pick from."""
    if not picks:
        return say(desk, "there is nothing to pick yet")
    return replace(over(desk, "pick"), picks=picks), ()


def pick(desk: Desk) -> Outcome:
    """Enter on a list to pick from."""
    text = desk.line.text
    index = index_at(int(text)) if text.isdigit() else None
    if index is None or index >= len(desk.picks):
        return say(desk, f"there is no entry {text}")
    found = desk.picks[index][0]
    cleared = replace(desk, line=AnswerLine(), message="", picks=(), offset=0)
    if desk.picks in (PICKS["stage"], PICKS["result"], PICKS["watch"]):
        listed = replace(cleared, page="jobs", trail=(), scroll=0)
        if desk.picks == PICKS["stage"]:
            return replace(listed, stage_only=found), ()
        if desk.picks == PICKS["result"]:
            return replace(listed, result_only=found), ()
        return replace(listed, watch_only=found), ()
    if desk.picks == PICKS["note"]:
        return replace(cleared, page="text", trail=(), at=found), ()
    return show(cleared, found)


def saved_words(desk: Desk) -> str:
    """Where the job is kept, printed on leaving."""
    if not desk.file:
        return ""
    so = f"\nSTOP  the case is {desk.left_so}" if desk.left_so else ""
    return f"saved: {desk.file}{so}"
