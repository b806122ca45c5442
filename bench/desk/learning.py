"""What the shop has learned and what lies in its drawer, looked up once a ring is about to be proposed, and
kept in its job before it is.

Invariant: nothing is looked up for a job that is only read, nor twice for the same ring in a sitting; what
was found is in the file before the ring can be accepted.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk.desk import Desk
from bench.desk.effects import Append, DrawerIs, Effect, FromJobs, Learnt, LookUp
from bench.desk.pages import Outcome, over
from bench.job import keys

if TYPE_CHECKING:
    from bench.job.steps import Step


def looked_up_when_due(desk: Desk, effects: tuple[Effect, ...]) -> Outcome:
    """The look into the jobs of the shop, where the open step learns from them, and then into its drawer."""
    step, job = looking(desk), desk.job
    if step is None or job is None:
        return desk, effects
    for_this = (desk.file, job.attempt, step.learns)
    if step.learns and desk.looked != for_this:
        return replace(desk, looked=for_this), (*effects, LookUp(step.learns, keys.LEARNED))
    in_this = (desk.file, job.attempt, job.newest_n(keys.SITTING), step.looks_for)
    if step.looks_for and desk.looked_in != in_this:
        return replace(desk, looked_in=in_this), (*effects, LookUp(step.looks_for, keys.LOOKED_IN))
    return desk, effects


def looking(desk: Desk) -> Step | None:
    """The open step, where something may be looked up for it; None otherwise."""
    walk = desk.walk
    idle = desk.page != "step" or desk.looking_back or desk.pending is not None
    if walk is None or idle or not desk.sitting or not desk.writable or desk.sample:
        return None
    return walk.open


def told(desk: Desk, token: FromJobs) -> Outcome:
    """What the jobs of the shop say."""
    if isinstance(token, DrawerIs):
        return replace(over(desk, "drawer"), drawer=token.drawer), ()
    return learnt(desk, token)


def learnt(desk: Desk, token: Learnt) -> Outcome:
    """What was found is kept, where it is still asked for."""
    step = desk.walk.open if desk.walk is not None else None
    if not token.words or desk.pending is not None or step is None:
        return desk, ()
    if token.learns != (step.looks_for if token.mark == keys.LOOKED_IN else step.learns):
        return desk, ()
    mark = Append(token.mark, token.words, kind="mark")
    return replace(desk, pending=mark, then=()), (mark,)
