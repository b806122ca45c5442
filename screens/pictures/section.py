"""Ring, bore and glass in section, before and after pressing.

Invariant: drawn to scale from the numbers given; nothing is computed but where lines lie. The ring is full,
the case hatched, the glass empty; their names stand under them, so that no letter lies on a line.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.steps import Picture
from rules.lengths import bare
from rules.limits import HEIGHT_CLEARANCE_MM, LEAST_CHAMFER_MM, LOWER_CHAMFER_MM
from screens.raster import Canvas, Style

NO_FOOT = (0.0, 0.0)
"""Thickness of a foot of the ring, which is part of its height, and its bore."""
MOVES = "v press v"
"""How the glass moves, said within it where it lies on no line."""
CLEAR = 3
"""Cells that are free beside it within the glass, its edge counted, and rows that the glass has."""


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
    foot: tuple[float, float] = NO_FOOT,
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
    ground = max(seat, _high(height_mm, lift, edge + foot[0], pressed=pressed))
    glass_x, seat_x, wide = _across(part, gap, 0.0 if foot == NO_FOOT else (outside_mm - foot[1]) / 2)
    canvas = Canvas(seat_x + part, ground + 0.4 * part)
    _case(canvas, seat_x=seat_x, ground=ground, seat=seat, ledge=min(wide or 0.9 * part + gap, seat_x))
    clear = 0.0 if pressed else max((case_bore_mm - outside_mm) / 2, 0.0)
    tall = min(height_mm * max(wall / gap, 1.0), 1.1 * height_mm) if pressed else height_mm
    thick, bottom = (min(wall, gap), ground - foot[0]) if pressed else (wall, ground - height_mm - lift)
    _ring(canvas, seat_x - clear, ground, thick, tall, chamfer_mm, lower_chamfer_mm)
    canvas.rect(seat_x - clear - wide, ground - foot[0], max(wide - lower_chamfer_mm, 0.0), foot[0], "solid")
    moves = "" if pressed else moves_within(canvas, glass_x, min(edge, bottom), (columns, rows, style))
    _glass(canvas, glass_x, bottom, edge, moves)
    places = ((glass_x / 2, "glass"), (seat_x - min(wall, gap) / 2, "ring"), (seat_x + part / 2, "case"))
    state = ", pressed" if pressed else "" if moves else ", to press"
    words = said_under(f"wall {bare(wall, 3)}, gap {bare(gap, 3)}", state, columns)
    return _named(canvas, places, words, (columns, rows, style))


def _named(
    canvas: Canvas, places: Sequence[tuple[float, str]], words: str, size: tuple[int, int, Style]
) -> list[str]:
    """The drawing with its names and its words under it."""
    columns, rows, style = size
    room = (columns, max(rows - 2, 1), style)
    under = names_under([(canvas.column_of(x, *room), name) for x, name in places], columns)
    return [*canvas.render(columns, rows - 2, style), under, words][-max(rows, 0) :]


def _across(part: float, gap: float, foot: float) -> tuple[float, float, float]:
    """Where glass and seat stand, so that a foot of this width is seen whole, and that width."""
    seat = max(2 * part + gap, foot + 0.6 * part)
    return seat - gap, seat, foot


def _high(height: float, lift: float, edge: float, *, pressed: bool) -> float:
    """How high ring and glass stand together; before pressing a part of the glass is seen above the ring."""
    return max(edge, 1.1 * height) if pressed else height + lift + min(edge, 0.55 * height)


def moves_within(canvas: Canvas, wide: float, high: float, room: tuple[int, int, Style]) -> str:
    """How the glass moves, where its drawing leaves room for it; nothing where it does not."""
    columns, rows, style = room
    inner = (columns, max(rows - 2, 1), style)
    across = canvas.column_of(wide, *inner) - canvas.column_of(0.0, *inner)
    down = high * across / wide / 2  # a cell is twice as high as wide
    return MOVES if len(MOVES) + CLEAR <= across and down >= CLEAR else ""


def said_under(words: str, state: str, columns: int) -> str:
    """The last line: wall and gap, and whether it is pressed where there is room."""
    return (words + state if len(words + state) <= columns else words).center(columns)[:columns]


def names_under(names: Sequence[tuple[int, str]], columns: int) -> str:
    """Names under their columns, two blanks apart at least; nothing where they do not fit.

    >>> names_under([(4, "glass"), (7, "ring"), (9, "case")], 20)
    '  glass  ring  case '
    """
    if sum(len(name) + 2 for _, name in names) - 2 > columns:
        return " " * columns
    starts: list[int] = []
    after = columns + 2
    for middle, name in reversed(names):
        after = min(middle - len(name) // 2, after - len(name) - 2)
        starts.insert(0, after)
    text = ""
    for start, (_, name) in zip(starts, names, strict=True):
        text = text.ljust(max(start, len(text) + 2 if text else 0)) + name
    return text.ljust(columns)[:columns]


def _glass(canvas: Canvas, right: float, bottom: float, edge: float, moves: str) -> None:
    """The edge of the glass, empty as nothing else is, and how it moves."""
    top = max(bottom - edge, 0.0)
    canvas.line((0, top), (right, top), (right, bottom), (0, bottom))
    canvas.label(right / 2, (top + bottom) / 2, moves, "centre")


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
    canvas.polygon(corners, "solid")


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The section that a step asks for."""
    numbers = dict(picture.numbers)
    pressed = bool(numbers.pop("pressed", 0.0))
    foot = (numbers.pop("foot_mm", 0.0), numbers.pop("foot_bore_mm", 0.0))
    return section(**numbers, foot=foot, pressed=pressed, columns=columns, rows=rows, style=style)
