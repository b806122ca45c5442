"""Any key held down, in any state of a whole job, accepts at most one item."""

from __future__ import annotations

import random
from dataclasses import replace
from unittest.mock import patch

from bench.desk.effects import Append, Close, Open, SaveCopy, Start, WriteSheet
from bench.desk.token import Leave, Token
from bench.desk.update import update
from bench.file.load import Finding
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

KEYS = (
    *"0123456789.",
    "enter",
    "tab",
    "back",
    "previous",
    "next",
    "list",
    "char:x",
    "arrow:next",
    "navigation",
)
ITEMS = (Append, Open, Start, Close, SaveCopy, WriteSheet, Leave)
"""What a key can set going that a person would call an item."""
REPEATS = 45
FIRST_REPEAT_S = (0.25, 0.60)
REPEAT_S = (0.025, 0.040)


def whole_job_states() -> list[Repairer]:
    """Every step of a straight job, empty and with its usual answer typed,
    and the pages that lie over steps.
    """
    repairer, states = fresh(), []
    while repairer.asked:
        states += [repairer.copy(), typed(repairer, repairer.usual())]
        repairer.answer()
    states += [repairer.copy()]
    return states


def typed(repairer: Repairer, text: str) -> Repairer:
    """The same with something in the answer line."""
    other = repairer.copy()
    for character in text:
        other.key(character)
    return other


def other_pages() -> list[Repairer]:
    """The list, lists to pick from, free text, the account, the list of jobs,
    the findings of a damaged file.
    """
    states = []
    for item in ("why", "usual", "replace", "note", "keys", "sheet"):
        repairer = at("drill")
        repairer.pick(item)
        states += [repairer, typed(repairer, "2")]
    jobs, account = at("drill"), at("drill")
    jobs.pick("jobs")
    account.feed(account.bench.opened())
    listing = at("drill")
    listing.key("list")
    states += [typed(one, text) for one in (jobs, account, listing) for text in ("", "0", "1", "3")]
    states += [typed(listing, str(digit)) for digit in range(1, 10)]
    return [*states, damaged()]


def damaged() -> Repairer:
    """A file with two findings, and 1 typed to settle them."""
    repairer = at("drill")
    found = tuple(
        Finding(of=n, state="changed", line=9 * n, words="it was changed", mark=str(n), entry=None)
        for n in (4, 5)
    )
    repairer.feed(replace(repairer.bench.opened(), findings=found, entries=()))
    assert repairer.desk.page == "damage"
    return typed(repairer, "1")


def held(repairer: Repairer, key: str, dice: random.Random) -> int:
    """Hold a key down with the bounce filter on; how many items were set going by it."""
    other = repairer.copy()
    other.desk = replace(other.desk, bounce_ms=80)
    other.wait(1.5)
    items = 0
    for press in range(REPEATS):
        if press:
            other.wait(dice.uniform(*(FIRST_REPEAT_S if press == 1 else REPEAT_S)))
        items += pressed(other, Token("key", key, at=other.seconds, wall=other.wall(), raw=raw(key)))
    other.wait(0.1)
    return items + pressed(other, Token("settle", at=other.seconds, wall=other.wall()))


def raw(key: str) -> str:
    """The character of a key, for free text."""
    return key if len(key) == 1 else key.removeprefix("char:") if key.startswith("char:") else ""


def pressed(repairer: Repairer, token: Token) -> int:
    """Feed one key and all that comes of it; how many items the key itself set going."""
    repairer.desk, effects = update(repairer.desk, token)
    items = sum(isinstance(effect, ITEMS) for effect in effects)
    for arrival in repairer.bench.carry_out(effects):
        repairer.feed(arrival)
    repairer.feed(Token("painted", at=repairer.seconds, wall=repairer.wall()))
    return items


def test_a_key_held_down_accepts_at_most_one_item() -> None:
    tried = accepted = 0
    for number, state in enumerate((*whole_job_states(), *other_pages())):
        dice = random.Random(f"5 {number}")
        for key in ("enter", "tab", *dice.sample(KEYS, 4)):
            items = held(state, key, dice)
            step = state.desk.step
            assert items <= 1, (state.desk.page, step.key if step else "", state.desk.line, key, items)
            tried, accepted = tried + 1, accepted + items
    assert tried >= 600 and accepted >= 100, (tried, accepted)


def test_the_property_sees_an_enter_that_repeats() -> None:
    """Planted: an answer line that is not emptied once its answer was saved."""
    from bench.desk import arrivals

    def keeping(desk: object, **changes: object) -> object:
        changes.pop("line", None)
        return replace(desk, **changes)  # type: ignore[type-var]

    state = typed(at("bench"), "1")
    with patch.object(arrivals, "replace", keeping):
        assert held(state, "enter", random.Random(1)) > 1
