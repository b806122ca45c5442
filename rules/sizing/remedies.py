"""What would help where no bore works, or where the chance is poor: found by trying.

Invariant: a remedy is named only after the question was asked again with it and its answer has the better
chance, by the same limits; how much better is said. A chance that leaves a limit out is never set beside one
that has it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from rules import limits
from rules.checks import OutOfRange, plain
from rules.measuring.instruments import (
    GLASS_BY_CALLIPER_U_MM,
    GLASS_BY_MICROMETER_U_MM,
    SEAT_BY_CALLIPER_U_MM,
    SEAT_COMPARED_U_MM,
)
from rules.ring import RingSizes
from rules.sizing.proposal import proposed
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import USUAL_TURNING_SPREAD_MM, Resolved, resolve
from rules.sizing.window import Window
from rules.tables import plastics

POOR_CHANCE = 0.5
"""Under this even chance the aim is not worth cutting for (own judgement)."""
LEAST_GAIN = 0.05
"""A remedy that raises the chance by less is not worth naming (own judgement)."""
MOST_NAMED = 3
GLASS_STEPS_MM = (-0.1, 0.1, -0.2, 0.2, -0.3, 0.3)
"""Other glasses, in steps of a tenth on the diameter, as they are sold (common practice)."""
HEIGHTS = (0.9, 1.1, 0.75, 1.33, 0.6, 1.6)
"""Other heights of the ring, as parts of its own (own judgement)."""
PRESSES = (2.0, 4.0)
"""Stronger presses, in times of this one (own judgement)."""

AFRESH: dict[str, Any] = {"tried": ()}
"""Seat or glass read again, or another glass: what rings tried before have taught no longer counts."""
Try = tuple[str, str, dict[str, Any]]
"""Kind of remedy, what is done in words, and the fields of the question that it changes."""


@dataclass(frozen=True, slots=True)
class Remedy:
    """Something that was tried and raises the chance."""

    words: str
    """What is done."""
    question: SizingQuestion
    """As it is asked then."""
    ring: RingSizes
    """That is proposed then."""
    window: Window

    @property
    def chance(self) -> float:
        """That a cut lands in the band then, 0 to 1; 0 where still no bore works."""
        return self.window.chance

    @property
    def said(self) -> str:
        """The remedy and what it brings."""
        return f"{self.words}: {100 * self.chance:.0f} %{self.window.chance_words}"


def _tried(question: SizingQuestion, words: str, changes: dict[str, Any]) -> Remedy | None:
    """The answer to the question with these changes, whatever ring was given; None where there is none."""
    try:
        asked = replace(question, bore_mm=None, **changes)
        ring, window = proposed(resolve(asked))
    except OutOfRange:
        return None
    return Remedy(words, asked, ring, window)


def _closer(question: SizingQuestion) -> Iterator[Try]:
    """Truing the seat, measuring and turning more closely, each where it is not done yet."""
    if (question.ovality_mm or 0.0) > limits.TRUED_MM:
        yield _truing()
    for kind, field, usual, better, words in (
        ("seat", "case_bore_u_mm", SEAT_BY_CALLIPER_U_MM, SEAT_COMPARED_U_MM, "measuring the seat to"),
        ("glass", "glass_u_mm", GLASS_BY_CALLIPER_U_MM, GLASS_BY_MICROMETER_U_MM, "measuring the glass to"),
        (
            *("turning", "turning_spread_mm", USUAL_TURNING_SPREAD_MM, USUAL_TURNING_SPREAD_MM),
            "measuring the wall before the last pass, so that it is cut to",
        ),
    ):
        now = getattr(question, field)
        if (usual if now is None else now) > better:
            again = {} if kind == "turning" else AFRESH
            yield kind, f"{words} {plain(better)} mm", {field: better, **again}


def _truing() -> Try:
    return (
        "truing",
        f"truing the seat to {limits.TRUED_MM:g} mm out of round",
        {"ovality_mm": limits.TRUED_MM, **AFRESH},
    )


def _other(resolved: Resolved, height_mm: float | None) -> Iterator[Try]:
    """Another glass, height, plastic, press or test pressure."""
    question = resolved.question
    for step in GLASS_STEPS_MM:
        glass = round(round(question.glass_mm, 1) + step, 1)
        yield "another glass", f"a glass of {glass:.1f} mm", {"glass_mm": glass, **AFRESH}
    if height_mm is not None:
        for part in HEIGHTS:
            count = round(part * height_mm / limits.HEIGHT_STEP_MM)
            other = round(count * limits.HEIGHT_STEP_MM, 2)
            lower = "lower" if other < height_mm else "higher"
            yield "height", f"a {lower} ring, {other:.2f} mm", {"height_mm": other}
    for plastic in plastics().values():
        if plastic.advised and plastic.key != resolved.joint.plastic.key:
            yield "plastic", f"a ring of {plastic.name}", {"material": plastic.key}
    if question.press_force_n is not None:
        for times in PRESSES:
            force = times * question.press_force_n
            yield "press", f"a press of {force:.0f} N", {"press_force_n": force}
    if question.overpressure_bar:
        bar = round(question.overpressure_bar / 2.0, 2)
        yield "pressure", f"a test at {bar:g} bar", {"overpressure_bar": bar}


def _best_of_each(
    question: SizingQuestion, tries: Sequence[Try], before: float, not_judged: tuple[str, ...]
) -> list[Remedy]:
    """Of each kind the least change that comes near its best, where it is enough better and judged by the
    same limits.
    """
    kinds: dict[str, list[Remedy]] = {}
    for kind, words, changes in tries:
        found = _tried(question, words, changes)
        if found and found.window.not_judged == not_judged and found.chance >= before + LEAST_GAIN:
            kinds.setdefault(kind, []).append(found)
    return [
        next(one for one in found if one.chance >= max(other.chance for other in found) - LEAST_GAIN)
        for found in kinds.values()
    ]


def remedies(resolved: Resolved, window: Window) -> tuple[Remedy, ...]:
    """What raises the chance most, alone or else two together; none while the chance is good."""
    if window.feasible and window.ring_chance >= POOR_CHANCE:
        return ()
    question, before = resolved.question, window.ring_chance
    found: list[Remedy] = []
    again = _tried(question, "", {})
    if again is None:
        return ()
    if again.chance >= before + LEAST_GAIN:
        found.append(replace(again, words=f"a bore of {again.ring.bore_mm:.2f} mm"))
        before = again.chance
    if before < POOR_CHANCE:
        tries = [*_closer(question), *_other(resolved, again.ring.height_mm)]
        found += _best_of_each(question, tries, before, window.not_judged)
        if not found:
            pairs = [
                ("two", f"{one[1]}, with {other[1]}", one[2] | other[2])
                for one, other in combinations(tries, 2)
                if one[0] != other[0]
            ]
            found = _best_of_each(question, pairs, before, window.not_judged)
    return tuple(sorted(found, key=lambda one: -one.chance)[:MOST_NAMED])


def advised(resolved: Resolved, window: Window) -> tuple[tuple[Remedy, ...], Window]:
    """The remedies, and the window with them in words."""
    if window.shut_by_rings:
        return (), window
    found = remedies(resolved, window)
    if found or (window.feasible and window.ring_chance >= POOR_CHANCE):
        return found, replace(window, help=tuple(one.said for one in found))
    limit = "leave little room" if window.feasible else "cannot both be met"
    return (), replace(window, help=(f"nothing tried helps: {window.clash} {limit}; check the sizes",))


def truing_words(resolved: Resolved, window: Window) -> str:
    """What truing a seat that is far out of round brings; empty where it is not far out."""
    if resolved.demands.ovality_mm <= limits.OVAL_MM:
        return ""
    _, words, changes = _truing()
    found = _tried(resolved.question, words, changes)
    if found is None or found.chance < window.ring_chance + LEAST_GAIN:
        return "truing it alone would not raise the chance"
    after = f"{100 * found.chance:.0f} %{found.window.chance_words}"
    return f"true the bezel first: to {limits.TRUED_MM:g} mm {after}, now {100 * window.ring_chance:.0f} %"
