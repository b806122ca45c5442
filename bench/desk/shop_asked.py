"""The shop asked at the desk: its questions lie over whatever was on the desk, and take the same keys.

Invariant: nothing of the job under it changes but its shop; nothing is written before a part is complete.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk.away import why_anew
from bench.desk.desk import NOTHING_TYPED, Desk
from bench.desk.effects import Append, Deal, Effect, ShopIs, WriteShop
from bench.desk.pages import Outcome, deal_for, say
from bench.desk.sitting import begin_sitting, replayed

if TYPE_CHECKING:
    from bench.asking.asking import Asked

WRITTEN = "written to shop.toml"
KEEPS = "; what is begun is done as it was planned"


def wanted(desk: Desk) -> tuple[str, ...]:
    """The groups of the shop that have to be said before the open step, and were neither said nor put off."""
    walk, shop = desk.walk, desk.shop
    if desk.asked_shop is not None or walk is None or walk.open is None or shop is None:
        return ()
    if desk.page != "step" or desk.looking_back or desk.pending is not None:
        return ()
    if not desk.sitting or not desk.writable or desk.sample:
        return ()
    return tuple(one for one in walk.open.asks_shop if one not in shop.said | desk.put_off)


def asked_when_needed(desk: Desk, effects: tuple[Effect, ...]) -> Outcome:
    """The first page about the shop, where the open step goes by what nobody has said."""
    groups = wanted(desk)
    if not groups or desk.shop is None:
        return desk, effects
    from bench.asking.asking import opening

    kept = tuple(effect for effect in effects if not isinstance(effect, Deal))
    return laid_over(desk, opening(desk.shop, groups)), kept


def shop_is(desk: Desk, token: ShopIs) -> Outcome:
    """The shop as it stands in its file: after it was written, or before its parts are shown."""
    from bench.asking.asking import PARTS, Asked

    if desk.asked_shop is None:
        return laid_over(desk, Asked(token.shop, PARTS)), ()
    words = WRITTEN + (KEEPS if is_begun_with(desk, desk.asked_shop.part) else "")
    return gone_on(desk, desk.asked_shop.following(token.shop), token, words)


def is_begun_with(desk: Desk, group: str) -> bool:
    """Whether a ring is begun by what stood in the shop: it keeps its plan."""
    walk = desk.below.walk if desk.below is not None else None
    step = walk.open if walk is not None else None
    return step is not None and group in step.goes_by and not step.asks_shop


def laid_over(desk: Desk, asked: Asked) -> Desk:
    """The desk with a question about the shop on it, all else aside."""
    over = replace(
        desk,
        below=desk.below or desk,
        page="step",
        trail=(),
        picks=(),
        line=NOTHING_TYPED,
        conversion="",
        sitting=False,
        writable=True,
        pending=None,
        then=(),
    )
    return shown(over, asked)


def shown(desk: Desk, asked: Asked) -> Desk:
    """The desk on the open question of what is asked."""
    return replace(
        desk,
        asked_shop=asked,
        shop=asked.shop,
        job=asked.job,
        walk=asked.walk,
        entries=asked.answers,
        at="",
        offset=0,
        scroll=0,
        line=NOTHING_TYPED,
        foreseen=None,
    )


def went_on(desk: Desk, effects: tuple[Effect, ...]) -> Outcome:
    """An answer to a question about the shop is kept on the desk; a part that is complete is written."""
    asked, entry = desk.asked_shop, desk.pending
    if asked is None or entry is None:
        return desk, effects
    left = tuple(effect for effect in effects if not isinstance(effect, Append))
    asked = asked.answered(entry.key, entry.value, desk.wall)
    from rules.checks import OutOfRange  # comes with the first question, not with the list of jobs

    try:
        after = shown(replace(desk, pending=None), asked)
    except OutOfRange as why:  # each answer could be, together they cannot
        return refused(replace(desk, pending=None, asked_shop=asked), str(why))
    if after.walk is None or after.walk.open is not None:
        return after, left
    if asked.put_off and desk.below is not None:
        below = replace(desk.below, put_off=desk.below.put_off | frozenset(asked.after))
        return left_off(replace(after, below=below))
    changes = asked.changes()
    if not changes:
        return gone_on(after, asked.following(asked.shop), None, "")
    return after, (*left, WriteShop(asked.shop, changes))


def gone_on(desk: Desk, asked: Asked | None, token: ShopIs | None, words: str) -> Outcome:
    """The next part, or back to what lay under it."""
    after = replace(desk, message=words, alarm=False)
    if asked is None:
        return left_off(after if token is None else replace(after, shop=token.shop))
    return shown(after, asked), ()


def left_off(desk: Desk) -> Outcome:
    """What lay under the questions, with the shop as it now is; what is not complete is not written."""
    below = desk.below
    assert below is not None
    back = replace(
        below,
        columns=desk.columns,
        rows=desk.rows,
        line=NOTHING_TYPED,
        bounce=desk.bounce,
        pace=desk.pace,
        now=desk.now,
        wall=desk.wall,
        last_key=desk.last_key,
        night=desk.night,
        night_chosen=desk.night_chosen,
        bell=desk.bell,
        message=desk.message,
        alarm=desk.alarm,
        shop=desk.shop,
        dealt=(),
    )
    if back.head is None:
        return back, ()
    last, now = below.last_key, desk.last_key
    if below.sitting and last is not None and now is not None and why_anew(last, now):
        return begin_sitting(replayed(replace(back, sitting=False)))
    again = replayed(back)
    return again, deal_for(again) if again.page == "step" else ()


def first_question(desk: Desk) -> bool:
    """Whether the first question of a part is shown: before it lies what lay under it."""
    step, walk = desk.step, desk.walk
    return desk.asked_shop is not None and walk is not None and step is not None and walk.keys[0] == step.key


def refused(desk: Desk, words: str) -> Outcome:
    """It could not be written: the last answer stands to be given again."""
    assert desk.asked_shop is not None
    again = shown(desk, desk.asked_shop.taken_back())
    return say(again, words, alarm=True)
