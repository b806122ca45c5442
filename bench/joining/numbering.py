"""The items of a joined job with their new numbers.

Invariant: what an undo or a confirm is about stays what it is about. A confirm of what no entry is (a gap, a
damaged block) becomes a note for the workshop.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bench.file.codec import HAND, crc_of, fields_of, render_entry, render_head
from bench.file.entry import Entry, Head
from bench.job import keys
from bench.joining.parting import Place, Placed


@dataclass(frozen=True, slots=True)
class Joined:
    """A joined job: its head, its entries in their order, and the numbers of those changed by hand."""

    head: Head
    entries: tuple[Entry, ...]
    by_hand: frozenset[int]

    def render(self) -> bytes:
        """The session file."""
        blocks = [render_head(self.head)]
        for entry in self.entries:
            block = render_entry(entry, salt=self.head.id)
            if entry.n in self.by_hand:
                block = block[: block.rindex(b"crc = ")] + f'crc = "{HAND}"\n'.encode()
            blocks.append(block)
        return b"".join(blocks)


def numbered(head: Head, items: Sequence[Placed]) -> Joined:
    """The joined job of these items."""
    entries = [replace(entry, accepted=None) for entry in entries_of(items)]
    by_hand = frozenset(n for n, item in enumerate(items, 1) if item.by_hand)
    told = [_settles(head, entry, entries) if entry.kind == "confirm" else entry for entry in entries]
    return Joined(head, tuple(told), by_hand)


def _settles(head: Head, confirm: Entry, entries: Sequence[Entry]) -> Entry:
    """A confirm with the mark of what it accepts, which goes by its number."""
    assert confirm.of is not None
    return replace(confirm, value=crc_of(head.id, fields_of(entries[confirm.of - 1])))


def entries_of(items: Sequence[Placed]) -> list[Entry]:
    """The entries with their numbers, and with what is known of their being accepted."""
    by_place = {place: n for n, item in enumerate(items, 1) for place in item.places}
    by_item = {id(item): n for n, item in enumerate(items, 1)}
    found: list[Entry] = []
    for n, item in enumerate(items, 1):
        if item.takes_back is not None:
            found.append(replace(item.entry, n=n, of=by_item[id(item.takes_back)]))
        else:
            found.append(_one(item, n, items, by_place))
    return found


def _one(item: Placed, n: int, items: Sequence[Placed], by_place: Mapping[Place, int]) -> Entry:
    entry = item.entry
    if entry.kind in ("undo", "confirm"):
        about = {by_place.get((which, entry.of or 0), n) for which, _ in item.places}
        earlier = [of for of in sorted(about) if of < n and (entry.kind == "undo" or items[of - 1].by_hand)]
        if not earlier:
            said = f"accepted in a copy: {entry.value}" if entry.kind == "confirm" else "taken back in a copy"
            return replace(entry, n=n, kind="note", key=keys.SHOP_NOTE, value=said, of=None, accepted=None)
        entry = replace(entry, of=earlier[0])
    if entry.accepted is not None:
        by = min((by_place.get((which, entry.accepted.by), n) for which, _ in item.places), default=n)
        since = (one.entry for one in items[n : max(by - 1, n)])
        counted = entry.accepted.counted and all(one.key != entry.key for one in since)
        entry = replace(entry, accepted=replace(entry.accepted, by=by, counted=counted))
    return replace(entry, n=n)
