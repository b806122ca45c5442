"""`python -m tests.screens.make_golden`: the golden text of every page, drawn anew at three sizes.

Look at the difference before keeping it.
"""

from __future__ import annotations

from pathlib import Path

from screens.pages.frame import Look
from screens.view import view
from tests.screens.album import album
from tests.screens.keying import at_size

FOLDER = Path(__file__).with_name("golden")
SIZES = ((80, 24), (60, 20), (40, 12))
HEAD = "==== "


def file_of(columns: int, rows: int) -> Path:
    """The golden file of a size."""
    return FOLDER / f"pages_{columns}x{rows}.txt"


def text_of_pages(columns: int, rows: int) -> dict[str, str]:
    """Heading and text of every page at one size; blank ends of lines are left out."""
    drawn = {}
    for heading, desk in album().items():
        lines = view(at_size(desk, columns, rows), Look("half"))
        drawn[heading] = "\n".join("".join(text for text, _ in line).rstrip() for line in lines)
    return drawn


def joined(pages: dict[str, str]) -> str:
    """All pages of one size as one text."""
    return "".join(f"{HEAD}{heading}\n{text}\n" for heading, text in pages.items())


def kept(columns: int, rows: int) -> dict[str, str]:
    """Heading and text of every golden page of a size."""
    parts = file_of(columns, rows).read_text(encoding="utf-8").split(HEAD)[1:]
    return {heading: text.removesuffix("\n") for heading, _, text in (part.partition("\n") for part in parts)}


def main() -> None:
    """Write every size."""
    FOLDER.mkdir(exist_ok=True)
    for size in SIZES:
        pages = text_of_pages(*size)
        file_of(*size).write_text(joined(pages), encoding="utf-8")
        print(f"{file_of(*size).name}: {len(pages)} pages")


if __name__ == "__main__":
    main()
