"""The keys of the ring with a foot in the session file, every one written or made here and nowhere else.

Invariant: each begins with the name of the seal, so that no answer about it is ever read as one about
another seal; none is ever renamed. What it has in common with another kind has that one's key behind its own
name.
"""

from __future__ import annotations

# measure
LEDGE = "foot_ledge"
EDGE = "foot_edge"
BEVEL = "foot_bevel"
STANDS = "foot_stands"
STANDS_BY = "foot_stands_by"
HOME = "foot_home"
CLAMPED = "foot_clamped"
THROUGH = "foot_through"
PRESSURE = "foot_pressure"
# size
THICK_WANTED = "foot_thick_wanted"
INSIDE_WANTED = "foot_inside_wanted"
NONE_FITS = "foot_none_fits"
ACCEPTED = "foot_accepted"
# verify
THICKNESS = "foot_thickness"
OFF = "foot_off"
LAID = "foot_laid"


def of(key: str) -> str:
    """Key of what another kind of seal has as well.

    >>> of("case_bore_2")
    'foot_case_bore_2'
    """
    return f"foot_{key}"


def without(key: str) -> str:
    """The key that another kind has for it; empty where it has none.

    >>> without("foot_case_bore_2"), without("case_bore_2")
    ('case_bore_2', '')
    """
    return key.removeprefix("foot_") if key.startswith("foot_") else ""
