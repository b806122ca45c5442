"""What the tester showed over time, the curve expected, and the limit.

Invariant: both scales begin at zero unless a value lies below it; readings are crosses, the model a line.
"""

from __future__ import annotations

from collections.abc import Sequence

from screens.raster import Canvas, Style

_LEFT, _RIGHT, _TOP, _BOTTOM = 0.12, 0.98, 0.08, 0.86


def leak_curve(
    points: Sequence[tuple[float, float]],
    *,
    curve: Sequence[tuple[float, float]] = (),
    limit: float | None = None,
    x_unit: str = "min",
    y_unit: str = "um",
    columns: int = 56,
    rows: int = 11,
    style: Style = "braille",
) -> list[str]:
    """Readings over time as crosses, the model as a line, the limit dashed and named.

    `points` and `curve` are (time in `x_unit`, value in `y_unit`); without either there is no picture.
    """
    everything = [*points, *curve]
    if not everything:
        return []
    heights = [value for _, value in everything] + ([limit] if limit is not None else [])
    low, high = min(0.0, *heights), max(0.0, *heights)
    span = (high - low) or 1.0
    longest = max(time for time, _ in everything) or 1.0
    canvas = Canvas(1.0, 1.0, stretch=True)

    def place(time: float, value: float) -> tuple[float, float]:
        return (
            _LEFT + (_RIGHT - _LEFT) * time / longest,
            _BOTTOM - (_BOTTOM - _TOP) * (value - low) / span,
        )

    canvas.line((_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM))
    if curve:
        canvas.line(*(place(time, value) for time, value in curve))
    if limit is not None:
        canvas.line(place(0, limit), place(longest, limit), dashed=True)
        canvas.label(_RIGHT, place(0, limit)[1], f"limit {limit:.3g}", "right")
    for time, value in points:
        x, y = place(time, value)
        canvas.line((x - 0.012, y), (x + 0.012, y))
        canvas.line((x, y - 0.03), (x, y + 0.03))
    canvas.label(0, _TOP, f"{high:.3g}")
    canvas.label(0, _TOP, y_unit, down=1)
    canvas.label(0, _BOTTOM, f"{low:.3g}")
    canvas.label(_LEFT, 1.0, "0")
    canvas.label(_RIGHT, 1.0, f"{longest:.3g} {x_unit}", "right")
    return canvas.render(columns, rows, style)
