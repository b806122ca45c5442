"""The keys by which a job names another one, every one written here and nowhere else: the job it was begun
after, and another one of the same owner: of another watch, or of another seal of this one.

Invariant: a program that knows none of them reads the file as if they were not there; nobody's name is kept.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bench.job.job import Job

LIKE = "like"  # mark: the number of the job that this one was begun after, then what is known of that
LIKE_TAKEN = "like_taken"  # whether what is known of it is taken over
LINKED = "linked"
NO_LINK = "none"
"""What stands for no other job."""


def like_number(job: Job) -> str | None:
    """The number of the job that this one was begun after; None where there is none."""
    mark = job.newest(LIKE)
    return mark.word if mark is not None else None


def linked_number(job: Job) -> str | None:
    """The number of another job of the same owner; None where none is named."""
    answer = job.newest(LINKED)
    return answer.word if answer is not None and answer.word != NO_LINK else None
