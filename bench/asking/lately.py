"""What the finished rings of a shop say of it, in words and as a picture.

Invariant: what is assumed stands beside what is learned; nothing is said where nothing was finished.
"""

from __future__ import annotations

from bench.job.steps import Picture, Words
from bench.shop.lately import Lately
from rules.learning.landing import Lands
from rules.learning.promised import ENOUGH, Kept
from rules.lengths import bare, length

MOST_TENTHS = 4
"""So many tenths of the promise are said on a page, the fullest; all of them on the command line."""


def lands_words(lands: Lands) -> str:
    """Where walls land, with what is assumed beside it."""
    lie = f"{off_words(lands.mean_mm)}, good to {bare(lands.good_to_mm, 3)}"
    return f"{from_rings(lands)}: {lie}; {assumed(lands)}"


def from_rings(lands: Lands) -> str:
    """From how many rings.

    A tool, plastic or lathe that is new is said to be.
    """
    rings = f"from your last {lands.rings} rings" if lands.rings > 1 else "from your last ring"
    if lands.of_line == lands.rings:
        return rings
    return f"{rings}, {lands.of_line or 'none'} of them with this tool, plastic and lathe"


def off_words(mean_mm: float) -> str:
    """How far and to which side walls land from what is aimed at."""
    off = bare(abs(mean_mm), 3)
    if float(off) == 0.0:
        return "walls land on size"
    return f"walls land {off} {'thick' if mean_mm > 0.0 else 'thin'}"


def assumed(lands: Lands) -> str:
    """What would be taken without them."""
    return f"assumed on size, good to {bare(lands.assumed_mm, 3)}"


def odd_words(lands: Lands) -> Words:
    """Rings so far off that they count for less."""
    return (f"far off, so counted for less: ring {', '.join(lands.odd)}",) if lands.odd else ()


def kept_words(kept: Kept) -> str:
    """Promised and landed in one line.

    >>> kept_words(Kept(rings=12, promised=0.8, fitted=10))
    'of 12 rings promised 80 %, 10 fitted (83 %; the true share lies between 55 and 95 %)'
    """
    said = f"of {kept.rings} rings promised {100 * kept.promised:.0f} %, {kept.fitted} fitted"
    if kept.rings == 1:
        said = f"of 1 ring promised {100 * kept.promised:.0f} %, {kept.fitted} fitted"
    if kept.interval is None:
        return said
    low, high = (100 * end for end in kept.interval)
    share = 100 * kept.fitted / kept.rings
    return f"{said} ({share:.0f} %; the true share lies between {low:.0f} and {high:.0f} %)"


def lately_words(lately: Lately) -> Words:
    """What stands on the page of the shop: where walls land, and whether chances come true."""
    said = (lands_words(lately.lands), *odd_words(lately.lands)) if lately.lands else ()
    return (*said, *((kept_words(lately.kept),) if lately.kept else ()))


def lately_why(lately: Lately) -> Words:
    """What more there is to say: tools before they are corrected, how readings repeat, the tenths."""
    tools = (
        f"{one.tool} cuts {length(abs(one.mean_mm), 3)} {'large' if one.mean_mm > 0.0 else 'small'} on the "
        f"diameter before it is corrected, good to {bare(one.good_to_mm, 3)} ({one.rings} rings)."
        for one in lately.tools
    )
    repeats = (f"{repeat_words(one.what, one.sd_mm, one.pairs).capitalize()}." for one in lately.repeats)
    fullest = sorted(lately.tenths, key=lambda kept: -kept.rings)[:MOST_TENTHS]
    tenths = (f"{kept_words(one).capitalize()}." for one in lately.tenths if one in fullest)
    few = (f"From {ENOUGH} rings on an interval is given.",) if lately.tenths else ()
    return (*tools, *corrected_words(lately), *repeats, *(tenths if len(lately.tenths) > 1 else ()), *few)


def repeat_words(what: str, sd_mm: float, pairs: int) -> str:
    """How one reading repeats."""
    return f"a reading of a {what} repeats with a spread of {length(sd_mm, 3)}, from {pairs} pairs"


def corrected_words(lately: Lately) -> Words:
    """What the reading before the last pass is worth."""
    before, lands = lately.uncorrected_mm, lately.lands
    if before is None or lands is None:
        return ()
    corrected = f"with the reading before the last pass it is {bare(lands.good_to_mm, 3)}"
    return (f"By the boring bar alone a wall would be good to {length(before, 3)}; {corrected}.",)


def lately_picture(lately: Lately) -> Picture | None:
    """Promised against landed, in per cent: of each tenth its promise, share, low and high end."""
    numbers: list[tuple[str, float]] = []
    for kept in lately.tenths:
        low, high = kept.interval or (-1.0, -1.0)
        share = kept.fitted / kept.rings
        numbers += [("promised", kept.promised), ("fitted", share), ("low", low), ("high", high)]
    return Picture("promised", series=tuple(numbers)) if numbers else None
