"""What this terminal can do, and when it is politely refused.

Invariant: everything is read from the environment and the encoding handed in, once, at the start; nothing is
asked of the terminal itself, so a slow line costs nothing.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from screens.system import CONSOLE, drawn_on, said_of_itself

if TYPE_CHECKING:
    from screens.raster import FigureStyle, Style
    from screens.theme import Depth, Name


_HOPELESS = {
    "": "TERM is not set: the terminal does not say what it is; try TERM=xterm, or ringwright --plain",
    "dumb": "TERM is dumb: this terminal cannot show a full screen; use ringwright --plain",
    "unknown": "TERM is unknown: this terminal cannot show a full screen; use ringwright --plain",
}
COLOURLESS = ("vt100", "vt102", "vt220")
DARK_PAPERS = (*map(str, range(7)), "8")
"""Of the 16: black to cyan, and dark grey."""
_ASCII = str.maketrans(
    {
        **dict.fromkeys("─━═╌╴╶", "-"),
        **dict.fromkeys("│┃║╎", "|"),
        **dict.fromkeys("┌┐└┘├┤┬┴┼╔╗╚╝", "+"),
        **dict.fromkeys("█▓■●", "#"),
        **dict.fromkeys("▒", "="),
        **dict.fromkeys("░·•", "."),
        **dict.fromkeys("–—−", "-"),
        **dict.fromkeys("‘’", "'"),
        **dict.fromkeys("“”″", '"'),
        "▀": '"',
        "▄": "_",
        "▲": "^",
        "▼": "v",
        "►": ">",
        "◄": "<",
        "→": ">",
        "←": "<",
        "×": "x",
        "µ": "u",
        "μ": "u",
        "°": "o",
        "±": "~",
        "½": ".",
        "…": ".",
        "≤": "<",
        "≥": ">",
        "Ø": "D",
    }
)


@dataclass(frozen=True, slots=True)
class Look:
    """How to paint on this terminal."""

    style: Style = "braille"
    """Raster for drawings."""
    depth: Depth = "full"
    name: Name = "day"
    """As the terminal says, dark on light where it does not."""
    titles: bool = False
    """Whether it has a title to show."""

    @property
    def ascii(self) -> bool:
        """Whether only ASCII may be written."""
        return self.style == "ascii"

    @property
    def figures(self) -> FigureStyle:
        """Raster of the large figures."""
        return "ascii" if self.ascii else "half"


def drop_overrides(environ: MutableMapping[str, str] = os.environ) -> None:
    """Drop what would be believed over the terminal itself: an exported size, switches of the toolkit."""
    for name in list(environ):
        if name in ("COLUMNS", "LINES") or name.startswith("TEXTUAL_"):
            del environ[name]


def refusal(
    environ: Mapping[str, str], *, stdin_is_terminal: bool, drawn_is_terminal: bool, drawn: str = "error"
) -> str:
    """Why the full screen cannot be opened here, in one line, or ""."""
    if not stdin_is_terminal:
        return "standard input is no terminal: use ringwright --plain to answer from a file or a pipe"
    if not drawn_is_terminal:
        return f"standard {drawn} is no terminal, and the screen is drawn there: do not redirect it"
    return _HOPELESS.get(environ.get("TERM", ""), "")


def look(environ: Mapping[str, str], encoding: str | None) -> Look:
    """What the terminal can do, from the environment and the encoding of the stream that is drawn on."""
    terminal = environ.get("TERM", "")
    if (encoding or "").lower().replace("-", "").replace("_", "") not in ("utf8", "utf8sig"):
        style: Style = "ascii"
    else:
        style = "half" if terminal in ("linux", CONSOLE) else "braille"
    titles = terminal not in ("linux", *COLOURLESS)
    return Look(style, _depth(environ, terminal), _name(environ), titles)


def look_here() -> Look:
    """What the terminal at hand can do."""
    return look(said_of_itself(), getattr(drawn_on(), "encoding", None))


def _name(environ: Mapping[str, str]) -> Name:
    """Light on dark where COLORFGBG says that the terminal is: ink and paper as numbers, paper last."""
    paper = environ.get("COLORFGBG", "").rpartition(";")[2]
    return "night" if paper in DARK_PAPERS else "day"


def _depth(environ: Mapping[str, str], terminal: str) -> Depth:
    """Colours: none where NO_COLOR says so;
    else as COLORTERM and TERM say, never more than Rich will write.
    """
    if environ.get("NO_COLOR"):
        return "none"
    if environ.get("COLORTERM", "").strip().lower() in ("truecolor", "24bit"):
        return "full"
    ending = terminal.rpartition("-")[2]
    if ending in ("256color", "kitty"):
        return "256"
    if ending in ("mono", "m") or terminal in COLOURLESS:
        return "none"
    return "16"


def plain(text: str) -> str:
    """The text in ASCII, one character for one; what has no likeness becomes a question mark."""
    if text.isascii():
        return text
    return text.translate(_ASCII).encode("ascii", "replace").decode("ascii")


def refusal_here() -> str:
    """Why the full screen cannot be opened on the terminal at hand, in one line, or ""."""
    screen = drawn_on()
    return refusal(
        said_of_itself(),
        stdin_is_terminal=bool(sys.__stdin__ and sys.__stdin__.isatty()),
        drawn_is_terminal=bool(screen and screen.isatty()),
        drawn="error" if screen is sys.__stderr__ else "output",
    )
