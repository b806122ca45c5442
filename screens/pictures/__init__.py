"""The pictures of the job, each a pure function of plain numbers and a size in cells.

Invariant: every picture says its essential in words and figures too, so that it is read without colour and in
plain ASCII; parts are drawn to scale.
"""

from __future__ import annotations

from screens.pictures.bar import bar_passes as bar_passes
from screens.pictures.clock import clock as clock
from screens.pictures.leak_picture import leak_picture as leak_picture
from screens.pictures.section import section as section
from screens.pictures.window import window_bar as window_bar
