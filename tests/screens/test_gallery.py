"""The pages beside the README are what the program shows; `python -m tests.make_gallery` writes them."""

from __future__ import annotations

import pytest

from tests.make_gallery import SIZES, TARGET, sheet, straight, text

README = TARGET.parent / "README.md"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_pages_and_contact_sheet_are_what_the_program_shows(size: tuple[int, int]) -> None:
    name = f"{size[0]}x{size[1]}"
    assert (TARGET / f"{name}.txt").read_text(encoding="utf-8") == text(size), "python -m tests.make_gallery"
    kept = (TARGET / f"{name}.svg").read_text(encoding="utf-8")
    assert kept == sheet(size, straight()), "python -m tests.make_gallery"
    assert kept.count("<g ") == len(straight()) > 45


def test_the_readme_leads_to_every_one() -> None:
    said = README.read_text(encoding="utf-8")
    for columns, rows in SIZES:
        assert f"gallery/{columns}x{rows}.txt" in said and f"gallery/{columns}x{rows}.svg" in said
