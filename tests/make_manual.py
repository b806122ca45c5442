"""`python -m tests.make_manual`: what has its home elsewhere is written into the chapters of the manual.

Between `<!-- made: WHAT -->` and `<!-- end -->` of a chapter stand pages as pictures, keys, entries of the
list, test methods, commands, statuses and words, as the program has them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from pathlib import Path

from bench.commands.about import ABOUT
from bench.commands.tree import STATUSES
from bench.desk.entries import NUMBERS, PAGES
from bench.desk.keys import help_table
from rules.cautions import for_places
from rules.glossary import bench_words
from rules.testing.method_table import DIVERS_EQUIPMENT, DRY_PASS, Method, duration
from rules.testing.methods import methods
from screens.layout import text_of
from tests.make_gallery import painted, straight

TOP = Path(__file__).resolve().parent.parent
CHAPTERS = TOP / "bench" / "data" / "manual"
MADE = re.compile(r"(<!-- made: (.+?) -->\n)(.*?)(<!-- end -->)", re.DOTALL)
WINDOW = (60, 20)
"""Columns and rows of the pages shown."""
SITTINGS = {"empty": "empty case", "cased": "cased watch"}
NEEDS = {
    DRY_PASS: "Only after a dry test that was passed.",
    DIVERS_EQUIPMENT: "Divers' watches only where the shop has the equipment for them.",
}


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table in Markdown."""
    lines = (" | ".join(cell.replace("*", "\\*") for cell in row) for row in rows)
    return "\n".join(
        [f"| {' | '.join(heads)} |", "|" + " --- |" * len(heads), *(f"| {one} |" for one in lines)]
    )


@lru_cache(maxsize=1)
def pages() -> dict[str, tuple[str, bool]]:
    """Each page of the straight job by its key: its text, and whether it stands behind checks."""
    return {
        desk.step.key: (
            "\n".join(text_of(one).rstrip() for one in painted(desk, WINDOW)),
            bool(desk.step.guarded_by),
        )
        for desk in straight()
        if desk.step is not None
    }


def page(key: str) -> str:
    """A page as a picture."""
    text, guarded = pages()[key]
    return f"```{'at-work' if guarded else 'page'}\n{text.strip(chr(10))}\n```"


def method(one: Method) -> str:
    """A test method: where it is allowed, what it needs, how long, what it proves and what not, source."""
    where = " and ".join(SITTINGS[sitting] for sitting in one.sittings)
    held = f"held {duration(one.hold_s)}" if one.hold else "as long as the readings need"
    if one.own_verdict:
        held = "as long as the tester takes"
    said = [f"For the {where}, {'in water' if one.wet else 'dry'}, {held}."]
    said += [*(NEEDS[need] for need in one.needs), one.claim.sentence, f"Source: {one.source}."]
    dangers = "; ".join(item.title for item in for_places((*one.cautions, *one.ending.cautions)))
    return f"## {one.name}\n\n{' '.join(said)}\n\n> CAUTION {dangers}."


MAKERS: dict[str, Callable[[], str]] = {
    "keys": lambda: table(
        ("keypad", "what it does", "does nothing when", "on a full keyboard"), help_table()
    ),
    "list": lambda: table(
        ("number", "what it does"),
        [(str(NUMBERS[word]), text.format(seal="ring")) for entries in PAGES for word, text in entries],
    ),
    "commands": lambda: table(("command", "what it does"), [(name, one.line) for name, one in ABOUT.items()]),
    "statuses": lambda: " ".join(STATUSES.split()),
    "words": lambda: table(("word", "meaning"), list(bench_words().items())),
    "methods": lambda: "\n\n".join(method(one) for one in methods().values()),
}


def made(what: str) -> str:
    """What stands in a place."""
    kind, _, key = what.partition(" ")
    return page(key) if kind == "page" else MAKERS[kind]()


def written(text: str) -> str:
    """A chapter with everything that is made in its place."""
    return MADE.sub(lambda found: f"{found[1]}{made(found[2])}\n{found[4]}", text)


def main() -> None:
    """Write every chapter."""
    for path in sorted(CHAPTERS.glob("*.md")):
        path.write_text(written(path.read_text(encoding="utf-8")), encoding="utf-8")
        print(path.relative_to(TOP))


if __name__ == "__main__":
    main()
