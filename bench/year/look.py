"""The facts of every session file of a folder, read once and known again.

Invariant: what is known of earlier looks is a convenience beside the jobs; it may be deleted at any moment.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from bench.file.listing import Index, names, rows
from bench.in_numbers import Told, apply_to_many, unheard
from bench.job_list import stamp
from bench.joining.twins import ID, PARTED, id_in, uncounted
from bench.version import VERSION
from bench.year.facts import JobFacts, facts_of, from_json, to_json

if TYPE_CHECKING:
    from bench.shop.shop import Shop

KNOWN_NAME = ".jobs-years.json"
KNOWN_FORMAT = 2
"""Of what is kept of a file; another makes every file read again."""
FACTS = "facts"
_WRONG = (ValueError, LookupError, TypeError, ArithmeticError, AssertionError)


def facts_in(folder: Path, shop: Shop, *, told: Told = unheard) -> tuple[tuple[JobFacts, ...], int]:
    """What the files of a folder say, and how many could not be used, copies that went apart among them."""
    paths = names(folder)
    index = Index(folder / KNOWN_NAME, version=f"{VERSION} {KNOWN_FORMAT} {stamp(folder)}")
    index.keep_only(paths)
    found = rows(
        paths, summarise=partial(kept_of, shop), index=index, apply=partial(apply_to_many, told=told)
    )
    index.save()
    facts = {row.path.name: known for row in found if (known := read(row.summary.get(FACTS, "")))}
    apart = uncounted(found)
    unjoined = sum(apart[name].state == PARTED for name in facts.keys() & apart.keys())
    counted = tuple(known for name, known in facts.items() if name not in apart)
    return counted, len(paths) - len(facts) + unjoined


def kept_of(shop: Shop, data: bytes) -> tuple[str, str, dict[str, str]]:
    """What is kept of a file."""
    try:
        facts = facts_of(shop, data)
    except _WRONG:  # well formed, and no job that can be read
        facts = None
    return "", "", {FACTS: to_json(facts), ID: id_in(data)} if facts is not None else {}


def read(text: str) -> JobFacts | None:
    """The facts of a file as they are kept; None where there are none that can be read."""
    try:
        return from_json(text) if text else None
    except _WRONG:
        return None
