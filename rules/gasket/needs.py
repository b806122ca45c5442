"""What a gasket in its room has to meet, and the chance over the tolerances that it does.

Invariant: a gasket meets its needs or not by `broken` alone; the chance is that of what `broken` leaves.

Given thickness, width and room, the needs of a gasket squeezed down to a stop bound the height between the
faces, and those of one that takes all bound the force: of one normal quantity the chance between two bounds.
That is averaged over `POINTS` of the others, laid evenly over their chances (a sequence of Kronecker's).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import NamedTuple

from rules.gasket.room import GasketQuestion, GasketSizes

MOST_FILL = 0.95
"""Part of the room that it may fill once squeezed: rubber that has no room left is not squeezed but crushed,
and swells in oil (own judgement).
"""
STANDS_MM = 0.05
"""A lid without a stop may stand so far off where it is wanted (own judgement)."""
GRIPPED, SPOILED, FILLED, UNDRIVEN, UNSEATED, PROUD, LOW = (
    "the squeeze is too small to last",
    "the squeeze spoils it",
    "the room is full",
    "the parts do not close: the force is not there",
    "it presses too little to seal",
    "the lid stands proud",
    "the lid sinks too far",
)
"""What may be broken, in words."""
POINTS, FEW = 2048, 128
"""So many gaskets, rooms and forces are looked at, for a chance good to half a point; and where thicknesses
are only compared.
"""
PACES = (0.8566748838545029, 0.7338918566271260, 0.6287067210378087, 0.5385972572236101)
"""Paces of the sequence over four quantities: powers of 1/x, x^5 = x + 1."""


@dataclass(frozen=True, slots=True)
class Squeezed:
    """A gasket as it is squeezed, under a force and between faces at a height."""

    squeeze: float
    """Part of its thickness."""
    pressure_mpa: float
    """Between dry faces."""
    force_n: float
    """That it takes between dry faces."""
    fill: float
    """Part of the room."""
    height_mm: float


def squeezed(question: GasketQuestion, sizes: GasketSizes, *, height_mm: float, force_n: float) -> Squeezed:
    """How a gasket comes to rest, on the stop or under the force; one that is too thin is not squeezed."""
    law, room = question.material.law, question.room
    thick, width = sizes.thick_mm, sizes.width_mm
    stop = max(0.0, 1.0 - height_mm / thick)
    under = law.squeeze_at(force_n / (width * sizes.middle_mm), width_mm=width, thick_mm=thick)
    squeeze = stop if room.stopped else under
    pressure = law.held_mpa(squeeze, width_mm=width, thick_mm=thick)
    return Squeezed(
        squeeze=squeeze,
        pressure_mpa=pressure,
        force_n=pressure * width * sizes.middle_mm,
        fill=width / ((1.0 - squeeze) * room.width_mm),
        height_mm=thick * (1.0 - squeeze),
    )


def broken(question: GasketQuestion, found: Squeezed, *, force_n: float) -> tuple[str, ...]:
    """The needs that are not met, as they are named above."""
    one, room = question.material, question.room
    off = found.height_mm - room.height_mm
    due = (
        (GRIPPED, found.squeeze < one.least_squeeze),
        (UNSEATED, found.pressure_mpa < one.seating_mpa),
        (SPOILED, found.squeeze > one.most_squeeze),
        (FILLED, found.fill > MOST_FILL),
        (UNDRIVEN, room.stopped and found.force_n > force_n),
        (PROUD, not room.stopped and off > STANDS_MM),
        (LOW, not room.stopped and off < -STANDS_MM),
    )
    return tuple(name for name, is_so in due if is_so)


class OneOfMany(NamedTuple):
    """A gasket as it may turn out, in a room as it may be, under a force as it may come."""

    thick_mm: float
    width_mm: float
    wide_mm: float
    """Of the room."""
    force_n: float
    round_mm: float
    """Circumference."""


@lru_cache(maxsize=1)
def points() -> tuple[tuple[float, ...], ...]:
    """Thickness, width, room and force of every point, in standard deviations off their means."""
    normal = NormalDist()
    return tuple(
        tuple(normal.inv_cdf((0.5 + n * pace) % 1.0) for pace in PACES) for n in range(1, POINTS + 1)
    )


def chance(question: GasketQuestion, sizes: GasketSizes, among: int = POINTS) -> float:
    """The chance that such a gasket, as it is made, in this room as it was measured, meets every need."""
    room, drive = question.room, question.drive
    means = (sizes.thick_mm, sizes.width_mm, room.width_mm, drive.mid_n)
    sds = (question.thick_u_mm(sizes.thick_mm), question.width_u_mm, room.across_u_mm, drive.sd_n)
    on = on_a_stop if room.stopped else by_force
    total = 0.0
    for place in points()[:among]:
        thick, width, wide, force = (mean + at * sd for mean, at, sd in zip(means, place, sds, strict=True))
        total += on(question, OneOfMany(thick, width, wide, force, sizes.middle_mm))
    return total / among


def least_squeeze(question: GasketQuestion, one: OneOfMany) -> float:
    """The squeeze (fraction) over which a gasket seals."""
    of = question.material
    if not of.seating_mpa:
        return of.least_squeeze
    return of.law.squeeze_at(of.seating_mpa, width_mm=one.width_mm, thick_mm=one.thick_mm)


def most_squeeze(question: GasketQuestion, one: OneOfMany) -> float:
    """The squeeze over which it is spoiled, or has no room left."""
    return min(question.material.most_squeeze, 1.0 - one.width_mm / (MOST_FILL * one.wide_mm))


def on_a_stop(question: GasketQuestion, one: OneOfMany) -> float:
    """The chance, over the height, that the stop leaves a squeeze that does and the force reaches."""
    room = question.room
    pressure = max(0.0, one.force_n) / (one.round_mm * one.width_mm)
    reach = question.material.law.squeeze_at(pressure, width_mm=one.width_mm, thick_mm=one.thick_mm)
    most, least = min(most_squeeze(question, one), reach), least_squeeze(question, one)
    ends = (one.thick_mm * (1.0 - most), one.thick_mm * (1.0 - least))
    return between(*ends, mean=room.height_mm, sd=room.height_u_mm)


def by_force(question: GasketQuestion, one: OneOfMany) -> float:
    """The chance, over the force, that it leaves a squeeze that does, and the lid where it is wanted."""
    of, drive, height = question.material, question.drive, question.room.height_mm
    low, high = (1.0 - (height + off) / one.thick_mm for off in (STANDS_MM, -STANDS_MM))
    most = min(high, most_squeeze(question, one))
    seats = of.seating_mpa * one.width_mm * one.round_mm
    least = max(seats, force_at(question, one, max(low, of.least_squeeze)))
    return between(least, force_at(question, one, most), mean=drive.mid_n, sd=drive.sd_n)


def force_at(question: GasketQuestion, one: OneOfMany, squeeze: float) -> float:
    """The force at a squeeze between dry faces, N; none without squeeze."""
    if squeeze <= 0.0:
        return 0.0
    pressure = question.material.law.held_mpa(squeeze, width_mm=one.width_mm, thick_mm=one.thick_mm)
    return pressure * one.width_mm * one.round_mm


def between(low: float, high: float, *, mean: float, sd: float) -> float:
    """The chance of a normal quantity to lie between two."""
    if high <= low:
        return 0.0
    scale = math.sqrt(2.0) * sd
    return (math.erf((high - mean) / scale) - math.erf((low - mean) / scale)) / 2.0
