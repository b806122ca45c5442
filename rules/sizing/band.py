"""The limits on the wall of a ring, each in closed form, and the range of walls they leave.

Invariant: what is not known does not limit; every limit is one root of the model, never a scan.

The squeezed wall is the gap plus what the surround gives under the line load, so a limit on pressure, force
or stress gives that load at once, and the wall follows from the squeeze law turned round (`strip`).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from rules import limits
from rules.sizing import climate
from rules.sizing.climate import Shift
from rules.sizing.glass import MPA_PER_BAR
from rules.sizing.joint import Joint
from rules.sizing.strip import Strip

Wall = Callable[[float, float], float]
"""Wall for a gap and a height, all in mm; infinite for a least wall out of reach, or where no wall is too much."""


@dataclass(frozen=True, slots=True)
class Limit:
    """One requirement as a least or most wall."""

    words: str
    """What requires it, in the trade's words."""
    most: bool
    """True when the wall may not be thicker, False when it may not be thinner."""
    wall_mm: Wall
    modelled: bool = False
    """True when it comes from the squeeze model and so rests on the height."""
    relief: str = ""
    """What would move it, in words."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What the ring has to live with."""

    joint: Joint
    height_mm: float | None
    ovality_mm: float = 0.0
    overpressure_bar: float | None = None
    press_force_n: float | None = None
    room_mm: float | None = None
    """Height there is for the grown ring: the smaller of seat depth and straight edge."""

    @property
    def most_squeeze(self) -> float:
        """Upper end of the band: 13 %, or the lower half for plated and thin gold bezels."""
        metal, around = self.joint.metal, self.joint.around
        if metal is None or not metal.gentle:
            return limits.MOST_SQUEEZE
        thin = around is None or self.case_wall_mm is None or self.case_wall_mm < limits.THIN_CASE_WALL_MM
        return limits.GENTLE_SQUEEZE if metal.gentle == "plated" or thin else limits.MOST_SQUEEZE

    case_wall_mm: float | None = None


def push_line_load(*, pressure_bar: float, glass_mm: float, friction: float) -> float:
    """Line load, N/mm, whose friction holds the glass against `HOLD_TIMES` a pressure from inside.

    hold = mu q pi G, push = P pi G2 / 4. (0.7 bar on 32 mm pushes 56 N, 3 bar 241 N.)
    """
    return limits.HOLD_TIMES * pressure_bar * MPA_PER_BAR * glass_mm / (4.0 * friction)


def band_limits(terms: Terms) -> tuple[Limit, ...]:
    """Every requirement that is known, least walls first."""
    quarter = terms.ovality_mm / 4.0
    most = terms.most_squeeze
    found = [
        Limit(
            "5 % of the wall" + (" on the long axis" if quarter else ""),
            False,
            lambda gap, _: (gap + quarter) / (1.0 - limits.LEAST_SQUEEZE),
        ),
        Limit("a wall of 0.20 mm, the least that can be turned", False, lambda *_: limits.LEAST_WALL_MM),
        Limit(
            f"{100 * most:.0f} % of the wall" + (" on the short axis" if quarter else ""),
            True,
            lambda gap, _: (gap - quarter) / (1.0 - most),
        ),
    ]
    place = terms.joint
    if terms.height_mm is None or place.rigid or place.strip(terms.height_mm) is None:
        return tuple(found)
    return tuple(_least(terms, quarter) + found + _most(terms))


def _model(place: Joint, height: float, *, friction: float | None = None, left: float = 1.0) -> Strip:
    """The model at a height; only called where all it needs is known."""
    plastic, around = place.plastic, place.around
    if plastic.youngs_modulus_mpa is None or plastic.stress_cap_mpa is None or around is None:
        raise AssertionError("the model is asked for only where it is known")
    return Strip(
        plastic.youngs_modulus_mpa,
        plastic.stress_cap_mpa,
        height,
        place.friction if friction is None else friction,
        around.total_mm2_per_n,
        left,
    )


def _shifts(place: Joint) -> tuple[Shift, ...]:
    """20 C and, where the expansions are known, -10 and +60 C."""
    moved = (place.shift(climate.COLDEST_C), place.shift(climate.WARMEST_C))
    return (climate.STILL, *(one for one in moved if one is not None))


def _wall_for(model: Strip, moved: Shift, gap: float, pressure: float) -> float:
    """The wall at 20 C that gives a pressure at a temperature; infinite when the plastic cannot bear it."""
    wall = model.wall_for_pressure_mm(gap_mm=gap + moved.gap_mm, pressure_mpa=pressure)
    return math.inf if wall is None else wall / moved.wall_factor


def _least(terms: Terms, quarter: float) -> list[Limit]:
    """Least walls from the model: to close turning marks and hold the glass for ten years, and in a test."""
    place = terms.joint
    found: list[Limit] = []
    ten = place.plastic.relaxation_10y
    if ten is not None:
        shifts = _shifts(place)
        slippery = min(limits.LOW_FRICTION, place.friction)
        hold = push_line_load(
            pressure_bar=limits.UNDERPRESSURE_BAR, glass_mm=place.glass_mm, friction=slippery
        )

        def closes(gap: float, height: float) -> float:
            model = _model(place, height, left=ten)
            return max(_wall_for(model, one, gap + quarter, limits.LEAST_PRESSURE_MPA) for one in shifts)

        def holds(gap: float, height: float) -> float:
            model = _model(place, height, friction=slippery, left=ten)
            return max(_wall_for(model, one, gap, hold / height) for one in shifts)

        found.append(
            Limit(
                "10 MPa of contact pressure after ten years", False, closes, True, relief="a stiffer plastic"
            )
        )
        found.append(
            Limit(
                "hold against 0.7 bar of underpressure after ten years",
                False,
                holds,
                True,
                relief="a higher ring",
            )
        )
    if terms.overpressure_bar:
        trapped = push_line_load(
            pressure_bar=terms.overpressure_bar, glass_mm=place.glass_mm, friction=place.friction
        )
        hour = place.plastic.relaxation_1h or 1.0

        def bears(gap: float, height: float) -> float:
            return _wall_for(_model(place, height, left=hour), climate.STILL, gap, trapped / height)

        words = f"hold against {terms.overpressure_bar:g} bar trapped in a leaking case"
        found.append(Limit(words, False, bears, True, relief="a lower test pressure, vented slowly"))
    return found


def _most(terms: Terms) -> list[Limit]:
    """Most walls from the model: yield where the temper is known, the press, the height there is."""
    place = terms.joint
    found: list[Limit] = []
    hoop = place.around.hoop_per_load if place.around else None
    if place.case_yield_mpa is not None and hoop is not None:
        bears = place.case_yield_mpa / hoop
        shifts = _shifts(place)

        def springs(gap: float, height: float) -> float:
            model = _model(place, height)
            return min(_wall_for(model, one, gap, bears / height) for one in shifts)

        found.append(
            Limit("the bezel's yield", True, springs, True, relief="support the bezel under the seat")
        )
    if terms.press_force_n is not None:
        load = terms.press_force_n / (place.friction * math.pi * place.glass_mm)

        def seats(gap: float, height: float) -> float:
            return _wall_for(_model(place, height), climate.STILL, gap, load / height)

        found.append(
            Limit(f"the press, {terms.press_force_n:g} N", True, seats, True, relief="a stronger press")
        )
    room = terms.room_mm
    if room is not None:

        def stays_in(gap: float, height: float) -> float:
            strain = 1.0 - height / room
            if strain < 0.0:
                return 0.0
            return _model(place, height).wall_for_strain_mm(gap_mm=gap, strain=strain)

        found.append(
            Limit(
                "the height there is for the ring to grow",
                True,
                stays_in,
                True,
                relief="a lower ring",
            )
        )
    return found
