"""Ring, bore and glass in section, before and after pressing.

Invariant: drawn to scale from the numbers given; nothing is computed but where lines lie.
"""

from __future__ import annotations

from bench.job.steps import Picture
from rules.lengths import bare
from rules.limits import HEIGHT_CLEARANCE_MM, LEAST_CHAMFER_MM, LOWER_CHAMFER_MM
from screens.raster import Canvas, Style


def section(
    *,
    case_bore_mm: float,
    glass_mm: float,
    outside_mm: float,
    bore_mm: float,
    height_mm: float,
    chamfer_mm: float = LEAST_CHAMFER_MM,
    lower_chamfer_mm: float = LOWER_CHAMFER_MM,
    seat_depth_mm: float | None = None,
    glass_edge_mm: float | None = None,
    pressed: bool = False,
    columns: int = 40,
    rows: int = 11,
    style: Style = "braille",
) -> list[str]:
    """The right-hand side of case, ring and glass in section, to scale, diameters in mm.

    Before pressing the ring stands in the case and the glass over it, its edge beyond the bore of the ring;
    after pressing the ring is as thin as the gap and a little higher. The last line gives wall and gap.
    """
    gap, wall = max((case_bore_mm - glass_mm) / 2, 0.01), max((outside_mm - bore_mm) / 2, 0.01)
    edge, seat = glass_edge_mm or height_mm, seat_depth_mm or height_mm + HEIGHT_CLEARANCE_MM
    part, lift = 1.3 * max(wall, gap, 0.25), 0.0 if pressed else 0.22 * height_mm
    over = min(edge, 0.55 * height_mm)  # how much of the glass is seen above the ring before pressing
    ground = max(seat, height_mm + lift + over) if not pressed else max(seat, edge, 1.1 * height_mm)
    canvas = Canvas(2 * part + gap + part, ground + 0.4 * part)
    glass_x, seat_x = 2 * part, 2 * part + gap
    _case(canvas, seat_x=seat_x, ground=ground, seat=seat, ledge=min(0.9 * part + gap, seat_x))
    clear = 0.0 if pressed else max((case_bore_mm - outside_mm) / 2, 0.0)
    tall = min(height_mm * max(wall / gap, 1.0), 1.1 * height_mm) if pressed else height_mm
    thick, bottom = (min(wall, gap), ground) if pressed else (wall, ground - height_mm - lift)
    _ring(canvas, seat_x - clear, ground, thick, tall, chamfer_mm, lower_chamfer_mm)
    middle = _glass(canvas, glass_x, bottom, edge, 0.75 * part)
    canvas.label(canvas.width - 0.1 * part, ground - seat / 2, "case", "right")
    canvas.label(seat_x - min(wall, gap) / 2, ground - height_mm / 2, "ring", "centre")
    if not pressed:
        canvas.label(glass_x, middle, "v press", "left", right=2)
    words = f"wall {bare(wall, 3)}, gap {bare(gap, 3)}{', pressed' if pressed else ''}"
    return [*canvas.render(columns, rows - 1, style), words.center(columns)[:columns]]


def _glass(canvas: Canvas, right: float, bottom: float, edge: float, name_x: float) -> float:
    """The edge of the glass with its name; gives the height of its middle."""
    top = max(bottom - edge, 0.0)
    canvas.line((0, top), (right, top), (right, bottom), (0, bottom))
    canvas.label(name_x, (top + bottom) / 2, "glass", "centre")
    return (top + bottom) / 2


def _case(canvas: Canvas, *, seat_x: float, ground: float, seat: float, ledge: float) -> None:
    """The wall of the seat and the ledge under it."""
    corners = (
        (seat_x, ground - seat),
        (canvas.width, ground - seat),
        (canvas.width, canvas.height),
        (seat_x - ledge, canvas.height),
        (seat_x - ledge, ground),
        (seat_x, ground),
    )
    canvas.polygon(corners, "diagonal")


def _ring(
    canvas: Canvas, right: float, ground: float, wall: float, height: float, chamfer: float, lower: float
) -> None:
    """The ring: entry chamfer at its upper inner edge, a small one at its lower outer edge."""
    left = right - wall
    chamfer, lower = min(chamfer, 0.6 * wall), min(lower, 0.6 * wall)
    corners = (
        (left + chamfer, ground - height),
        (right, ground - height),
        (right, ground - lower),
        (right - lower, ground),
        (left, ground),
        (left, ground - height + chamfer),
    )
    canvas.polygon(corners, "cross")


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The section that a step asks for."""
    numbers = dict(picture.numbers)
    pressed = bool(numbers.pop("pressed", 0.0))
    return section(**numbers, pressed=pressed, columns=columns, rows=rows, style=style)
