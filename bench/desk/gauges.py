"""Gauges that type: sent twice, two at once, sent before the question stood there.

Invariant: a reading that comes too soon after a number, or for a question that has not been painted, is
shown and waits for the person's Enter; where two streams met, nothing is taken until it has been quiet.
Answers that come as whole lines (`Desk.by_lines`) and an announced series pass.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append
from bench.desk.pace import (
    FIRST_OF_SERIES_S,
    HANDS_S,
    NEXT_OF_SERIES_S,
    QUIET_S,
    Pace,
    by_machine,
    crosses,
    lost,
    mixed,
    one_less,
    with_key,
)
from bench.desk.pages import Outcome
from bench.desk.typed import AnswerLine

TAKES = "Enter takes it, - clears it."
SOON = f"Sent within half a second of the last number, perhaps twice: {TAKES}"
UNSEEN = f"Sent before this question stood here: {TAKES}"
TWO_AT_ONCE = "two streams of keys met in this answer"
WAIT = "Nothing is taken until it has been quiet for half a second; then send or key one reading."
SERIES = (
    "Send the stored readings now: they are taken for the numbers asked from here on, "
    "until three seconds go by without one."
)

Act = Callable[[Desk, str], Outcome]


def watched(desk: Desk, text: str, at: float, act: Act) -> Outcome:
    """One key, `text` as `resolve` gives it; `act` carries it out where nothing speaks against it."""
    if desk.hasty or desk.by_lines:
        return act(desk, text)
    if desk.pace.jammed and desk.pace.since(at) >= QUIET_S:
        desk = replace(desk, line=AnswerLine(), pace=replace(desk.pace, jammed=False))
    if text == "enter":
        return ended(desk, at, act)
    if text in ("back", "previous", "next", "list"):
        return taken_back(desk, text, at, act)
    return built(desk, text, at, act)


def built(desk: Desk, text: str, at: float, act: Act) -> Outcome:
    """A key that builds the answer."""
    before, soon_after = desk.pace, desk.pace.since(at) < HANDS_S
    if before.jammed:
        return jam(desk, at)
    held = before.held and bool(desk.line.text)
    if held and soon_after:
        return jam(desk, at, TWO_AT_ONCE)
    if held:
        desk = replace(desk, line=AnswerLine(), message="")
    first = not desk.line.text and not desk.line.void
    waited = text in ("char:+", "char:-") and at < desk.painted_at  # the filter held the sign back meanwhile
    pace = with_key(before, at, first=first, unseen=is_unseen(desk) or waited)
    if in_series(desk, at):
        pace = replace(pace, jammed=False)
    if pace.jammed:
        return jam(desk, at, TWO_AT_ONCE)
    after, effects = act(replace(desk, pace=pace), text)
    sent = desk.line.text + text.removeprefix("char:")
    if crosses(pace, sent, ended=False, fits=not after.line.void):
        return crossed(after, at)
    if after.line.void and not first and soon_after:
        return jam(after, at, after.line.void)
    return after, effects


def crossed(desk: Desk, at: float) -> Outcome:
    """The reading just accepted had another running through it: it is taken back, and the line void."""
    told, _ = jam(desk, at, TWO_AT_ONCE)
    told = replace(told, line=AnswerLine(), pace=replace(told.pace, taken=""))
    last = desk.entries[-1] if desk.entries else None
    if last is None or last.kind != "answer":
        return told, ()
    word = str(last.value[0] if isinstance(last.value, tuple) else last.value)
    undo = Append(last.key, word, kind="undo", of=last.n)
    words = f"Two streams of keys met: {word} is taken back. {WAIT}"
    return replace(told, pending=undo, then=(), at="", message=words), (undo,)


def jam(desk: Desk, at: float, why: str = "") -> Outcome:
    """Nothing more is taken until it has been quiet; `why` voids the line."""
    pace = replace(lost(desk.pace, at), jammed=True, series_until=-math.inf)
    line = AnswerLine(void=why) if why else desk.line
    told = desk.message if desk.message.endswith(WAIT) else WAIT
    words = f"Not taken: {why}. {WAIT}" if why else told
    return replace(desk, pace=pace, line=line, message=words, alarm=False, conversion=""), ()


def taken_back(desk: Desk, text: str, at: float, act: Act) -> Outcome:
    """A key that takes back or moves."""
    pace = desk.pace
    if pace.jammed and pace.since(at) < HANDS_S:
        return jam(desk, at)
    if pace.held and text == "back" and desk.line.text:
        cleared = replace(desk, line=AnswerLine(), message="", pace=replace(pace, held=False))
        return cleared, ()
    typing = bool(desk.line.text)
    unseen = pace.unseen if typing else is_unseen(desk)
    pace = replace(one_less(pace, at, typing=typing), jammed=False, unseen=unseen)
    return act(replace(desk, pace=pace), text)


def ended(desk: Desk, at: float, act: Act) -> Outcome:
    """Enter, of the person or at the end of a reading."""
    pace, by_hand = desk.pace, desk.pace.since(at) >= HANDS_S
    if pace.jammed and not by_hand:
        told, _ = jam(desk, at)
        return replace(told, line=AnswerLine()), ()
    if not desk.line.text:
        return act(replace(desk, pace=replace(lost(pace, at), jammed=False)), "enter")
    steps = pace.steps if by_hand else (*pace.steps, pace.since(at))
    if mixed(steps) and not in_series(desk, at):
        told, _ = jam(desk, at, TWO_AT_ONCE)
        return replace(told, line=AnswerLine()), ()
    if crosses(pace, desk.line.text, ended=True, fits=True):
        return crossed(desk, at)
    why = why_held(desk, at, (*pace.steps, pace.since(at)))
    if why:
        held = replace(pace, last_at=at, held=True, taken="", number_at=at)
        return replace(desk, pace=held, message=why, alarm=False), ()
    after, effects = act(desk, "enter")
    return replace(after, pace=after_enter(desk, after, at)), effects


def after_enter(desk: Desk, after: Desk, at: float) -> Pace:
    """What is remembered once Enter has done its work: a number taken, or a line that was not."""
    pace = replace(after.pace, last_at=at, held=False)
    if after.pending is None:
        announced = after.pace.series_until > desk.pace.series_until
        return replace(lost(pace, at), series_until=pace.series_until if announced else -math.inf)
    if not is_number(desk):
        return replace(pace, taken="")
    series = at + NEXT_OF_SERIES_S if at < pace.series_until else -math.inf
    sent = by_machine((*desk.pace.steps, desk.pace.since(at)))
    taken = desk.line.text if sent and at >= pace.series_until else ""
    return replace(pace, number_at=at, taken=taken, series_until=series)


def why_held(desk: Desk, at: float, steps: tuple[float, ...]) -> str:
    """Why what stands in the line waits for the person's Enter, in words; empty where it does not."""
    pace, by_hand = desk.pace, steps[-1] >= HANDS_S
    if pace.held:
        return "" if by_hand else desk.message
    if in_series(desk, at):
        return ""
    if is_unseen(desk) or (pace.unseen and not by_hand):
        return UNSEEN
    return SOON if desk.page == "step" and pace.soon and not by_hand and by_machine(steps) else ""


def is_number(desk: Desk) -> bool:
    """Whether a number is asked."""
    return desk.page == "step" and desk.step is not None and desk.step.kind == "number"


def is_unseen(desk: Desk) -> bool:
    """Whether a number is asked that has not stood on the screen yet."""
    return is_number(desk) and desk.painted != desk.asked


def in_series(desk: Desk, at: float) -> bool:
    """Whether this is a reading of an announced series; one to be measured again is not."""
    return is_number(desk) and at < desk.pace.series_until and desk.step is not None and not desk.step.blind


def announce(desk: Desk) -> Desk:
    """A series is announced: its readings are taken as they come."""
    pace = replace(desk.pace, series_until=desk.now + FIRST_OF_SERIES_S)
    return replace(desk, pace=pace, message=SERIES, alarm=False)
