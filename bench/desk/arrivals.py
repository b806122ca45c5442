"""What comes to the desk from outside the keyboard: opened, saved, refused, dealt, painted, ticked.

Invariant: only a `saved` token changes the job; a refused answer stays in the line.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bench.desk import everything, gate, shop_asked
from bench.desk.desk import Desk
from bench.desk.effects import SessionOpened
from bench.desk.hold import rings, seconds_left
from bench.desk.pace import lost
from bench.desk.pages import Outcome, arrive, deal_for
from bench.desk.sitting import begin_sitting, replayed
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import AnswerLine
from bench.file.entry import Entry
from bench.job import keys
from bench.job.other_jobs import LIKE

THEMES = {"day": False, "night": True}
"""Themes of a shop that say whether it is night; the third leaves it to the terminal."""


def opened(desk: Desk, token: SessionOpened) -> Outcome:
    """A session file was opened: the gate first, then where it stood, or the first question."""
    cleared = replace(
        desk,
        page="damage" if token.findings else "account",
        line=AnswerLine(),
        message=token.why_read_only,
        alarm=bool(token.why_read_only),
        wall=token.wall or desk.wall,
        head=token.head,
        entries=token.entries,
        file=token.file,
        shop=token.shop,
        writable=token.writable,
        why_read_only=token.why_read_only,
        findings=token.findings,
        set_aside=token.set_aside,
        sample=token.sample,
        sitting=False,
        at="",
        bounce_ms=token.shop.bounce_ms if desk.bounce_ms else 0,
        bell=token.shop.bell,
        night=desk.night if desk.night_chosen else THEMES.get(token.shop.theme, desk.night),
        jammed="",
        scroll=0,
        pending=None,
        then=(),
        dealt=(),
        wanted="",
        asked_shop=None,
        below=None,
        put_off=frozenset(),
        looked=(),
    )
    if token.findings:
        return replace(cleared, job=None, walk=None), ()
    ready = replayed(cleared)
    if token.writable and all(entry.key == LIKE for entry in token.entries):
        return begin_sitting(ready)
    return ready, ()


def checks_anew(desk: Desk, why: str) -> Outcome:
    """The person was away: checks given before count no more, whatever page is open,
    and a new sitting begins. Nothing is said of checks where none was asked yet.

    Free text is not lost: its sitting begins when a step comes on the screen again.
    """
    said = why if desk.walk is not None and any(one.kind == "safety" for one, _ in desk.walk.done) else ""
    away = replayed(replace(desk, sitting=False, message=said, alarm=False))
    if desk.page == "text":
        return away, ()
    away = replace(away, line=AnswerLine(), conversion="")
    if away.walk is None or away.walk.open is None:
        return arrive(replace(away, picks=(), at="", message=""))
    return begin_sitting(away)


def on_saved(desk: Desk, token: Token) -> Outcome:
    """An entry is in the file: now, and only now, the job changes."""
    entry = desk.pending
    if entry is None or not token.numbers:
        return desk, ()
    kept = Entry(
        n=token.numbers[0], at=token.wall, kind=entry.kind, key=entry.key, value=entry.value, of=entry.of
    )
    grown = replace(desk, entries=(*desk.entries, kept), pending=None, line=AnswerLine(), offset=0)
    if desk.findings:
        return gate.settled(grown)
    begun = entry.kind == "mark" and entry.key == keys.SITTING
    at = desk.at if begun or entry.kind == "note" else ""
    ready = replayed(replace(grown, dealt=(), at=at, sitting=desk.sitting or begun))
    if desk.then:
        following = desk.then[0]
        return replace(ready, pending=following, then=desk.then[1:]), (following,)
    return arrive(ready)


def on_refused(desk: Desk, token: Token) -> Outcome:
    """It could not be saved: said at once, the typed answer stays in the line."""
    if desk.asked_shop is not None:
        return shop_asked.refused(desk, token.text)
    jammed = desk.jammed or (token.text if token.numbers else "")
    pace = replace(desk.pace, taken="")
    told = replace(desk, pending=None, then=(), message=token.text, alarm=True, jammed=jammed, pace=pace)
    if desk.pending is not None and desk.pending.key == keys.SITTING:
        return replace(told, page="account", trail=(), at=""), ()  # without its mark no sitting has begun
    return told, deal_for(told)


def on_deal(desk: Desk, token: Token) -> Outcome:
    """Numbers were dealt to the choices of a check."""
    return replace(desk, dealt=token.numbers), ()


def on_said(desk: Desk, token: Token) -> Outcome:
    """The shell has something to say that is no failure, such as where a copy was written."""
    return replace(desk, message=token.text, alarm=False), ()


def on_resized(desk: Desk, token: Token) -> Outcome:
    """The window has a new size; what is typed just then may have begun while no key counted."""
    pace = lost(desk.pace, desk.bounce.at) if desk.too_small else desk.pace
    return replace(desk, columns=token.columns, rows=token.rows, pace=pace), ()


def on_painted(desk: Desk, token: Token) -> Outcome:
    """What is asked now stands on the screen; it counts from the first time, not from every digit echoed."""
    if desk.too_small:
        return desk, ()
    if desk.asked == desk.painted:
        return desk, ()
    return replace(desk, painted_at=token.at, painted=desk.asked), ()


def on_tick(desk: Desk, token: Token) -> Outcome:
    """A second has passed while a timer runs; the bell rings once at its end."""
    step = desk.step
    if step is None or step.opens_after is None or desk.rung == rings(step):
        return desk, ()
    if seconds_left(desk, step) > 0:
        return desk, ()
    rung = replace(desk, rung=rings(step), message="The time is over.", alarm=False)
    return rung, (Bell(),) if desk.bell else ()


def on_leave(desk: Desk, token: Token) -> Outcome:
    """The terminal goes away: what was accepted is in the file already."""
    return replace(desk, page="left"), (Leave(0, everything.saved_words(desk)),)


HANDLERS: dict[str, Callable[[Desk, Token], Outcome]] = {
    "saved": on_saved,
    "refused": on_refused,
    "deal": on_deal,
    "said": on_said,
    "resized": on_resized,
    "painted": on_painted,
    "tick": on_tick,
    "leave": on_leave,
}
