"""The pictures of the job, each a pure function of plain numbers and a size in cells.

Invariant: every picture says its essential in words and figures too, so that it is read without colour and in
plain ASCII; the section is drawn to scale.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from screens.raster import Align, Canvas, Style


def section(
    *,
    case_bore_mm: float,
    glass_mm: float,
    outside_mm: float,
    bore_mm: float,
    height_mm: float,
    chamfer_mm: float = 0.10,
    lower_chamfer_mm: float = 0.10,
    seat_depth_mm: float | None = None,
    glass_edge_mm: float | None = None,
    pressed: bool = False,
    columns: int = 40,
    rows: int = 11,
    style: Style = "braille",
) -> list[str]:
    """The right-hand side of case, ring and glass in section, to scale, diameters in mm.

    Before pressing the ring sits in the case with the glass above it, its edge over the bore of the ring;
    after pressing the ring is as thin as the gap and a little higher.
    """
    gap = (case_bore_mm - glass_mm) / 2
    wall = (outside_mm - bore_mm) / 2
    seat = seat_depth_mm if seat_depth_mm else height_mm + 0.10
    edge = glass_edge_mm if glass_edge_mm else height_mm
    margin = max(wall, gap, 0.2)
    lift = 0.0 if pressed else max(0.25 * height_mm, 0.2)
    top = max(edge, height_mm, seat) + lift
    floor = 0.45 * margin + 0.1
    right_of_seat = 1.6 * margin
    left = 2.6 * margin
    canvas = Canvas(left + gap + right_of_seat, top + floor)
    seat_x = left + gap  # the wall of the seat
    ground = top  # the ledge on which the ring stands
    _case(canvas, seat_x=seat_x, ground=ground, seat=seat, ledge=margin * 0.9 + gap)
    ring_right = seat_x - max((case_bore_mm - outside_mm) / 2, 0.0)
    if pressed:
        thin = max(min(wall, gap), 0.02)
        tall = height_mm * (wall / thin) if wall > thin else height_mm
        tall = min(tall, 1.2 * height_mm)
        _ring(canvas, seat_x, ground, thin, tall, chamfer_mm * thin / max(wall, 0.01), lower_chamfer_mm)
        _glass(canvas, edge_x=left, bottom=ground, thickness=edge)
    else:
        _ring(canvas, ring_right, ground, wall, height_mm, chamfer_mm, lower_chamfer_mm)
        _glass(canvas, edge_x=left, bottom=ground - height_mm - 0.3 * lift, thickness=edge)
    canvas.label(0.2 * margin, ground - edge / 2 - (0 if pressed else height_mm), "glass", down=0)
    canvas.label(seat_x + right_of_seat, ground - seat / 2, "case", "right")
    canvas.label(seat_x - (min(wall, gap) if pressed else wall) / 2, ground - height_mm / 2, "ring", "centre")
    return canvas.render(columns, rows, style)


def _case(canvas: Canvas, *, seat_x: float, ground: float, seat: float, ledge: float) -> None:
    """The wall of the seat and the ledge under it."""
    canvas.polygon(
        (
            (seat_x, ground - seat),
            (canvas.width, ground - seat),
            (canvas.width, canvas.height),
            (seat_x - ledge, canvas.height),
            (seat_x - ledge, ground),
            (seat_x, ground),
        ),
        "diagonal",
    )


def _ring(
    canvas: Canvas, right: float, ground: float, wall: float, height: float, chamfer: float, lower: float
) -> None:
    """The ring: entry chamfer at its upper inner edge, a small one at its lower outer edge."""
    left = right - wall
    chamfer, lower = min(chamfer, 0.6 * wall), min(lower, 0.6 * wall)
    canvas.polygon(
        (
            (left + chamfer, ground - height),
            (right, ground - height),
            (right, ground - lower),
            (right - lower, ground),
            (left, ground),
            (left, ground - height + chamfer),
        ),
        "dots",
    )


def _glass(canvas: Canvas, *, edge_x: float, bottom: float, thickness: float) -> None:
    """The edge of the glass; it goes on to the left of the picture."""
    top = bottom - thickness
    canvas.line((0, top), (edge_x, top), (edge_x, bottom), (0, bottom))


def window_bar(
    *,
    loose: float,
    tight: float,
    target: float,
    tolerance: float = 0.0,
    landing: tuple[float, float] | None = None,
    value: float | None = None,
    unit: str = "mm",
    decimals: int = 2,
    columns: int = 60,
    style: Style = "half",
) -> list[str]:
    """Too loose, works, too tight as a bar: the target, its tolerance, where the cut lands, what is typed.

    `loose` and `tight` are the two ends of what works, in `unit`; the bar runs from loose on the left to
    tight on the right whichever of the two is larger. `tolerance` counts to either side of the target;
    `landing` is where the cut is expected to land. Four lines: words, bar, figures, what is typed.
    """
    span = tight - loose

    def column(number: float) -> int:
        """Column of a number: what works takes the middle half of the bar."""
        part = (number - loose) / span
        return min(max(round((0.25 + 0.5 * part) * (columns - 1)), 0), columns - 1)

    marks = {"works": "-", "outside": " ", "landing": "=", "target": "T", "edge": "|", "pointer": "^"}
    if style != "ascii":
        marks = {"works": "░", "outside": "─", "landing": "▒", "target": "█", "edge": "│", "pointer": "▲"}
    left, right = column(loose), column(tight)
    bar = [marks["works"] if left <= place <= right else marks["outside"] for place in range(columns)]
    spread = landing or (target - tolerance, target + tolerance)
    for place in range(min(map(column, spread)), max(map(column, spread)) + 1):
        bar[place] = marks["landing"]
    bar[left] = bar[right] = marks["edge"]
    bar[column(target)] = marks["target"]
    lines = [
        _row(
            columns,
            ((left // 2, "too loose"), ((left + right) // 2, "works"), ((right + columns) // 2, "too tight")),
        ),
        "".join(bar),
        _row(
            columns,
            (
                (left, f"{loose:.{decimals}f}"),
                (right, f"{tight:.{decimals}f}"),
                (
                    column(target),
                    f"{target:.{decimals}f}" + (f" +-{tolerance:.{decimals}f}" if tolerance else ""),
                ),
            ),
        ),
        " " * columns,
    ]
    if value is not None:
        where = (
            "too loose"
            if (value - loose) * span < 0
            else "too tight"
            if (value - tight) * span > 0
            else "works"
        )
        typed = f"{marks['pointer']} {value:.{decimals}f} {unit}: {where}"
        lines[3] = _row(columns, ((column(value), typed),), start=True)
    return lines


def _row(columns: int, items: Sequence[tuple[int, str]], *, start: bool = False) -> str:
    """Words centred on (or beginning at) their columns; later ones are left out where they do not fit."""
    cells = [" "] * columns
    for column, text in items:
        first = column if start else column - len(text) // 2
        first = min(max(first, 0), max(columns - len(text), 0))
        around = cells[max(first - 1, 0) : first + len(text) + 1]
        if all(cell == " " for cell in around):
            cells[first : first + len(text)] = text[:columns]
    return "".join(cells[:columns])


def clock(
    readings: Sequence[tuple[int, float]],
    *,
    decimals: int = 2,
    columns: int = 40,
    rows: int = 13,
    style: Style = "braille",
) -> list[str]:
    """Readings of a diameter at the hours of the clock where they were taken, and how far from round it is.

    Each reading is (hour 1 to 12, diameter in mm). The circle bulges where a reading is above the mean,
    exaggerated so that the largest difference is plain to see; the ovality in mm stands in the middle.
    """
    canvas = Canvas(30, 20)
    centre = (15.0, 10.0)
    values = [value for _, value in readings]
    mean = sum(values) / len(values) if values else 0.0
    worst = max((abs(value - mean) for value in values), default=0.0)

    def radius(angle: float) -> float:
        """Radius of the exaggerated outline: the readings weighted by how near their diameter lies."""
        if worst < 0.5 * 10**-decimals:
            return 7.5
        weights = [(math.cos(angle - hour * math.pi / 6) ** 2) ** 4 + 1e-6 for hour, _ in readings]
        bulge = sum(w * (value - mean) for w, value in zip(weights, values, strict=True)) / sum(weights)
        return 7.5 + 1.2 * bulge / worst

    outline = []
    for step in range(73):
        angle = step * math.pi / 36
        outline.append(
            (centre[0] + radius(angle) * math.sin(angle), centre[1] - radius(angle) * math.cos(angle))
        )
    canvas.line(*outline)
    for hour, value in readings:
        angle = hour * math.pi / 6
        across, up = math.sin(angle), math.cos(angle)
        canvas.line(
            (centre[0] + (radius(angle) - 1) * across, centre[1] - (radius(angle) - 1) * up),
            (centre[0] + (radius(angle) + 0.6) * across, centre[1] - (radius(angle) + 0.6) * up),
        )
        x, y = centre[0] + 8.7 * across, centre[1] - 9.3 * up
        align: Align = "centre" if abs(across) < 0.3 else "left" if across > 0 else "right"
        canvas.label(x, y, f"{hour}h {value:.{decimals}f}", align)
    if values:
        ovality = f"{max(values) - min(values):.{decimals}f}"
        canvas.label(*centre, "out of round", "centre", down=-1)
        canvas.label(*centre, f"{ovality} mm", "centre")
    return canvas.render(columns, rows, style)


def bar_passes(
    *,
    bar_mm: float,
    outside_mm: float,
    bore_mm: float,
    height_mm: float,
    bored_mm: float,
    stick_out_mm: float,
    outside_passes_mm: Sequence[float] = (),
    bore_passes_mm: Sequence[float] = (),
    now_mm: float | None = None,
    columns: int = 56,
    rows: int = 10,
    style: Style = "braille",
) -> list[str]:
    """Where each pass stands on the bar: the upper half in section, chuck on the left, free end on the right.

    All sizes in mm, diameters for the passes; the pass to be taken now is named. The length is stretched to
    the width, the diameters to the height.
    """
    length = stick_out_mm
    most = bar_mm / 2
    canvas = Canvas(length * 1.25, most * 1.12, stretch=True)
    chuck = 0.15 * length
    axis = canvas.height

    def y(diameter: float) -> float:
        return axis - diameter / 2

    canvas.rect(0, y(bar_mm) - 0.08 * most, chuck, axis - y(bar_mm) + 0.08 * most, "diagonal")
    end = chuck + length
    turned = max(end - bored_mm, chuck)
    canvas.line((chuck, y(bar_mm)), (turned, y(bar_mm)), (turned, y(outside_mm)), (end, y(outside_mm)))
    canvas.line((end, y(outside_mm)), (end, y(bore_mm)), (turned, y(bore_mm)), (turned, axis))
    for passes in (outside_passes_mm, bore_passes_mm):
        for diameter in passes:
            canvas.line((turned, y(diameter)), (end, y(diameter)), dashed=True)
    ring_left = max(end - height_mm, turned)
    canvas.polygon(
        ((ring_left, y(outside_mm)), (end, y(outside_mm)), (end, y(bore_mm)), (ring_left, y(bore_mm))), "dots"
    )
    canvas.line((chuck, axis), (canvas.width, axis), dashed=True)
    canvas.label(0.02 * length, axis - most * 0.5, "chuck")
    canvas.label(end, y(outside_mm), f"outside {outside_mm:.2f}", "right", right=-1, down=-1)
    canvas.label(end, y(bore_mm), f"bore {bore_mm:.2f}", "right", right=-1, down=1)
    if now_mm is not None:
        canvas.line((turned, y(now_mm)), (canvas.width, y(now_mm)))
        canvas.label(canvas.width, y(now_mm), f"now {now_mm:.2f}", "right")
    return canvas.render(columns, rows, style)


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
    """What the tester showed over time, the curve expected of a tight case or a given leak, and the limit.

    `points` and `curve` are (time in `x_unit`, value in `y_unit`).
    """
    everything = [*points, *curve]
    if not everything:
        return []
    heights = [value for _, value in everything] + ([limit] if limit is not None else [])
    low, high = min(0.0, *heights), max(0.0, *heights)
    span = (high - low) or 1.0
    longest = max(time for time, _ in everything) or 1.0
    canvas = Canvas(1.0, 1.0, stretch=True)
    left, bottom, top = 0.12, 0.86, 0.08

    def place(time: float, value: float) -> tuple[float, float]:
        return left + (0.98 - left) * time / longest, bottom - (bottom - top) * (value - low) / span

    canvas.line((left, top), (left, bottom), (0.98, bottom))
    if curve:
        canvas.line(*(place(time, value) for time, value in curve))
    if limit is not None:
        canvas.line(place(0, limit), place(longest, limit), dashed=True)
        canvas.label(0.98, place(0, limit)[1], f"limit {limit:g}", "right")
    for time, value in points:
        x, y = place(time, value)
        canvas.line((x - 0.008, y), (x + 0.008, y))
        canvas.line((x, y - 0.03), (x, y + 0.03))
    canvas.label(0, top, f"{high:g}")
    canvas.label(0, top, y_unit, down=1)
    canvas.label(0, bottom, f"{low:g}")
    canvas.label(left, 1.0, "0")
    canvas.label(0.98, 1.0, f"{longest:g} {x_unit}", "right")
    return canvas.render(columns, rows, style)
