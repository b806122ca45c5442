"""The limits on the wall of a ring, each in closed form, and the range of walls they leave.

Invariant: what is not known does not limit; every limit is one root of the model, never a scan.

The squeezed wall is the gap plus what the surround gives under the line load, so a limit on pressure, force
or stress gives that load at once, and the wall follows from the squeeze law turned round (`strip`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from rules import limits
from rules.sizing import climate
from rules.sizing.climate import Climate
from rules.sizing.glass import MPA_PER_BAR
from rules.sizing.joint import Joint
from rules.strip import Strip

Wall = Callable[[float, float], float]
"""Wall for a gap and a height, all in mm;
infinite for a least wall out of reach, or where no wall is too much.
"""


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


@dataclass(frozen=True, slots=True)
class Demands:
    """What a ring has to live with in this joint; None does not limit."""

    joint: Joint
    ovality_mm: float = 0.0
    overpressure_bar: float | None = None
    press_force_n: float | None = None
    room_mm: float | None = None
    """Height there is for the grown ring: the smaller of seat depth and straight edge."""
    most_squeeze: float = limits.MOST_SQUEEZE
    """The most squeeze that the metal allows, a part of the wall."""


def most_squeeze(joint: Joint, case_wall_mm: float | None) -> float:
    """The most squeeze, a part of the wall:
    13 %, or the lower half of the band for plated and thin gold bezels.
    """
    metal, around = joint.metal, joint.around
    if metal is None or not metal.gentle:
        return limits.MOST_SQUEEZE
    thin = around is None or case_wall_mm is None or case_wall_mm < limits.THIN_CASE_WALL_MM
    return limits.GENTLE_SQUEEZE if metal.gentle == "plated" or thin else limits.MOST_SQUEEZE


def push_line_load(*, pressure_bar: float, glass_mm: float, friction: float) -> float:
    """Line load, N/mm, whose friction holds the glass against `HOLD_TIMES` a pressure from inside.

    hold = mu q pi G, push = P pi G2 / 4. (0.7 bar on 32 mm pushes 56 N, 3 bar 241 N.)
    """
    return limits.HOLD_TIMES * pressure_bar * MPA_PER_BAR * glass_mm / (4.0 * friction)


def wall_limits(demands: Demands, height_mm: float | None) -> tuple[Limit, ...]:
    """Every requirement on a ring of this height that is known, least walls first."""
    quarter, most = demands.ovality_mm / 4.0, demands.most_squeeze
    found = (
        Limit(
            f"{100 * limits.LEAST_SQUEEZE:.0f} % " + ("on the long axis" if quarter else "of the wall"),
            False,
            lambda gap, _: (gap + quarter) / (1.0 - limits.LEAST_SQUEEZE),
        ),
        Limit(
            f"a wall of {limits.LEAST_WALL_MM:.2f} mm, the least that can be turned",
            False,
            lambda *_: limits.LEAST_WALL_MM,
        ),
        Limit(
            f"{100 * most:.0f} % " + ("on the short axis" if quarter else "of the wall"),
            True,
            lambda gap, _: (gap - quarter) / (1.0 - most),
        ),
    )
    strip = None if demands.joint.rigid else demands.joint.strip(height_mm)
    if strip is None:
        return found
    return (
        *_ten_years(demands.joint, strip, quarter),
        *_in_a_test(demands, strip),
        *found,
        *_most(demands, strip),
    )


End = tuple[float, Limit]
"""A wall at one end of what is allowed, mm, and the limit that binds there."""


def ends(found: Sequence[Limit], *, gap_mm: float, height_mm: float | None) -> tuple[End, End]:
    """The least wall and the most wall; the least is larger, or infinite, where no wall meets every limit."""
    walls = [(one.wall_mm(gap_mm, height_mm or 0.0), one) for one in found]
    least = max((end for end in walls if not end[1].most), key=lambda end: end[0])
    most = min((end for end in walls if end[1].most), key=lambda end: end[0])
    return least, most


def climates(joint: Joint) -> tuple[Climate, ...]:
    """The room and, where expansions and stiffness are known there, -10 and +60 C."""
    known = (joint.climate(climate.COLDEST_C), joint.climate(climate.WARMEST_C))
    return (climate.ROOM, *(one for one in known if one is not None))


def _wall_for(strip: Strip, here: Climate, gap: float, pressure: float) -> float:
    """The wall at 20 C that gives a pressure in a climate; infinite when the plastic cannot reach it."""
    model = strip if here is climate.ROOM else strip.stiff(here.modulus_part, here.cap_part)
    wall = model.wall_for_pressure_mm(gap_mm=gap + here.shift.gap_mm, pressure_mpa=pressure)
    return math.inf if wall is None else wall / here.shift.wall_factor


def _ten_years(joint: Joint, strip: Strip, quarter: float) -> list[Limit]:
    """Least walls that close turning marks and hold the glass after ten years in the room, there and in each
    climate that is known; none while the creep is not known.
    """
    if joint.plastic.relaxation_10y is None:
        return []
    old = strip.relaxed(joint.plastic.relaxation_10y)
    slippery = old.with_friction(min(limits.LOW_FRICTION, joint.friction))
    hold = push_line_load(
        pressure_bar=limits.UNDERPRESSURE_BAR, glass_mm=joint.glass_mm, friction=slippery.friction
    )

    def closes(gap: float, height: float, here: Climate) -> float:
        return _wall_for(old.high(height), here, gap + quarter, limits.LEAST_PRESSURE_MPA)

    def holds(gap: float, height: float, here: Climate) -> float:
        return _wall_for(slippery.high(height), here, gap, hold / height)

    pressure, pulled = limits.LEAST_PRESSURE_MPA, limits.UNDERPRESSURE_BAR
    named = (
        (f"{pressure:g} MPa of contact pressure after ten years", closes),
        (f"hold against {pulled:g} bar of underpressure after ten years", holds),
    )
    return [
        Limit(f"{words} {here.words}".rstrip(), False, partial(wall, here=here), True)
        for words, wall in named
        for here in climates(joint)
    ]


def _in_a_test(demands: Demands, strip: Strip) -> list[Limit]:
    """The least wall that holds the glass against test pressure trapped in the case; none without one."""
    joint, bar = demands.joint, demands.overpressure_bar
    if not bar:
        return []
    trapped = push_line_load(pressure_bar=bar, glass_mm=joint.glass_mm, friction=joint.friction)
    after_an_hour = strip.relaxed(joint.plastic.relaxation_1h or 1.0)

    def bears(gap: float, height: float) -> float:
        return _wall_for(after_an_hour.high(height), climate.ROOM, gap, trapped / height)

    words = f"hold against {bar:g} bar trapped in a leaking case"
    return [Limit(words, False, bears, True)]


def _hard_load(joint: Joint) -> float | None:
    """Line load at which the whole section yields even in the hard temper, N/mm: what stays stretched at it,
    stays so in any; None where the yield of this very case is known, or that of its metal is not.
    """
    metal, around = joint.metal, joint.around
    if joint.case_yield_mpa is not None or metal is None or around is None or metal.brittle:
        return None
    return None if metal.yield_hard_mpa is None else metal.yield_hard_mpa * around.load_per_yield


def _most(demands: Demands, strip: Strip) -> list[Limit]:
    """Most walls: yield where the temper is known, the press, the height there is."""
    joint, room = demands.joint, demands.room_mm
    found: list[Limit] = []
    hoop = joint.around.hoop_per_load if joint.around else None
    if joint.case_yield_mpa is not None and hoop is not None:
        bears = joint.case_yield_mpa / hoop

        def springs(gap: float, height: float, here: Climate) -> float:
            return _wall_for(strip.high(height), here, gap, bears / height)

        found += [
            Limit(f"the bezel's yield {here.words}".rstrip(), True, partial(springs, here=here), True)
            for here in climates(joint)
        ]
    if (hard := _hard_load(joint)) is not None:

        def holds(gap: float, height: float) -> float:
            return _wall_for(strip.high(height), climate.ROOM, gap, hard / height)

        found.append(Limit("the bezel's yield, even if it is hard", True, holds, True))
    if demands.press_force_n is not None:
        load = demands.press_force_n / (joint.friction * math.pi * joint.glass_mm)

        def seats(gap: float, height: float) -> float:
            return _wall_for(strip.high(height), climate.ROOM, gap, load / height)

        press = f"the press, {demands.press_force_n:g} N"
        found.append(Limit(press, True, seats, True))
    if room is not None:

        def stays_in(gap: float, height: float) -> float:
            strain = 1.0 - height / room
            return 0.0 if strain < 0.0 else strip.high(height).wall_for_strain_mm(gap_mm=gap, strain=strain)

        growth = "the height there is for the ring to grow"
        found.append(Limit(growth, True, stays_in, True))
    return found
