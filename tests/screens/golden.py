"""Golden text: what was drawn once and looked at is kept, and drawn again by every run.

`python -m tests.screens.golden` draws the pictures anew into `golden_pictures.txt`;
look at the difference before keeping it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

from rules.testing.leak_curve import LeakCurve, leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.rig import READINGS, Rig
from screens import pictures
from screens.raster import DOTS, Style

FILE = Path(__file__).with_name("golden_pictures.txt")
HEAD = "== "


def drawn(style: Style) -> Iterator[tuple[str, list[str]]]:
    """Every picture at the size it has in a window of 80 by 24."""
    for pressed in (False, True):
        yield (
            f"section {'pressed' if pressed else 'before'}",
            pictures.section(
                case_bore_mm=33.20,
                glass_mm=32.14,
                outside_mm=33.20,
                bore_mm=32.04,
                height_mm=1.20,
                seat_depth_mm=1.40,
                glass_edge_mm=1.30,
                pressed=pressed,
                style=style,
            ),
        )
    for name, value, columns in (("limits", 32.06, 60), ("limits narrow", 31.90, 40)):
        yield (
            name,
            pictures.limit_lines(
                low=31.95,
                high=32.10,
                target=32.04,
                half_width=0.02,
                value=value,
                words=("too tight", "works", "too loose"),
                columns=columns,
                style="ascii" if style == "ascii" else "half",
            ),
        )
    yield "clock", pictures.clock([(12, 33.20), (3, 33.24), (5, 33.22)], style=style)
    yield (
        "bar",
        pictures.bar_passes(
            bar_mm=36.0,
            outside_mm=33.20,
            bore_mm=32.04,
            height_mm=1.20,
            bored_mm=2.20,
            stick_out_mm=8.0,
            turned_mm=2.60,
            blade_mm=1.0,
            outside_now_mm=33.60,
            bore_now_mm=31.44,
            now_mm=31.84,
            along_mm=2.20,
            tool=2.0,
            style=style,
        ),
    )
    yield "leak", pictures.leak_picture(leak_of(20.0), style=style)


def leak_of(rate_ug_min: float) -> LeakCurve:
    """The curve of a leak as a gauge of 0.1 um shows it:
    2 cm3 at 2 bar, 10 um, read every 50 s for 10 minutes.
    """
    times = [50.0 * n for n in range(READINGS)]
    fall = rate_ug_min / 60.0 / (2.0 * 1188.4 * 2.0)
    signal = [round(10.0 * math.exp(-fall * time), 1) for time in times]
    return leak_curve(times, signal, fit_leak(times, signal, Rig(2.0, 0.3, 2.0, 0.1)), unit="um")


def all_text() -> str:
    """All pictures in all rasters."""
    parts = []
    for style in DOTS:
        for name, lines in drawn(style):
            parts += [f"{HEAD}{name}, {style}", *(line.rstrip() for line in lines)]
    return "\n".join(parts) + "\n"


if __name__ == "__main__":
    FILE.write_text(all_text(), encoding="utf-8")
