"""Every outside figure stands; the table of them is kept up to date; a wrong one is noticed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.published import table
from tests.published.against import CHECKS, stands
from tests.published.figures import AREAS, KINDS, Figure, figures


@pytest.mark.parametrize(
    "figure", [pytest.param(one, id=f"{one.source.key}: {one.place} {one.row or ''}") for one in figures()]
)
def test_figure(figure: Figure) -> None:
    assert stands(figure)


def test_each_has_its_papers() -> None:
    for one in figures():
        assert one.source.title and one.source.where and one.source.area in AREAS
        assert one.place
        assert bool(one.why) == (one.differs_pct is not None), one.place
        assert one.kind in KINDS if one.source.area == "sizing" else not one.kind, one.place


def test_counts() -> None:
    found = figures()
    assert len(found) >= 200
    assert len({one.source.title for one in found}) >= 12
    assert len({one.source.title for one in found if one.source.area == "sizing"}) >= 10


def test_each_kind_of_seal_has_its_places() -> None:
    """Of those other than the straight ring 40 at least, and each has five; a cord narrows in three."""
    assert table.places_of(*table.OTHERS) >= 40
    assert min(table.places_of(kind) for kind in table.OTHERS) >= 5
    narrowing = ("oring_thinner_pct", "oring_narrowing_part", "oring_in_face")
    assert len({one.source.title for one in table.counted() if one.check in narrowing}) >= 3


def test_what_a_constant_was_taken_from_does_not_count() -> None:
    """Each is on the page with what was taken, and no place is counted and taken from."""
    page, taken = table.page(), [one for one in figures() if one.taken]
    assert taken and all(f"| {one.place} | {one.taken} |" in page for one in taken)
    places = {(one.source.title, one.place) for one in taken}
    assert not places & {(one.source.title, one.place) for one in table.counted()}


def test_every_check_is_used() -> None:
    assert {one.check for one in figures()} == set(CHECKS)


def test_a_wrong_figure_is_noticed() -> None:
    """Each value moved by two of its last digits or a per cent, each stated difference by half of one."""
    for one in figures():
        if one.differs_pct is not None:
            assert not stands(replace(one, differs_pct=one.differs_pct + 0.5)), one.place
        else:
            off = one.value + max(4.0 * one.half_digit, 0.01 * abs(one.value))
            assert not stands(replace(one, printed=f"{off:.15f}")), one.place


def test_the_table_is_up_to_date() -> None:
    """`python -m tests.published.table --write` keeps it."""
    assert table.KEPT.read_text("utf-8") == table.page()
