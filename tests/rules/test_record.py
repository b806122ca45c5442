"""Frozen data classes of our own beside those of the standard library: the same classes, made by both."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from rules.record import dataclass as ours

Make = Callable[..., Callable[[type], Any]]


def family(make: Make) -> dict[str, Any]:
    """Every kind of class there is here: bare, with usual values, made from another, by name alone."""

    @make(frozen=True, slots=True)
    class Bare:
        """Nothing."""

    @make(frozen=True, slots=True)
    class One:
        """A single field; a number that is none is itself."""

        value: float

    @make(frozen=True, slots=True)
    class Many:
        """Usual values, a made one, one that is not compared, one that is not hashed."""

        first: int
        second: str = "s"
        third: dict[str, int] = dataclasses.field(default_factory=dict, hash=False)
        fourth: int = dataclasses.field(default=4, compare=False, repr=False)

        def __post_init__(self) -> None:
            if self.first < 0:
                raise ValueError("too small")

        @property
        def twice(self) -> int:
            """A property stays."""
            return 2 * self.first

    @make(frozen=True, slots=True, kw_only=True)
    class Named(Many):
        """Fields of another, and by name alone."""

        fifth: int
        sixth: tuple[int, ...] = ()

    return {one.__name__: one for one in (Bare, One, Many, Named)}


KEPT, PLAIN = family(ours), family(dataclasses.dataclass)
MADE: dict[str, tuple[tuple[Any, ...], dict[str, Any]]] = {
    "Bare": ((), {}),
    "One": ((float("nan"),), {}),
    "Many": ((1,), {"fourth": 9}),
    "Named": ((1, "t"), {"fifth": 5}),
}


def told(kind: Any, name: str) -> list[object]:
    """What can be asked of a class and of one made of it, in order."""
    words, named = MADE[name]
    one, same = kind(*words, **named), kind(*words, **named)
    other = kind(*(2 for _ in words), **named)
    return [
        repr(one).rpartition(".")[2],
        [
            (each.name, each.type, each.default, each.kw_only, each.compare, each.hash)
            for each in dataclasses.fields(kind)
        ],
        str(inspect.signature(kind)).replace("<factory>", str(dataclasses.MISSING)),
        (kind.__slots__, kind.__match_args__, kind.__doc__, hasattr(one, "__dict__")),
        (one == same, one == other, one != same, one == (), hash(one) == hash(same)),
        str(dataclasses.asdict(one)),
        copy.copy(one) == one,
        repr(copy.deepcopy(one)) == repr(one),
        dataclasses.is_dataclass(kind),
        [same is dataclasses.replace(same), dataclasses.replace(same) == same],
    ]


@pytest.mark.parametrize("name", MADE)
def test_a_class_of_our_own_is_as_the_standard_library_makes_it(name: str) -> None:
    assert told(KEPT[name], name) == told(PLAIN[name], name)


@pytest.mark.parametrize("kinds", (KEPT, PLAIN), ids=("ours", "the library's"))
def test_nothing_is_changed_afterwards_and_what_is_wrong_is_refused(kinds: dict[str, Any]) -> None:
    one = kinds["Many"](3)
    assert one.twice == 6 and kinds["Many"](3, fourth=1) == one and one.third is not kinds["Many"](3).third
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.first = 4
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.first
    for words, named in (((-1,), {}), ((), {}), ((1, 2, 3, 4, 5), {}), ((1,), {"tenth": 1})):
        with pytest.raises((ValueError, TypeError)):
            kinds["Many"](*words, **named)
    with pytest.raises(TypeError):
        kinds["Named"](1, "t", {}, 4, 5)


def test_another_process_gets_a_record_whole() -> None:
    from bench.desk.effects import JobRow

    row = JobRow(number="7", file="00007.toml", watch="otter")
    assert pickle.loads(pickle.dumps(row)) == row


def test_only_frozen_ones_with_slots_are_made_here() -> None:
    with pytest.raises(TypeError, match="standard library"):
        ours(frozen=False, slots=True)
