"""The bar at the lathe in section, as one stands before it: chuck at the left, open end at the right, tool in
front.

Invariant: seen from above, the front half alone, the axis above it; lengths have one scale, diameters
another; the tool stands with its edge where the pass ends. Lengths and diameters are said in figures too.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job.steps import Picture
from rules.checks import fixed
from rules.limits import MM_PER_INCH
from screens.raster import Canvas, Style

LABEL_COLUMNS = 14
CHUCK, FREE = 0.16, 0.30
"""Parts of the length that stands out, drawn of the chuck and of the room at the open end."""
NAMES = ("", "turning", "boring", "chamfer", "parting", "drill")
"""Tools by their numbers in a picture."""


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
    turned_mm: float | None = None,
    blade_mm: float = 0.0,
    outside_now_mm: float | None = None,
    bore_now_mm: float = 0.0,
    now_mm: float = 0.0,
    along_mm: float = 0.0,
    tool: float = 0.0,
    inch: float = 0.0,
    columns: int = 56,
    rows: int = 12,
    style: Style = "braille",
) -> list[str]:
    """The bar as it stands, the ring to be in it, the cut of the blade, and the tool where its pass ends.

    Sizes in mm. `height_mm`: of the ring with what is dressed off; `outside_now_mm`, `bore_now_mm`: what the
    passes before have left, usual the bar itself and no hole; `now_mm`: the diameter that this pass leaves;
    `along_mm`: where it ends, from the open end; `tool`: its place in NAMES;
    `inch`: 1 where sizes are said in inch.
    """
    turned = bored_mm if turned_mm is None else turned_mm
    outside = bar_mm if outside_now_mm is None else outside_now_mm
    drilling = NAMES[int(tool)] == "drill"
    seen = [bore_mm, *(one for one in (bore_now_mm, now_mm) if one > 0.0)]
    margin = 0.12 * (bar_mm - min(seen))
    view = View(stick_out_mm, 0.0 if drilling else max(min(seen) - margin, 0.0), bar_mm)
    canvas = Canvas(view.wide, max(view.high, 0.01), stretch=True)
    ring = (bore_mm, outside_mm, height_mm, blade_mm)
    _bar(canvas, view, (bar_mm, outside, bore_now_mm), (turned, bored_mm))
    _ring(canvas, view, ring)
    _tool(canvas, view, NAMES[int(tool)], now_mm or outside, along_mm, ring)
    canvas.label(0, canvas.height, "chuck")

    def said(size_mm: float) -> str:
        return fixed(size_mm / MM_PER_INCH, 4) if inch else fixed(size_mm)

    named = [(outside_mm, f"{said(outside_mm)} outside"), (bore_mm, f"{said(bore_mm)} bore")]
    if now_mm > 0.0:
        named.append((now_mm, f"{said(now_mm)} < now"))
    at = [(view.y(size) / canvas.height * (rows - 2), text) for size, text in named]
    labels = _spaced(at, rows - 1)
    drawn = enumerate(canvas.render(max(columns - LABEL_COLUMNS, 8), max(rows - 1, 0), style))
    lengths = f"turned {said(turned)} bored {said(bored_mm)} ring {said(height_mm)}"
    lines = [f"{line}{labels.get(at, '')}".ljust(columns)[:columns] for at, line in drawn]
    return [*lines, lengths.ljust(columns)[:columns]][:rows]


def _bar(
    canvas: Canvas, view: View, diameters: tuple[float, float, float], lengths: tuple[float, float]
) -> None:
    """The chuck and the bar in it, as it is turned and bored by now."""
    (bar, outside, bore), (turned, bored) = diameters, lengths
    jaws, end = view.x(view.out_mm), view.x(0.0)
    canvas.rect(0, 0, jaws, canvas.height, "diagonal")
    shoulder = view.x(min(turned, view.out_mm)) if outside < bar else end
    canvas.line(
        (jaws, view.y(bar)), (shoulder, view.y(bar)), (shoulder, view.y(outside)), (end, view.y(outside))
    )
    if bore <= view.inner_mm:
        canvas.line((end, view.y(outside)), (end, 0))
        return
    bottom = view.x(bored)
    canvas.line((end, view.y(outside)), (end, view.y(bore)), (bottom, view.y(bore)), (bottom, 0))


def _ring(canvas: Canvas, view: View, ring: tuple[float, float, float, float]) -> None:
    """The ring to be, filled, and the cut of the blade behind it."""
    bore, outside, height, blade = ring
    back, end, top, low = view.x(height), view.x(0.0), view.y(bore), view.y(outside)
    canvas.polygon(((back, top), (end, top), (end, low), (back, low)), "cross")
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
    if name == "turning":
        canvas.line((tip, y), (end, y))
        canvas.polygon(((tip, y), (tip + long, y + deep), (tip + long, front), (tip, front)), "solid")
    elif name == "boring":
        canvas.line((tip, y), (end, y))
        inside = max(y - deep, 0.0)
        canvas.polygon(
            ((tip, y), (tip, inside), (canvas.width, inside), (canvas.width, y - 0.4 * deep)), "solid"
        )
    elif name == "chamfer":
        at = view.y(outside if along > 0.0 else bore)
        if along > 0.0:
            canvas.polygon(((tip, at), (tip + long, at + deep), (tip - long, at + deep)), "solid")
        else:
            canvas.polygon(((end, at), (end + 2 * long, at - deep), (end + 2 * long, at + deep)), "solid")
    elif name == "parting":
        at = view.y(outside)
        canvas.rect(tip, at, max(blade, 0.02 * view.out_mm), front - at, "solid")
    elif name == "drill":
        canvas.polygon(((tip, 0), (min(tip + deep, end), y), (canvas.width, y), (canvas.width, 0)), "solid")


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
    return bar_passes(**dict(picture.numbers), columns=columns, rows=rows, style=style)  # type: ignore[arg-type]
