"""The pictures of the job, each a pure function of plain numbers and a size in cells.

Invariant: every picture says its essential in words and figures too, so that it is read without colour and in
plain ASCII; parts are drawn to scale. A step names its picture; which function draws it stands here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from bench.job.steps import Picture
from screens.pictures.bar import bar_passes as bar_passes, draw as _bar
from screens.pictures.clock import clock as clock, draw as _clock
from screens.pictures.gasket import draw as _gasket, gasket_in_room as gasket_in_room
from screens.pictures.leak_picture import draw as _leak, leak_picture as leak_picture
from screens.pictures.limits import limit_lines as limit_lines
from screens.pictures.oring import draw as _oring, oring_in_groove as oring_in_groove
from screens.pictures.promised import draw as _promised, promised_picture as promised_picture
from screens.pictures.section import draw as _section, section as section
from screens.raster import Style

DRAWN: Mapping[str, Callable[..., list[str]]] = {
    "section": _section,
    "clock": _clock,
    "bar": _bar,
    "leak": _leak,
    "gasket": _gasket,
    "oring": _oring,
    "promised": _promised,
}
"""What draws a picture, by its name."""


def drawn(picture: Picture, *, columns: int, rows: int, style: Style) -> list[str]:
    """The picture that a step asks for; nothing for one that is not known here."""
    draw = DRAWN.get(picture.name)
    return draw(picture, columns=columns, rows=rows, style=style) if draw else []
