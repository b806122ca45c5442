"""`python -m tests.screens.make_golden`: the golden text of every page at 80 x 24, drawn anew.

Look at the difference before keeping it. A new step changes no page but its own: how many steps are answered
is left out here and counted in `test_sizes.py`, and so is the time of day, which goes on with every key.
"""

from __future__ import annotations

import re
from pathlib import Path

from screens.layout import text_of
from screens.look import Look
from screens.view import view
from tests.screens.album import album
from tests.screens.keying import at_size

FILE = Path(__file__).with_name("golden") / "pages_80x24.txt"
HEAD = "==== "
MOVING = (
    (re.compile(r" {3,}(\S.*), \d+ answered"), r"   \1, .. answered"),
    (re.compile(r"\d+ answers kept"), ".. answers kept"),
    (re.compile(r"(\d{4}-\d\d-\d\d) \d\d:\d\d"), r"\1 ..:.."),
)
"""What any step before a page would change on it, and what is kept instead:
counts of answers, times of day.
"""


def text_of_pages() -> dict[str, str]:
    """Heading and text of every page; blank ends of lines are left out."""
    drawn = {}
    for heading, desk in album().items():
        lines = [text_of(line).rstrip() for line in view(at_size(desk, 80, 24), Look("half"))]
        drawn[heading] = "\n".join(map(settled, lines))
    return drawn


def settled(text: str) -> str:
    """A line without what moves."""
    for pattern, instead in MOVING:
        text = pattern.sub(instead, text)
    return text


def kept() -> dict[str, str]:
    """Heading and text of every golden page."""
    parts = FILE.read_text(encoding="utf-8").split(HEAD)[1:]
    return {heading: text.removesuffix("\n") for heading, _, text in (part.partition("\n") for part in parts)}


def main() -> None:
    """Write every page."""
    FILE.parent.mkdir(exist_ok=True)
    pages = text_of_pages()
    FILE.write_text(
        "".join(f"{HEAD}{heading}\n{text}\n" for heading, text in pages.items()), encoding="utf-8"
    )
    print(f"{FILE.name}: {len(pages)} pages")


if __name__ == "__main__":
    main()
