"""Going from page to page: a page laid over another and taken off, a step shown, one message said.

Invariant: nothing here writes an entry but the marks that the route asks for.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Deal, Effect, ReadShop
from bench.desk.typed import AnswerLine
from bench.job import keys

Outcome = tuple[Desk, tuple[Effect, ...]]

NOTES = (keys.NOTE, keys.SHOP_NOTE)
"""Free text that is no answer to a step."""
PAGEFUL = 9
"""Entries of a numbered list on one screen."""


def number_at(index: int) -> int:
    """The number of an entry by its place in a long list: 1 to 9, 11 to 19, 21 to 29 and so on.

    >>> [number_at(index) for index in (0, 8, 9, 17, 18)]
    [1, 9, 11, 19, 21]
    """
    page, place = divmod(index, PAGEFUL)
    return 10 * page + place + 1


def index_at(number: int) -> int | None:
    """The place of an entry by its number; None where no entry has it.

    >>> [index_at(number) for number in (1, 9, 10, 11, 21, 0)]
    [0, 8, None, 9, 18, None]
    """
    page, place = divmod(number, 10)
    return PAGEFUL * page + place - 1 if place else None


def say(desk: Desk, words: str, *, alarm: bool = False) -> Outcome:
    """Show one message and empty the answer line."""
    return replace(desk, line=AnswerLine(), message=words, alarm=alarm, conversion="", offer=None), ()


def goto(desk: Desk, key: str) -> Outcome:
    """Open an optional step, the list of jobs, or the shop, without writing anything."""
    if key == "shop":
        return replace(desk, line=AnswerLine(), message=""), (ReadShop(),)
    if key == "jobs":
        return replace(desk, line=AnswerLine(), message=""), (Close(),)
    return show(replace(desk, line=AnswerLine(), message=""), key)


def over(desk: Desk, page: str) -> Desk:
    """The desk with a page laid over the present one."""
    return replace(desk, page=page, trail=(*desk.trail, desk.page), offset=0, scroll=0)


def back(desk: Desk) -> Desk:
    """The desk with the uppermost page taken off."""
    return replace(desk, page=desk.trail[-1], trail=desk.trail[:-1], offset=0, scroll=0, picks=())


def show(desk: Desk, key: str) -> Outcome:
    """Show a step; a check that is dealt asks for its numbers."""
    shown = replace(desk, page="step", trail=(), at=key, dealt=(), offset=0, scroll=0)
    step = shown.step
    if step is not None and step.kind == "text":
        return replace(shown, page="text"), ()
    return shown, deal_for(shown)


def forward_question(desk: Desk) -> Outcome:
    """Forward one question; the first open one is the last that can be reached."""
    if desk.walk is None or not desk.looking_back:
        return replace(desk, message="this is the first open question"), ()
    keys = desk.walk.keys
    if desk.at not in keys:
        return show(desk, "")
    beyond = keys.index(desk.at) + 1
    return show(desk, keys[beyond] if beyond < len(keys) - (desk.walk.open is not None) else "")


def deal_for(desk: Desk) -> tuple[Effect, ...]:
    """The effect that deals numbers to the choices of a check, if the step shown is one."""
    step = desk.step
    if step is not None and step.kind == "safety" and step.choices and not desk.dealt:
        return (Deal(len(step.choices)),)
    return ()


def arrive(desk: Desk) -> Outcome:
    """After a change: marks that the route asks for are appended, a check gets its numbers dealt."""
    step = desk.walk.open if desk.walk else None
    if step is not None and step.kind == "mark" and desk.writable:
        mark = Append(step.key, step.title, kind="mark")
        return replace(desk, pending=mark), (mark,)
    if desk.step is None:
        return replace(desk, page="sheet", trail=("account",), scroll=0), ()
    return replace(desk, page="step", trail=(), scroll=0), deal_for(desk)
