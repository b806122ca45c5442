"""What the tests of a seal prove and what not, as statements.

Invariant: a pass is said at the pressure that was raised and no other; what gave neither pass nor fail, or
does not count, is said as not proved, with the reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bench.job import keys
from bench.job.kept import HURRIED
from bench.job.statement import AtTime, Blank, Lasting, Ours, Pressing, Statement
from bench.sheet.proofs import Test, proved_cased
from rules.testing.methods import methods

WHAT = {keys.EMPTY.name: "Empty case", keys.CASED.name: "Finished watch"}
"""What was tested, as the customer knows it."""
NO_TIME = Ours("at a time not known")
PASSED, FAILED, NOT_PROVED, TOO_SHORT = "passed", "failed", "not_proved", "too_short"
SENTENCES = {
    (PASSED, True): "{what}, {at}: held at {bar} over the pressure of the room. Passed. Method: {method}.",
    (PASSED, False): "{what}, {at}: passed. Method: {method}.",
    (FAILED, True): "{what}, {at}: did not pass at {bar} over the pressure of the room. Method: {method}.",
    (FAILED, False): "{what}, {at}: did not pass. Method: {method}.",
    (NOT_PROVED, True): "{what}, {at}: not proved at {bar} over the pressure of the room, because {reason}. "
    "Method: {method}.",
    (NOT_PROVED, False): "{what}, {at}: not proved, because {reason}. Method: {method}.",
    (TOO_SHORT, True): "{what}, {at}: not proved at {bar} over the pressure of the room, "
    "because it lasted {held} of {needed}. Method: {method}.",
    (TOO_SHORT, False): "{what}, {at}: not proved, because it lasted {held} of {needed}. Method: {method}.",
}
"""How a test ended, with and without a pressure that was raised."""
CHANGED = "what it rests on was changed afterwards"
TRIED_OUT = "the waiting time was only tried out"
NEAR_THE_LIMIT = "the leak lies too near the limit to tell"
NEITHER = "it gave neither pass nor fail"


def test_statement(test: Test) -> Statement:
    """One test: what, when, to what pressure, how it ended, and by which method."""
    name, more = ended_as(test)
    bar = test["overpressure_bar"]
    values: dict[str, Blank] = {
        "what": Ours(WHAT[test["sitting"]]),
        "at": AtTime(test["at_local"]) if test["at_local"] else NO_TIME,
        "method": method_words(test),
        **({} if bar is None else {"bar": Pressing(bar)}),
        **more,
    }
    return Statement(f"test_{name}", SENTENCES[name, bar is not None], values)


def ended_as(test: Test) -> tuple[str, dict[str, Blank]]:
    """How a test ended, and why it proves nothing where that is so."""
    if not test["counts"]:
        return NOT_PROVED, {"reason": Ours(CHANGED)}
    if test["result"] == "fail":
        return FAILED, {}
    if test["timed"] == HURRIED:
        return NOT_PROVED, {"reason": Ours(TRIED_OUT)}
    if test["result"] == "pass":
        return PASSED, {}
    lasted = (test["stopped_after_min"], test["minutes"], test["needed_minutes"])
    held, needed = lasted[:2] if lasted[0] is not None else lasted[1:]
    if held is not None and needed is not None:
        return TOO_SHORT, {"held": Lasting(held), "needed": Lasting(needed)}
    undecided = test["leak"] is not None and test["leak"]["decision"] == "UNDECIDED"
    return NOT_PROVED, {"reason": Ours(NEAR_THE_LIMIT if undecided else NEITHER)}


def method_words(test: Test) -> Blank:
    """The method as it is called; one of no table as it was kept."""
    method = methods().get(test["method"] or "")
    return Ours(method.claim.words) if method else (test["method"] or "-").replace("_", " ")


def by_method(tests: Sequence[Test]) -> Iterator[Statement]:
    """What every method that passed shows and what not: of the finished watch where it passed one."""
    standing = [test for test in tests if test["stands"]]
    shown = [test for test in standing if proved_cased(test)] or standing
    for key in dict.fromkeys(test["method"] for test in shown):
        if (method := methods().get(key or "")) is not None:
            values = {
                "method": Ours(method.claim.words),
                "can": Ours(method.claim.can),
                "cannot": Ours(method.claim.cannot),
            }
            yield Statement("method_shows", "What that test shows ({method}): {can}.", values)
            yield Statement("method_does_not_show", "What it does not show: {cannot}.", values)


LIMITS = {
    "marking_words_not_tested": 'The marking "water-resistant", without a figure, was not tested.',
    "last_test_failed": "The last test was not passed: as it stands the watch is not water-resistant.",
    "watch_not_passed": "The finished watch has not passed a test.",
    "early_only": "It passed only while the gasket was still settling: the test has to be made again.",
    "not_in_water": "It was not tested in water.",
    "nothing_above": "Nothing is said of pressures above {bar}.",
    "no_overpressure": "No pressure over that of the room was raised on the finished watch.",
}
"""What the tests do not prove, as the customer is told, by the name of the limit."""


def not_proved(limits: dict[str, float | None]) -> Iterator[Statement]:
    """What the tests do not prove: the limits by name, each with the pressure that belongs to it."""
    for name, bar in limits.items():
        yield Statement(name, LIMITS[name], {} if bar is None else {"bar": Pressing(bar)})
