"""What presses a lid on its gasket: one thread that turns the lid home, or screws round it.

Invariant: every figure is a range, as friction under a key is never known; forces in N, torque in N m.

A thread: F = T / (K d), K the nut factor. Screws: the stress that a small screw is drawn to, on its stress
area As = pi/4 (d - 0.938194 P)^2, the middle of pitch and root diameter (ISO 898-1), P the pitch.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import known, number

NUT_FACTOR = (0.12, 0.25)
"""Greased, and dry (common values of the nut factor; own judgement for a fine thread as wide as a case)."""
USUAL_TORQUE_NM = 3.0
"""A firm turn of a key on a back (own judgement)."""
DRAWN_MPA = (100.0, 200.0)
"""Stress in a small screw drawn home by hand (own judgement: half of what soft steel yields at)."""
PITCH_MM = {0.8: 0.2, 0.9: 0.225, 1.0: 0.25, 1.2: 0.25, 1.4: 0.3, 1.6: 0.35, 2.0: 0.4}
"""Pitch of small screws by their diameter (0.8 to 1.0 after ISO 1501 and ASME B1.13M as printed,
threadspecification.com/s and engineersedge.com/hardware; 1.2 to 2.0 in a list after ISO 262, mastik.pt).
"""


def stress_area_mm2(*, diameter_mm: float, pitch_mm: float) -> float:
    """Stress area of a metric screw, mm2.

    >>> round(stress_area_mm2(diameter_mm=3.0, pitch_mm=0.5), 2)
    5.03
    """
    return math.pi / 4.0 * (diameter_mm - 0.938194 * pitch_mm) ** 2


def force_n(*, torque_nm: float, diameter_mm: float, nut_factor: float) -> float:
    """Force along a thread drawn home with a torque, N.

    >>> round(force_n(torque_nm=3.0, diameter_mm=30.0, nut_factor=0.2))
    500
    """
    return 1000.0 * torque_nm / (nut_factor * diameter_mm)


@dataclass(frozen=True, slots=True)
class Drive:
    """The force that presses a lid home, N."""

    low_n: float
    high_n: float
    words: str
    """What gives it."""

    @property
    def mid_n(self) -> float:
        """The middle of what it gives."""
        return (self.low_n + self.high_n) / 2.0

    @property
    def sd_n(self) -> float:
        """Standard deviation: anywhere in its range with the same chance."""
        return (self.high_n - self.low_n) / math.sqrt(12.0)


def by_thread(*, diameter_mm: float, torque_nm: float) -> Drive:
    """A lid that is itself screwed home; raises OutOfRange."""
    number("thread", diameter_mm, low=5.0, high=80.0, unit="mm")
    number("torque", torque_nm, low=0.2, high=15.0, unit="N m", advice="a key by hand gives 1 to 6")
    high, low = (force_n(torque_nm=torque_nm, diameter_mm=diameter_mm, nut_factor=k) for k in NUT_FACTOR)
    return Drive(low, high, f"a thread of {diameter_mm:g} mm, turned home with {torque_nm:g} N m")


def by_screws(*, count: int, diameter_mm: float) -> Drive:
    """A lid held by so many screws of a size of the table; raises OutOfRange."""
    number("screws", count, low=2, high=16, unit="")
    pitch = known("size of screw", f"{diameter_mm:.1f}", {f"{d:.1f}": p for d, p in PITCH_MM.items()})
    area = count * stress_area_mm2(diameter_mm=diameter_mm, pitch_mm=pitch)
    low, high = (area * stress for stress in DRAWN_MPA)
    return Drive(low, high, f"{count} screws of {diameter_mm:.1f} mm")
