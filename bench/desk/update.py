"""One pure function for everything that happens: desk and token in, desk and effects out.

Invariant: `update` reads no clock, no file and no chance; only a `saved` token changes the job.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bench.desk import everything, gate, jobs_page
from bench.desk.answering import PAGEFUL, Outcome, accept, back, deal_for, mask_of, over, seconds_left, show
from bench.desk.desk import IDLE_S, Append, Deal, Desk, Effect, Listed, Opened
from bench.desk.keys import resolve
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import Line, type_key
from bench.file.entry import Entry
from bench.job import replay
from bench.route import walk

Arrival = Token | Opened | Listed

MOVES = ("previous", "next", "list")


def update(desk: Desk, token: Arrival) -> Outcome:
    """The desk after one thing happened, and what the shell has to do."""
    if isinstance(token, Opened):
        return opened(desk, token)
    if isinstance(token, Listed):
        return replace(desk, page="jobs", jobs=token.jobs, numbers=token.numbers, line=Line()), ()
    timed = replace(desk, now=max(desk.now, token.at), wall=token.wall or desk.wall)
    handler = HANDLERS.get(token.kind)
    return handler(timed, token) if handler else (timed, ())


def opened(desk: Desk, token: Opened) -> Outcome:
    """A session file was opened: the gate first, then where it stood, or the first question."""
    cleared = replace(
        desk,
        page="damage" if token.findings else "account",
        line=Line(),
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
        at="",
        jammed="",
        scroll=0,
        pending=None,
        then=(),
        dealt=(),
        wanted="",
    )
    if token.findings:
        return replace(cleared, job=None, walk=None), ()
    ready = replayed(cleared)
    if not token.entries and token.writable:
        return begin_sitting(ready)
    return ready, ()


def replayed(desk: Desk) -> Desk:
    """The desk with job and walk made anew from its entries."""
    assert desk.head is not None and desk.shop is not None
    job = replay(desk.head, desk.entries)
    return replace(desk, job=job, walk=walk(job, desk.shop))


def begin_sitting(desk: Desk) -> Outcome:
    """Work begins: everything that has to be checked again rests on this mark."""
    mark = Append("sitting", "work", kind="mark")
    return replace(desk, pending=mark, then=(), page="step", at="", last_key_at=desk.now), (mark,)


def on_saved(desk: Desk, token: Token) -> Outcome:
    """An entry is in the file: now, and only now, the job changes."""
    entry = desk.pending
    if entry is None or not token.numbers:
        return desk, ()
    kept = Entry(
        n=token.numbers[0], at=token.wall, kind=entry.kind, key=entry.key, value=entry.value, of=entry.of
    )
    grown = replace(desk, entries=(*desk.entries, kept), pending=None, line=Line(), offset=0)
    if desk.findings:
        return gate.settled(grown)
    ready = replace(replayed(grown), dealt=(), at="" if entry.kind != "note" else desk.at)
    if desk.then:
        following = desk.then[0]
        return replace(ready, pending=following, then=desk.then[1:]), (following,)
    return arrive(ready)


def arrive(desk: Desk) -> Outcome:
    """After a change: marks that the route asks for are appended, a check gets its numbers dealt."""
    step = desk.walk.open if desk.walk else None
    if step is not None and step.kind == "mark" and desk.writable:
        mark = Append(step.key, step.title, kind="mark")
        return replace(desk, pending=mark), (mark,)
    if step is None:
        return replace(desk, page="sheet", trail=("account",), scroll=0), ()
    return replace(desk, page="step", trail=(), scroll=0), deal_for(desk)


def on_refused(desk: Desk, token: Token) -> Outcome:
    """It could not be saved: said at once, the typed answer stays in the line."""
    jammed = desk.jammed or (token.text if token.numbers else "")
    return replace(desk, pending=None, then=(), message=token.text, alarm=True, jammed=jammed), ()


def on_deal(desk: Desk, token: Token) -> Outcome:
    """Numbers were dealt to the choices of a check."""
    return replace(desk, dealt=token.numbers), ()


def on_said(desk: Desk, token: Token) -> Outcome:
    """The shell has something to say that is no failure, such as where a copy was written."""
    return replace(desk, message=token.text, alarm=False), ()


def on_resized(desk: Desk, token: Token) -> Outcome:
    """The window has a new size."""
    return replace(desk, columns=token.columns, rows=token.rows), ()


def on_painted(desk: Desk, token: Token) -> Outcome:
    """What is asked now stands on the screen since this moment."""
    return replace(desk, painted_at=token.at), ()


def on_tick(desk: Desk, token: Token) -> Outcome:
    """A second has passed while a timer runs; the bell rings once at its end."""
    step = desk.step
    if step is None or step.opens_after is None or desk.rung == step.opens_after[0]:
        return desk, ()
    if seconds_left(step, desk.wall) > 0:
        return desk, ()
    rung = replace(desk, rung=step.opens_after[0], message="The time is over.", alarm=False)
    return rung, (Bell(),) if desk.bell else ()


def on_leave(desk: Desk, token: Token) -> Outcome:
    """The terminal goes away: what was accepted is in the file already."""
    return replace(desk, page="left"), (Leave(0, everything.saved_words(desk)),)


def on_key(desk: Desk, token: Token) -> Outcome:
    """One key. While an answer is being saved no key counts."""
    if desk.pending is not None or desk.page == "left":
        return desk, ()
    idle = desk.now - desk.last_key_at > IDLE_S and desk.last_key_at > 0
    desk = replace(desk, last_key_at=desk.now)
    if idle and desk.job is not None and desk.writable and desk.page == "step":
        again, effects = begin_sitting(replace(desk, line=Line()))
        return replace(again, message="A quarter of an hour without a key: checks are asked again."), effects
    if desk.page == "text":
        return text_key(desk, token)
    text = resolve(token.text, typing=bool(desk.line.text))
    if text == "":
        return desk, ()
    if text in MOVES and not desk.line.text and not desk.line.void:
        return MOVE[text](replace(desk, message="", alarm=False))
    if text == "enter" and not desk.line.void:
        if not desk.line.text:
            return desk, ()
        return ENTER.get(desk.page, nothing)(replace(desk, message="", alarm=False))
    return typed(desk, text)


def typed(desk: Desk, text: str) -> Outcome:
    """A key that builds, takes back or spoils the answer line."""
    step = desk.step if desk.page == "step" else None
    inch = desk.shop is not None and desk.shop.works_in == "inch"
    if desk.page == "jobs":
        line = jobs_page.type_number(desk.line, text)
    else:
        line = type_key(desk.line, text, mask=mask_of(step) if step else None, inch=inch)
    if text in MOVES and line == desk.line:
        return replace(desk, message="finish the answer with Enter or clear it with - first"), ()
    cleared = "" if line != desk.line else desk.message
    return replace(desk, line=line, message=line.void or cleared, alarm=False, conversion=""), ()


def text_key(desk: Desk, token: Token) -> Outcome:
    """Free text, on a full keyboard: only Enter and Escape act."""
    if token.text == "enter" and not token.raw:
        text = " ".join(desk.line.text.split())
        if not text:
            return desk, ()
        if desk.at == "note":
            entry = Append("note", text, kind="note")
            return replace(desk, pending=entry, at=""), (entry,)
        entry = Append(desk.at, text)
        return replace(desk, pending=entry), (entry,)
    if token.text == "previous" and not token.raw:
        return replace(desk, page="step", trail=(), line=Line(), at=""), ()
    if token.text == "back" and not token.raw:
        return replace(desk, line=Line(desk.line.text[:-1])), ()
    if token.raw and len(desk.line.text) < 200:
        return replace(desk, line=Line(desk.line.text + token.raw)), ()
    return desk, ()


def previous(desk: Desk) -> Outcome:
    """Back one question; from a page that lies over another, back to that."""
    if desk.trail:
        return back(desk), ()
    if desk.page != "step" or desk.walk is None:
        return replace(desk, scroll=max(0, desk.scroll - 1)), ()
    keys = desk.walk.keys
    shown = desk.step.key if desk.step else ""
    at = keys.index(shown) if shown in keys else len(keys)
    if at == 0:
        return replace(desk, message="this is the first question"), ()
    return show(desk, keys[at - 1])


def following(desk: Desk) -> Outcome:
    """Forward one question through answered ones, or the next nine entries of a list."""
    if desk.page in ("list", "pick"):
        entries = everything.items(desk) if desk.page == "list" else desk.picks
        beyond = desk.offset + PAGEFUL
        return replace(desk, offset=beyond if beyond < len(entries) else 0), ()
    if desk.page in ("why", "keys", "sheet", "jobs", "account", "damage"):
        return replace(desk, scroll=desk.scroll + 1), ()
    step = desk.step
    if step is not None and len(step.choices) > PAGEFUL and step.kind == "choice":
        beyond = desk.offset + PAGEFUL
        return replace(desk, offset=beyond if beyond < len(step.choices) else 0), ()
    return forward_question(desk)


def forward_question(desk: Desk) -> Outcome:
    """Forward one question; the first open one is the last that can be reached."""
    if desk.walk is None or not desk.looking_back:
        return replace(desk, message="this is the first open question"), ()
    keys = desk.walk.keys
    if desk.at not in keys:
        return show(desk, "")
    beyond = keys.index(desk.at) + 1
    return show(desk, keys[beyond] if beyond < len(keys) - (desk.walk.open is not None) else "")


def open_list(desk: Desk) -> Outcome:
    """The numbered list "everything else"."""
    if desk.page in ("list", "pick", "damage"):
        return desk, ()
    return over(desk, "list"), ()


def account(desk: Desk) -> Outcome:
    """Enter on the account of where the job stood."""
    from bench.desk.answering import goto, say

    if desk.line.text == "1" and desk.walk is not None:
        if desk.walk.open is None or not desk.writable:
            return over(replace(desk, line=Line()), "sheet"), ()
        return begin_sitting(replace(desk, line=Line()))
    if desk.line.text == "2":
        return over(replace(desk, line=Line()), "sheet"), ()
    if desk.line.text == "3":
        return goto(desk, "jobs")
    return say(desk, f"there is no choice {desk.line.text}")


def nothing(desk: Desk) -> Outcome:
    """Enter where there is nothing to accept."""
    return replace(desk, line=Line(), message="nothing to accept here; / goes back"), ()


HANDLERS: dict[str, Callable[[Desk, Token], Outcome]] = {
    "key": on_key,
    "saved": on_saved,
    "refused": on_refused,
    "deal": on_deal,
    "said": on_said,
    "resized": on_resized,
    "painted": on_painted,
    "tick": on_tick,
    "leave": on_leave,
}
MOVE: dict[str, Callable[[Desk], Outcome]] = {"previous": previous, "next": following, "list": open_list}
ENTER: dict[str, Callable[[Desk], Outcome]] = {
    "jobs": jobs_page.choose,
    "account": account,
    "step": accept,
    "list": everything.choose,
    "pick": everything.pick,
    "damage": gate.choose,
}
__all__ = ["Arrival", "Deal", "Effect", "Leave", "update"]
