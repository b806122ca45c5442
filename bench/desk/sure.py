"""What cannot be taken back, or would change a finished job, is asked first.

Invariant: nothing is written until the person has chosen; leaving it comes first.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk.desk import Desk
from bench.desk.effects import Append, Effect
from bench.desk.foreseen import ahead
from bench.desk.pages import Outcome, over
from bench.desk.replacing import LEAVE, PAGE, Sure, Way, answers

if TYPE_CHECKING:
    from bench.job.job import Job
    from bench.job.route import Walk


def of_another(desk: Desk, walk: Walk, job: Job) -> Outcome:
    """Another piece is to be begun: what stops counting with the spoiled one."""
    from bench.job.stopping import counted  # comes with the first job, not with the list of jobs
    from bench.seals.several import in_hand

    one = in_hand(job, walk)
    begin = one.seal.again.begin
    spoiled = Append(one.own(begin.spoiled), f"{walk.seal} {walk.piece}")
    mark = Append(one.own(begin.attempt), f"{walk.seal} {walk.piece + 1}", kind="mark")
    kept = {answer.n for _, answer in ahead(desk, spoiled, mark).done}
    lost = tuple(step for step, answer in walk.done if answer.n not in kept and step.kind != "mark")
    said = (
        f"CHECK  {walk.seal} {walk.piece} is given up",
        f"{answers(len(lost))} {'stops' if len(lost) == 1 else 'stop'} counting; all stays in the file",
        *counted(lost),
    )
    do = Way("spoiled", f"it is spoiled: start {walk.seal} {walk.piece + 1}", (spoiled, mark))
    return asked(desk, Sure("start another", said, (LEAVE, do)))


def if_over(desk: Desk, entries: tuple[Append, ...], what: str) -> Outcome:
    """An answer or a note, in words, is taken back: asked first where the job is finished, else at once."""
    taken = f"Taken back: {what}"
    if desk.walk is None or desk.walk.open is not None:
        first, *rest = entries
        return replace(desk, pending=first, then=tuple(rest), at="", message=taken), (first,)
    said = ("CHECK  this job is finished", f"What is taken back: {what}", "The sheet then says so no more.")
    return asked(desk, Sure("take back", said, (LEAVE, Way("undo", "take it back", entries)), taken))


def of_leaving(desk: Desk, way: str, text: str, leads: Effect) -> Outcome:
    """A job is left while its case stands under pressure or vacuum: how it is let off, and staying first."""
    so, _, how = desk.left_so.partition(". ")
    said = (f"STOP  the case is {so}", how, "Let it off first, or stay with it until the test is over.")
    stay = Way("stay", "stay here, with the test")
    return asked(desk, Sure("leave", said, (stay, Way(way, text, leads=(leads,)))))


def asked(desk: Desk, about: Sure) -> Outcome:
    """The page that asks."""
    return replace(over(desk, PAGE), replacing=about), ()
