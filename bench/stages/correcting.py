"""The question that a result keyed over a bad one leaves: tested again, or keyed wrong.

Invariant: whichever is said, nothing that was asked before it counts as the answer;
the bad result holds until then.
"""

from __future__ import annotations

from bench.job.corrections import AGAIN, KEYED_WRONG, Course, Kind, given_at
from bench.job.steps import Choice, Step


def correction_step(kind: Kind, course: Course, again: str) -> Step:
    """What a better result keyed over a bad one is;
    `again` says how a new test, or a new ring, comes about.
    """
    assert course.holds is not None and course.refused is not None
    given = (given_at(course.holds) or "")[11:16]
    first, then = (answer.word.replace("_", " ") for answer in (course.holds, course.refused))
    return Step(
        key=kind.asks,
        stage="verify",
        kind="result",
        title=f"First given as {first}, {given} UTC, now as {then}: which is it?",
        say=(f"Until it is said, {first} holds. The workshop's sheet names both.",),
        choices=(
            Choice(AGAIN, again),
            Choice(KEYED_WRONG, "keyed wrong: read it once more and key it again"),
        ),
        rests_on=(kind.result,),
        waits_for="a corrected result",
        why="A result that was only keyed wrong is read once more; another result needs another test.",
    )
