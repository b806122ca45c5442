"""How bars are held, sawn and used up, each by hand on either side of where it changes; exact words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from rules.bars import Bar, Grip
from rules.checks import OutOfRange
from rules.turning.holding import goes_through, grips_for, held_words, lacking_words, longest_safe_mm
from rules.turning.stock import (
    StockUse,
    piece_of,
    size_of,
    unless_through,
    use_of_bar,
    used_for,
    usual_size_mm,
)
from tests.rules.test_turning import LATHE

BAR = Bar(plastic="acetal", diameter_mm=36.0, length_mm=200.0)
GRIP = Grip(name="chuck", smallest_mm=3.0, largest_mm=60.0, length_mm=20.0)


def named(**kinds: float) -> Any:
    """A lathe with a grip of each kind, to so many mm."""
    made = [
        Grip(
            name=kind, smallest_mm=5.0, largest_mm=most, length_mm=0.0 if kind == "arbor" else 8.0, kind=kind
        )
        for kind, most in kinds.items()
    ]
    return replace(LATHE, grips=tuple(made))


def kinds(lathe: Any, bar: Bar) -> list[str]:
    return [one.kind for one in grips_for(lathe, bar)]


def test_for_a_turned_piece_what_keeps_it_true_comes_first() -> None:
    every = named(three_jaw=60, not_said=60, arbor=60, collet=60, step_collet=60, soft_jaws=60)
    disc = replace(BAR, kind="blank", length_mm=36.0)
    order = ["soft_jaws", "step_collet", "collet", "arbor", "not_said", "three_jaw"]
    assert kinds(every, disc) == order
    # A raw one goes into the narrowest range; what holds by a step or a face comes last.
    narrow = named(three_jaw=60, soft_jaws=50, collet=40, step_collet=37, arbor=36.5)
    assert kinds(narrow, replace(BAR, length_mm=36.0)) == [
        "collet",
        "soft_jaws",
        "three_jaw",
        "step_collet",
        "arbor",
    ]


@pytest.mark.parametrize(("length", "there"), [(44.0, True), (44.1, False)])
def test_a_step_collet_holds_what_is_about_as_long_as_thick(length: float, there: bool) -> None:
    """36.0 beyond the 8.0 that it grips."""
    assert kinds(named(step_collet=60), replace(BAR, length_mm=length)) == (["step_collet"] if there else [])
    assert bool(kinds(named(arbor=60), replace(BAR, length_mm=length - 8.0))) == there


def test_ends_of_a_grip_count() -> None:
    for size, there in ((4.99, False), (5.0, True), (36.0, True), (36.01, False)):
        assert bool(kinds(named(collet=36), replace(BAR, diameter_mm=size))) == there


def test_what_is_looked_at_when_it_is_gripped() -> None:
    grip = {kind: replace(GRIP, kind=kind) for kind in ("three_jaw", "not_said", "soft_jaws", "collet")}
    assert held_words(grip["not_said"], BAR) == ()
    assert held_words(grip["collet"], BAR) == ("collet: runs true, no marks; only at its own size",)
    assert held_words(grip["soft_jaws"], BAR) == (
        "soft jaws, bored in place to its size: run true, no marks",
    )
    jaws = "three jaws mark it: what they grip is no part of a ring"
    assert held_words(grip["three_jaw"], BAR) == (jaws,)
    # A sixth of 36 is a wall of 6: bored 24.0 it is as thick as that, bored 24.2 thinner.
    thin = replace(BAR, kind="tube", bore_mm=24.2)
    squeezed = "wall 5.9 mm: jaws squeeze it out of round; a plug in its bore, or soft jaws"
    assert held_words(grip["three_jaw"], thin) == (jaws, squeezed)
    assert held_words(grip["not_said"], thin) == (squeezed,)
    assert held_words(grip["not_said"], replace(thin, bore_mm=24.0)) == ()
    assert held_words(grip["soft_jaws"], thin) == held_words(grip["soft_jaws"], BAR)


def test_through_the_spindle_or_not() -> None:
    assert goes_through(LATHE, BAR) is None
    for hole, goes in ((36.0, False), (36.01, True)):
        assert goes_through(replace(LATHE, spindle_hole_mm=hole), BAR) is goes
    over = replace(BAR, outside_mm=36.5)
    assert goes_through(replace(LATHE, spindle_hole_mm=36.2), over) is False
    assert goes_through(replace(LATHE, spindle_hole_mm=36.2), replace(BAR, outside_mm=35.0)) is True
    assert longest_safe_mm(BAR) == 108.0
    assert lacking_words(LATHE, BAR) == (
        "no grip of the small bench lathe holds 36.00 mm; a three-jaw chuck for it would"
    )
    assert lacking_words(LATHE, replace(BAR, kind="blank")).endswith(
        "soft jaws or a three-jaw chuck for it would"
    )


def piece(length: float, needed: float, hole: float = 20.0, grip: Grip = GRIP) -> tuple[float, float]:
    lathe = replace(LATHE, spindle_hole_mm=hole)
    return piece_of(bar=replace(BAR, length_mm=length), lathe=lathe, grip=grip, needed_mm=needed)


def test_how_far_a_piece_stands_out() -> None:
    """36 mm: 108 are safe; what is gripped, 20, does not stand out."""
    assert piece(200.0, 5.5, hole=40.0) == piece(200.0, 5.5, hole=0.0) == (5.5, 0.0)
    assert piece(128.0, 5.5) == (108.0, 0.0) and piece(128.1, 5.5) == (5.5, 25.5)
    assert piece(400.0, 108.0) == (108.0, 128.0)
    with pytest.raises(
        OutOfRange, match=r"bar: 108.1 mm would stand out unsupported, 108 mm are safe \(three"
    ):
        piece(400.0, 108.1)
    assert piece(25.5, 5.5, hole=40.0) == (5.5, 0.0)
    with pytest.raises(
        OutOfRange, match=r"bar: 25.4 mm is too short, this set-up and the chuck need 25.5 mm"
    ):
        piece(25.4, 5.5, hole=40.0)
    short = replace(GRIP, kind="step_collet")
    assert piece(56.0, 5.5, 40.0, short) == (36.0, 0.0) and piece(56.1, 5.5, 40.0, short) == (5.5, 25.5)


@pytest.mark.parametrize(
    ("kind", "outside", "thick"),
    [("bar", 35.0, True), ("bar", 35.01, False), ("blank", 35.3, True), ("blank", 35.31, False)],
)
def test_skin_over_the_outside(kind: str, outside: float, thick: bool) -> None:
    """1.0 of a bar as it came, 0.7 of one that was turned."""
    bar = replace(BAR, kind=kind)

    def use() -> StockUse:
        return use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=outside, each_mm=2.2, rings=1)

    if thick:
        assert use().each_mm == 2.2
    else:
        with pytest.raises(
            OutOfRange, match=f"too thin for an outside of {outside:.2f} mm; take one of 36.01 mm"
        ):
            use()


def test_what_is_used_and_what_is_left() -> None:
    assert [used_for(rings=rings, each_mm=2.2) for rings in (1, 2, 5)] == pytest.approx([2.5, 4.9, 12.1])
    through, billet = (
        use_of_bar(
            bar=BAR,
            lathe=replace(LATHE, spindle_hole_mm=hole),
            outside_diameter_mm=33.2,
            each_mm=2.2,
            rings=2,
        )
        for hole in (50.0, 20.0)
    )
    assert (through.used_mm, through.stick_out_mm, through.left_mm, through.sawn_mm) == (4.9, 7.9, 195.1, 0.0)
    # Sawn: 7.9 and 20 gripped, 2 lost in the cut.
    assert (billet.stick_out_mm, billet.sawn_mm, billet.left_mm) == (7.9, 27.9, 170.1)
    rack = "bar: acetal, not said, 36.00 mm, held in the three-jaw chuck"
    assert through.words(BAR) == (rack, "2 rings use 4.90 mm of it; 195.1 mm are left")
    assert billet.words(BAR) == (
        rack,
        "it does not go through the spindle: saw off 28 mm first",
        "2 rings use 4.90 mm of that; 170.1 mm of the bar are left, and a stub of 23.0 mm",
    )
    one = replace(through, rings=1, left_mm=27.9)
    assert one.words(BAR)[1:] == ("1 ring uses 4.90 mm of it; 27.9 mm are left",)
    assert one.words(BAR) == replace(one, sawn_mm=0.0).words(BAR)
    assert replace(one, left_mm=27.8).words(BAR)[2:] == ("what is left is too short for another such set-up",)


def test_a_bar_as_it_is_named() -> None:
    left = Bar(
        plastic="acetal", diameter_mm=36.0, length_mm=50.0, kind="left_over", outside_mm=35.5, bore_mm=20.0
    )
    assert size_of(left) == "36.00 mm left-over, measures 35.50, bore 20.00"
    assert size_of(BAR) == "36.00 mm" == size_of(replace(BAR, outside_mm=36.0))
    assert usual_size_mm(left) == 35.5 and usual_size_mm(replace(left, outside_mm=0.0)) == 36.0
    assert usual_size_mm(BAR) == 36.5


@pytest.mark.parametrize(("length", "said"), [(128.0, False), (128.1, True)])
def test_a_long_bar_where_the_hole_is_not_said(length: float, said: bool) -> None:
    bar = replace(BAR, length_mm=length)
    stock = use_of_bar(bar=bar, lathe=LATHE, outside_diameter_mm=33.2, each_mm=2.2, rings=1)
    sawn = "if it does not go through the spindle, saw off 26 mm first"
    assert unless_through(bar, LATHE, stock) == ((sawn,) if said else ())
