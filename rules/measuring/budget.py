"""An uncertainty budget: components combined (GUM, JCGM 100:2008, clauses 4, 5 and annex G).

Invariant: the shares of a budget are squares over the sum of squares, so they add to one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from rules.measuring import student

COVERAGE = 2.0
"""An expanded uncertainty is taken as this many standard ones (GUM 6.3.3, 95 %)."""


@dataclass(frozen=True, slots=True)
class Component:
    """One component of an uncertainty."""

    name: str
    """What it comes from, in the trade's words."""
    u_mm: float
    """Standard uncertainty of the result that comes from it, mm (GUM 5.1.3: u_i(y))."""
    dof: float = math.inf
    """Degrees of freedom; infinite for a limit that is taken as known."""
    share: float = 0.0
    """Part of the total, 0 to 1, of squares."""
    basis: str = ""
    """How it was evaluated, in words."""


@dataclass(frozen=True, slots=True)
class Combined:
    """The components combined."""

    u_mm: float
    """Combined standard uncertainty, mm."""
    dof: float
    """Effective degrees of freedom (Welch-Satterthwaite)."""
    components: tuple[Component, ...]

    def good_to_mm(self) -> float:
        """Expanded uncertainty, 95 %, mm; the degrees of freedom are truncated to a whole number."""
        return student.coverage_factor(whole(self.dof)) * self.u_mm


def whole(dof: float) -> float:
    """Degrees of freedom truncated to a whole number, at least 1 (GUM G.4.1 note)."""
    return dof if math.isinf(dof) else float(max(1, math.floor(dof + 1e-9)))


def rectangular(half_width_mm: float) -> float:
    """Standard uncertainty of a value known only to lie within +-half_width (GUM 4.3.7)."""
    return half_width_mm / math.sqrt(3.0)


def good_to_mm(limit_of_error_mm: float) -> float:
    """Expanded uncertainty, 95 %, mm, of a mean for which the instrument's limit
    of error alone stands (GUM 4.3.7).
    """
    return student.coverage_factor(math.inf) * rectangular(limit_of_error_mm)


def combine(components: Iterable[Component]) -> Combined:
    """Root of the sum of squares, effective degrees of freedom (GUM G.4.1) and the share of each."""
    kept = tuple(components)
    total = math.fsum(one.u_mm**2 for one in kept)
    if total == 0.0:
        return Combined(u_mm=0.0, dof=math.inf, components=kept)
    weight = math.fsum((one.u_mm**2 / total) ** 2 / one.dof for one in kept)
    shares = tuple(replace(one, share=one.u_mm**2 / total) for one in kept)
    return Combined(u_mm=math.sqrt(total), dof=1.0 / weight if weight > 0.0 else math.inf, components=shares)
