"""Whether a joined file holds what its two copies held, read as text and judged by rules of its own.

Nothing of the program is imported: a file is TOML; an entry counts by its number; `under` says on which keys
an answer rests.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Words = tuple[str, ...]
Said = tuple[str, str, Words]
SITTING, ATTEMPT, JOINED = "sitting", "attempt", "joined"
HOLDS = tuple(f"{test}_{what}" for test in ("empty", "cased") for what in ("hold", "throughout", "result"))


@dataclass(frozen=True)
class One:
    """An entry as the file has it."""

    n: int
    at: str
    kind: str
    key: str
    words: Words
    of: int
    crc: str

    @property
    def said(self) -> Said:
        """What it says, wherever it stands."""
        return self.kind, self.key, self.words


class Book:
    """A session file."""

    def __init__(self, data: bytes) -> None:
        found: list[dict[str, Any]] = tomllib.loads(data.decode()).get("entry", [])
        self.entries = [self._one(one) for one in found]
        taken: set[int] = set()
        for one in reversed(self.entries):
            if one.kind == "undo" and one.n not in taken:
                taken.add(one.of)
        confirmed = {one.of: one.n for one in self.entries if one.kind == "confirm"}
        self.live = [one for one in self.entries if one.n not in taken]
        self.place = {one.n: self._place(one, confirmed.get(one.n, 0)) for one in self.entries}
        self.newest: dict[str, One] = {}
        for one in sorted(self.live, key=lambda one: self.place[one.n]):
            if one.kind in ("answer", "mark"):
                self.newest[one.key] = one

    def _place(self, one: One, by: int) -> int:
        """Where an entry counts: one changed by hand where it was accepted, unless answered again since."""
        again = any(other.key == one.key and one.n < other.n < by for other in self.live)
        return one.n if again else by or one.n

    @staticmethod
    def _one(block: dict[str, Any]) -> One:
        value = block.get("value", "")
        words = tuple(str(item) for item in (value if isinstance(value, list) else [value]))
        plain = tuple(word for word in words if not word.startswith("stands "))
        return One(
            block["n"],
            block["at"],
            block["kind"],
            block.get("key", ""),
            plain,
            block.get("of", 0),
            block["crc"],
        )

    def words(self, key: str) -> Words | None:
        """The newest words to a key."""
        found = self.newest.get(key)
        return found.words if found else None

    def known(self, key: str, under: Mapping[str, Words]) -> Words | None:
        """The newest words to a key, None where they no longer count."""
        return self.words(key) if self.fresh(key, under.get(key, ())) else None

    def fresh(self, key: str, under: Words) -> bool:
        """Whether the newest answer to a key is newer than all under it."""
        found = self.newest.get(key)
        if found is None:
            return False
        at = self.place[found.n]
        return all(self.place[self.newest[one].n] <= at for one in under if one in self.newest)


def faults(
    copies: tuple[bytes, bytes],
    joined: bytes,
    under: Mapping[str, Words],
    grounds: Mapping[str, Words],
    decided: Mapping[str, Words | None],
    counting: Collection[str],
) -> list[str]:
    """What is wrong with a joined file, a line each: lost, invented, or counted where it must not.

    `under`: on which keys each rests; `grounds`: those on which it rests on a copy as well;
    `counting`: what the program takes for counting in the joined file.
    """
    books, whole = (Book(copies[0]), Book(copies[1])), Book(joined)
    return [
        *_numbers(whole),
        *_lost(books, whole),
        *_invented(books, whole),
        *_tests(books, whole),
        *(one for key in counting for one in _counted(books, whole, under, grounds[key], decided, key)),
    ]


def _numbers(whole: Book) -> Iterator[str]:
    if [one.n for one in whole.entries] != list(range(1, len(whole.entries) + 1)):
        yield "numbers: not 1, 2, 3"


def common_of(books: Sequence[Book]) -> list[One]:
    """Entries that both copies have under the same number, all the same."""
    one, two = books
    there = set(two.entries)
    return [entry for entry in one.entries if entry in there]


def _lost(books: Sequence[Book], whole: Book) -> Iterator[str]:
    kinds = ("answer", "note", "mark")
    need = Counter(one.said for book in books for one in book.entries if one.kind in kinds)
    need -= Counter(one.said for one in common_of(books) if one.kind in kinds)
    need -= Counter(one.said for one in whole.entries)
    for said, count in need.items():
        yield f"lost: {count} x {said}"


def _invented(books: Sequence[Book], whole: Book) -> Iterator[str]:
    known = {one.said for book in books for one in book.entries}
    for one in whole.entries:
        ours = one.kind in ("undo", "confirm") or (one.kind == "mark" and one.key in (JOINED, SITTING))
        if not ours and one.said not in known:
            yield f"invented: {one.said}"


def _tests(books: Sequence[Book], whole: Book) -> Iterator[str]:
    """A fail stays; a hold and another result count from neither."""
    common = {one.said for one in common_of(books)}
    standing = Counter(one.said for one in whole.live)
    for book in books:
        for said, count in Counter(one.said for one in book.live if is_fail(one)).items():
            if standing[said] < count:
                yield f"fail gone: {said}"
    for one in whole.live:
        result = one.kind == "answer" and one.key in HOLDS and one.key.endswith("result")
        if result and not is_fail(one) and one.said not in common:
            yield f"a result counts: {one.said}"
    for test in ("empty", "cased"):
        hold = whole.newest.get(f"{test}_hold")
        after = [one for one in whole.live if one.key == f"{test}_result" and hold and one.n > hold.n]
        if hold is not None and hold.said not in common and not any(map(is_fail, after)):
            yield f"a hold counts: {hold.said}"


def is_fail(one: One) -> bool:
    """Whether an entry is a test that failed."""
    return one.kind == "answer" and one.key.endswith("_result") and one.words[:1] == ("fail",)


def _counted(
    books: Sequence[Book],
    whole: Book,
    under: Mapping[str, Words],
    grounds: Words,
    decided: Mapping[str, Words | None],
    key: str,
) -> Iterator[str]:
    """What counts is what a copy said, on what that copy knew; what was asked is as it was decided."""
    if key in HOLDS or not whole.fresh(key, under[key]):
        return
    words = whole.words(key)
    rests = [one for one in grounds if one not in (SITTING, ATTEMPT, key)]
    if not any(
        book.words(key) == words and all(book.known(one, under) == whole.known(one, under) for one in rests)
        for book in books
    ):
        yield f"counts on other grounds: {key} = {words}"
    if key in decided and decided[key] != words:
        yield f"not as decided: {key} = {words}, decided {decided[key]}"
    one, two = (book.newest.get(key) for book in books)
    if one is None or two is None or one.words == two.words or key in decided:
        return
    begun = {(entry.n, entry.at) for entry in books[0].entries} & {
        (entry.n, entry.at) for entry in books[1].entries
    }  # one that was changed by hand on a copy is no other answer of the other copy
    new = all((entry.n, entry.at) not in begun for entry in (one, two))
    if new and all(book.fresh(key, under[key]) for book in books):
        yield f"not asked: {key} = {one.words} or {two.words}"
