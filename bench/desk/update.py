"""One pure function for everything that happens: desk and token in, desk and effects out.

Invariant: `update` reads no clock, no file and no chance; only a `saved` token changes the job.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk import everything, gate, jobs_page, learning, line_reading, manual, replacing, shop_asked
from bench.desk.arrivals import HANDLERS, checks_anew, opened
from bench.desk.away import moment_of, why_anew
from bench.desk.bounce import Bounce, strain
from bench.desk.desk import Desk
from bench.desk.effects import Append, Arrival, Effect, FromJobs, OfTheList, SessionOpened, ShopIs
from bench.desk.foreseen import stated
from bench.desk.gauges import watched
from bench.desk.hold import found
from bench.desk.keys import resolve
from bench.desk.moving import MOVE
from bench.desk.offering import still_offered
from bench.desk.pace import lost
from bench.desk.pages import NOTES, Outcome, arrive, goto, over, say
from bench.desk.sitting import begin_sitting
from bench.desk.token import Token
from bench.desk.typed import AnswerLine, type_key
from bench.desk.wheel import arrow
from bench.job import keys
from bench.wire.heard import Heard

if TYPE_CHECKING:
    from bench.job.steps import Step


MOVES = ("previous", "next", "list")
READ = ("why", "keys", "sheet", "customer", "drawer", manual.CHAPTER)
"""Pages that are only read: nothing is keyed on them."""
NOTHING_KEYED = "Nothing is keyed on this page: Enter or / goes back."
LONGEST_ENTRY = 3
"""Digits of a number on a list; elsewhere a choice has one."""


def update(desk: Desk, token: Arrival) -> Outcome:
    """The desk after one thing happened, and what the shell has to do; lengths are said as the shop works."""
    if desk.shop is None or desk.shop.works_in == "mm":
        return happened(desk, token)
    from rules.lengths import speaking  # a shop comes with the first job

    with speaking(desk.shop.works_in):
        return happened(desk, token)


def happened(desk: Desk, token: Arrival) -> Outcome:
    """The desk after one thing, with the mark of a sitting that begins and what the list of jobs needs."""
    after, effects = arrived(desk, token)
    if after.asked_shop is not None:
        after, effects = shop_asked.went_on(after, effects)
    if after.asked_shop is not None:
        return after, effects
    if after.page == "step" and desk.page != "step" and sitting_is_due(after):
        mark = Append(keys.SITTING, "work", kind="mark")
        after, effects = replace(after, pending=mark), (*effects, mark)
    after, effects = stated(after, effects)
    if after.page != "jobs":
        after, effects = learning.looked_up_when_due(after, effects)
        return shop_asked.asked_when_needed(after, effects)
    after = jobs_page.fitted(after, desk)
    return after, (*effects, *jobs_page.wanted(after, token))


def sitting_is_due(desk: Desk) -> bool:
    """Whether a step came on the screen, on whatever way, before the mark of this sitting was written."""
    return desk.job is not None and desk.writable and not desk.sitting and desk.pending is None


def arrived(desk: Desk, token: Arrival) -> Outcome:
    """The desk after one thing happened, the list of jobs apart."""
    if isinstance(token, SessionOpened):
        return opened(desk, token)
    if isinstance(token, Heard):
        return line_reading.heard(desk, token)
    if isinstance(token, ShopIs):
        return shop_asked.shop_is(desk, token)
    if isinstance(token, FromJobs):
        return learning.told(desk, token)
    if isinstance(token, OfTheList):
        return jobs_page.came(desk, token)
    timed = found(replace(desk, now=max(desk.now, token.at), wall=token.wall or desk.wall), token)
    if token.kind == "key" and token.text.startswith("arrow:"):
        return arrow(timed, token, strained)
    if token.kind in ("key", "settle"):
        return strained(timed, token)
    handler = HANDLERS.get(token.kind)
    return handler(timed, token) if handler else (timed, ())


def strained(desk: Desk, token: Token) -> Outcome:
    """A key through the bounce filter; what comes out of it may be nothing, one key or several."""
    if desk.too_small:
        return replace(desk, bounce=Bounce(at=token.at)), ()
    bounce, keys = strain(desk.bounce, token, typing=bool(desk.line.text), window_ms=desk.bounce_ms)
    desk = replace(desk, bounce=bounce)
    effects: tuple[Effect, ...] = ()
    for key in keys:
        if key.kind == "undo":
            desk = replace(desk, line=desk.line_before, pace=replace(desk.pace, steps=desk.pace.steps[:-1]))
            continue
        desk, more = on_key(desk, key)
        effects += more
    return desk, effects


def on_key(desk: Desk, token: Token) -> Outcome:
    """One key. While an answer is being saved no key counts."""
    if desk.pending is not None or desk.page == "left":
        return replace(desk, pace=lost(desk.pace, token.at)), ()
    last, now = desk.last_key, moment_of(token)
    desk = replace(desk, last_key=now)
    if desk.sitting and desk.job is not None and last is not None and (why := why_anew(last, now)):
        desk, effects = checks_anew(desk, why)
        if desk.page != "text":
            return replace(desk, pace=lost(desk.pace, token.at)), effects
    if desk.page == "text":
        return text_key(desk, token)
    text = resolve(token.text, typing=bool(desk.line.text))
    if text == "":
        return desk, ()
    if line_reading.too_soon(desk, text, token.at):
        return replace(desk, message=line_reading.LOOK_FIRST), ()
    return watched(desk, text, token.at, act)


def act(desk: Desk, text: str) -> Outcome:
    """What a key does: it moves, accepts, or builds the answer."""
    if text in MOVES and not desk.line.text and not desk.line.void:
        return MOVE[text](replace(desk, message="", alarm=False))
    if desk.page in READ:
        return reading(desk, text)
    if text == "enter" and not desk.line.void:
        if not desk.line.text:
            return desk, ()
        return ENTER.get(desk.page, nothing)(replace(desk, message="", alarm=False))
    return typed(desk, text)


def reading(desk: Desk, text: str) -> Outcome:
    """A key on a page that is only read: Enter leaves it, nothing is keyed on it."""
    if text == "enter":
        return MOVE["previous"](replace(desk, line=AnswerLine(), message="", alarm=False))
    if text == "back" and desk.page == manual.CHAPTER:
        return manual.read_back(desk)
    return say(desk, NOTHING_KEYED)


def typed(desk: Desk, text: str) -> Outcome:
    """A key that builds, takes back or spoils the answer line."""
    step = desk.step if desk.page == "step" else None
    inch = desk.shop is not None and desk.shop.works_in == "inch"
    before = desk.line
    if text.startswith("paste:"):
        line = pasted(step, text.removeprefix("paste:"))
    elif desk.page == "jobs":
        line = jobs_page.type_number(desk.line, text)
    else:
        from bench.desk.answering import mask_of

        others = tuple(each.mask for each in step.by) if step else ()
        mask = mask_of(step, hasty=desk.hasty) if step else None
        most = LONGEST_ENTRY if desk.page in ("list", "pick") else 1
        line = type_key(desk.line, text, mask=mask, others=others, inch=inch, most=most)
    if text in MOVES and line == desk.line:
        return replace(desk, message="finish the answer with Enter or clear it with - first"), ()
    cleared = "" if line != desk.line else desk.message
    if desk.line.void and text == "enter":
        cleared = f"not taken: {desk.line.void}"
    desk = still_offered(replace(desk, line=line))
    return replace(desk, line_before=before, message=line.void or cleared, alarm=False, conversion=""), ()


def pasted(step: Step | None, text: str) -> AnswerLine:
    """A paste may stand in the line of a number, never in that of a choice or a check."""
    if step is None or step.kind != "number":
        return AnswerLine(void="a paste belongs in a number only: key the choice")
    return AnswerLine(text)


def text_key(desk: Desk, token: Token) -> Outcome:
    """Free text, on a full keyboard: only Enter and Escape act."""
    if token.text == "enter" and not token.raw:
        text = " ".join(desk.line.text.split())
        if not text:
            return unwritten(desk)
        if desk.at in NOTES:
            entry = Append(desk.at, text, kind="note")
            return replace(desk, pending=entry, at=""), (entry,)
        entry = Append(desk.at, text)
        return replace(desk, pending=entry), (entry,)
    if token.text == "previous" and not token.raw:
        return unwritten(desk)
    if token.text == "back" and not token.raw:
        return replace(desk, line=AnswerLine(desk.line.text[:-1])), ()
    if token.raw and len(desk.line.text) < 200:
        return replace(desk, line=AnswerLine(desk.line.text + token.raw)), ()
    return desk, ()


def unwritten(desk: Desk) -> Outcome:
    """Free text is left with nothing written, as a keypad can too: Enter while nothing is typed."""
    return arrive(replace(desk, line=AnswerLine(), at=""))


def account(desk: Desk) -> Outcome:
    """Enter on the account of where the job stood."""
    text, walk = desk.line.text, desk.walk
    if text == "1" and walk is not None and walk.open is not None and desk.writable:
        return begin_sitting(replace(desk, line=AnswerLine()))
    if text == "2" or (text == "1" and walk is not None):
        return over(replace(desk, line=AnswerLine()), "sheet" if text == "2" else "customer"), ()
    if text == "3":
        return goto(desk, "jobs")
    return say(desk, f"there is no choice {text}")


def answered(desk: Desk) -> Outcome:
    """Enter on a step."""
    from bench.desk.answering import accept  # comes with the first job, not with the list of jobs

    return accept(desk)


def nothing(desk: Desk) -> Outcome:
    """Enter where there is nothing to accept."""
    return replace(desk, line=AnswerLine(), message="nothing to accept here; / goes back"), ()


ENTER: dict[str, Callable[[Desk], Outcome]] = {
    "jobs": jobs_page.choose,
    "account": account,
    "step": answered,
    "list": everything.choose,
    "pick": everything.pick,
    manual.CHAPTERS: manual.choose,
    "damage": gate.choose,
    replacing.PAGE: replacing.choose,
}
