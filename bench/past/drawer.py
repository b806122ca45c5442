"""The drawer of a shop: rings that no job has used, and what is left of bars, from the jobs alone.

Invariant: there is no second book. What is known of earlier looks is a convenience, as in `shelf`; a ring
that some job took out lies there no more, whichever file says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from itertools import chain
from pathlib import Path

from bench.file.listing import Apply, Index, names, rows
from bench.file.load import load
from bench.folder import shop_in
from bench.job import keys
from bench.job.in_drawer import (
    NOTHING,
    BarLeft,
    Drawer,
    InDrawer,
    Lying,
    due_again,
    from_json,
    lying_text,
    swells,
    to_json,
)
from bench.job.job import replay
from bench.job.past import PastRing, to_json as ring_text
from bench.job.steps import Words
from bench.job.values import named
from bench.joining.twins import ID, id_in, uncounted
from bench.past.learning import Clock
from bench.past.shelf import ACCEPTED, LOOKED_AT, WRONG, moment, rings_in
from bench.seals.several import seals_of
from bench.version import VERSION
from rules.tables import plastics

KNOWN_NAME, KNOWN_FORMAT, SAID = ".jobs-drawer.json", 2, "drawer"
FIRST = "looked in"
"""First word of the mark."""
MOST, MOST_BESIDE = 6, 2
"""So many rings are kept with a job, the likeliest of them first; and of the job that it is like."""
SAME_SEAT_MM = 0.3
"""A ring made for a seat further off is not thought of (own judgement); nearer ones are judged by the job."""
THINNEST, THICKEST, LIKELIEST = 1.0, 1.35, 1.1
"""Walls that are thought of, in gaps (own judgement): anything that could be squeezed at all."""
ALIKE_MM = 0.05
"""Seat and glass each within this are like those of another job (own judgement)."""
OFF_THE_WAY = (b'"spares 1"', b'"spares 2"', b'"from ', f'key = "{keys.ATTEMPT}"'.encode())
"""Words without one of which a finished job leaves no ring and takes none, where its ring was pressed."""
FROM = re.compile(rb'"from ([^"\\]+)"')
"""What a file says it took out."""
PRESSED = f'key = "{keys.FIT_READY}"'.encode()


def drawer_in(folder: Path, now: Clock, *, apply: Apply = map) -> Drawer:
    """The drawer of a folder."""
    return drawer_of(books_in(folder, apply=apply).values(), swelling_in(folder), now)


def drawer_of(books: Iterable[InDrawer], swelling: frozenset[str], now: Clock) -> Drawer:
    """The drawer that some jobs add up to, given with the newest first; swelling: plastics that do not keep
    their size.
    """
    books = list(books)
    used = frozenset(chain.from_iterable(one.taken for one in books))
    lying = {one.ref: one for book in books for one in book.lying if one.ref not in used}
    bars: dict[tuple[str, str, float], BarLeft] = {}
    for bar in (book.bar for book in books if book.bar is not None):
        kind = (bar.plastic, bar.colour, bar.diameter_mm)
        if kind not in bars or moment(bar.at) > moment(bars[kind].at):
            bars[kind] = bar
    at = now() if any(one.plastic in swelling for one in lying.values()) else ""
    due = (replace(one, again=one.plastic in swelling and due_again(one, at)) for one in lying.values())
    return Drawer(tuple(due), tuple(sorted(bars.values(), key=lambda one: moment(one.at), reverse=True)))


def swelling_in(folder: Path) -> frozenset[str]:
    """The plastics of a shop that do not keep their size."""
    known = plastics(shop_in(folder).materials.get("plastics"))
    return frozenset(key for key, one in known.items() if swells(one))


def looked_in(folder: Path, asks: Words, *, besides: Path | None, now: Clock) -> Words:
    """What the drawer says to a ring that is about to be proposed, as its job keeps it; nothing where nothing
    in it comes near.

    asks: plastic, seat and glass of the job, and which ring it has chosen; besides: the file of that job.
    """
    plastic, seat, glass = asks[0].partition(" ")[2], named(asks, "seat"), named(asks, "glass")
    books, own = books_in(folder), besides.name if besides is not None else ""
    others = [book for name, book in books.items() if name != own]
    mine = books.get(own, NOTHING)
    chosen = {word.partition(" ")[2] for word in asks if word.startswith("from ")}
    in_hand = {one.ref for one in mine.lying} | chosen
    gone = frozenset(chain.from_iterable(one.taken for one in others)) & in_hand
    words = [f"gone {ref}" for ref in sorted(gone)]
    if seat is not None and glass is not None:
        rings = drawer_of(others, swelling_in(folder), now).rings
        words += [f"lies {lying_text(one)}" for one in near(rings, plastic, seat, glass)]
        past = rings_in(folder, besides=besides)
        for like in alike(past, seat, glass):
            beside = [one for one in rings if one.job == like.job and one.free][:MOST_BESIDE]
            words += [f"like {ring_text((like,))}", *(f"beside {lying_text(one)}" for one in beside)]
    return (FIRST, *asks, *words) if words else ()


def near(rings: Iterable[Lying], plastic: str, seat_mm: float, glass_mm: float) -> list[Lying]:
    """The rings that could fit seat and glass, the likeliest first: measured, free, of that plastic."""
    gap = (seat_mm - glass_mm) / 2.0
    found = [
        one
        for one in rings
        if one.free
        and one.walls_mm
        and one.plastic == plastic
        and abs(one.outside_mm - seat_mm) <= SAME_SEAT_MM
        and THINNEST * gap < one.wall_mm < THICKEST * gap
    ]
    return sorted(found, key=lambda one: abs(one.wall_mm - LIKELIEST * gap))[:MOST]


def alike(rings: Iterable[PastRing], seat_mm: float, glass_mm: float) -> list[PastRing]:
    """The newest finished ring for such a seat and such a glass, as a list; none where there was none."""
    found = (
        replace(one, tools=(), repeats=(), turned_by="")
        for one in rings
        if one.outcome and max(abs(one.seat_mm - seat_mm), abs(one.glass_mm - glass_mm)) <= ALIKE_MM + 1e-9
    )
    return [one for one in (next(found, None),) if one is not None]


def books_in(folder: Path, *, apply: Apply = map) -> dict[str, InDrawer]:
    """What each job of a folder has to do with the drawer, by file name, the newest job first. Of copies of
    one job nothing lies there but by the last that is gone on with; what any of them took out is gone.
    """
    paths = names(folder)
    if not paths:
        return {}
    index = Index(folder / KNOWN_NAME, version=f"{VERSION} {KNOWN_FORMAT}")
    index.keep_only(paths)
    newest = rows(paths[:LOOKED_AT], summarise=all_of, index=index, apply=apply)
    found = [*newest, *rows(paths[LOOKED_AT:], summarise=rings_of, index=index, apply=apply)]
    index.save()
    books = {row.path.name: _read(row.summary.get(SAID, "")) for row in found if SAID in row.summary}
    apart = uncounted(found).keys() & books.keys()
    return books | {name: InDrawer(taken=books[name].taken) for name in apart}


def rings_of(data: bytes) -> tuple[str, str, dict[str, str]]:
    """What is kept of a file that is not among the newest: nothing of its bar."""
    last = max((one.start() for one in ACCEPTED.finditer(data)), default=-1)
    pressed = data.rfind(PRESSED) > last
    nothing = pressed and not any(word in data for word in OFF_THE_WAY)
    return ("", "", {ID: id_in(data)}) if nothing else all_of(data)


def all_of(data: bytes) -> tuple[str, str, dict[str, str]]:
    """What is kept of a file; of one that cannot be used what it may have taken out, so that nothing is used
    twice.
    """
    known = {ID: id_in(data)}
    if ACCEPTED.search(data) is None and FROM.search(data) is None:
        return "", "", known
    loaded = load(data)
    found = InDrawer(taken=tuple(one.decode("utf-8", "replace") for one in FROM.findall(data)))
    if loaded.head is not None and not loaded.gated:
        with suppress(*WRONG):  # well formed, and no job that can be read
            job = replay(loaded.head, loaded.usable)
            each = (one.seal.in_drawer(one.job) for one in seals_of(job))
            found = next((one for one in each if one != NOTHING), NOTHING)
    return "", "", known | ({SAID: to_json(found)} if found != NOTHING else {})


def _read(text: str) -> InDrawer:
    """What one file says as it is kept; nothing where it cannot be read."""
    try:
        return from_json(text) if text else NOTHING
    except WRONG:
        return NOTHING
