"""Squeezed strips by finite elements, over the proportions of rings and the plastics they are turned from.

`python -m tests.independent.elastic_plastic` solves one and prints it; `--write` solves them all, about half
an hour, and keeps them in `data/squeezed_strips.toml`.

Invariant: nothing of the product is used here. A strip is squeezed straight between two rigid, flat walls
with Coulomb friction, its ends free; plane strain, large strains, Mises flow along the plastic's own curve in
compression, `flow.capped`. Lengths are in walls before the squeeze, pressures in caps of the curve and on the
first height, so that modulus over cap and Poisson's ratio stand for a plastic.
"""

from __future__ import annotations

import itertools
import sys
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np

from tests.independent.flow import capped
from tests.independent.pressed_section import Press, Section, State, strip

KEPT = Path(__file__).parent / "data" / "squeezed_strips.toml"
SQUEEZES = (0.02, 0.04, 0.06, 0.09, 0.12, 0.15)
HEIGHTS = (0.6, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0)
GRID = (
    ((25.0, 0.36), (0.1, 0.2, 0.25, 0.35)),
    ((19.0, 0.38), (0.1, 0.25)),
    ((37.0, 0.46), (0.1, 0.25)),
)
"""Modulus over cap and Poisson's ratio, acetal's first, and the frictions that each is squeezed with; each
also without friction, where the height does not matter.
"""
STEPS = 40
"""For the largest squeeze."""
HEAD = """# Squeezed strips, written by `python -m tests.independent.elastic_plastic --write`.
# plastic: modulus over cap, Poisson's ratio; height over the wall before the squeeze; pressure: mean, on the
# first height, over the cap; mean and crown: growth of the height, whole face and highest point, over height.
"""


@dataclass(frozen=True, slots=True)
class Squeezed:
    """One strip at one squeeze."""

    steepness: float
    """Modulus over cap."""
    nu: float
    friction: float
    height: float
    """Over the wall before it is squeezed."""
    squeeze: float
    pressure: float
    """Mean, on the first height, over the cap."""
    mean_growth: float
    """Of the height, mean of the free end, over the height."""
    crown: float
    """The same of its highest point."""

    @property
    def height_over_gap(self) -> float:
        """Height over squeezed wall."""
        return self.height / (1.0 - self.squeeze)


def _grown(press: Press, state: State) -> tuple[float, float]:
    """How far the free end has moved out, mean (Simpson's rule over its nodes) and most, over the height."""
    along = state.moved[press.end_dofs] / press.high
    mean = (along[:-2:2] + 4.0 * along[1::2] + along[2::2]).mean() / 6.0
    return float(mean), float(along.max())


def squeezed(
    section: Section, *, steepness: float, nu: float, squeezes: Sequence[float] = SQUEEZES
) -> Iterator[Squeezed]:
    """A strip of cap 1 at growing squeezes."""
    press = Press(section, capped(steepness, nu, 1.0))
    state, last = press.rest(), 0.0
    for squeeze in squeezes:
        steps = max(1, round(STEPS * (squeeze - last) / max(SQUEEZES)))
        walls = [(0.0, section.width * (1.0 - one)) for one in (last, squeeze)]
        state, last = press.to(state, walls[0], walls[1], steps), squeeze
        mean, crown = _grown(press, state)
        yield Squeezed(
            steepness, nu, section.friction, section.height, squeeze, state.pressure[1], mean, crown
        )


def _line(found: Sequence[Squeezed]) -> str:
    """A strip as a line of the table."""
    one = found[0]
    lists = {
        "pressure": [round(each.pressure, 5) for each in found],
        "mean": [round(each.mean_growth, 5) for each in found],
        "crown": [round(each.crown, 5) for each in found],
    }
    figures = ", ".join(f"{name} = {values}" for name, values in lists.items())
    plain = f"plastic = {[one.steepness, one.nu]}, friction = {one.friction}, height = {one.height}"
    return f"  {{ {plain}, {figures} }},"


def write() -> None:
    """Solves every strip and keeps it."""
    lines = [HEAD + f"squeezes = {list(SQUEEZES)}", "strips = ["]
    for (steepness, nu), frictions in GRID:
        for friction, height in [(0.0, 2.0), *itertools.product(frictions, HEIGHTS)]:
            found = list(squeezed(strip(height, friction), steepness=steepness, nu=nu))
            lines.append(_line(found))
            print(lines[-1], flush=True)
    KEPT.write_text("\n".join([*lines, "]"]) + "\n", encoding="utf-8")


@lru_cache(maxsize=1)
def kept() -> tuple[Squeezed, ...]:
    """Every strip that is kept, at every squeeze."""
    raw: dict[str, Any] = tomllib.loads(KEPT.read_text("utf-8"))
    return tuple(
        Squeezed(
            row["plastic"][0],
            row["plastic"][1],
            row["friction"],
            row["height"],
            squeeze,
            pressure,
            mean,
            crown,
        )
        for row in raw["strips"]
        for squeeze, pressure, mean, crown in zip(
            raw["squeezes"], row["pressure"], row["mean"], row["crown"], strict=True
        )
    )


if __name__ == "__main__":
    np.seterr(all="raise", under="ignore")
    if "--write" in sys.argv[1:]:
        write()
    else:
        print(_line(list(squeezed(strip(2.0, 0.2), steepness=25.0, nu=0.36))))
