"""The customer's sheet as statements: what was made and fitted, what was tested, what that means and what
not, when to test again, and what to know.

Invariant: every statement repeats what the sheet's data hold; no pass is claimed above the pressure that was
raised, and what is undecided is said as not proved, with the reason.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job import keys
from bench.job.endings import ending_said, reason_said
from bench.job.renewed import NONE, in_order, listed, seals_of
from bench.job.statement import AtTime, Blank, Headed, OnDay, Ours, Pressing, Statement, WordList
from bench.seals import SEALS
from bench.sheet.data import NOT_ORIGINAL, WORDS_ONLY
from bench.sheet.one_seal import as_the_first
from bench.sheet.proofs import proved_cased
from bench.sheet.proved import by_method, not_proved, test_statement
from bench.sheet.seals_of_watch import beside_it, not_new

ORIGIN = Statement("origin", "The gasket was made in this workshop. It is not an original part.")
REACHED = "The case is marked for {bar}. The test reached that."
REACHED_EARLY = f"{REACHED} It has to be made again: the gasket was still settling."
HOT_WATER = Statement(
    "hot_water", "Keep the watch out of hot water and steam. Do not move the crown or a pusher in water."
)
PAINT = Statement(
    "luminous_paint",
    "The luminous paint is old, or of an age not known: it may hold radium. Do not open the watch; "
    "tell whoever services it next.",
)


def customers_sheet(data: dict[str, Any]) -> tuple[Headed, ...]:
    """The parts of the customer's sheet; one without a statement is left out."""
    parts = (
        Headed("What was made and fitted", tuple(made(data))),
        Headed("What was tested", tuple(tested(data))),
        Headed("What that means, and what it does not", tuple(means(data))),
        Headed("When to test again", tuple(test_again(data))),
        Headed("To know", tuple(to_know(data))),
    )
    return tuple(part for part in parts if part.statements)


def made(data: dict[str, Any]) -> Iterator[Statement]:
    """The seal and the others that were renewed; why none was made where the job ended before."""
    yield from SEALS[data["seal"]].for_customer(data)
    yield from further(data)
    besides = in_order((*seals_of(data["renewed"] or NONE), *data["renewed_in_search"]))
    if data["renewed"] is not None or besides:
        yield Statement("renewed", "Other seals renewed: {which}.", {"which": WordList(*listed(besides))})
    yield from beside_it(data)
    yield from ended(data)


def further(data: dict[str, Any]) -> Iterator[Statement]:
    """The further seals of the job: what is told of each, or that it was not renewed and why."""
    for seal, one in as_the_first(data):
        of = {"which": WordList(*listed([one["closes"]]))} if one["closes"] else {}
        if one["ended"] is not None and of:
            yield Statement("further_not_renewed", "Not renewed, though looked at: {which}.", of)
            if one["ended_because"] is not None:
                reason = reason_said(one["ended"], one["ended_because"], seal.reasons)
                yield Statement("ended_because", "The reason: {reason}.", {"reason": Ours(reason)})
        elif one["ended"] is None and (told := seal.for_customer(one)):
            yield Statement("further_seal", "A further seal of this watch: {which}.", of)
            yield from told


def ended(data: dict[str, Any]) -> Iterator[Statement]:
    """How a job ended that was not handed back as tested, and for which reason."""
    if data["ended"] is None:
        return
    seal = SEALS[data["seal"]]
    yield Statement("ended", ending_said(data["ended"], seal.endings))
    if data["ended_because"] is not None:
        reason = reason_said(data["ended"], data["ended_because"], seal.reasons)
        yield Statement("ended_because", "The reason: {reason}.", {"reason": Ours(reason)})


def tested(data: dict[str, Any]) -> Iterator[Statement]:
    """Every test of this seal, and what stands on the case."""
    for test in data["tests"]:
        yield test_statement(test)
    if data["renewed_in_search"]:
        which = {"which": WordList(*listed(data["renewed_in_search"]))}
        yield Statement("search_renewed", "Another seal leaked in a test and was renewed: {which}.", which)
    if data["tests"] and data["tester_number"]:
        yield Statement("tester", "Number of the tester: {number}.", {"number": data["tester_number"]})
    yield from marking(data)


def marking(data: dict[str, Any]) -> Iterator[Statement]:
    """What the case says about water, and whether that was reached."""
    if data["marking"] == WORDS_ONLY:
        yield Statement("marking_words", 'The case says "water-resistant", without a figure.')
    elif data["marking_bar"] is not None:
        bar: dict[str, Blank] = {"bar": Pressing(data["marking_bar"])}
        if data["marking_tested"]:
            early = data["retest_soon"]
            name = "marking_reached_early" if early else "marking_reached"
            yield Statement(name, REACHED_EARLY if early else REACHED, bar)
        else:
            yield not_reached(data, bar)
    elif data["marking"] is not None:
        yield Statement("marking_none", "The case says nothing about water.")


def not_reached(data: dict[str, Any], bar: dict[str, Blank]) -> Statement:
    """Why what is marked was not reached: by the tests of the finished watch, or for want of one."""
    if any(test["sitting"] == keys.CASED.name for test in data["tests"]):
        return Statement(
            "marking_not_reached",
            "The case is marked for {bar}. No test of the finished watch reached that.",
            bar,
        )
    if data["finished"]:
        return Statement(
            "marking_watch_untested",
            "The case is marked for {bar}. The finished watch was not tested.",
            bar,
        )
    return Statement(
        "marking_watch_to_test", "The case is marked for {bar}. The finished watch is not tested yet.", bar
    )


def means(data: dict[str, Any]) -> Iterator[Statement]:
    """What the tests show and what they do not."""
    yield from by_method(data["tests"])
    if put_in(data):
        said_already = ("marking_not_tested",)
        yield from not_proved({name: bar for name, bar in data["limits"].items() if name not in said_already})


def put_in(data: dict[str, Any]) -> bool:
    """Whether a seal of the job is in its place."""
    return bool(data["fitted"]) or any(one["fitted"] for one in data["further_seals"])


def test_again(data: dict[str, Any]) -> Iterator[Statement]:
    """The day, or that it is not to meet water before it is tested."""
    if not put_in(data):
        return
    if data["retest"] and not data["retest_soon"]:
        yield Statement(
            "test_by",
            "By {day}, and whenever the watch was opened: water resistance does not last for ever.",
            {"day": OnDay(data["retest"])},
        )
        yield from not_new(data)
    elif any(proved_cased(test) for test in data["tests"]):
        yield Statement(
            "test_soon", "Soon, and before it meets water: it was tested while the gasket was still settling."
        )
    else:
        yield Statement("test_before_water", "Before it meets water: no test of the finished watch stands.")


def to_know(data: dict[str, Any]) -> Iterator[Statement]:
    """Remark and notes as they were written, and the cautions."""
    for text in (data["remark"], *data["notes"]):
        if text:
            yield Statement("note", "{text}", {"text": text})
    if NOT_ORIGINAL in data["caution_names"]:
        yield ORIGIN
    if put_in(data):
        yield HOT_WATER
    if data["old_paint"]:
        yield PAINT


def titled(data: dict[str, Any]) -> Statement:
    """What the paper is about."""
    found: Statement = SEALS[data["seal"]].titled(data)
    return found


def dated(data: dict[str, Any]) -> Statement | None:
    """The day of the sheet: that of handing back, or of the last answer."""
    if data["as_of"] is None:
        return None
    return Statement(
        "as_of", "Handed back {at}" if data["finished"] else "As it stood {at}", {"at": AtTime(data["as_of"])}
    )
