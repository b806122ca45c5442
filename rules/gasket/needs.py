"""What a gasket in its room has to meet, and the chance over the tolerances that it does.

Invariant: a gasket meets its needs or not by `broken` alone; the chance is that of what `broken` leaves.

The needs of a gasket squeezed down to a stop bound the height between the faces on both sides, so for each
thickness, width, room and force the chance is that of one normal quantity between two bounds; those of one
that takes all bound force and thickness. The rest is summed by Gauss and Hermite's rule.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import NormalDist

from rules.gasket.law import squeeze_under
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
NODES = ((1.650680123885785, 0.04587585476806849), (0.5246476232752905, 0.4541241452319315))
"""Half of the places and parts of Gauss and Hermite's rule with four points; the others lie opposite."""

LEGENDRE = tuple(
    (sign * place, weight)
    for place, weight in (
        (0.18343464249564984, 0.36268378337836193),
        (0.5255324099163290, 0.31370664587788727),
        (0.7966664774136267, 0.22238103445337440),
        (0.9602898564975363, 0.10122853629037638),
    )
    for sign in (1.0, -1.0)
)
"""Places and parts of Gauss and Legendre's rule with eight points."""
FAR = 5.0
"""Standard deviations beyond which nothing is left to count."""


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
    squeeze = stop if room.stopped else squeeze_by(question, sizes, force_n)
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


def chance(question: GasketQuestion, sizes: GasketSizes) -> float:
    """The chance that such a gasket, as it is made, in this room as it was measured, meets every need."""
    on, total = on_a_stop if question.room.stopped else without_stop, 0.0
    for width, one in spread(sizes.width_mm, question.width_u_mm):
        for room, other in spread(question.room.width_mm, question.room.across_u_mm):
            total += one * other * on(question, of_width(sizes, width), room)
    return min(1.0, max(0.0, total))


def least_squeeze(question: GasketQuestion, made: GasketSizes) -> float:
    """The squeeze (fraction) over which a gasket seals."""
    one = question.material
    if not one.seating_mpa:
        return one.least_squeeze
    load = one.seating_mpa * made.width_mm
    return squeeze_under(one.law, load_n_per_mm=load, width_mm=made.width_mm, thick_mm=made.thick_mm)


def most_squeeze(question: GasketQuestion, made: GasketSizes, wide_mm: float) -> float:
    """The squeeze over which it is spoiled, or has no room left in a room so wide."""
    return min(question.material.most_squeeze, 1.0 - made.width_mm / (MOST_FILL * wide_mm))


def on_a_stop(question: GasketQuestion, made: GasketSizes, wide_mm: float) -> float:
    """The chance, over thickness, height and force, that the stop leaves a squeeze that does, and that the
    force is there for it.
    """
    room, found = question.room, 0.0
    for thick, part in spread(made.thick_mm, question.thick_u_mm(made.thick_mm)):
        one = replace(made, thick_mm=thick)
        least, most = least_squeeze(question, one), most_squeeze(question, one, wide_mm)
        for reach, weight in reached(question, one):
            low, high = (thick * (1.0 - squeeze) for squeeze in (min(most, reach), least))
            found += part * weight * between(low, high, mean=room.height_mm, sd=room.height_u_mm)
    return found


def without_stop(question: GasketQuestion, made: GasketSizes, wide_mm: float) -> float:
    """The chance, over force and thickness, that the force leaves a squeeze that does, and the lid where it
    is wanted; by Gauss and Legendre's rule over the thicknesses that can.
    """
    mean, sd = made.thick_mm, question.thick_u_mm(made.thick_mm)
    ends = standing_mm(question, made)
    low, high = max(ends[0], mean - FAR * sd), min(ends[1], mean + FAR * sd)
    middle = min(max(mean, low), high)
    found = 0.0
    for start, end in ((low, middle), (middle, high)):
        half = (end - start) / 2.0
        for place, weight in LEGENDRE if half > 0.0 else ():
            thick = start + half * (1.0 + place)
            there = by_force(question, replace(made, thick_mm=thick), wide_mm)
            found += half * weight * there * NormalDist(mean, sd).pdf(thick)
    return found


def by_force(question: GasketQuestion, made: GasketSizes, wide_mm: float) -> float:
    """The chance that the force does for a gasket of these sizes without a stop."""
    one, drive, height = question.material, question.drive, question.room.height_mm
    low, high = (1.0 - (height + off) / made.thick_mm for off in (STANDS_MM, -STANDS_MM))
    most = min(high, most_squeeze(question, made, wide_mm))
    seats = one.seating_mpa * made.width_mm * made.middle_mm
    least = max(seats, force_at(question, made, max(low, one.least_squeeze)))
    return between(least, force_at(question, made, most), mean=drive.mid_n, sd=drive.sd_n)


@lru_cache(maxsize=64)
def standing_mm(question: GasketQuestion, made: GasketSizes) -> tuple[float, float]:
    """The thinnest and the thickest gasket that some force brings to where the lid is wanted, mm."""
    drive, room = question.drive, question.room
    ends = []
    for sign in (-1.0, 1.0):
        force = max(0.0, drive.mid_n + sign * FAR * drive.sd_n)
        thick = height = room.height_mm + sign * STANDS_MM
        for _ in range(3):
            thick = height / (1.0 - squeeze_by(question, replace(made, thick_mm=thick), force))
        ends.append(thick)
    return ends[0], ends[1]


def squeeze_by(question: GasketQuestion, made: GasketSizes, force_n: float) -> float:
    """The squeeze to which a force brings a gasket between dry faces."""
    load = force_n / made.middle_mm
    return squeeze_under(
        question.material.law, load_n_per_mm=load, width_mm=made.width_mm, thick_mm=made.thick_mm
    )


@lru_cache(maxsize=64)
def reached(question: GasketQuestion, made: GasketSizes) -> tuple[tuple[float, float], ...]:
    """The squeezes that the force reaches, and the part that each counts."""
    return tuple(
        (squeeze_by(question, made, force), weight)
        for force, weight in spread(question.drive.mid_n, question.drive.sd_n)
    )


def force_at(question: GasketQuestion, made: GasketSizes, squeeze: float) -> float:
    """The force at a squeeze between dry faces, N; none without squeeze."""
    if squeeze <= 0.0:
        return 0.0
    pressure = question.material.law.held_mpa(squeeze, width_mm=made.width_mm, thick_mm=made.thick_mm)
    return pressure * made.width_mm * made.middle_mm


def of_width(sizes: GasketSizes, width_mm: float) -> GasketSizes:
    """The same gasket of another width round its middle."""
    middle = (sizes.outside_mm + sizes.inside_mm) / 2.0
    return replace(sizes, outside_mm=middle + width_mm, inside_mm=middle - width_mm)


def spread(mean: float, sd: float) -> Iterator[tuple[float, float]]:
    """Values of a normal quantity and the part that each counts."""
    for place, weight in NODES:
        aside = math.sqrt(2.0) * sd * place
        yield mean + aside, weight
        yield mean - aside, weight


def between(low: float, high: float, *, mean: float, sd: float) -> float:
    """The chance of a normal quantity to lie between two."""
    if high <= low:
        return 0.0
    normal = NormalDist(mean, sd)
    return normal.cdf(high) - normal.cdf(low)
