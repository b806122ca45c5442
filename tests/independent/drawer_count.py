"""What lies in the drawer of a folder, counted again from the files; nothing of the program is imported.

Invariant: it knows the words of the file, and no rule from the product; where both agree, two readers have
read the same.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import Any

A_MONTH = timedelta(days=30)
NYLONS = ("pa6", "pa66", "pa12")
READY = ("fit_ready", "fit_outcome")
BY_KIND = {"spare": "spare", "spare_tighter": "tighter"}
Said = list[dict[str, Any]]


@dataclass
class Counted:
    """One piece."""

    kind: str
    wall_mm: float
    walls: tuple[float, ...]
    plastic: str
    since: str
    free: bool = False

    def again(self, now: str) -> bool:
        """Whether it is nylon that lay for more than a month."""
        lay = datetime.fromisoformat(now) - datetime.fromisoformat(self.since)
        return self.plastic in NYLONS and not timedelta() <= lay <= A_MONTH


@dataclass
class Book:
    """What all files add up to."""

    lying: dict[str, Counted] = field(default_factory=dict)
    used: list[str] = field(default_factory=list)
    """Taken, once for each job that says so."""
    pressed: list[str] = field(default_factory=list)
    """Pressed, once for each time."""
    bars: dict[tuple[str, str, str], tuple[str, str]] = field(default_factory=dict)
    """Plastic, colour and diameter as written: when, and what was left then."""


def counted(folder: Path) -> Book:
    """The drawer of a folder."""
    book = Book()
    for path in sorted((folder / "jobs").glob("*.toml")):
        one_file(book, read(path.read_text(encoding="utf-8")))
    for ref in book.used:
        book.lying.pop(ref, None)
    return book


read = lru_cache(maxsize=64)(tomllib.loads)
"""A file as it was read before, while its text is the same."""


def one_file(book: Book, raw: dict[str, Any]) -> None:
    """Add what one file says."""
    said = standing(raw.get("entry", ()))
    job, over = raw["job"], over_in(said)
    attempts = split(said)
    here: dict[str, Counted] = {}
    for nth, attempt in enumerate(attempts, 1):
        for name, piece in of_attempt(attempts, nth, here, last=nth == len(attempts), over=over):
            here[name] = piece
        book.used += {*taken_in(attempt)}
        book.pressed += [of(one, "from") for one in rings_in(attempt) if ready(attempt, one["n"])]
        bar_in(book, attempt)
    for name, piece in here.items():
        piece.free = over
        book.lying[f"{job} {name}"] = piece
    book.pressed = [ref for ref in book.pressed if ref]


def standing(entries: Iterable[dict[str, Any]]) -> Said:
    """Answers and marks that were not taken back, in order."""
    listed = sorted(entries, key=lambda one: one["n"])
    gone: set[int] = set()
    for one in reversed(listed):
        if one["kind"] == "undo" and one["n"] not in gone:
            gone.add(one["of"])
    kept = [one for one in listed if one["kind"] in ("answer", "mark") and one["n"] not in gone]
    return [{**one, "value": listed_in(one["value"])} for one in kept]


def listed_in(value: Any) -> list[str]:
    """A value as its words."""
    return [str(word) for word in value] if isinstance(value, list) else [str(value)]


def over_in(said: Said) -> bool:
    """Whether the newest answer that says where the job stands says that it is over."""
    words = (word for one in reversed(said) if one["kind"] == "answer" for word in one["value"])
    return next((word for word in words if word.startswith("stands ")), "") == "stands over"


def split(said: Said) -> list[Said]:
    """The answers of each attempt."""
    parts: list[Said] = [[]]
    for one in said:
        if one["kind"] == "mark" and one["key"] == "attempt":
            parts.append([])
        elif one["kind"] == "answer":
            parts[-1].append(one)
    return parts


def newest(attempt: Said, key: str, before: int | None = None) -> dict[str, Any] | None:
    """The newest answer to a key."""
    found = [one for one in attempt if one["key"] == key and (before is None or one["n"] < before)]
    return found[-1] if found else None


def of(one: dict[str, Any], name: str) -> str:
    """What is kept under a name."""
    return next((word[len(name) + 1 :] for word in one["value"] if word.startswith(f"{name} ")), "")


def figure(one: dict[str, Any], name: str) -> float:
    """A figure kept under a name."""
    return float(of(one, name).split()[0])


def wall_of(ring: dict[str, Any]) -> float:
    """Wall as it was accepted."""
    return round((figure(ring, "outside") - figure(ring, "bore")) / 2, 4)


def ready(attempt: Said, after: int) -> bool:
    """Whether the press was made ready after a place."""
    return any(one["key"] in READY and one["n"] > after for one in attempt)


def rings_in(attempt: Said) -> Said:
    """Every ring accepted in an attempt."""
    return [one for one in attempt if one["key"] == "ring"]


def taken_in(attempt: Said) -> set[str]:
    """What an attempt took out."""
    chosen = newest(attempt, "at_hand")
    found = {of(one, "from") for one in rings_in(attempt) if ready(attempt, one["n"])}
    return {ref for ref in (*found, of(chosen, "from") if chosen else "") if ref}


def tried(attempts: Sequence[Said], nth: int, ring: dict[str, Any]) -> str:
    """Which spare the attempt before said to try, where the ring is that one."""
    said = newest(attempts[nth - 2], "remake") if nth > 1 else None
    if said is None or said["value"][0] not in BY_KIND or of(ring, "at_hand"):
        return ""
    alike = all(abs(figure(said, name) - figure(ring, name)) < 0.005 for name in ("bore", "outside"))
    return BY_KIND[said["value"][0]] if alike else ""


def of_attempt(
    attempts: Sequence[Said], nth: int, here: dict[str, Counted], *, last: bool, over: bool
) -> Iterable[tuple[str, Counted]]:
    """The pieces that an attempt leaves; what it used of those that were there goes."""
    attempt = attempts[nth - 1]
    ring, made = newest(attempt, "ring"), newest(attempt, "dress")
    if ring is None:
        return
    spare, at_hand = tried(attempts, nth, ring), of(ring, "at_hand")
    if made is None and at_hand == "made" and here:
        del here[min(here, key=lambda name: abs(here[name].wall_mm - wall_of(ring)))]
    if made is None and spare:
        del here[[name for name, one in here.items() if one.kind == spare][-1]]
    if made is not None:
        yield from spares(attempt, made, nth)
    there = at_hand in ("new", "made", "drawer") or bool(spare)
    if (last and not over) or (made is None and not there) or newest(attempt, "spoiled"):
        return
    if not ready(attempt, made["n"] if made else 0):
        walls = tuple(map(float, of(ring, "walls").split()[:-1])) if at_hand else four(attempt, ring, made)
        mean = sum(walls) / len(walls) if walls else wall_of(ring)
        yield (
            f"ring-{nth}",
            Counted("ring", mean, walls, of(ring, "plastic"), since(attempt, ring, made, walls)),
        )


def since(attempt: Said, ring: dict[str, Any], made: dict[str, Any] | None, walls: Sequence[float]) -> str:
    """When the walls were measured, or the ring was made."""
    read = [one["at"] for one in attempt if one["key"].startswith(("wall_", "hand_wall_")) and walls]
    read = [one for one in read if made is None or one > made["at"]]
    return str(read[-1] if read else (made or ring)["at"])


def four(attempt: Said, ring: dict[str, Any], made: dict[str, Any] | None) -> tuple[float, ...]:
    """Four walls read off the lathe; none while one is missing."""
    after = made["n"] if made else ring["n"]
    read = [newest(attempt, f"wall_{place}") for place in range(1, 5)]
    there = [float(one["value"][0].split()[0]) for one in read if one is not None and one["n"] > after]
    return tuple(there) if len(there) == 4 else ()


def spares(attempt: Said, made: dict[str, Any], nth: int) -> Iterable[tuple[str, Counted]]:
    """The spares turned with a ring."""
    ring = newest(attempt, "ring", before=made["n"])
    if ring is None:
        return
    for place, kind in enumerate(("spare", "tighter")[: int(of(ring, "spares") or 0)], 1):
        read = newest(attempt, f"spare_wall_{place}")
        keyed = read is not None and read["n"] > made["n"] and read["value"][0][0].isdigit()
        walls = (float(read["value"][0].split()[0]),) if read is not None and keyed else ()
        at = read["at"] if read is not None and walls else made["at"]
        wall = walls[0] if walls else as_its_ring(attempt, ring) + 0.01 * (place - 1)
        yield f"{kind}-{nth}", Counted(kind, wall, walls, of(ring, "plastic"), str(at))


def as_its_ring(attempt: Said, ring: dict[str, Any]) -> float:
    """The wall of a spare that was not measured: that of its ring under the press, else as accepted."""
    fitted = newest(attempt, "fit_outcome")
    walls = tuple(map(float, of(fitted, "walls").split()[:-1])) if fitted else ()
    return sum(walls) / len(walls) if walls else wall_of(ring)


def bar_in(book: Book, attempt: Said) -> None:
    """What is left of the bar that was cut from."""
    begun, ring = newest(attempt, "rough_outside"), newest(attempt, "ring")
    if begun is None or ring is None or not of(begun, "left"):
        return
    kind = (of(ring, "plastic"), of(begun, "colour"), of(begun, "bar"))
    if kind not in book.bars or begun["at"] > book.bars[kind][0]:
        book.bars[kind] = (begun["at"], of(begun, "left"))
