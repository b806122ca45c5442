"""The chance to land in the band by drawing rings and asking each requirement of the whole model, forwards.

Imports nothing of the sizing: formulas and limits are written down again here, with numpy, and solved by
Newton's method for all drawn rings at once. Only material figures are handed in.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One job for drawing; None is not known. Spreads are standard deviations, lengths mm."""

    seat: float
    glass: float
    seat_sigma: float
    glass_sigma: float
    wall: float
    wall_sigma: float
    height: float | None
    height_sigma: float
    oval: float
    most_squeeze: float
    plastic: dict[str, float | None]
    """modulus, cap, nu, cte, left_1h, left_10y."""
    metal: dict[str, float] | None
    """modulus, nu, cte, wall, height, offset; None when the section is not known."""
    pane: dict[str, float] | None
    """modulus, nu, cte, thickness."""
    friction: float
    overpressure: float | None
    press: float | None
    room: float | None
    yields_at: float | None
    hard: float | None = None
    """Yield of the hard temper, where that of this very case is not known."""
    stiff_at: dict[float, tuple[float, float]] = field(default_factory=dict)
    """Modulus and cap over those of the room at a temperature, C; not known at any other."""


def _surround(job: Drawn) -> tuple[float, float]:
    """Compliance of case and glass together, and hoop stress for each N/mm."""
    assert job.metal is not None
    metal = job.metal
    ri, ro, high = job.seat / 2, job.seat / 2 + metal["wall"], metal["height"]
    ratio = (ro**2 + ri**2) / (ro**2 - ri**2)
    case = ri / (metal["modulus"] * high) * (ratio + metal["nu"]) * (1 + 12 * metal["offset"] ** 2 / high**2)
    inside = 0.0
    if job.pane is not None and "thickness" in job.pane:
        inside = job.glass / 2 * (1 - job.pane["nu"]) / (job.pane["modulus"] * job.pane["thickness"])
    return case + inside, ratio / high


def _solve(
    job: Drawn,
    wall: Array,
    bite: Array,
    high: Array,
    left: float,
    friction: float,
    gives: float,
    stiff: tuple[float, float] = (1.0, 1.0),
) -> tuple[Array, Array]:
    """Real squeeze and contact pressure for each drawn ring: the root of bite = e wall + p h gives."""
    modulus, cap = job.plastic["modulus"], job.plastic["cap"]
    assert modulus is not None and cap is not None
    modulus, cap = modulus * stiff[0], cap * stiff[1]
    top = np.maximum(bite, 0.0) / wall
    squeeze = top / 2

    def pressure(e: Array) -> Array:
        hill = 1 + friction * high / (2 * wall * (1 - e))
        return np.asarray(2 / np.sqrt(3) * hill * left * cap * (1 - np.exp(-modulus * e / cap)))

    for _ in range(25):
        here = squeeze * wall + pressure(squeeze) * high * gives - np.maximum(bite, 0.0)
        near = squeeze + 1e-7
        there = near * wall + pressure(near) * high * gives - np.maximum(bite, 0.0)
        following = np.clip(squeeze - here / ((there - here) / 1e-7), 0.0, top)
        if np.max(np.abs(following - squeeze)) < 1e-10:
            break
        squeeze = following
    over = squeeze * wall + pressure(squeeze) * high * gives - np.maximum(bite, 0.0)
    assert np.max(np.abs(over)) < 1e-7
    return squeeze, pressure(squeeze)


def _climates(job: Drawn, gap: Array, wall: Array) -> list[tuple[Array, Array, tuple[float, float]]]:
    """Gap, wall and stiffness at 20, -10 and +60 C, as far as expansions and stiffness are known."""
    found = [(gap, wall, (1.0, 1.0))]
    ring, nu = job.plastic["cte"], job.plastic["nu"]
    if job.metal is None or job.pane is None or ring is None or nu is None:
        return found
    case, glass = job.metal["cte"], job.pane["cte"]
    for warmer in (-30.0, 40.0):
        if 20.0 + warmer not in job.stiff_at:
            continue
        wider = (job.seat * case - job.glass * glass) * warmer / 2
        thicker = wall * (1 + (ring + nu * (ring - case)) * warmer)
        found.append((gap + wider, thicker, job.stiff_at[20.0 + warmer]))
    return found


def chance_by_drawing(job: Drawn, *, rings: int, dice: np.random.Generator) -> float:
    """Share of drawn rings that meet every requirement that is known."""
    seat = dice.normal(job.seat, job.seat_sigma, rings)
    glass = dice.normal(job.glass, job.glass_sigma, rings)
    wall = dice.normal(job.wall, job.wall_sigma, rings)
    gap = (seat - glass) / 2
    good: Any = (wall - gap - job.oval / 4) / wall >= 0.05
    good &= (wall - gap + job.oval / 4) / wall <= job.most_squeeze
    good &= wall >= 0.20
    if job.height is None or job.metal is None or job.plastic["cap"] is None:
        return float(np.mean(good))
    high = dice.normal(job.height, job.height_sigma, rings)
    gives, hoop = _surround(job)
    ten, slippery = job.plastic["left_10y"], min(0.10, job.friction)
    climates = _climates(job, gap, wall)
    if ten is not None:
        for opening, thick, stiff in climates:
            bite = thick - opening - job.oval / 4
            _, pressure = _solve(job, thick, bite, high, ten, job.friction, gives, stiff)
            good &= pressure >= 10.0
            _, pressure = _solve(job, thick, thick - opening, high, ten, slippery, gives, stiff)
            good &= slippery * pressure * high * np.pi * glass >= 2 * 0.07 * np.pi * glass**2 / 4
    if job.overpressure:
        left = job.plastic["left_1h"] or 1.0
        _, pressure = _solve(job, wall, wall - gap, high, left, job.friction, gives)
        push = 2 * job.overpressure / 10 * np.pi * glass**2 / 4
        good &= job.friction * pressure * high * np.pi * glass >= push
    squeeze, pressure = _solve(job, wall, wall - gap, high, 1.0, job.friction, gives)
    if job.hard is not None and job.yields_at is None:
        part = job.metal["wall"] / (job.seat / 2)
        bears = part if part <= 0.18 else max(0.18, float(np.log(1 + part)))
        good &= pressure * high <= job.hard * job.metal["height"] * bears
    if job.press is not None:
        good &= job.friction * pressure * high * np.pi * glass <= job.press
    if job.room is not None:
        good &= high / (1 - squeeze) <= job.room
    if job.yields_at is not None:
        for opening, thick, stiff in climates:
            _, pressure = _solve(job, thick, thick - opening, high, 1.0, job.friction, gives, stiff)
            good &= pressure * high * hoop <= job.yields_at
    return float(np.mean(good))
