"""A flat gasket in its room in section: case below, lid above, the gasket between them before it is squeezed.

Invariant: drawn to scale from the numbers given, outside on the right; a ledge has no inner wall. The gasket
is full, case and lid are hatched; the last line gives its width and height and those of the room.
"""

from __future__ import annotations

from bench.job.steps import Picture
from rules.lengths import bare
from screens.pictures.section import names_under
from screens.raster import Canvas, Style


def gasket_in_room(
    *,
    room_outside_mm: float,
    room_inside_mm: float,
    room_height_mm: float,
    outside_mm: float,
    inside_mm: float,
    thick_mm: float,
    stopped: bool = True,
    walled: bool = True,
    columns: int = 40,
    rows: int = 11,
    style: Style = "braille",
) -> list[str]:
    """The right-hand side of case, gasket and lid in section, to scale, diameters in mm.

    Where the parts meet, the lid is drawn as far over them as the gasket is thicker than its room.
    """
    room = max((room_outside_mm - room_inside_mm) / 2.0, 0.05)
    wall, slab = 0.35 * room, max(0.6 * room_height_mm, 0.3 * room)
    lift = max(thick_mm - room_height_mm, 0.0)
    rim = room_height_mm if stopped else 0.5 * room_height_mm
    face = slab + lift + (0.0 if stopped else room_height_mm - rim)
    floor = face + rim
    canvas = Canvas(2 * wall + room, floor + slab)
    inner, outer = wall, wall + room
    canvas.rect(0.0, floor, canvas.width, slab, "diagonal")
    canvas.rect(outer, face, wall, rim, "diagonal")
    if walled:
        canvas.rect(0.0, face, wall, rim, "diagonal")
    left = inner + max((inside_mm - room_inside_mm) / 2.0, 0.0)
    wide = min((outside_mm - inside_mm) / 2.0, outer - left)
    canvas.rect(left, floor - thick_mm, wide, thick_mm, "solid")
    canvas.rect(0.0, 0.0, canvas.width, max(floor - thick_mm, 0.1 * slab), "back")
    fits = (columns, max(rows - 2, 1), style)
    places = ((0.0, "inside"), (left + wide / 2, "gasket"), (canvas.width, "outside"))
    under = names_under([(canvas.column_of(x, *fits), name) for x, name in places], columns)
    words = f"{bare(wide)} x {bare(thick_mm)} in {bare(room)} x {bare(room_height_mm)}"
    lines = [*canvas.render(columns, rows - 2, style), under, words.center(columns)[:columns]]
    return lines[-max(rows, 0) :]


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The gasket that a step asks for."""
    numbers = dict(picture.numbers)
    stopped, walled = (bool(numbers.pop(name)) for name in ("stopped", "walled"))
    return gasket_in_room(**numbers, stopped=stopped, walled=walled, columns=columns, rows=rows, style=style)
