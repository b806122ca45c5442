"""Every single slip of the hand on a number step, keyed into the pure desk,
and what the job then makes of it.

Invariant: nothing of the guards is imported here; what a slip did is read off the figures of a later page.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from bench.desk.desk import Desk
from bench.desk.effects import Append, Deal
from bench.desk.keys import meaning
from bench.desk.token import Token
from bench.desk.update import update
from bench.job import keys
from bench.job.job import words_of
from bench.sheet.data import sheet_data
from tests.screens.keying import Keying
from tests.whole.script import Hand

KEYS = "0123456789."
FACTOR = 2.0
"""From this factor on a slip makes a ring that is scrap, or a glass that breaks."""
MOST_FURTHER = 8

RING = re.compile(r"outside (\d+\.\d+), bore (\d+\.\d+), high (\d+\.\d+)")
GO_TO = re.compile(r"go to (\d+\.\d+)")
SQUEEZE = re.compile(r"Squeeze (\d+\.\d+) %")


@dataclass(frozen=True)
class Proof:
    """Where it shows what became of a reading: a later step, its figures, and how far they may move."""

    step: str
    figures: re.Pattern[str] | None
    """What to read off the page; None: the height on the sheet."""
    within: float


SIZED, OUTSIDE, BORE = (
    Proof("ring", RING, 0.21),
    Proof("last_outside", GO_TO, 0.13),
    Proof("last_bore", GO_TO, 0.13),
)
MADE = Proof("fit_ready", SQUEEZE, 5.0)
PROOFS = {
    "case_bore": SIZED,
    "glass": SIZED,
    "seat_depth": SIZED,
    "outside_reading": OUTSIDE,
    "wall_reading": BORE,
    "wall": MADE,
    "ring_height": Proof("fit_ready", None, 0.10),
}


@dataclass
class Tally:
    """What became of the slips on one step."""

    slips: int = 0
    refused: int = 0
    offered: int = 0
    """Not stored: asked whether it was read with another instrument."""
    again: int = 0
    """Stored, and a further reading was asked at once."""
    agrees: int = 0
    """Stored, and too near the truth to matter: no figure moved further than readings may differ."""
    outvoted: int = 0
    """Stored, not used, the further readings being asked anyway."""
    used: int = 0
    """Stored and used, and a figure moved further."""
    used_slips: list[str] = field(default_factory=list)
    used_by_two: list[str] = field(default_factory=list)
    """Of these the ones that are out by a factor of two or more."""
    stored_by_two: int = 0


def slips(text: str) -> Iterator[str]:
    """Every single slip: a key left out, doubled, swapped with the next, wrong, or one too many."""
    seen = {text}
    for at, letter in enumerate(text):
        for slip in (
            text[:at] + text[at + 1 :],
            text[:at] + letter + text[at:],
            text[:at] + text[at + 1 : at + 2] + letter + text[at + 2 :],
            *(text[:at] + key + text[at + 1 :] for key in KEYS),
        ):
            if slip not in seen:
                seen.add(slip)
                yield slip
    for at in range(len(text) + 1):
        for key in KEYS:
            slip = text[:at] + key + text[at:]
            if slip not in seen:
                seen.add(slip)
                yield slip


def key_in(desk: Desk, text: str) -> tuple[Desk, bool]:
    """Text and Enter as keys, saving made by hand: the desk, and whether anything was stored."""
    at, stored = desk.now + 5.0, False
    waiting = [Token("painted", at=at, wall=desk.wall)]
    for n, letter in enumerate((*text, "\r")):
        then = at + 2 + 0.3 * n
        waiting.append(Token("key", meaning(letter, letter), at=then, boot=then, wall=desk.wall, raw=letter))
    while waiting:
        desk, effects = update(desk, waiting.pop(0))
        for effect in effects:
            if isinstance(effect, Append):
                stored = True
                n = max((entry.n for entry in desk.entries), default=0) + 1
                waiting.insert(0, Token("saved", at=desk.now, wall=desk.wall, numbers=(n,)))
            elif isinstance(effect, Deal):
                waiting.insert(0, Token("deal", at=desk.now, numbers=tuple(range(effect.count))))
    return desk, stored


def base_of(key: str) -> str:
    """The dimension of a step: its key without the number of the reading."""
    return re.sub(r"_\d+$", "", key)


def number_steps(folder: Path, script: Hand) -> tuple[dict[str, tuple[Desk, str]], dict[str, str]]:
    """Desk and answer at every step of a job where a number is keyed; and every answer by step."""
    keying = Keying(folder, step_s=700)
    found: dict[str, tuple[Desk, str]] = {}
    truth: dict[str, str] = {}
    for answer, desk in keying.answers(script):
        step = desk.step
        if desk.page == "step" and step is not None:
            truth[step.key] = answer
            if step.kind == "number" or step.readback is not None:
                found[step.key] = (replace(desk, columns=80, rows=24), answer)
    keying.bench.close()
    return found, truth


def proof_figures(desk: Desk, proof: Proof, truth: dict[str, str]) -> tuple[float, ...] | None:
    """Go on with true answers to the step of the proof; its figures, None if it is never reached."""
    for _ in range(MOST_FURTHER):
        step = desk.step
        if step is None:
            return None
        if step.key == proof.step:
            if proof.figures is None:
                height = sheet_data(desk.job, finished=False)["made"]["height_mm"] if desk.job else None
                return (height,) if height is not None else None
            found = proof.figures.search("\n".join((*step.to_do, *step.consequence)))
            return tuple(map(float, found.groups())) if found else None
        same = [
            text for key, text in truth.items() if base_of(key) == base_of(step.key).removesuffix("_again")
        ]
        answer = truth.get(step.key) or (same[0] if same else None)
        if answer is None:
            return None
        desk, stored = key_in(desk, answer)
        if not stored:
            return None
    return None


def value_of(text: str, decimals: int) -> float:
    """The number a text of fixed places stands for."""
    return float(text) if "." in text else int(text) / 10**decimals


def try_all(key: str, desk: Desk, text: str, truth: dict[str, str], *, in_mm: float = 1.0) -> Tally:
    """Every slip on one step; `in_mm`: what the figures of the pages are in."""
    tally, step = Tally(), desk.step
    assert step is not None and step.mask is not None
    proof = PROOFS[base_of(key)]
    lengths = proof.figures in (RING, GO_TO)
    within = proof.within / in_mm if lengths else proof.within
    right = proof_figures(desk, proof, truth)
    assert right is not None, key
    meant = value_of(text, step.mask.decimals)
    for slip in slips(text):
        tally.slips += 1
        after, stored = key_in(desk, slip)
        if not stored:
            tally.refused += after.offered is None
            tally.offered += after.offered is not None
            continue
        assert after.step is not None
        value = float(words_of(after.entries[-1])[0].split()[0])
        by_two = max(value / meant, meant / value) >= FACTOR if value > 0 else True
        tally.stored_by_two += by_two
        figures = proof_figures(after, proof, truth)
        moved = figures is None or any(abs(a - b) > within for a, b in zip(figures, right, strict=True))
        again = base_of(after.step.key) == base_of(key) and after.step.blind
        if after.step.key == keys.TOO_HIGH:
            tally.again += 1  # what was keyed stands there, and what next is asked
        elif moved:
            tally.used += 1
            tally.used_slips.append(slip)
            tally.used_by_two += [slip] * by_two
        elif again:
            tally.again += 1
        elif figures == right or by_two:
            tally.outvoted += 1
        else:
            tally.agrees += 1
    return tally


def tally_words(key: str, text: str, tally: Tally) -> str:
    """One line of the count."""
    return (
        f"{key:<16} {text:>7}: {tally.slips:4} slips, {tally.refused:4} refused, {tally.offered:2} offered, "
        f"{tally.again:3} asked again, "
        f"{tally.outvoted:3} outvoted, {tally.agrees:3} near, {tally.used:3} used, "
        f"stored out by two {tally.stored_by_two:3}, used out by two {len(tally.used_by_two)}"
    )


def refused_checks(desk: Desk, text: str) -> Counter[str]:
    """The slips on a number that is read back: refused, wrong (stored as a slip), or taken as right."""
    count: Counter[str] = Counter()
    for slip in slips(text):
        after, stored = key_in(desk, slip)
        words = after.entries[-1].value if stored else ()
        count["refused" if not stored else "right" if words[0] == "right" else "wrong"] += 1  # type: ignore[index]
    return count
