"""What may be kept of a stream of keys: nothing that nobody sent, nothing for a question not yet seen.

Nothing of the product is imported here. Judged is what was stored, by the key that brought it about, against
the readings that were meant, and when each question first stood on the screen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from tests.campaigns.stream_draws import HAND, Meant, Struck

PAUSE_S = 0.5
"""A burst that begins sooner after the last number is not taken without the person."""


@dataclass(frozen=True, slots=True)
class Kept:
    """One number that was stored."""

    by: int
    """Place of the key that brought it about among the keys struck."""
    question: str
    text: str
    usual: str = ""
    """The usual value that the page offered; 1 Enter takes it."""

    @property
    def value(self) -> Decimal:
        """Without its unit."""
        return Decimal(self.text.split()[0])


def faults(
    struck: Sequence[Struck],
    meant: Sequence[Meant],
    kept: Sequence[Kept],
    seen_at: Mapping[str, float],
    *,
    slack_s: float = 0.0,
) -> Iterator[tuple[str, str]]:
    """(kind, in words) of what should not have been stored; `seen_at`: when a question first was painted.

    Kinds: invented, unseen, too soon. `slack_s`: by so much what was seen from outside may be late.
    """
    used: set[int] = set()
    last = -1e9
    for one in kept:
        key = struck[one.by]
        source = origin(key, meant, one.value, used)
        one_enter = key.who == HAND or meant[key.reading].value == 1
        offered = one_enter and one.text == one.usual
        if source is None and not offered:
            yield "invented", f"{one.text} at {key.at:.3f} by {key.who} for {one.question}"
        elif source is not None:
            used.add(source)
        begins = key.at if key.who == HAND or source is None else meant[source].begins
        if seen_at.get(one.question, 1e9) > begins + slack_s:
            yield "unseen", f"{one.text} at {key.at:.3f} by {key.who} for {one.question}"
        if (
            key.who != HAND
            and source is not None
            and meant[source].burst
            and begins < last + PAUSE_S - slack_s
        ):
            yield "too soon", f"{one.text} begun {begins - last:.3f} s after the last for {one.question}"
        last = key.at


def origin(key: Struck, meant: Sequence[Meant], value: Decimal, used: set[int]) -> int | None:
    """The reading that a stored value is, by the key that ended it; None where nobody sent it.

    The end of a reading may only bring about that reading. The person's Enter may take the number the person
    keyed, or a whole reading of a gauge that stood there.
    """
    if key.who != HAND:
        one = meant[key.reading]
        return key.reading if one.whole and is_it(one, value) and key.reading not in used else None
    if key.reading >= 0 and is_it(meant[key.reading], value):
        return key.reading
    shown = [
        place
        for place, one in enumerate(meant)
        if one.who != HAND and one.whole and one.ends <= key.at and one.value == value and place not in used
    ]
    return shown[-1] if shown else None


def is_it(one: Meant, value: Decimal) -> bool:
    """Whether a stored value is this reading; without a point its digits count in fixed places."""
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)
    return one.value == value or (one.pointless and one.value.scaleb(exponent) == value)


def first_taken(struck: Sequence[Struck], meant: Sequence[Meant], kept: Sequence[Kept]) -> bool | None:
    """Whether the first reading was taken; None where other keys came within it or close to it."""
    one = meant[0]
    near = any(key.reading != 0 and one.begins <= key.at < one.ends + PAUSE_S for key in struck)
    return None if near or not one.ended else any(struck[item.by].reading == 0 for item in kept)


def met(struck: Sequence[Struck], meant: Sequence[Meant]) -> tuple[bool, bool]:
    """Whether a reading was sent again within the pause, and whether two were sent through each other."""
    gauges = [one for one in meant if one.who != HAND]
    again = any(
        a.who == b.who and a.value == b.value and 0 <= b.begins - a.ends < PAUSE_S
        for a in gauges
        for b in gauges
        if a is not b
    )
    crossed = any(
        a.who != b.who and a.begins <= b.begins <= a.ends for a in meant for b in meant if a is not b
    )
    return again, crossed
