"""`python -m tests.whole.page_words`: the words on every page of a straight job, and their median.

A word is a run of letters; figures, masks and drawings are none. Every line of the page counts, the keys too,
but for cautions: they stand whole where there is room, and are not to be fewer.
"""

from __future__ import annotations

import re
import statistics
import tempfile
from collections.abc import Iterator
from pathlib import Path

from bench.desk.desk import Desk
from screens.layout import text_of
from screens.look import Look
from screens.view import view
from tests.screens.walk import at_size, desks

SIZES = ((80, 24), (100, 30))
"""Columns and rows of the windows counted in; the first is the one that the median is said of."""
WORD = re.compile(r"[A-Za-z]+")


def words_on(desk: Desk, columns: int, rows: int) -> int:
    """Words that a page shows, its cautions left out: their titles, and the lines of ink under them."""
    count, caution = 0, False
    for one in view(at_size(desk, columns, rows), Look("half")):
        roles = {role for text, role in one if text.strip()}
        caution = "caution" in roles or (caution and roles == {"ink"})
        count += 0 if caution else len(WORD.findall(text_of(one)))
    return count


def pages(folder: Path) -> Iterator[Desk]:
    """Each question of a straight job once, with nothing typed."""
    before = None
    for desk in desks(folder):
        if desk.page == "step" and desk.step is not None and not desk.line.text:
            if desk.step.key != before:
                yield desk
            before = desk.step.key


def main() -> None:
    """A line a page: its words at each size; then the medians."""
    with tempfile.TemporaryDirectory() as place:
        counts = [
            (desk.step.key if desk.step else "", [words_on(desk, *size) for size in SIZES])
            for desk in pages(Path(place))
        ]
    print("".join(f"{f'{columns} x {rows}':>10}" for columns, rows in SIZES), "  page")
    for key, found in counts:
        print("".join(f"{many:10}" for many in found), f"  {key}")
    medians = [statistics.median(found[at] for _, found in counts) for at in range(len(SIZES))]
    print("".join(f"{many:10g}" for many in medians), f"  median of {len(counts)} pages")


if __name__ == "__main__":
    main()
