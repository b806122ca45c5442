"""A mouse wheel, which some terminals hand on as arrow keys, several at once: it moves and voids nothing.

Invariant: what the first arrow of a turn did is undone with the second, unless something was saved meanwhile.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.desk.bounce import Bounce
from bench.desk.token import Token

if TYPE_CHECKING:
    from bench.desk.desk import Desk
    from bench.desk.pages import Outcome

TURN_S = 0.08
"""Nobody strikes the same arrow key twice within so short a time."""
MOVES_NOTHING = "that was the wheel: it moves nothing here"


@dataclass(frozen=True, slots=True)
class Turn:
    """The last arrow that came."""

    text: str = ""
    at: float = -math.inf
    before: Desk | None = None
    """The desk before it."""


def arrow(desk: Desk, token: Token, act: Callable[[Desk, Token], Outcome]) -> Outcome:
    """An arrow key: carried out by `act`, or part of a turn of the wheel."""
    last = desk.turn
    if token.text != last.text or token.at - last.at >= TURN_S:
        after, effects = act(desk, token)
        return replace(after, turn=Turn(token.text, token.at, replace(desk, turn=Turn()))), effects
    still = desk
    if last.before is not None and last.before.entries == desk.entries and desk.pending is None:
        still = replace(last.before, now=desk.now, wall=desk.wall, last_key=desk.last_key)
    turn = replace(last, at=token.at)
    quiet = replace(still, turn=turn, bounce=Bounce(at=token.at), message=MOVES_NOTHING, alarm=False)
    return quiet, ()
