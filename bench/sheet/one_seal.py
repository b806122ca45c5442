"""What the sheet's data hold of each seal of a job: the one it began with, and the further ones.

Invariant: nothing is computed here that an answer does not hold; a further seal has the keys of the first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from bench.job import keys
from bench.job.begun import another_at
from bench.job.corrections import FITTED, corrections_of
from bench.job.endings import because, ending_said, ending_word, reason_said
from bench.job.job import Answer, Job, newest_of, replay
from bench.moments import at_the_bench
from bench.seals import SEALS
from bench.seals.seal import Seal
from bench.seals.several import OneSeal, first_of, seals_of
from bench.sheet.proofs import Test, tests_of


def seal_data(one: OneSeal) -> dict[str, Any]:
    """What every seal of a job has: its kind, which piece, what its kind says of it, how it was put in."""
    own, blank = one.seal.data(one.job), promised(one.job)
    put = one.put_in
    return {
        "attempt": one.job.attempt,
        "seal": one.seal.word,
        **blank,
        **own,
        "attempts": attempts_of(own, blank["attempts"][0], one.job.attempt_spans()),
        "fitted": one.in_place,
        "fitted_at": since(put) if put and one.in_place else None,
    }


def present_tests(job: Job) -> list[Test]:
    """The tests of a job with the pieces that are its present ones: since another piece of any of its seals
    was begun; the seals that were in before count as in.
    """
    begun = max(another_at(first_of(job).job.marks), default=0)
    return tests_of(
        [one for one in job.answers if one.n > begun], since=max(another_at(job.marks), default=0)
    )


def further_data(job: Job) -> list[dict[str, Any]]:
    """Every further seal of a job, in the order in which they were chosen."""
    return [further_of(one) for one in seals_of(job)[1:]]


def further_of(one: OneSeal) -> dict[str, Any]:
    """One further seal: its number, where it lies once that is said, and why there is none where it is so."""
    ended = one.ended
    lies = not one.seal.place or one.job.newest(one.seal.place) is not None
    over = corrections_of(one.job.attempt_spans(), one.seal.fitting)
    return {
        "number": one.number,
        "closes": one.closes if lies else None,
        **seal_data(one),
        "corrections": [each for each in over if each["what"] == FITTED],
        "ended": ending_word(ended) if ended else None,
        "ended_because": because(one.job, ended, one.seal.reasons) if ended else None,
    }


def as_the_first(data: dict[str, Any]) -> Iterator[tuple[Seal, dict[str, Any]]]:
    """Each further seal of a sheet with its data as those of a job about it alone."""
    for one in data["further_seals"]:
        yield SEALS[one["seal"]], {**data, **one, "renewed": None}


def which(one: dict[str, Any]) -> str:
    """Which further seal of the job it is, for the workshop."""
    where = f", {one['closes']}" if one["closes"] else ""
    return f"seal {one['number']}: {SEALS[one['seal']].short}{where}"


def ended_lines(one: dict[str, Any]) -> tuple[str, ...]:
    """Why a further seal was not renewed; none where it was, or is still to be."""
    if one["ended"] is None:
        return ()
    seal = SEALS[one["seal"]]
    said = ending_said(one["ended"], seal.endings).removeprefix("Closed: ")
    reason = reason_said(one["ended"], one["ended_because"], seal.reasons) if one["ended_because"] else ""
    return (f"Not renewed in this job: {said}", *((f"The reason: {reason}.",) if reason else ()))


def attempts_of(
    own: dict[str, Any], blank: dict[str, Any], spans: Sequence[Sequence[Answer]]
) -> list[dict[str, Any]]:
    """Every ring that was tried, with all the keys that one has."""
    return [attempt_of({**blank, **one}, span) for one, span in zip(own["attempts"], spans, strict=True)]


def promised(job: Job) -> dict[str, Any]:
    """The keys that every sheet has, whatever was made: those of the usual seal, None or empty."""
    usual = next(iter(SEALS.values()))
    return usual.data(replay(job.head, ()))


def since(put: Answer) -> str | None:
    """When a seal was put in, on the clock of the bench."""
    return at_the_bench(put.words[1], put.at) if len(put.words) > 1 else None


def attempt_of(own: dict[str, Any], span: Sequence[Answer]) -> dict[str, Any]:
    """One seal of the job: what its kind says of it, and how it was tested."""
    failed = newest_of(span, keys.EMPTY.found) or newest_of(span, keys.CASED.found)
    return {
        **own,
        "leak_found": failed.word if failed else None,
        "tests": [
            {key: test[key] for key in ("sitting", "method", "overpressure_bar", "result")}
            for test in tests_of(span)
            if test["counts"]
        ],
    }
