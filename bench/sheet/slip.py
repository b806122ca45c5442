"""The slip for the bag as statements: day, seal, what it held, what the case says, when to test again.

Invariant: never more than a standing pass, at the pressure that was raised; no seal that a job ended without;
one answer to when to test again.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.statement import AtTime, Blank, OnDay, Ours, Pressing, Statement
from bench.seals import SEALS
from bench.sheet.customer import dated, marking
from bench.sheet.one_seal import as_the_first
from bench.sheet.proofs import proved_cased
from bench.sheet.proved import FAILED, NO_TIME, PASSED, WHAT, ended_as, method_words

HELD = {
    True: "{what}: held at {bar} over the room, {at}, {method}.",
    False: "{what}: passed, {at}, {method}.",
}
"""What stands, with and without a pressure that was raised."""


def slip(data: dict[str, Any]) -> tuple[Statement, ...]:
    """What the slip says under the number of the job."""
    return tuple(said(data))


def said(data: dict[str, Any]) -> Iterator[Statement]:
    """The same one by one."""
    if (day := dated(data)) is not None:
        yield day
    left_out = data["finished"] and not data["fitted"]
    if not left_out and (seal := SEALS[data["seal"]].in_one_line(data)) is not None:
        yield seal
    for kind, one in as_the_first(data):
        left = one["ended"] is not None or (data["finished"] and not one["fitted"])
        if not left and (also := kind.in_one_line(one)) is not None:
            yield also
    yield result(data)
    yield from marking(data)
    yield retest(data)
    if data["old_paint"]:
        yield Statement("slip_paint", "The luminous paint may hold radium. Do not open the watch.")


def result(data: dict[str, Any]) -> Statement:
    """The last pass that stands, of the finished watch where there is one; or the last fail."""
    ends = [(ended_as(test)[0], test) for test in data["tests"]]
    judged = [name for name, _ in ends if name in (PASSED, FAILED)]
    if judged and judged[-1] == FAILED:
        return Statement("slip_failed", "Last test not passed: not water-resistant as it stands.")
    standing = [test for test in data["tests"] if test["stands"]]
    if not standing:
        return Statement("slip_not_proved", "Not proved: no test was passed.")
    test = next((one for one in reversed(standing) if proved_cased(one)), standing[-1])
    bar = test["overpressure_bar"]
    values: dict[str, Blank] = {
        "what": Ours(WHAT[test["sitting"]]),
        "at": AtTime(test["at_local"]) if test["at_local"] else NO_TIME,
        "method": method_words(test),
        **({} if bar is None else {"bar": Pressing(bar)}),
    }
    return Statement("slip_held", HELD[bar is not None], values)


def retest(data: dict[str, Any]) -> Statement:
    """When it is tested again."""
    if data["retest_soon"]:
        return Statement("slip_test_soon", "Test again soon: tested while the gasket was still settling.")
    if data["retest"]:
        return Statement("slip_test_by", "Test again by {day}.", {"day": OnDay(data["retest"])})
    return Statement("slip_no_date", "No date for another test: the finished watch has not passed one.")
