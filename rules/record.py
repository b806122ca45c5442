"""Frozen data classes with slots, as the standard library makes them, made in a fifth of its time.

Invariant: what `dataclasses` says and does of such a class holds here too: fields, replace, asdict, equality,
hash, text, matching, copies; `tests/rules/test_record.py` holds both beside each other. A program of two
hundred such classes opens noticeably sooner: there one function is compiled for each, here for each method.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import _FIELD, MISSING, Field, FrozenInstanceError, field  # type: ignore[attr-defined]
from inspect import get_annotations
from operator import attrgetter
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

FROZEN = SimpleNamespace(
    init=True, repr=True, eq=True, order=False, unsafe_hash=False, frozen=True, match_args=True, slots=True
)
"""What the standard library asks of a class that another one is made from."""


def refuse(self: object, name: str, *_: object) -> None:
    """No field is set or deleted."""
    raise FrozenInstanceError(f"cannot change field {name!r}")


def as_text(self: Any) -> str:
    """Name and fields."""
    shown = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields_of(self) if one.repr)
    return f"{type(self).__qualname__}({shown})"


def state(self: Any) -> list[object]:
    """The values of all fields, for a copy."""
    return [getattr(self, one.name) for one in fields_of(self)]


def take_state(self: Any, values: list[object]) -> None:
    """The fields of a copy."""
    for one, value in zip(fields_of(self), values, strict=True):
        object.__setattr__(self, one.name, value)


def fields_of(of: Any) -> tuple[Field[Any], ...]:
    """All fields, those of the class it is made from first."""
    return tuple(of.__dataclass_fields__.values())


SHARED = {
    "__setattr__": refuse,
    "__delattr__": refuse,
    "__repr__": as_text,
    "__getstate__": state,
    "__setstate__": take_state,
    "__dataclass_params__": FROZEN,
}


def record(cls: type, *, kw_only: bool) -> type:
    """The class made over: with slots, and the methods of a frozen data class that it does not bring."""
    known: dict[str, Field[Any]] = {}
    for base in cls.__mro__[:0:-1]:
        known |= getattr(base, "__dataclass_fields__", {})
    own = {name: own_field(cls, name, note, kw_only) for name, note in get_annotations(cls).items()}
    every = known | own
    told = [one for one in every.values() if one.compare]
    hashed = [one for one in every.values() if (one.compare if one.hash is None else one.hash)]
    kept = {name: value for name, value in cls.__dict__.items() if name not in own}
    made = SHARED | {
        "__slots__": tuple(name for name in own if name not in known),
        "__dataclass_fields__": every,
        "__match_args__": tuple(one.name for one in every.values() if not one.kw_only),
        "__init__": beginning(cls, list(every.values())),
        **compared(values_of(told), values_of(hashed)),
    }
    kept = {name: value for name, value in kept.items() if name not in ("__dict__", "__weakref__")}
    new: type = type(cls)(cls.__name__, cls.__bases__, made | kept)
    new.__qualname__ = cls.__qualname__
    return new


def own_field(cls: type, name: str, note: object, kw_only: bool) -> Field[Any]:
    """One field as the class states it."""
    given = cls.__dict__.get(name, MISSING)
    one: Any = given if isinstance(given, Field) else field(default=given)
    one.name, one.type, one._field_type = name, note, _FIELD
    one.kw_only = kw_only if one.kw_only is MISSING else one.kw_only
    return one  # type: ignore[no-any-return]


def values_of(fields: list[Field[Any]]) -> Callable[[Any], object]:
    """What takes the values of some fields out of a record, as a tuple."""
    names = [one.name for one in fields]
    if len(names) > 1:
        return attrgetter(*names)
    return lambda self: tuple(getattr(self, name) for name in names)


def compared(told: Callable[[Any], object], hashed: Callable[[Any], object]) -> dict[str, object]:
    """Equality and hash."""

    def equal(self: Any, other: Any) -> bool:
        return told(self) == told(other) if other.__class__ is self.__class__ else NotImplemented

    def hash_of(self: Any) -> int:
        return hash(hashed(self))

    return {"__eq__": equal, "__hash__": hash_of}


def beginning(cls: type, fields: list[Field[Any]]) -> Callable[..., None]:
    """The method that sets the fields, the one that is compiled."""
    ordered = sorted(fields, key=lambda one: bool(one.kw_only))
    names: dict[str, object] = {"_set": object.__setattr__, "_none": MISSING}
    words, body = [], []
    for one in ordered:
        if one.kw_only and "*" not in words:
            words.append("*")
        made = one.default_factory is not MISSING
        names[f"_{one.name}"] = one.default_factory if made else one.default
        usual = "=_none" if made else "" if one.default is MISSING else f"=_{one.name}"
        words.append(one.name + usual)
        value = f"_{one.name}() if {one.name} is _none else {one.name}" if made else one.name
        body.append(f" _set(self, {one.name!r}, {value})")
    if hasattr(cls, "__post_init__"):
        body.append(" self.__post_init__()")
    source = f"def __init__(self, {', '.join(words)}):\n" + "\n".join(body or [" pass"])
    exec(source, names)
    init: Any = names["__init__"]
    init.__qualname__, init.__module__ = f"{cls.__qualname__}.__init__", cls.__module__
    init.__annotations__ = {**{one.name: one.type for one in ordered}, "return": None}
    return init  # type: ignore[no-any-return]


if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool, slots: bool, kw_only: bool = False) -> Callable[[type], type]:
        """A frozen data class with slots; there is no other here."""
        if not (frozen and slots):
            raise TypeError("other data classes are made by the standard library")
        return lambda cls: record(cls, kw_only=kw_only)
