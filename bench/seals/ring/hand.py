"""A ring that is there, as it was measured, and what it does in this seat with this glass.

Invariant: it is judged as a ring that was made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bench.job.steps import Words
from bench.seals.ring.decided import decided_from, decided_words
from bench.seals.ring.hand_steps import BUCKLES, PRESSED, SLACK, USED
from bench.seals.ring.measure import Measured
from bench.seals.ring.size_words import consequences, follows
from bench.seals.ring.too_high import PROUD_MM
from rules.instrument import Instrument
from rules.lengths import bare, length, translated
from rules.measuring.budget import good_to_mm
from rules.sizing.decision import DOES_NOT, FITS, RingDecision, ring_decision
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size as sized
from rules.sizing.squeeze import Band, Gap
from rules.sizing.thumb import free_height_mm


@dataclass(frozen=True, slots=True)
class Hand:
    """A ring that is there, as it was measured."""

    what: str
    walls_mm: tuple[float, ...]
    height_mm: float
    lies: str
    keys: Words
    by: Instrument
    """What its walls were measured with."""
    chosen: Words = ()
    """What is kept with it where it comes from the drawer."""

    @property
    def wall_mm(self) -> float:
        """Mean of the walls."""
        return sum(self.walls_mm) / len(self.walls_mm)

    @property
    def said(self) -> str:
        """Its sizes in one line."""
        walls = f"wall {bare(self.wall_mm, 3)} (mean of {len(self.walls_mm)})"
        return f"{walls}, height {length(self.height_mm)}"


@dataclass(frozen=True, slots=True)
class Judged:
    """A ring that is there against seat and glass."""

    hand: Hand
    sizing: Sizing
    """What it does, as of any ring that is given."""
    decision: RingDecision
    highest_mm: float | None
    """What there is room for, where it is higher; None where it is not."""

    @property
    def fits(self) -> bool:
        """Whether nothing speaks against it."""
        off = self.sizing.window.off_words(self.sizing.ring.bore_mm)
        loose_or_tight = self.decision.decision == DOES_NOT or bool(off)
        return self.sizing.window.feasible and not loose_or_tight and self.hand.lies != BUCKLES

    @property
    def verdict(self) -> str:
        """The same in a few words."""
        if self.hand.lies == BUCKLES:
            return "too large for this seat"
        if self.fits:
            return "it fits" if self.decision.decision == FITS else "it may fit"
        window, bore = self.sizing.window, self.sizing.ring.bore_mm
        if not window.feasible and self.decision.decision != DOES_NOT:
            return "no ring meets every requirement here"
        over = window.bore_high_mm is not None and bore > window.bore_high_mm
        side = "loose" if over or self.decision.squeeze_pct < window.band.low_pct else "tight"
        return f"too {side}" if self.decision.decision == DOES_NOT else f"likely too {side}"

    @property
    def checks(self) -> Words:
        """What warns."""
        due = (
            (self.hand.lies == SLACK, "slack in the seat: keep it in its place as the glass goes in"),
            (self.hand.lies == BUCKLES, "too large for this seat: it would be shaved or buckle"),
            (self.highest_mm is not None, f"too high here: dressed to {length(self.highest_mm or 0)} first"),
        )
        return tuple(f"CHECK  {text}" for is_due, text in due if is_due)

    @property
    def lines(self) -> Words:
        """What it measures and what that means, one line each."""
        judged_in_words = self.decision.words
        if self.hand.what in (USED, PRESSED) or self.hand.lies == BUCKLES:  # no pressing will show more
            judged_in_words = judged_in_words.partition(" Undecided")[0]
        return (f"It has {self.hand.said}.", judged_in_words)

    def follows(self, measured: Measured) -> Words:
        """What follows for seat, glass and press; nothing of a cut, as none is made."""
        said = consequences(measured, self.sizing)
        thin, thick = self.sizing.window.band.walls_mm(self.sizing.fit.gap_mm)
        warned = tuple(f"CHECK  {translated(text)}" for text in self.sizing.warnings)
        works = (f"walls that work: {bare(thin, 3)} to {length(thick, 3)}",) * self.sizing.window.feasible
        return (*warned, said[0], *works, *follows(self.sizing))


def judged(by: Instrument, walls_mm: Sequence[float], gap: Gap, band: Band, shut: str) -> RingDecision:
    """Walls as they were measured against a gap."""
    return ring_decision(
        walls_mm=walls_mm,
        wall_u_mm=good_to_mm(by.limit_of_error_mm),
        gap_mm=gap.mm,
        gap_u_mm=gap.u_mm,
        band=band,
        shut=shut,
    )


def judge(hand: Hand, measured: Measured, question: SizingQuestion, outside_mm: float) -> Judged:
    """The ring against seat and glass; its outside is taken as the seat's, where it is pressed.

    Raises OutOfRange where its sizes cannot be.
    """
    bore = outside_mm - 2.0 * hand.wall_mm
    given = sized(replace(question, outside_mm=outside_mm, bore_mm=bore, height_mm=hand.height_mm))
    as_kept = decided_from(decided_words(measured, given, spares="0"))
    room = free_height_mm(question.room_mm, given.fit.nominal_squeeze_pct / 100.0)
    proud = room is not None and hand.height_mm > room + PROUD_MM
    decision = judged(hand.by, hand.walls_mm, as_kept.gap, given.window.band, as_kept.shut)
    return Judged(hand, given, decision, room if proud and hand.what != PRESSED else None)
