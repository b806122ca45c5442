"""Numbers dealt to the choices of a check.

Invariant: chance comes in here and nowhere else.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.desk.token import Token

if TYPE_CHECKING:
    from random import Random


def dealt(count: int, chance: Random | None) -> Token:
    """The numbers 0 to count - 1 in a new order, by this chance or by any."""
    from random import Random

    order = list(range(count))
    (chance or Random()).shuffle(order)
    return Token("deal", numbers=tuple(order))
