"""A foot proposed for a seat and a glass: its thickness from the height wanted, its bore from ledge and dial,
and whether it carries the water.

Invariant: the same question gives the same foot; one that carries too little is proposed all the same, and
the warnings say so. Lengths in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import OutOfRange, hundredth, number
from rules.foot.bearing import USUAL_POISSON, Bearing, FootLaw, load_n
from rules.limits import LEAST_FOOT_MM, MOST_FOOT_MM
from rules.tables import Plastic

CLEAR_OF_DIAL_MM = 0.2
"""Between the bore of the foot and what stands or turns in it, on the radius (own judgement)."""
BORE_STEP_MM = 0.05
USUAL_MM = (0.25, 0.60)
"""Feet that are usual (from memory)."""
FREE_MM, HANGS_MM = 0.40, 0.05
"""Thickness where the glass does not stand on it, and what then stays free under it (own judgement)."""
LEAST_BEARING_MM = 0.20
"""A narrower bearing may miss the ledge on one side, as seat, glass and foot are never quite concentric
(own judgement).
"""
SINKS_MM = 0.02
"""So far the glass may go down in ten years of the same load before it is said (own judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FootQuestion:
    """What is asked of the foot."""

    seat_depth_mm: float
    """From ledge to rim."""
    ledge_mm: float
    """Inside diameter of the ledge."""
    glass_mm: float
    edge_mm: float
    """Height of the glass at its edge, from where it stands to where its edge ends above."""
    bevel_mm: float
    """Of the lower edge of the glass, across."""
    over_mm: float
    """By how much that edge is to stand over the rim; under it where negative."""
    through_mm: float | None = None
    """Largest diameter of what stands or turns within the foot; None: nothing does."""
    pressure_bar: float = 10.0
    home: bool = True
    """The glass stands on the foot; else it hangs in the wall alone."""
    inside_mm: float | None = None
    """Bore of the foot as wanted; None: as proposed."""
    thick_mm: float | None = None
    """Thickness as wanted; None: as proposed."""
    plastic: Plastic | None = None
    """None: not known how it creeps."""


@dataclass(frozen=True, slots=True)
class FootSizing:
    """A proposed foot and what follows."""

    question: FootQuestion
    thick_mm: float
    inside_mm: float
    bearing: Bearing
    load_n: float
    stress_mpa: float
    sinks_mm: float | None
    """At once; None where it is not known."""
    years_mm: float | None
    """After ten years of the same load; None where it is not known, or it gives way."""
    gives_way: str
    """Under what load it gives way; empty where it does not."""

    @property
    def stands_over_mm(self) -> float:
        """By how much the edge of the glass stands over the rim, where it stands on the foot."""
        one = self.question
        return round(self.thick_mm + one.edge_mm - one.seat_depth_mm, 3)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is to be looked at before it is made."""
        low, high = USUAL_MM
        due = (
            (bool(self.gives_way), f"the foot gives way {self.gives_way}: a wider one, or another plastic"),
            (
                self.years_mm is not None and self.years_mm > SINKS_MM,
                f"the glass may go down {self.years_mm or 0.0:.2f} mm in ten years of that load",
            ),
            (
                self.inside_mm < self.question.ledge_mm - 1e-9,
                "the foot stands out over the ledge: what hangs there carries nothing",
            ),
            (
                self.question.through_mm is not None
                and self.inside_mm < self.question.through_mm + 2.0 * CLEAR_OF_DIAL_MM - 1e-9,
                f"under {CLEAR_OF_DIAL_MM:.2f} mm clear of what stands or turns within the foot",
            ),
            (
                not self.question.home,
                "the glass hangs in the wall alone: the water may push it down on the foot",
            ),
            (
                not low <= self.thick_mm <= high,
                f"the foot is not {low:.2f} to {high:.2f} mm thick as is usual",
            ),
        )
        return tuple(text for is_so, text in due if is_so)


def foot_sizing(question: FootQuestion) -> FootSizing:
    """The foot that is asked for; raises OutOfRange where there can be none."""
    thick, inside = thickness(question), bore(question)
    bearing = Bearing(
        outside_mm=round(question.glass_mm - 2.0 * question.bevel_mm, 4),
        inside_mm=max(inside, question.ledge_mm),
        thick_mm=thick,
    )
    if bearing.width_mm < LEAST_BEARING_MM - 1e-9:
        raise OutOfRange(
            f"foot: the glass would stand on {max(0.0, bearing.width_mm):.2f} mm of it over the ledge; "
            f"it needs {LEAST_BEARING_MM:.2f} mm; look at ledge, bevel and what has to go through the foot"
        )
    load = load_n(pressure_bar=question.pressure_bar, glass_mm=question.glass_mm)
    return carried(question, thick, inside, bearing, load)


def carried(question: FootQuestion, thick: float, inside: float, bearing: Bearing, load: float) -> FootSizing:
    """The same with how it carries."""
    stress, one = bearing.stress_mpa(load), question.plastic
    at_once = years = None
    gives_way = ""
    if one is not None and one.youngs_modulus_mpa is not None and one.stress_cap_mpa is not None:
        ratio = USUAL_POISSON if one.poisson_ratio is None else one.poisson_ratio
        law = FootLaw(one.youngs_modulus_mpa, one.stress_cap_mpa, ratio)
        at_once = law.sinks_mm(bearing, stress)
        left = one.relaxation_10y
        years = None if left is None else law.sinks_mm(bearing, stress, left=left)
        if at_once is None:
            gives_way = f"at {question.pressure_bar:g} bar"
        elif left is not None and years is None:
            gives_way = f"in years of {question.pressure_bar:g} bar"
    return FootSizing(question, thick, inside, bearing, load, stress, at_once, years, gives_way)


def thickness(question: FootQuestion) -> float:
    """What lifts the edge of the glass to where it is wanted; raises OutOfRange."""
    if question.thick_mm is not None:
        return number("foot", question.thick_mm, low=LEAST_FOOT_MM, high=MOST_FOOT_MM, unit="mm")
    lifts = question.seat_depth_mm + question.over_mm - question.edge_mm
    if not question.home:
        lifts = min(FREE_MM, lifts - HANGS_MM)
    if not LEAST_FOOT_MM - 1e-9 <= lifts <= MOST_FOOT_MM + 1e-9:
        made = f"{LEAST_FOOT_MM:.2f} to {MOST_FOOT_MM:.2f} mm can be made"
        raise OutOfRange(
            f"foot: it would have to be {lifts:.2f} mm thick, {made}; "
            "another height of the glass over the rim, or a glass of another thickness"
        )
    return hundredth(lifts)


def bore(question: FootQuestion) -> float:
    """Level with the ledge, wider where something stands or turns within it."""
    if question.inside_mm is not None:
        return question.inside_mm
    through = question.through_mm
    least = question.ledge_mm if through is None else max(question.ledge_mm, through + 2 * CLEAR_OF_DIAL_MM)
    return round(math.ceil(least / BORE_STEP_MM - 1e-6) * BORE_STEP_MM, 2)
