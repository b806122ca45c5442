"""The one screen: every key through one queue into `update`, painted when nothing more is queued.

Invariant: no state lives here but the desk it was given; the outcomes of one token's effects reach the desk
before the next token does; nothing is painted while nothing happens.
"""

from __future__ import annotations

import asyncio
import gc
from collections import deque
from typing import Any

from rich.style import Style
from textual import events
from textual.app import ComposeResult
from textual.message import Message
from textual.screen import Screen

from bench.desk.token import Bell, Leave, Token
from screens.face import Face, pasted, raw_letter
from screens.page import Page
from screens.theme import Name, styles
from screens.title import KEEP, title_of

MOST_OUTCOMES = 1000
"""Tokens that one token may bring about; more means a loop."""


class Settle(Message):
    """No key has come for a while."""

    bubble = False


class Tick(Message):
    """The time for which a tick was wanted has gone by."""

    bubble = False


class Arrived(Message):
    """A token from another thread, such as that of a gauge on a line."""

    bubble = False

    def __init__(self, token: Any) -> None:
        super().__init__()
        self.token = token


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
        self.titled = ""
        """What gave the window its title; empty while nothing did."""

    @property
    def desk(self) -> Any:
        """The desk as it stands."""
        return self._desk

    def compose(self) -> ComposeResult:
        """One page."""
        yield self._page

    def on_mount(self) -> None:
        """Have the lines ready for the very first paint, and paint again after the background."""
        self.app.app_resume_signal.subscribe(self, lambda _app: self.refresh(layout=True))
        columns, rows = self.app.size
        self._resized(columns, rows)
        self._paint(columns, rows)
        self._face.listen(lambda token: self.post_message(Arrived(token)))

    def on_arrived(self, message: Arrived) -> None:
        """A token that came from another thread, in its turn."""
        self.feed(message.token)

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
        text = pasted(event.text)
        self.feed(self._token("key", text, at=event.time, raw=text.partition("paste:")[2]))

    def on_resize(self, event: events.Resize) -> None:
        """The window has another size."""
        self._resized(event.size.width, event.size.height)

    def _resized(self, columns: int, rows: int) -> None:
        now, wall = self._face.now(), self._face.wall()
        self.feed(Token("resized", at=now, wall=wall, columns=columns, rows=rows))

    def on_settle(self) -> None:
        """No key for a moment: the bounce filter decides about the key it holds."""
        self._settling = None
        self.feed(self._token("settle"))

    def on_tick(self) -> None:
        """A second of a running timer, or a moment with nothing to do."""
        self._ticking = None
        self.feed(self._token("tick"))

    def _token(self, kind: str, text: str = "", *, at: float | None = None, raw: str = "") -> Token:
        face = self._face
        return Token(
            kind, text, at=face.now() if at is None else at, wall=face.wall(), boot=face.boot(), raw=raw
        )

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
            self.left = self._face.farewell(effect)
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
            self._ticking = loop.call_later(wanted, self.post_message, Tick())
        elif not wanted and self._ticking is not None:
            self._ticking.cancel()
            self._ticking = None

    def on_idle(self) -> None:
        """Nothing more is queued: paint what has changed since."""
        self._paint(*self.size)

    def _paint(self, columns: int, rows: int) -> None:
        if not self._stale or self.left is not None or columns < 1:
            return
        self._stale = False
        theme = self._face.theme(self._desk)
        if theme not in self._roles:
            name: Name = "night" if theme == "night" else "day"
            self._roles[theme] = styles(name=name, depth=self._face.look.depth)
        title = title_of(self._face.title(self._desk), self._face.look)
        if title != self.titled:
            self.written(title if self.titled else KEEP + title)
            self.titled = title
        if self._page.show(self._face.view(self._desk), self._roles[theme], columns, rows):
            self.call_after_refresh(self._painted)

    def written(self, sequence: str) -> None:
        """Hand the terminal what no page shows, such as a title."""
        if self.app._driver is not None:
            self.app._driver.write(sequence)

    def _painted(self) -> None:
        """The page stands on the screen: tell the desk, and begin to tidy memory after the first time.

        What the start left behind is let lie: to look through it would keep a key waiting.
        """
        if not self._opened:
            self._opened = True
            gc.freeze()
            gc.enable()
        self.feed(self._token("painted"))
