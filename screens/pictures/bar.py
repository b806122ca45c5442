"""The bar at the lathe in section, as one stands before it: chuck at the left, open end at the right, tool in
front.

Invariant: seen from above, the front half alone, the axis above it; lengths have one scale, diameters
another; the tool stands with its edge where the pass ends. Lengths and diameters are said in figures too.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job.steps import Picture
from rules.equipment import FACE_GROOVING, NEEDED_KINDS
from rules.lengths import bare
from rules.turning import operations
from screens.pictures.section import NO_FOOT
from screens.raster import Canvas, Style

LABEL_COLUMNS = 15
RING = "ring"
LEGEND = f"full: tool   crossed: {RING}"
"""What is what besides the chuck, which has its name in it."""
CHUCK, FREE = 0.16, 0.30
"""Parts of the length that stands out, drawn of the chuck and of the room at the open end."""
MARGIN = 0.12
"""Part of the wall that is seen, shown inside it."""
TURNING, BORING, CHAMFER, PARTING = NEEDED_KINDS


@dataclass(frozen=True, slots=True)
class View:
    """Where a length from the open end and a diameter lie on the canvas."""

    out_mm: float
    inner_mm: float
    """The smallest diameter that is seen."""
    outer_mm: float

    @property
    def high(self) -> float:
        """Radius that is seen, and the room in front of it."""
        return 1.3 * (self.outer_mm - self.inner_mm) / 2.0

    @property
    def wide(self) -> float:
        """Length that is seen."""
        return (1.0 + CHUCK + FREE) * self.out_mm

    def x(self, from_end_mm: float) -> float:
        """Place of a length from the open end."""
        return (1.0 + CHUCK) * self.out_mm - from_end_mm

    def y(self, diameter_mm: float) -> float:
        """Place of a diameter."""
        return (diameter_mm - self.inner_mm) / 2.0


def bar_passes(
    *,
    bar_mm: float,
    outside_mm: float,
    bore_mm: float,
    height_mm: float,
    bored_mm: float,
    stick_out_mm: float,
    turned_mm: float = 0.0,
    blade_mm: float = 0.0,
    outside_now_mm: float = 0.0,
    bore_now_mm: float = 0.0,
    now_mm: float = 0.0,
    along_mm: float = 0.0,
    tool: float = 0.0,
    own_mm: float = 0.0,
    own_deep_mm: float = 0.0,
    groove_mm: float = 0.0,
    core_mm: float = 0.0,
    foot: tuple[float, float] = NO_FOOT,
    columns: int = 56,
    rows: int = 12,
    style: Style = "braille",
) -> list[str]:
    """The bar as it stands, the ring to be in it, the cut of the blade, and the tool where its pass ends.

    In mm, 0 where there is none. `height_mm`: with dressing; `*_now_mm`: as left; `own_*`: the bar's bore.
    """
    turned, outside = turned_mm or bored_mm, outside_now_mm or bar_mm
    name, ring = operations.TOOLS_DRAWN[int(tool)], (bore_mm, outside_mm, height_mm, blade_mm)
    least = core_mm or (now_mm - 2.0 * groove_mm if name == FACE_GROOVING else 0.0)
    view = View(stick_out_mm, _inner(name, bar_mm, (bore_mm, bore_now_mm, now_mm, least, foot[1])), bar_mm)
    canvas = Canvas(view.wide, max(view.high, 0.01), stretch=True)
    _bar(canvas, view, (bar_mm, outside), turned)
    _hole(canvas, view, outside, _hollow((bore_now_mm, bored_mm), (own_mm, own_deep_mm), core_mm))
    _ring(canvas, view, ring, foot)
    _groove(canvas, view, now_mm, along_mm, groove_mm if name == FACE_GROOVING else 0.0)
    _tool(canvas, view, name, now_mm or outside, along_mm, ring)
    sizes = (outside_mm, bore_mm, now_mm)
    return _beside(canvas, view, sizes, (turned, bored_mm, height_mm), (columns, rows, style))


def _beside(
    canvas: Canvas,
    view: View,
    sizes_mm: tuple[float, float, float],
    lengths_mm: tuple[float, float, float],
    room: tuple[int, int, Style],
) -> list[str]:
    """The drawing with outside, bore and the present pass named beside it, and the lengths below."""
    canvas.label(0, canvas.height, "chuck")
    outside_mm, bore_mm, now_mm = sizes_mm
    columns, rows, style = room
    named = ((outside_mm, "outside"), (bore_mm, "bore"), *(((now_mm, "< now"),) if now_mm > 0.0 else ()))
    places = [(view.y(size) / canvas.height, f"{bare(size)} {word}") for size, word in named]
    lines = _labelled(canvas.render(max(columns - LABEL_COLUMNS, 8), max(rows - 2, 0), style), places)
    turned, bored, high = map(bare, lengths_mm)
    lengths = f"turned {turned} bored {bored} {RING} {high}"
    return [line.ljust(columns)[:columns] for line in (*lines, LEGEND, lengths)][:rows]


def _inner(name: str, bar: float, bores: tuple[float, ...]) -> float:
    """The smallest diameter that is worth seeing; all to the axis for a drill."""
    least = min(one for one in bores if one > 0.0)
    return 0.0 if name == operations.DRILL else max(least - MARGIN * (bar - least), 0.0)


def _labelled(drawn: list[str], places: list[tuple[float, str]]) -> list[str]:
    """A drawing with words at its right, each at a part of its height."""
    last = len(drawn) - 1
    labels = _spaced([(part * last, text) for part, text in places], len(drawn))
    return [f"{line} {labels.get(at, '')}" for at, line in enumerate(drawn)]


def _bar(canvas: Canvas, view: View, diameters: tuple[float, float], turned: float) -> None:
    """The chuck and the bar in it, as it is turned by now."""
    bar, outside = diameters
    jaws, end = view.x(view.out_mm), view.x(0.0)
    canvas.rect(0, 0, jaws, canvas.height, "diagonal")
    shoulder = view.x(min(turned, view.out_mm)) if outside < bar else end
    canvas.line(
        (jaws, view.y(bar)), (shoulder, view.y(bar)), (shoulder, view.y(outside)), (end, view.y(outside))
    )


def _hollow(bored: tuple[float, float], own: tuple[float, float], core: float) -> list[tuple[float, float]]:
    """What is hollow, as diameter and how far from the open end, from the outside in."""
    bore, deep = bored
    own_bore, own_deep = own
    if core > 0.0:
        return [(bore, deep), (core, 0.0)]
    if own_bore > 0.0:
        return [(bore, deep), (own_bore, own_deep)] if bore > own_bore else [own]
    return [bored] if bore > 0.0 else []


def _hole(canvas: Canvas, view: View, outside: float, hollow: list[tuple[float, float]]) -> None:
    """The open end of the bar and what is hollow behind it, to the innermost that is seen."""
    x, y = view.x(0.0), view.y(outside)
    points = [(x, y)]
    for diameter, deep in hollow:
        if diameter <= view.inner_mm:
            break
        points += [(x, view.y(diameter)), (view.x(min(deep, view.out_mm)), view.y(diameter))]
        x = points[-1][0]
    canvas.line(*points, (x, 0))


def _ring(
    canvas: Canvas, view: View, ring: tuple[float, float, float, float], foot: tuple[float, float]
) -> None:
    """The ring to be, filled, with a foot where it has one, and the cut of the blade behind it."""
    bore, outside, height, blade = ring
    back, end, top, low = view.x(height), view.x(0.0), view.y(bore), view.y(outside)
    canvas.polygon(((back, top), (end, top), (end, low), (back, low)), "cross")
    if foot != NO_FOOT:
        front, hole = view.x(height - foot[0]), view.y(foot[1])
        canvas.polygon(((back, hole), (front, hole), (front, top), (back, top)), "cross")
    if blade > 0.0:
        for x in (back, view.x(height + blade)):
            canvas.line((x, top), (x, low), dashed=True)


def _tool(
    canvas: Canvas, view: View, name: str, now: float, along: float, ring: tuple[float, float, float, float]
) -> None:
    """The tool with its edge where the pass ends; what it leaves as a line to the open end."""
    bore, outside, _, blade = ring
    tip, y, end = view.x(along), view.y(now), view.x(0.0)
    long, deep = 0.12 * view.out_mm, 0.16 * canvas.height
    front = canvas.height
    if name == TURNING:
        canvas.line((tip, y), (end, y))
        canvas.polygon(((tip, y), (tip + long, y + deep), (tip + long, front), (tip, front)), "solid")
    elif name == BORING:
        canvas.line((tip, y), (end, y))
        inside = max(y - deep, 0.0)
        canvas.polygon(
            ((tip, y), (tip, inside), (canvas.width, inside), (canvas.width, y - 0.4 * deep)), "solid"
        )
    elif name == CHAMFER:
        at = view.y(outside if along > 0.0 else bore)
        if along > 0.0:
            canvas.polygon(((tip, at), (tip + long, at + deep), (tip - long, at + deep)), "solid")
        else:
            canvas.polygon(((end, at), (end + 2 * long, at - deep), (end + 2 * long, at + deep)), "solid")
    elif name == PARTING:
        at = view.y(outside)
        canvas.rect(tip, at, max(blade, 0.02 * view.out_mm), front - at, "solid")
    elif name == operations.DRILL:
        canvas.polygon(((tip, 0), (min(tip + deep, end), y), (canvas.width, y), (canvas.width, 0)), "solid")


def _groove(canvas: Canvas, view: View, now: float, along: float, blade: float) -> None:
    """The face-grooving blade, its outer side on the diameter that it leaves; none of width 0."""
    if not blade:
        return
    tip, far, near = view.x(along), view.y(now), view.y(now - 2.0 * blade)
    canvas.polygon(((tip, near), (canvas.width, near), (canvas.width, far), (tip, far)), "solid")


def _spaced(wanted: list[tuple[float, str]], rows: int) -> dict[int, str]:
    """One label a row, in order and as near to its own row as that allows; those at the end are left out."""
    kept = sorted(wanted[:rows])
    placed: dict[int, str] = {}
    last = -1
    for number, (row, text) in enumerate(kept):
        last = max(min(round(row), rows - (len(kept) - number)), last + 1)
        placed[last] = text
    return placed


def draw(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The bar that a step asks for."""
    numbers = dict(picture.numbers)
    foot = (numbers.pop("foot_mm", 0.0), numbers.pop("foot_bore_mm", 0.0))
    *drawn, legend, lengths = bar_passes(**numbers, foot=foot, columns=columns, rows=rows, style=style)
    named = (text.rstrip().replace(RING, picture.of) for text in (legend, lengths))
    return [*drawn, *(text.ljust(columns)[:columns] for text in named)]
