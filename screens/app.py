"""The shell: one screen, one widget that only paints, every key through one queue into `update`.

Invariant: no state lives here but the desk it was given; the outcomes of one token's effects reach the desk
before the next token does; nothing is painted while nothing happens.
"""

from __future__ import annotations

import asyncio
import gc
import sys
import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, ClassVar, Generic, TypeVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.app import App, ComposeResult
from textual.binding import BindingType
from textual.geometry import Region
from textual.message import Message
from textual.screen import Screen
from textual.strip import Strip
from textual.widget import Widget

from bench.clean import clean
from bench.desk.keys import meaning
from bench.desk.token import Bell, Leave, Token
from screens import look as looks
from screens import terminal
from screens.theme import Name, styles

Desk = TypeVar("Desk")
Lines = Sequence[Sequence[tuple[str, str]]]
"""Lines of (text, role)."""

MOST_OUTCOMES = 1000
"""Tokens that one token may bring about; more means a loop."""


def wall_clock() -> str:
    """Wall time, ISO 8601 with offset, to the second."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


@dataclass(frozen=True)
class Face(Generic[Desk]):
    """Everything the shell needs to know of what it shows."""

    desk: Desk
    update: Callable[[Desk, Any], tuple[Desk, Sequence[Any]]]
    """The desk after one token; a `painted` token must not change what is seen."""

    carry_out: Callable[[Sequence[Any]], Sequence[Any]]
    """Carries out the effects of one token (but Bell and Leave) and says what came of them, as tokens."""

    view: Callable[[Desk], Lines]
    ticking: Callable[[Desk], bool] = lambda _desk: False
    """Whether a timer runs, so that a tick is wanted every second."""

    settle_ms: Callable[[Desk], float] = lambda _desk: 0.0
    """How long after the last key a `settle` is wanted; 0 when nothing is held back."""

    theme: Callable[[Desk], str] = lambda _desk: "day"
    """day or night."""

    meaning: Callable[[str, str | None], str] = meaning
    """What a key means, from its name and character: the text of its token, "" for none."""

    closing: Callable[[], None] = lambda: None
    """Closes what is open; called once on every way out, also from a signal handler."""

    look: looks.Look = field(default_factory=looks.Look)
    now: Callable[[], float] = time.monotonic
    wall: Callable[[], str] = wall_clock


class Settle(Message):
    """No key has come for a while."""

    bubble = False


class Tick(Message):
    """A second has gone by."""

    bubble = False


class Page(Widget, can_focus=False, inherit_bindings=False):
    """Paints the lines it is given."""

    def __init__(self, *, ascii_only: bool) -> None:
        super().__init__()
        self._ascii_only = ascii_only
        self._lines: Lines = ()
        self._strips: list[Strip] = []
        self._styles: dict[str, Style] = {}
        self._painted_width = 0

    def show(self, lines: Lines, role_styles: dict[str, Style], columns: int, rows: int) -> bool:
        """Take new lines and ask for the rows that differ to be painted; says whether there were any."""
        whole = role_styles is not self._styles or columns != self._painted_width
        old, self._lines = self._lines, [list(line) for line in lines[:rows]]
        self._styles, self._painted_width = role_styles, columns
        changed = [
            row
            for row in range(rows)
            if whole or row >= len(self._strips) or _at(old, row) != _at(self._lines, row)
        ]
        if not changed:
            return False
        strips = self._strips[:rows]
        strips += [Strip.blank(columns)] * (rows - len(strips))
        for row in changed:
            strips[row] = self._strip(_at(self._lines, row), columns)
        self._strips = strips
        if len(changed) == rows:
            self.refresh()
        else:
            self.refresh(*(Region(0, row, columns, 1) for row in changed))
        return True

    def _strip(self, line: Sequence[tuple[str, str]], columns: int) -> Strip:
        """One line as painted cells, filled up with paper."""
        segments = [Segment(self._clean(text), self._styles[role]) for text, role in line if text]
        paper = self._styles[line[-1][1]] if line and line[-1][1] in ("key", "title") else self._styles["ink"]
        return Strip(segments).adjust_cell_length(columns, paper)

    def _clean(self, text: str) -> str:
        """Text that can do nothing to the terminal, whatever it was."""
        return looks.plain(clean(text)) if self._ascii_only else clean(text)

    def render_line(self, y: int) -> Strip:
        """One painted row."""
        return self._strips[y] if y < len(self._strips) else Strip.blank(self.size.width)


def _at(lines: Lines, row: int) -> Sequence[tuple[str, str]]:
    return lines[row] if row < len(lines) else ()


class Bench(Screen[None], inherit_bindings=False):
    """The one screen: gathers what happens into tokens, feeds them to the desk and has the page painted."""

    AUTO_FOCUS = ""
    ESCAPE_TO_MINIMIZE = False

    def __init__(self, face: Face[Any]) -> None:
        super().__init__()
        self._face = face
        self._desk = face.desk
        self._page = Page(ascii_only=face.look.ascii)
        self._stale = False
        self._opened = False
        self._settling: asyncio.TimerHandle | None = None
        self._ticking: asyncio.TimerHandle | None = None
        self._roles: dict[str, dict[str, Style]] = {}
        self.left: Leave | None = None

    @property
    def desk(self) -> Any:
        """The desk as it stands."""
        return self._desk

    def compose(self) -> ComposeResult:
        """One page."""
        yield self._page

    async def _on_key(self, event: events.Key) -> None:
        """Every key, in the order in which it came."""
        event.stop()
        event.prevent_default()
        if event.key == "ctrl+z":
            self.app.action_suspend_process()
            return
        text = self._face.meaning(event.key, event.character)
        if text:
            self.feed(self._token("key", text, at=event.time, raw=raw_letter(event.character)))

    def on_paste(self, event: events.Paste) -> None:
        """A bracketed paste, shown but never accepted."""
        event.stop()
        event.prevent_default()
        self.feed(self._token("key", pasted(event.text), at=event.time))

    def on_resize(self, event: events.Resize) -> None:
        """The window has another size."""
        token = Token(
            "resized",
            at=self._face.now(),
            wall=self._face.wall(),
            columns=event.size.width,
            rows=event.size.height,
        )
        self.feed(token)

    def on_settle(self) -> None:
        """Let go of what the bounce filter holds."""
        self._settling = None
        self.feed(self._token("settle"))

    def on_tick(self) -> None:
        """A second of a running timer."""
        self._ticking = None
        self.feed(self._token("tick"))

    def _token(self, kind: str, text: str = "", *, at: float | None = None, raw: str = "") -> Token:
        return Token(kind, text, at=self._face.now() if at is None else at, wall=self._face.wall(), raw=raw)

    def feed(self, token: Token) -> None:
        """One token, and all that comes of it, through the desk."""
        waiting: deque[Any] = deque([token])
        for _ in range(MOST_OUTCOMES):
            if not waiting or self.left is not None:
                break
            self._desk, effects = self._face.update(self._desk, waiting.popleft())
            for effect in effects:
                if isinstance(effect, Bell):
                    self.app.bell()
            rest = [effect for effect in effects if not isinstance(effect, Bell | Leave)]
            if rest:
                waiting.extend(self._face.carry_out(rest))
            self._leave(next((effect for effect in effects if isinstance(effect, Leave)), None))
        else:
            raise RuntimeError(f"the token {token.kind} never came to an end")
        if token.kind != "painted":
            self._stale = True
        self._set_timers()

    def _leave(self, effect: Leave | None) -> None:
        if effect is not None and self.left is None:
            self.left = effect
            self.app.exit()

    def _set_timers(self) -> None:
        """Ask to be woken only when the desk waits for something."""
        loop = asyncio.get_running_loop()
        if self._settling is not None:
            self._settling.cancel()
            self._settling = None
        settle_ms = self._face.settle_ms(self._desk)
        if settle_ms > 0:
            self._settling = loop.call_later(settle_ms / 1000, self.post_message, Settle())
        wanted = self._face.ticking(self._desk)
        if wanted and self._ticking is None:
            self._ticking = loop.call_later(1.0, self.post_message, Tick())
        elif not wanted and self._ticking is not None:
            self._ticking.cancel()
            self._ticking = None

    def on_idle(self) -> None:
        """Nothing more is queued: paint what has changed since."""
        if not self._stale or self.left is not None or self.size.width < 1:
            return
        self._stale = False
        columns, rows = self.size
        theme = self._face.theme(self._desk)
        if theme not in self._roles:
            name: Name = "night" if theme == "night" else "day"
            self._roles[theme] = styles(name=name, depth=self._face.look.depth)
        if self._page.show(self._face.view(self._desk), self._roles[theme], columns, rows):
            self.call_after_refresh(self._painted)

    def _painted(self) -> None:
        """The page stands on the screen: tell the desk, and begin to tidy memory after the first time."""
        if not self._opened:
            self._opened = True
            gc.collect()
            gc.freeze()
            gc.enable()
        self.feed(self._token("painted"))


def raw_letter(character: str | None) -> str:
    """The printable character of a key, for free text; "" for a key that prints nothing."""
    return character if character and character.isprintable() else ""


def pasted(text: str) -> str:
    """What a paste means as a key: "paste:" and one short line, or "refused:" and why."""
    lines = text.splitlines()
    if len(lines) > 1:
        return "refused:several lines pasted: paste or key one reading at a time"
    if len(text) > 40:
        return "refused:a long text pasted: key one reading"
    return f"paste:{lines[0]}" if lines and lines[0] else "refused:an empty paste"


class Shell(App[None], inherit_bindings=False):
    """The application round the one screen; it quits only when the desk says so or a signal does."""

    BINDINGS: ClassVar[list[BindingType]] = []
    ENABLE_COMMAND_PALETTE = False
    CSS = "Bench { layout: vertical; overflow: hidden; } Page { width: 100%; height: 100%; }"

    def __init__(self, face: Face[Any]) -> None:
        super().__init__(driver_class=terminal.BenchDriver, ansi_color=True)
        self._face = face
        self.bench = Bench(face)
        self.fault: Exception | None = None

    def get_default_screen(self) -> Screen[Any]:
        """The one screen."""
        return self.bench

    def told_to_go(self) -> None:
        """A signal asks for the end: the desk may say its last words, then out in any case."""
        try:
            self.bench.feed(Token("leave", at=self._face.now(), wall=self._face.wall()))
        finally:
            self.exit()

    def _handle_exception(self, error: Exception) -> None:
        """A fault of ours: remember it, leave the screen, show no traceback."""
        if self.fault is None:
            self.fault = error
        self._return_code = 4
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        self._close_messages_no_wait()


def run_face(face: Face[Any]) -> int:
    """Open the screen and stay until the desk leaves; the exit status of the program.

    0 left in order or by SIGTERM, SIGHUP or a lost line; 2 no terminal; 4 a fault of ours. What is to be
    said is printed when the terminal is plain again.
    """
    attributes = terminal.attributes_now()

    def at_once() -> None:
        terminal.leave_at_once(attributes, face.closing)

    gc.disable()
    shell = Shell(face)
    terminal.BenchDriver.hung_up = staticmethod(at_once)

    def leave() -> None:
        loop = shell._loop
        if loop is not None:
            loop.call_soon_threadsafe(shell.told_to_go)

    terminal.watch_signals(leave=leave, at_once=at_once)
    try:
        shell.run(mouse=False)
    finally:
        gc.enable()
        terminal.disarm()
        face.closing()
    return _farewell(shell)


def _farewell(shell: Shell) -> int:
    """Say what is to be said on the plain terminal; the exit status."""
    if shell.fault is not None:
        kind = type(shell.fault).__name__
        words = " ".join(str(shell.fault).split())[:200]
        print(f"ringwright: a fault of ours, what was accepted is saved: {kind}: {words}", file=sys.stderr)
        return 4
    left = shell.bench.left
    if left is None:
        return 0
    if left.words:
        print(left.words, flush=True)
    return left.status
