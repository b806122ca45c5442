"""What a person at the lathe reads on the pages, from their text alone."""

from __future__ import annotations

import re
from pathlib import Path

PAGES = (Path(__file__).parent / "golden" / "pages_80x24.txt").read_text(encoding="utf-8").split("\n==== ")
CUTS = re.compile(r"(outside|bore)(: go to|: from zero|: \d+ turn|: \d+ division|, \w+, \d+ passes:)")
ALONG = re.compile(r"(turn along|bore) to (\d+\.\d\d, length|\d+ (turn|division))")


def test_every_page_that_cuts_says_how_far_along_the_bar() -> None:
    cutting = [page for page in PAGES if CUTS.search(page)]
    assert len(cutting) >= 20
    assert [page.split("\n")[0] for page in cutting if not ALONG.search(page)] == []
