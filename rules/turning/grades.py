"""ISO 286 standard tolerance grades: what a tolerance in millimetres is called.

Invariant: the published table decides, never its formula. Valid for sizes to 120 mm and grades IT1 to IT14.
Source: ISO 286-1, table 1 (see data/iso286.toml).
"""

from __future__ import annotations

import tomllib
from functools import cache

from rules.checks import OutOfRange, number
from rules.tables import DATA

LARGEST_SIZE_MM = 120.0


@cache
def _rows() -> tuple[tuple[float, float, tuple[float, ...]], ...]:
    table = tomllib.loads(DATA.joinpath("iso286.toml").read_text(encoding="utf-8"))
    return tuple((row["above"], row["up_to"], tuple(map(float, row["widths"]))) for row in table["row"])


def tolerance_um(*, size_mm: float, grade: int) -> float:
    """Width of the tolerance of a grade, in um.

    Raises OutOfRange outside 0 to 120 mm and IT1 to IT14.

    >>> tolerance_um(size_mm=33.0, grade=8)
    39.0
    """
    widths = _widths(size_mm)
    number("IT grade", grade, low=1, high=len(widths), unit="", advice="give a grade of the table")
    return widths[grade - 1]


def grade_held(*, size_mm: float, width_um: float) -> int | None:
    """The coarsest grade whose tolerance is no wider than `width_um`; None when even IT1 is wider.

    >>> grade_held(size_mm=33.0, width_um=40.0)
    8
    """
    number("tolerance", width_um, low=0.0, high=1e5, unit="um", advice="give its whole width")
    fitting = [grade for grade, width in enumerate(_widths(size_mm), start=1) if width <= width_um]
    return fitting[-1] if fitting else None


def grade_words(*, size_mm: float, width_um: float) -> str:
    """The grade as it is said: "IT8 (39 um at 33.00 mm)"; "finer than IT1" when none is met."""
    grade = grade_held(size_mm=size_mm, width_um=width_um)
    if grade is None:
        return f"finer than IT1 at {size_mm:.2f} mm"
    return f"IT{grade} ({tolerance_um(size_mm=size_mm, grade=grade):g} um at {size_mm:.2f} mm)"


def _widths(size_mm: float) -> tuple[float, ...]:
    number("size", size_mm, low=0.0, high=LARGEST_SIZE_MM, unit="mm", advice="the table goes no further")
    for above, up_to, widths in _rows():
        if above < size_mm <= up_to:
            return widths
    raise OutOfRange(f"size: {size_mm:g} mm has no grade; give more than 0 mm")
