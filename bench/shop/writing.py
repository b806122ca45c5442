"""What is said of the shop, written into shop.toml: comments, order and all that was not said stay.

Invariant: the new text is read back first; unless it is the shop as said, with every comment there was,
the file stays as it is.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.file.aside import write_aside
from bench.file.disk import REAL, make_folders
from bench.file.ordinary import read_regular
from bench.file.slug import SHOP, SHOP_LIMIT
from bench.shop.changes import Change, changed
from bench.shop.file import ShopWrong
from bench.shop.groups import GROUPS, LATHE, ON_TOP
from bench.shop.layout import comments
from bench.shop.pieces import Address, Pieces
from bench.shop.shop import Shop, load, shop_of
from bench.shop.starter import sections_text, starter_text
from bench.shop.tables import Table, is_list, table, things

MEANWHILE = f"{SHOP} was changed meanwhile; it is left as it is: look at it, then say it again"
NOT_HERE = f"{SHOP} is written in a way that cannot be changed here; it is left as it is: use an editor"


def write_said(folder: Path, before: Shop, changes: Sequence[Change]) -> Shop:
    """Write what was said of a shop that stood as `before`; the shop as it now stands in the file.

    Raises ShopWrong when the file is wrong or another by now, OutOfRange for a shop that cannot be worked
    with, OSError.
    """
    path = folder / SHOP
    after = changed(before, changes)
    if not path.exists():
        make_folders(REAL, folder)
        write_aside(path, starter_text(after, [one.group for one in changes]).encode(), over=False)
        return load(folder)
    standing = load(folder)
    for change in changes:
        if same(standing, change.group) != same(before, change.group):
            raise ShopWrong(MEANWHILE)
    old = read_regular(path, SHOP_LIMIT)
    wanted = with_drills(changed(standing, changes), old.decode("utf-8-sig"))
    new = rewritten(old.decode("utf-8-sig"), standing, wanted, changes)
    check(old.decode("utf-8-sig"), new, wanted)
    if old != (data := _as_it_was(old, new)):
        write_aside(path, data)
    return load(folder)


def same(shop: Shop, group: str) -> object:
    """What a group is compared by."""
    return getattr(shop, group) if group in ON_TOP else things(shop, group)


def with_drills(shop: Shop, text: str) -> Shop:
    """The shop with drills in its own unit for every lathe of the text that does not say theirs."""
    said = tomllib.loads(text).get(LATHE, ())
    lathes = tuple(
        lathe if "drill_unit" in one else replace(lathe, drill_unit=shop.works_in)
        for lathe, one in zip(shop.lathes, said, strict=False)
    )
    return replace(shop, lathes=(*lathes, *shop.lathes[len(lathes) :]))


def rewritten(text: str, standing: Shop, wanted: Shop, changes: Sequence[Change]) -> str:
    """The text with the changes in it, line ends made plain."""
    text = text.replace("\r\n", "\n")
    text += "" if text.endswith("\n") or not text else "\n"
    edited = Pieces(text)
    for change in changes:
        if change.group in ON_TOP:
            edited.set((), change.group, getattr(wanted, change.group))
        elif change.group in standing.said:
            edit(edited, change, things(standing, change.group))
    new = "".join(f"\n{sections_text(wanted, one)}" for one in GROUPS if one in wanted.said - standing.said)
    return edited.text + new


def check(old: str, new: str, wanted: Shop) -> None:
    """Refuse a text that is not the shop as said, or has lost a comment; raises ShopWrong."""
    left = comments(new)
    for comment in comments(old):
        if comment not in left:
            raise ShopWrong(NOT_HERE)
        left.remove(comment)
    try:
        found = shop_of(new.encode(), SHOP)
    except ShopWrong as why:
        raise ShopWrong(NOT_HERE) from why
    if found != wanted:
        raise ShopWrong(NOT_HERE)


def _as_it_was(old: bytes, new: str) -> bytes:
    """The new text with line ends and mark as in the old file."""
    if b"\r\n" in old and old.count(b"\r\n") == old.count(b"\n"):
        new = new.replace("\n", "\r\n")
    return (b"\xef\xbb\xbf" if old.startswith(b"\xef\xbb\xbf") else b"") + new.encode()


def edit(edited: Pieces, change: Change, stood: Sequence[Any]) -> None:
    """Change the sections of a group; what is taken out comes last, so that the others keep their number."""
    if not is_list(change.group):
        differ(edited, (change.group,), table(stood[0]), table(change.things[0]))
        return
    for at, (was, now) in enumerate(zip(stood, change.things, strict=False)):
        if now is not None and now != was:
            differ(edited, (change.group, at), table(was), table(now))
    for now in change.things[len(stood) :]:
        edited.add((change.group,), table(now))
    for at in reversed(range(len(stood))):
        if change.things[at] is None:
            edited.take_out((change.group, at))


def differ(edited: Pieces, way: Address, was: Table, now: Table) -> None:
    """Change what differs between two tables, and nothing else."""
    for name, value in now.items():
        if isinstance(value, dict):
            differ(edited, (*way, name), was[name], value)
        elif value and isinstance(value, list) and isinstance(value[0], dict):
            differ_in_list(edited, (*way, name), was.get(name, []), value)
        elif name not in was or was[name] != value:
            edited.set(way, name, value)
    for name in was:
        if name not in now:
            edited.remove(way, name)


def differ_in_list(edited: Pieces, way: Address, was: Sequence[Table], now: Sequence[Table]) -> None:
    """The same for tables that are known by their names."""
    by_name = {one["name"]: one for one in now}
    for at, one in enumerate(was):
        if one["name"] in by_name:
            differ(edited, (*way, at), one, by_name.pop(one["name"]))
    for one in by_name.values():
        edited.add(way, one)
    kept = {one["name"] for one in now}
    for at in reversed(range(len(was))):
        if was[at]["name"] not in kept:
            edited.take_out((*way, at))
