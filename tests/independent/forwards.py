"""One ring in one joint worked out forwards, figure by figure: bisection and plain floats.

Imports nothing of the sizing: the formulas stand here again, from the words that explain them. Only material
figures are handed in.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from tests.independent.drawn_rings import Drawn

Figures = dict[str, float]


@dataclass(frozen=True, slots=True)
class Rest:
    """Where ring and walls come to rest."""

    squeeze: float
    pressure: float
    load: float


def root(rises: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that rises passes nothing, halving 200 times."""
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if rises(middle) > 0 else (middle, high)
    return (low + high) / 2


def metal_gives(job: Drawn) -> float:
    """Movement of the seat for each N/mm: Lame's thick cylinder, and the twist of a ring off its middle."""
    assert job.metal is not None
    ri, ro = job.seat / 2, job.seat / 2 + job.metal["wall"]
    hoop = (ro * ro + ri * ri) / (ro * ro - ri * ri)
    twist = 1 + 12 * (job.metal["offset"] / job.metal["height"]) ** 2
    return ri * (hoop + job.metal["nu"]) / job.metal["modulus"] / job.metal["height"] * twist


def glass_gives(job: Drawn) -> float:
    """Movement of the edge of a disc for each N/mm."""
    if job.pane is None:
        return 0.0
    return job.glass / 2 * (1 - job.pane["nu"]) / job.pane["modulus"] / job.pane["thickness"]


def hoop_stress(job: Drawn, load: float) -> float:
    """At the seat, MPa."""
    assert job.metal is not None
    ri, ro = job.seat / 2, job.seat / 2 + job.metal["wall"]
    return load / job.metal["height"] * (ro * ro + ri * ri) / (ro * ro - ri * ri)


def flows_at(job: Drawn, yield_mpa: float) -> float:
    """Line load under which the whole section flows: a thin band, or a thick ring after Tresca."""
    assert job.metal is not None
    part = job.metal["wall"] / (job.seat / 2)
    bears = part if part <= 0.18 else max(0.18, math.log(1 + part))
    return yield_mpa * job.metal["height"] * bears


def pressure_at(job: Drawn, wall: float, squeeze: float, *, left: float = 1.0, friction: float) -> float:
    """Of a squeezed strip: its curve, plane strain, friction on both walls."""
    modulus, cap = job.plastic["modulus"], job.plastic["cap"]
    assert modulus is not None and cap is not None and job.height is not None
    hill = 1 + friction * job.height / 2 / (wall * (1 - squeeze))
    return 2 / math.sqrt(3) * hill * left * cap * (1 - math.exp(-modulus * squeeze / cap))


def rest(job: Drawn, wall: float, bite: float, *, left: float = 1.0, friction: float | None = None) -> Rest:
    """The squeeze at which wall and surround together take up the bite."""
    mu = job.friction if friction is None else friction
    gives, high = metal_gives(job) + glass_gives(job), job.height or 0.0
    if bite <= 0:
        return Rest(0.0, 0.0, 0.0)

    def over(squeeze: float) -> float:
        load = pressure_at(job, wall, squeeze, left=left, friction=mu) * high
        return squeeze * wall + load * gives - bite

    squeeze = root(over, 0.0, bite / wall)
    pressure = pressure_at(job, wall, squeeze, left=left, friction=mu)
    return Rest(squeeze, pressure, pressure * high)


def warmed(job: Drawn, warmer: float) -> tuple[float, Drawn] | None:
    """Gap and ring so much warmer than 20 C, its plastic as stiff as it is there; None where an expansion or
    that stiffness is not known.
    """
    plastic, stiff = job.plastic, job.stiff_at.get(20.0 + warmer)
    ring, nu, modulus, cap = (plastic[name] for name in ("cte", "nu", "modulus", "cap"))
    if job.metal is None or job.pane is None or stiff is None:
        return None
    if ring is None or nu is None or modulus is None or cap is None:
        return None
    gap = (job.seat * (1 + job.metal["cte"] * warmer) - job.glass * (1 + job.pane["cte"] * warmer)) / 2
    wall = job.wall * (1 + ring * warmer + nu * (ring - job.metal["cte"]) * warmer)
    there = plastic | {"modulus": modulus * stiff[0], "cap": cap * stiff[1]}
    return gap, replace(job, wall=wall, plastic=there)


def frictions(job: Drawn) -> tuple[tuple[str, float], ...]:
    """Low, as keyed, high."""
    return ("low", min(0.1, job.friction)), ("mid", job.friction), ("high", max(0.25, job.friction))


def later(job: Drawn, bite: float) -> Figures:
    """Pressures as the plastic relaxes."""
    found = {}
    for name, left in (("1h", "left_1h"), ("1000h", "left_1000h"), ("10y", "left_10y")):
        part = job.plastic[left]
        if part is not None:
            found[f"contact_pressure_{name}_mpa"] = rest(job, job.wall, bite, left=part).pressure
    return found


def figures(job: Drawn) -> Figures:
    """What is known of a ring that is squeezed."""
    gap = (job.seat - job.glass) / 2
    bite = job.wall - gap
    here = rest(job, job.wall, bite)
    found = {
        "real_squeeze_pct": 100 * here.squeeze,
        "contact_pressure_mpa": here.pressure,
        "line_load_n_per_mm": here.load,
        "squeezed_wall_mm": gap + here.load * (metal_gives(job) + glass_gives(job)),
        "case_growth_um": 1000 * here.load * metal_gives(job),
        "case_hoop_stress_mpa": hoop_stress(job, here.load),
        "axial_growth_mm": (job.height or 0.0) * (1 / (1 - here.squeeze) - 1),
        "height_over_wall": (job.height or 0.0) / (job.wall * (1 - here.squeeze)),
        **later(job, bite),
    }
    for name, mu in frictions(job):
        load = rest(job, job.wall, bite, friction=mu).load
        found[f"force_{name}"] = mu * load * math.pi * job.glass
    for name, warmer in (("cold", -30.0), ("warm", 40.0)):
        moved = warmed(job, warmer)
        if moved is not None:
            there = moved[1]
            found[f"contact_pressure_{name}_mpa"] = rest(there, there.wall, there.wall - moved[0]).pressure
    return found


def stretched(job: Drawn, yield_mpa: float) -> Figures:
    """The same where the metal flows: it bears no more than its yield; what is not given back is lost."""
    gap, cap = (job.seat - job.glass) / 2, flows_at(job, yield_mpa)
    bite = job.wall - gap

    def squeezed(mu: float) -> Rest:
        free = rest(job, job.wall, bite, friction=mu)
        if free.load <= cap:
            return free
        high = job.height or 0.0
        at = root(lambda e: pressure_at(job, job.wall, e, friction=mu) * high - cap, 0.0, 1 - 1e-12)
        return Rest(at, cap / high, cap)

    here = squeezed(job.friction)
    grown = bite - here.squeeze * job.wall - here.load * glass_gives(job)
    lost = max(0.0, grown - here.load * metal_gives(job))
    found = {
        "real_squeeze_pct": 100 * here.squeeze,
        "contact_pressure_mpa": here.pressure,
        "line_load_n_per_mm": here.load,
        "case_growth_um": 1000 * grown,
        "case_hoop_stress_mpa": min(yield_mpa, hoop_stress(job, here.load)),
        "set_um": 1000 * lost,
        **later(job, bite - lost),
    }
    for name, mu in frictions(job):
        found[f"force_{name}"] = mu * squeezed(mu).load * math.pi * job.glass
    return found


def everywhere(job: Drawn, gap: float) -> Figures:
    """Margins of what is asked at 20 C, in the cold and in the warmth, each where it is known."""
    found = {}
    ten, quarter, slippery = job.plastic["left_10y"], job.oval / 4, min(0.10, job.friction)
    push = 2 * 0.07 * math.pi * job.glass**2 / 4
    known = {"": (gap, job), " at -10 C": warmed(job, -30.0), " at +60 C": warmed(job, 40.0)}
    for where, moved in known.items():
        if moved is None:
            continue
        opening, there = moved
        bite = there.wall - opening
        if ten is not None:
            pressure = rest(there, there.wall, bite - quarter, left=ten).pressure
            found[f"10 MPa of contact pressure after ten years{where}"] = pressure / 10 - 1
            held = rest(there, there.wall, bite, left=ten, friction=slippery).load
            name = f"hold against 0.7 bar of underpressure after ten years{where}"
            found[name] = held * slippery * math.pi * job.glass / push - 1
        if job.yields_at is not None:
            stress = hoop_stress(job, rest(there, there.wall, bite).load)
            found[f"the bezel's yield{where}"] = 1 - stress / job.yields_at
    return found


def margins(job: Drawn) -> dict[str, float]:
    """How far inside each known requirement a ring is, over the size of what is required; 0 at its edge.

    Without any spread. Named as the window names what binds.
    """
    gap, quarter, wall = (job.seat - job.glass) / 2, job.oval / 4, job.wall
    least, most = ("on the long axis", "on the short axis") if quarter else ("of the wall", "of the wall")
    found = {
        f"5 % {least}": ((wall - gap - quarter) / wall - 0.05) / 0.05,
        f"{100 * job.most_squeeze:.0f} % {most}": (job.most_squeeze - (wall - gap + quarter) / wall) / 0.05,
        "a wall of 0.20 mm, the least that can be turned": (wall - 0.20) / 0.20,
    }
    if job.height is None or job.metal is None or job.plastic["cap"] is None:
        return found
    here = rest(job, wall, wall - gap)
    found |= everywhere(job, gap)
    if job.overpressure:
        hour = rest(job, wall, wall - gap, left=job.plastic["left_1h"] or 1.0).load
        push = 2 * job.overpressure / 10 * math.pi * job.glass**2 / 4
        name = f"hold against {job.overpressure:g} bar trapped in a leaking case"
        found[name] = hour * job.friction * math.pi * job.glass / push - 1
    if job.hard is not None and job.yields_at is None:
        found["the bezel's yield, even if it is hard"] = 1 - here.load / flows_at(job, job.hard)
    if job.press is not None:
        force = job.friction * here.load * math.pi * job.glass
        found[f"the press, {job.press:g} N"] = 1 - force / job.press
    if job.room is not None:
        found["the height there is for the ring to grow"] = 1 - job.height / (1 - here.squeeze) / job.room
    return found
