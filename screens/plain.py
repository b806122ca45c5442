"""The same steps as lines: one line in is one answer, everything said goes to standard output.

Invariant: keys, values, refusals and the file are those of the full screen,
since both feed the same `update`.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import TextIO

from bench.clean import clean
from bench.clocks import since_boot, wall_now
from bench.desk import everything
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Open
from bench.desk.hold import countdown, until_next_word
from bench.desk.keys import meaning
from bench.desk.token import Leave, Token
from bench.desk.typed import AnswerLine
from bench.desk.update import update
from bench.refusal import Refused
from bench.workbench import Workbench
from screens.lines_in import lines_from
from screens.look import Look
from screens.prompt import choices, prompt_line, said

MOVES = ("/", "+", "*")
KEYS = {"-": "back", "/": "previous", "+": "next", "*": "list"}
LOOK = Look("ascii")
MOST_ROWS = 4000
"""No page that is read is longer."""
READ_ONLY = 3
"""Exit status when the job is open elsewhere or cannot be written."""


class Plain:
    """A desk driven by lines."""

    def __init__(
        self,
        desk: Desk,
        workbench: Workbench,
        *,
        out: TextIO,
        wall: Callable[[], str] = wall_now,
        now: Callable[[], float] = time.monotonic,
        boot: Callable[[], float | None] = since_boot,
    ) -> None:
        self.desk = replace(desk, by_lines=True)
        self._workbench = workbench
        self._out = out
        self._wall = wall
        self._now = now
        self._boot = boot
        self._left: Leave | None = None
        self._consequence: tuple[str, ...] = ()

    def say(self, text: str) -> None:
        """One line out, at once."""
        print(clean(text), file=self._out, flush=True)

    def feed(self, arrival: Arrival) -> None:
        """One token and all that follows from it."""
        waiting: list[Arrival] = [arrival]
        while waiting and self._left is None:
            self.desk, effects = update(self.desk, waiting.pop(0))
            self._left = next((effect for effect in effects if isinstance(effect, Leave)), None)
            waiting += self._workbench.carry_out(
                [effect for effect in effects if not isinstance(effect, Leave)]
            )

    def start(self, file: str = "") -> None:
        """Bring the list of jobs, or open one."""
        arrivals = self._workbench.carry_out([Open(file)]) if file else [self._workbench.listed()]
        for arrival in arrivals:
            self.feed(arrival)

    def run(self, lines: Iterator[str]) -> int:
        """Prompt and answer until the input ends or the person leaves; the exit status."""
        try:
            self.go_on()
            self.prompt()
            while self._left is None and (text := next(lines, None)) is not None:
                self.answer(text.rstrip("\r\n"))
                if self._left is None:
                    self.go_on()
                    self.prompt()
            return self._end()
        except BrokenPipeError:
            return 0
        finally:
            self._workbench.close()

    def _end(self) -> int:
        kept = self.desk.file and self.desk.writable and (self.desk.job is not None or self.desk.findings)
        status = self._left.status if self._left else 0
        left = self._workbench.farewell(Leave(status, everything.saved_words(self.desk) if kept else ""))
        if left.words:
            self.say(left.words)
        return left.status

    def answer(self, text: str) -> None:
        """One line in."""
        before = (self.desk.entries, self.desk.page, self.desk.asked_shop)
        if self.desk.conversion and text.strip() not in ("", *MOVES):
            self.desk = replace(self.desk, line=AnswerLine(), conversion="")  # cleared, or keyed again
        if self.desk.page == "text":
            self.write(text)
        elif text.strip() in KEYS:
            self.key(KEYS[text.strip()])
            self.feed(self._token("settle"))  # the line is over: no digit follows
        elif text.strip():
            for character in text.strip():
                self.key(meaning(character, character))
            self.key("enter")
        elif self.desk.conversion:
            self.key("enter")  # again
        if not self.desk.message:
            return
        now = (self.desk.entries, self.desk.page, self.desk.asked_shop)
        progressed = before != now and not self.desk.alarm
        self.say(f"{'=' if progressed or self.desk.conversion else '!'} {self.desk.message}")
        kept = self.desk.line if self.desk.conversion else AnswerLine()
        self.desk = replace(self.desk, message="", line=kept)

    def due(self, *, woken: bool) -> float | None:
        """Say what is left of a running hold where `woken` for it, and its end;
        seconds until the next word, None where nothing runs.
        """
        self.feed(self._token("tick"))
        if self.desk.message:
            self.say(f"= {self.desk.message}")
            self.desk = replace(self.desk, message="")
            self.prompt()
        step = self.desk.step if self.desk.page == "step" else None
        if step is None:
            return None
        if woken and (left := countdown(self.desk, step)):
            self.say(f"= {left}")
        return until_next_word(self.desk, step)

    def write(self, text: str) -> None:
        """A line of free text; / alone goes back."""
        if text.strip() == "/":
            self.key("previous")
            return
        for character in text:
            self.feed(self._token("key", "char", raw=character))
        self.key("enter")

    def key(self, text: str) -> None:
        """One key."""
        self.feed(self._token("key", text))

    def _token(self, kind: str, text: str = "", *, raw: str = "") -> Token:
        return Token(kind, text, at=self._now(), wall=self._wall(), boot=self._boot(), raw=raw)

    def go_on(self) -> None:
        """Pages that only say something are printed, and the route goes on by itself."""
        for _ in range(8):
            if self.desk.page == "account":
                self.account()
            elif self.desk.page in ("why", "keys", "sheet", "customer", "drawer", "chapter"):
                self.read()
            else:
                return
            if self._left is not None:
                return

    def account(self) -> None:
        """Where the job stood; then straight on to the open step,
        or to the sheet where there is nothing to do.
        """
        from screens.pages.reading import account_lines

        self.print_page(account_lines(replace(self.desk, columns=100, rows=200)))
        if self.desk.message and self.desk.writable:
            self.say(f"! {self.desk.message}")
        if not self.desk.writable:
            self.say("! open to read only; nothing can be answered here")
            self._left = Leave(READ_ONLY)
            return
        self.key("1")
        self.key("enter")

    def read(self) -> None:
        """A page of text, whole; then back."""
        from screens.view import view

        self.print_page(view(replace(self.desk, columns=100, rows=MOST_ROWS), LOOK)[1:-1])
        finished = self.desk.walk is not None and self.desk.walk.open is None
        if finished and self.desk.page == "sheet":
            self._left = Leave()
            return
        self.key("previous")

    def print_page(self, lines: Sequence[Sequence[tuple[str, str]]]) -> None:
        """The lines of a page that hold something, each after an equals sign."""
        for spans in lines:
            text = "".join(piece for piece, _ in spans).rstrip()
            if text:
                self.say(f"= {text.strip()}")

    def prompt(self) -> None:
        """Choices, what follows, and the prompt of the step at hand."""
        if self._left is not None:
            return
        for text in self.said():
            self.say(f"= {text}")
        for number, name, text in choices(self.desk):
            self.say(f"  {number} {name} - {text}" if name and self.desk.hasty else f"  {number} {text}")
        self.say(prompt_line(self.desk))
        self.feed(self._token("painted"))

    def said(self) -> tuple[str, ...]:
        """What follows from the answers so far, once."""
        lines = said(self.desk)
        if self.desk.page != "step":
            return lines
        fresh = tuple(text for text in lines if text not in self._consequence)
        self._consequence = lines
        return fresh


def run_plain(folder_bench: Workbench, *, file: str = "", source: TextIO | None = None) -> int:
    """Run in lines on standard input and output; the exit status."""
    source = source or sys.stdin
    if source is None:
        raise Refused("standard input is closed: there is nothing to read the answers from")
    hasty = not source.isatty()
    plain = Plain(Desk(hasty=hasty, bounce_ms=0), folder_bench, out=sys.stdout)
    plain.start(file)
    if file and plain.desk.message and plain.desk.job is None and plain.desk.page == "jobs":
        raise Refused(plain.desk.message, READ_ONLY)
    return plain.run(lines_from(source, plain.due))
