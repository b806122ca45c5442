"""Outside figures by kind of seal and by source: `python -m tests.published.table`; `--write` keeps the page.

Invariant: the kept table is what the figures say now; a table of a source counts as one place, and a place
from which a constant here was taken counts not at all.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path

from tests.published.against import difference_pct
from tests.published.figures import AREAS, KINDS, Figure, figures

KEPT = Path(__file__).resolve().parents[2] / "OUTSIDE_FIGURES.md"
HEAD = """# Outside figures in use

Written by `python -m tests.published.table --write` from `tests/published/data/`. Each figure was read in its
source; the place stands beside it in the data. A table of a source is one place, however many figures it has.
A figure agrees to half its last digit, or how far what is computed here lies from it is stated there and
again below. Examples of books whose source is a companion repository were read in its notebooks, which print
the book's answers as computed again there; many pages were read in a stored copy, some of them in part.
Where a constant was taken from the very place, the figure tests nothing: it is counted nowhere, and stands
in a table of its own.
"""
NAMES = {
    "ring": "straight ring",
    "glass": "glass over it",
    "gasket": "flat gasket",
    "foot": "foot of a ring",
    "oring": "O-ring",
}
OTHERS = ("gasket", "foot", "oring")
"""Kinds of seal other than the straight ring."""


def _by_source(found: Sequence[Figure]) -> list[tuple[str, list[Figure]]]:
    """Figures of each source, by area and title."""

    def key(one: Figure) -> tuple[int, str]:
        return AREAS.index(one.source.area), one.source.title

    return [(title, list(group)) for (_, title), group in groupby(sorted(found, key=key), key)]


def _places(found: Sequence[Figure]) -> int:
    """Places, a table once."""
    return len({(one.source.title, one.place) for one in found})


def counted() -> list[Figure]:
    """The figures from which nothing was taken."""
    return [one for one in figures() if not one.taken]


def places_of(*kinds: str) -> int:
    """Places that count for kinds of seal."""
    return _places([one for one in counted() if one.kind in kinds])


def _kinds() -> Iterator[str]:
    """Table by kind of seal."""
    yield "| kind of seal | places | figures | agree as printed | places taken from |"
    yield "|---|---|---|---|---|"
    for kind in KINDS:
        mine = [one for one in counted() if one.kind == kind]
        taken = [one for one in figures() if one.kind == kind and one.taken]
        agree = sum(one.differs_pct is None for one in mine)
        yield f"| {NAMES[kind]} | {places_of(kind)} | {len(mine)} | {agree} | {_places(taken)} |"
    yield f"\nFlat gasket, foot and O-ring together: {places_of(*OTHERS)} places.\n"


def _taken() -> Iterator[str]:
    """Table of what counts nowhere."""
    yield "\nTaken from it, so that it tests nothing and is not counted:\n"
    yield "| source | place | what was taken |"
    yield "|---|---|---|"
    lines = (f"| {one.source.title} | {one.place} | {one.taken} |" for one in figures() if one.taken)
    yield from dict.fromkeys(lines)


def _source_line(title: str, found: Sequence[Figure]) -> str:
    """One row of the table."""
    differ = [one for one in found if one.differs_pct is not None]
    furthest = max((difference_pct(one) for one in differ), key=abs, default=0.0)
    cells = (
        found[0].source.area,
        f"{title} ({found[0].source.where})",
        str(_places(found)),
        str(len(found)),
        str(len(found) - len(differ)),
        f"{furthest:+.1f} %" if differ else "",
    )
    return f"| {' | '.join(cells)} |"


def _difference_line(one: Figure) -> str:
    """One row of what differs."""
    title = one.source.title.split(",")[0]
    return f"| {title} | {one.place} | {one.printed} | {difference_pct(one):+.1f} % | {one.why} |"


def lines() -> Iterator[str]:
    """The whole page."""
    found = counted()
    yield HEAD
    yield from _kinds()
    yield "| about | source | places | figures | agree as printed | furthest |"
    yield "|---|---|---|---|---|---|"
    groups = _by_source(found)
    yield from (_source_line(title, group) for title, group in groups)
    sizing = sum(group[0].source.area == "sizing" for _, group in groups)
    yield (
        f"\n{len(found)} figures from {_places(found)} places in {len(groups)} sources, "
        f"{sizing} of them on sizing.\n"
    )
    yield "What differs, and why:\n"
    yield "| source | place | printed | here | why |"
    yield "|---|---|---|---|---|"
    for _, group in groups:
        yield from (_difference_line(one) for one in group if one.differs_pct is not None)
    yield from _taken()
    yield ""
    yield SOUGHT


SOUGHT = """Sought and not reached: measured forces to press in or push out plastic rings, seals or
bushings, with the sizes they belong to. Of what was found, the stored copies give the beginnings alone:
steel pins in nylon (thesis, 2006: the torque held agreed well with press-fit theory, press forces in brass
did not), bearings in nylon 6 housings (2025), and large interference fits of cylinders (2026: finite
elements within 15 % of the measured force, thick-cylinder formulas far off once the metal yields). Their
tables and diagrams lie outside the copies. Nor was the relaxation of squeezed acetal found with its
figures, or a compression curve of nylon 12, UHMW polyethylene, PTFE or PVDF.

Nor were these found with figures: measured loads of strips squeezed between flat dies over width and friction
(the plane strain compression test by name, after Watts and Ford, Hill or Kalpakjian), acetal in that test
(2010: the abstract alone, 120 C and more), rings of PTFE or PEEK held squeezed for hours, and Hill's rough
plates, 3/4 + h/4g, which `tests/independent` keeps as from memory. A bush of polymer on steel (manufacturer's
example, 340 N for each mm) is printed without its interference.

Of O-rings there were not found with figures: the tables of ISO 3601-2, MIL-G-5514G and AS4716 (of these the
stored pages hold the text alone, or their beginnings), where the cords of ISO 3601-1 begin, a handbook's
chart or measured narrowing of a stretched cord (from memory it exceeds that of a kept volume by up to a
hundredth of the cord; what was found is the volume kept: a design note and two drawn wires), set after
years in a room (what is printed is of hours or weeks in heat, or carried on from it to 60 C), a worked
example of squeeze in the cold, and anything on cords under 0.35 mm or on buckling of rings pressed
together.

Of gaskets there were not found with figures: a worked example of seating (m and y of ASME VIII-1; its
numbers stand in pictures), a measured load of strips of rubber, and the modulus of a strip without end
beside blocks. Of feet: creep of acetal beyond the tables in use, a worked example of a layer in plane
strain, and how thick feet usually are, which outside the trade nobody prints."""


def page() -> str:
    """The table as it is kept."""
    return "\n".join(lines()) + "\n"


if __name__ == "__main__":
    if "--write" in sys.argv[1:]:
        KEPT.write_text(page(), encoding="utf-8")
    print(page(), end="")
