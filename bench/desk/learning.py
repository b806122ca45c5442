"""What the shop has learned, looked up once a ring is about to be proposed, and kept in its job before it is.

Invariant: nothing is looked up for a job that is only read, nor twice for the same ring; what was found is in
the file before the ring can be accepted.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append, Effect, Learnt, LookUp
from bench.desk.pages import Outcome
from bench.job import keys


def looked_up_when_due(desk: Desk, effects: tuple[Effect, ...]) -> Outcome:
    """The look into the finished jobs, where the open step learns from them."""
    walk, job = desk.walk, desk.job
    if walk is None or job is None or walk.open is None or not walk.open.learns:
        return desk, effects
    if desk.page != "step" or desk.looking_back or desk.pending is not None:
        return desk, effects
    if not desk.sitting or not desk.writable or desk.sample:
        return desk, effects
    for_this = (desk.file, job.attempt, walk.open.learns)
    if desk.looked == for_this:
        return desk, effects
    return replace(desk, looked=for_this), (*effects, LookUp(walk.open.learns))


def learnt(desk: Desk, token: Learnt) -> Outcome:
    """What was found is kept, where it is still asked for."""
    step = desk.walk.open if desk.walk is not None else None
    if not token.words or desk.pending is not None or step is None or step.learns != token.learns:
        return desk, ()
    mark = Append(keys.LEARNED, token.words, kind="mark")
    return replace(desk, pending=mark, then=()), (mark,)
