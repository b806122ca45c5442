"""The few kinds of question that a shop is asked in: a choice, a length, a count.

Invariant: each has a usual value that 1 Enter takes; of a choice that is the first.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.asking import Stage
from bench.job.mask import Mask
from bench.job.steps import Choice, Picture, Step, Words
from bench.job.values import number
from rules.checks import plain
from rules.limits import MM_PER_INCH

STAGE = "shop"
"""What stands in the place of a stage of a job."""
NO_MORE = "no more"
Pair = tuple[str, str]


def choice(
    key: str,
    title: str,
    *pairs: Pair,
    usual: str = "",
    say: Words = (),
    why: str = "",
    rests_on: Words = (),
    picture: Picture | None = None,
) -> Step:
    """One of a few; `usual` comes first."""
    ordered = sorted(pairs, key=lambda pair: pair[0] != usual)
    return Step(
        key=key,
        stage=STAGE,
        kind="choice",
        title=title,
        say=say,
        choices=tuple(Choice(word, text) for word, text in ordered),
        rests_on=rests_on,
        why=why,
        picture=picture,
    )


def length(
    key: str,
    title: str,
    mm: float,
    *,
    inch: bool,
    whole: int,
    places: int,
    low_mm: float,
    high_mm: float,
    rests_on: Words = (),
    why: str = "",
    say: Words = (),
) -> Stage[float]:
    """A length in mm, exactly `mm` where that is taken as the usual one. In inch it has a place more, as
    a thousandth is 0.025 mm, and the digits before the point that an inch needs.
    """
    unit, scale = ("in", MM_PER_INCH) if inch else ("mm", 1.0)
    before, decimals = (max(whole - 1, 1), places + 1) if inch else (whole, places)
    mask = Mask(before, decimals, unit, low_mm / scale, high_mm / scale, nought=low_mm == 0.0, fewer=True)
    usual = f"{mm / scale:.{decimals}f} {unit}"
    text = (
        yield Step(
            key=key,
            stage=STAGE,
            kind="number",
            title=title,
            say=say,
            mask=mask,
            usual=usual,
            rests_on=rests_on,
            why=why,
        )
    ).word
    return mm if text == usual else round(number(text), 6)


def count(
    key: str,
    title: str,
    usual: float | str,
    *,
    digits: int,
    unit: str = "",
    low: float = 0.0,
    high: float,
    decimals: int = 0,
    why: str = "",
) -> Step:
    """A number that is no length; a usual text instead of one says what 1 Enter means."""
    text = usual if isinstance(usual, str) else f"{usual:.{decimals}f} {unit}".strip()
    said = f"1 Enter: {usual}" if isinstance(usual, str) else ""
    if not unit and low <= 1.0 and text != "1" and not said:
        said = f"1 Enter takes {text}; 1 itself is keyed 01"
    return Step(
        key=key,
        stage=STAGE,
        kind="number",
        title=title,
        mask=Mask(digits, decimals, unit, low, high),
        usual=text,
        usual_said=said,
        why=why,
    )


def number_said(step: Step) -> Stage[float | None]:
    """Ask a count; None for a usual text."""
    text = (yield step).word
    return number(text) if text[:1].isdigit() else None


def listed(values: Sequence[float], unit: str) -> str:
    """Several numbers and their unit, in few words: the first two and the last of a long list."""
    texts = [plain(value) for value in values]
    if len(texts) > 4:
        texts = [*texts[:2], "..", texts[-1]]
    return f"{', '.join(texts)} {unit}".replace(", ..,", " ..")
