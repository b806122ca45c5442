"""Turning that was interrupted: how much was cut, and touching off again.

Invariant: a zero of cross slide or carriage is never trusted over a break.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.seals.ring.cut_steps import BASE, CUT_BY
from rules.turning import operations


def began_before_this_sitting(job: Job) -> bool:
    """Whether this ring was already on the lathe when work was left."""
    first = job.fresh(operations.ROUGH_OUTSIDE, BASE)
    return first is not None and first.n < job.newest_n(keys.SITTING)


def last_cut(job: Job) -> Words:
    """The figure each surface was last cut to in this ring, as it was written with the answer."""
    found = []
    for name, rough, finish in CUT_BY:
        acts = (rough, finish, keys.last(name), keys.more(name, 1), keys.more(name, 2))
        done = [answer for key in acts if (answer := job.fresh(key, BASE)) is not None]
        newest = max(done, key=lambda answer: answer.n, default=None)
        if newest is not None and len(newest.words) > 1:
            found.append(f'{name}: last cut with "{newest.words[1]}"')
    return tuple(found)


def touch_off(last_cut: Words) -> Step:
    """After an interruption the zeros of cross slide and carriage are not trusted."""
    return Step(
        key=keys.TOUCH_OFF,
        stage="cut",
        kind="action",
        title="Work was interrupted: touch off again",
        say=(
            "Spindle stopped. Bar still tight and not moved?",
            "Touch off on the finished face: set the carriage to 0.",
            "Before the first pass touch off on each surface with its own tool "
            "and set the figure it was last cut to:",
            *(last_cut or ("nothing was finished yet: the roughed size as measured",)),
            "Not the size a micrometer reads there: the tool's own offset is allowed for.",
        ),
        choices=(Choice("done", "touched off"),),
        rests_on=(*BASE, keys.SITTING),
        cautions=("lathe",),
        why="A read-out that was switched off, or a bar that was moved, "
        "shows figures that are no longer true.",
    )
