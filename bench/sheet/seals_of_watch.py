"""What the papers say of the seals of the watch besides the one that was made.

Invariant: of a seal of which nothing is said the customer is told nothing; one that is not new is never
passed over in silence where it was said of each.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.of_each_seal import HAS_NONE, LEFT, MADE_HERE, NEW, NOT_LOOKED_AT, THIS_JOB
from bench.job.renewed import listed, named
from bench.job.statement import Statement, WordList

OLD = (LEFT, NOT_LOOKED_AT)
"""Not renewed."""
FOR_THE_SHOP = {
    THIS_JOB: "made or chosen in this job",
    MADE_HERE: "made here",
    NEW: "new",
    LEFT: "old, looked at and left",
    NOT_LOOKED_AT: "not looked at",
    HAS_NONE: "this watch has none",
    None: "nothing said",
}
"""What is known of a seal, for the workshop."""


def beside_it(data: dict[str, Any]) -> Iterator[Statement]:
    """Which seals were made here in other jobs, which are old and which were not looked at."""
    seals = data["seals_of_watch"]
    made = {one["seal"]: one["job"] for one in seals if one["known"] == MADE_HERE}
    for job in dict.fromkeys(made.values()):
        which = [seal for seal, number in made.items() if number == job]
        if job is None:
            yield Statement("seals_made_here", "Made in this workshop too: {which}.", of(which))
        else:
            yield Statement(
                "seals_made_in",
                "Made in this workshop too, in job {job}: {which}.",
                {"job": job, **of(which)},
            )
    if left := called(seals, LEFT):
        yield Statement("seals_left", "Old seals that were looked at and left: {which}.", of(left))
    if unseen := called(seals, NOT_LOOKED_AT):
        yield Statement("seals_not_looked_at", "Seals that were not looked at: {which}.", of(unseen))


def not_new(data: dict[str, Any]) -> Iterator[Statement]:
    """What the day of the next test does not promise, where seals stay that are not new."""
    if old := called(data["seals_of_watch"], *OLD):
        yield Statement(
            "seals_not_new", "Not renewed: {which}. An old seal may begin to leak before that.", of(old)
        )


def called(seals: list[dict[str, Any]], *known: str) -> list[str]:
    """The seals of which one of these is known."""
    return [one["seal"] for one in seals if one["known"] in known]


def of(seals: list[str]) -> dict[str, WordList]:
    """Seals as a blank."""
    return {"which": WordList(*listed(seals))}


def shop_line(data: dict[str, Any]) -> str:
    """Every seal of the watch with what is known of it, in one sentence; empty before that was asked."""
    seals = data["seals_of_watch"]
    if all(one["known"] in (None, THIS_JOB) for one in seals) and data["renewed"] is None:
        return ""
    by_what: dict[str, list[str]] = {}
    for one in seals:
        by_what.setdefault(in_words(one), []).append(one["seal"])
    return f"Seals of this watch: {'; '.join(f'{named(which)}: {what}' for what, which in by_what.items())}."


def in_words(one: dict[str, Any]) -> str:
    """What is known of one, with its job and its size."""
    job = f" in job {one['job']}" if one["job"] else ""
    return f"{FOR_THE_SHOP[one['known']]}{job}" + (f", {one['size']}" if one["size"] else "")
