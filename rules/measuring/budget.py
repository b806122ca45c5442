"""Uncertainty put together from its parts, line by line (GUM, JCGM 100:2008, clauses 4, 5 and annex G).

Invariant: the shares of a budget are squares over the sum of squares, so they add to one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from rules.measuring import student


@dataclass(frozen=True, slots=True)
class Line:
    """One contribution to an uncertainty."""

    name: str
    """What it comes from, in the trade's words."""
    u_mm: float
    """Standard uncertainty it brings to the result, mm."""
    dof: float = math.inf
    """Degrees of freedom; infinite for a limit that is taken as known."""
    share: float = 0.0
    """Part of the total, 0 to 1, of squares."""
    basis: str = ""
    """How the figure was come by, in words."""


@dataclass(frozen=True, slots=True)
class Combined:
    """The parts put together."""

    u_mm: float
    """Standard uncertainty, mm."""
    dof: float
    """Effective degrees of freedom (Welch-Satterthwaite)."""
    lines: tuple[Line, ...]

    def good_to_mm(self) -> float:
        """Expanded uncertainty, 95 %, mm; the degrees of freedom are cut down to a whole number."""
        return student.coverage_factor(whole(self.dof)) * self.u_mm


def whole(dof: float) -> float:
    """Degrees of freedom cut down to a whole number, at least 1 (GUM G.4.1 note)."""
    return dof if math.isinf(dof) else float(max(1, math.floor(dof + 1e-9)))


def rectangular(half_width_mm: float) -> float:
    """Standard uncertainty of a value known only to lie within +-half_width (GUM 4.3.7)."""
    return half_width_mm / math.sqrt(3.0)


def combine(lines: Iterable[Line]) -> Combined:
    """Root of the sum of squares, effective degrees of freedom (GUM G.4.1) and the share of each line."""
    kept = tuple(lines)
    total = math.fsum(line.u_mm**2 for line in kept)
    if total == 0.0:
        return Combined(u_mm=0.0, dof=math.inf, lines=kept)
    weight = math.fsum((line.u_mm**2 / total) ** 2 / line.dof for line in kept)
    shares = tuple(replace(line, share=line.u_mm**2 / total) for line in kept)
    return Combined(u_mm=math.sqrt(total), dof=1.0 / weight if weight > 0.0 else math.inf, lines=shares)
