"""What the shop's own copy of the sheet says besides the customer's:
corrected results, what was changed by hand, the time at the bench, readings, work at the lathe and its plan.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job import keys
from bench.job.corrections import AGAIN, CORRECTED, FITTED, KEYED_WRONG, OPEN, TESTS
from bench.job.in_words import RESULTS, moment
from bench.job.kept import SEEN_TO, UNCHANGED
from bench.job.renewed import named
from bench.seals import SEALS
from bench.seals.seal import Seal, Section
from bench.sheet.bench_time import shop_lines
from bench.sheet.by_hand import change_text
from bench.sheet.one_seal import as_the_first, which
from bench.sheet.seals_of_watch import shop_line
from bench.sheet.text import about_it

FOR_THE_SHOP = "For the shop"
"""Heading under which what the workshop keeps to itself begins."""
ZONE = "Times on this sheet are UTC; those on the customer's are by the clock of the bench."
HOW = {
    KEYED_WRONG: "keyed wrong, read once more and keyed as {then}, {at}",
    AGAIN: "{then} keyed over it, {at}, did not count: {again}",
    CORRECTED: "changed to {then}, {at}",
    OPEN: "{then} keyed over it, {at}, does not count: not said yet whether {again} or keyed wrong",
}
"""What happened to a result that was keyed over."""
TESTED_AGAIN = {
    SEEN_TO: "No other part was made; the joint was seen to before it was tested again.",
    UNCHANGED: "Nothing was done about it before it was tested again.",
}
"""How it was tested again after the joint had leaked."""
READ = {
    "volume": "free volume",
    "volume_exact": "measured volume",
    "gauge_step": "step of the gauge",
    "temperature": "temperature",
    "vented": "gauge after venting",
    "vented_by": "gauge after venting",
}


def shop_copy(
    data: dict[str, Any], minutes: tuple[float, float], plan: Sequence[str] = ()
) -> tuple[Section, ...]:
    """Everything that only the shop's copy says; `plan` is the turning plan in lines."""
    changes = (change_text(one) for one in data["changed_by_hand"])
    joined = (f"Joined from copies that went on apart: {' and '.join(of)}." for of in data["joined_from"])
    notes = (f"Note: {note}" for note in data["shop_notes"])
    own = (
        ZONE,
        *other_jobs(data),
        *filter(None, (shop_line(data),)),
        *joined,
        *correction_lines(data),
        *search_lines(data),
        *changes,
        *notes,
        *shop_lines(minutes),
    )
    further = (part for seal, one in as_the_first(data) for part in about_it(one, seal.recorded(one)))
    parts = (*SEALS[data["seal"]].recorded(data), *further, Section("Turning plan", tuple(plan)))
    return (Section(FOR_THE_SHOP, own), *(part for part in parts if part.sentences))


def other_jobs(data: dict[str, Any]) -> tuple[str, ...]:
    """The jobs that this one names."""
    linked = f"Another job of the same owner: job {data['linked']}." if data["linked"] else ""
    like = f"Begun as one like job {data['like']}." if data["like"] else ""
    return tuple(line for line in (linked, like) if line)


def correction_lines(data: dict[str, Any]) -> tuple[str, ...]:
    """Results that were keyed over, and readings keyed again within a hold."""
    seal, attempt = SEALS[data["seal"]], data["attempt"]
    results = [correction_text(one, attempt, seal) for one in data["corrections"]]
    further = (
        f"{which(one)[:1].upper()}{which(one)[1:]}. {correction_text(over, one['attempt'], kind)}"
        for kind, one in as_the_first(data)
        for over in one["corrections"]
    )
    return (*results, *further, *(reading_text(one, attempt, seal) for one in data["readings_changed"]))


def search_lines(data: dict[str, Any]) -> tuple[str, ...]:
    """Where each search for a leak ended, what was done about it, and what was renewed in them."""
    found = data["renewed_in_search"]
    new = (f"Search after a failed test: found leaking and renewed: {named(found)}.",) if found else ()
    return (*(search_text(one) for one in data["searches"] if one["ended"]), *new)


def search_text(one: dict[str, Any]) -> str:
    """One search."""
    where = keys.BY_NAME[one["sitting"]].heading
    return f"{where}, search for the leak: {one['ended']} {TESTED_AGAIN.get(one['led_to'], '')}".rstrip()


def place(one: dict[str, Any], attempt: int, seal: Seal) -> str:
    """What a correction belongs to."""
    name = keys.BY_NAME[one["what"]].heading if one["what"] in keys.BY_NAME else "Fitting"
    if one["attempt"] == attempt:
        return name
    return f"{seal.short.capitalize()} {one['attempt']}, {name[0].lower()}{name[1:]}"


def correction_text(one: dict[str, Any], attempt: int, seal: Seal) -> str:
    """One result that was keyed over."""
    kind, words = (seal.fitting, seal.outcomes) if one["what"] == FITTED else (TESTS[one["what"]], RESULTS)
    then = words.get(one["then"], one["then"])
    how = HOW[one["how"]].format(then=then, at=when(one["then_at"]), again=kind.again)
    first = words.get(one["first"], one["first"])
    return f"{place(one, attempt, seal)}: first given as {first}, {when(one['first_at'])}; {how}."


def reading_text(one: dict[str, Any], attempt: int, seal: Seal) -> str:
    """One reading that was keyed again after its hold had begun."""
    name = READ.get(one["reading"], one["reading"].replace("signal_", "reading "))
    first = "as usual" if one["first"] is None else one["first"].replace("_", " ")
    then = one["then"].replace("_", " ")
    at = when(one["then_at"])
    where = place(one, attempt, seal)
    return f"{where}, {name}: first {first}, keyed again after the hold had begun as {then}, {at}."


def when(utc: str | None) -> str:
    """A moment for people."""
    return moment(utc) if utc else "time not known"
