"""The short form of the campaign over ordinary jobs, and faults planted for it."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from bench.seals.ring.decided import decided_words
from rules import limits
from rules.sizing import advice, demands
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.campaigns.ordinary_claims import contradictions, inside, proposed
from tests.campaigns.ordinary_draws import given, wide
from tests.campaigns.ordinary_jobs import count, look


def test_verdicts_read_like_a_repairers() -> None:
    counts = count(300, seed=3)
    assert counts.open >= 270
    assert counts.contradictions == []
    few = counts.warnings_a_job[0] + counts.warnings_a_job[1]
    assert few >= 270
    assert counts.good_chance >= 240
    assert len(counts.force) >= 2 and len(counts.bezel) >= 2, "the jobs have to differ"


def test_a_limit_gone_wrong_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """With a demand of 60 MPa after ten years the count of open windows falls under nine in ten."""
    monkeypatch.setattr(limits, "LEAST_PRESSURE_MPA", 60.0)
    assert count(20, seed=3).open < 18


def test_nothing_denies_another_over_the_whole_range() -> None:
    counts = look(60, seed=8)
    assert counts.contradictions == []
    assert counts.jobs >= 80 and len(counts.reached) >= 50


@lru_cache(maxsize=1)
def answers() -> tuple[Sizing, ...]:
    """Answers from the whole range, proposed and given, before anything is planted."""
    dice, found = random.Random(21), []
    for _ in range(60):
        asked = wide(dice)
        answer = size(asked)
        ring = answer.ring
        found += [answer, size(given(dice, asked, ring.outside_diameter_mm, ring.bore_mm))]
    bezel = replace(SOFT, case_metal="316L", case_wall_mm=1.0, case_height_mm=2.5, material=None)
    found.append(size(replace(bezel, outside_mm=33.2, bore_mm=32.04, case_yield_mpa=205.0)))
    return tuple(found)


def _window(**changed: Any) -> Callable[[Sizing], Sizing]:
    return lambda answer: replace(answer, window=replace(answer.window, **changed))


def _wider_ring(answer: Sizing) -> Sizing:
    return replace(answer, ring=replace(answer.ring, bore_mm=answer.ring.bore_mm + 0.3))


def _warned(words: str) -> Callable[[Sizing], Sizing]:
    return lambda answer: replace(answer, warnings=(*answer.warnings, words))


def _stays_as_it_is(answer: Sizing) -> Sizing:
    """Remedies that ask the same question and propose the same ring."""
    asked = answer.resolved.question
    same = tuple(replace(one, question=asked, ring=answer.ring) for one in answer.remedies)
    return replace(answer, remedies=same)


def _other_band(answer: Sizing) -> Sizing:
    band = answer.window.band
    return _window(band=replace(band, high_pct=band.high_pct + 0.5))(answer)


def _turned_glass(answer: Sizing) -> Sizing:
    turn = {"above": "below", "below": "above"}
    words = " ".join(turn.get(word, word) for word in answer.glass.words.split())
    return replace(answer, glass=replace(answer.glass, words=words))


def _springs(answer: Sizing) -> Sizing:
    return replace(answer, consequences=replace(answer.consequences, stretch_words="springs back"))


def _elastic(answer: Sizing) -> Sizing:
    return replace(answer, fit=replace(answer.fit, yielded=None))


PLANTED: dict[str, tuple[Callable[[Sizing], Sizing], Callable[[Sizing], bool], str]] = {
    "closed in a warning": (
        _warned("no bore meets every requirement"),
        inside,
        "window open / no bore works",
    ),
    "proposed outside": (_wider_ring, lambda one: proposed(one) and inside(one), "outside its own window"),
    "stretched inside": (_warned("the bezel will stay stretched"), inside, "/ will stay stretched"),
    "a remedy that is so": (_stays_as_it_is, lambda one: bool(one.remedies), "is so already"),
    "help that nobody needs": (
        _window(help=("a glass of 30.0 mm: 99 %",)),
        lambda one: inside(one) and one.window.ring_chance > 0.5,
        "good chance / something would help",
    ),
    "no help": (_window(help=()), lambda one: not one.window.feasible, "poor chance / nothing said"),
    "thumb before aim": (
        _window(tenth_chance=1.0),
        lambda one: 0.1 < one.window.chance < 0.99,
        "rule of thumb",
    ),
    "two bands": (_other_band, inside, "band / another band"),
    "glass turned": (_turned_glass, lambda one: one.glass.stress_supported_mpa is not None, "design stress"),
    "springs back": (_springs, lambda one: one.fit.stretched is not None, "springs back / figures"),
    "elastic though stretched": (_elastic, lambda one: one.fit.stretched is not None, "/ elastic figures"),
    "aim outside": (_window(target_bore_mm=1.0), inside, "aim / outside the window"),
    "under, and over": (
        _warned("squeeze 5.0 %, under 5 %: it may leak"),
        lambda one: not one.window.feasible,
        "printed squeeze 5.0 %, under 5 %",
    ),
}


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_contradiction_is_seen(name: str) -> None:
    plant, where, words = PLANTED[name]
    met = [one for one in answers() if where(one)]
    assert met, "nothing to plant it in"
    assert not any(list(contradictions(one)) for one in met)
    assert any(words in one for answer in met for one in contradictions(plant(answer)))


@pytest.mark.parametrize(
    ("lost", "where", "words"),
    [
        ("shut ", lambda one: not one.window.feasible, "no bore works / it fits"),
        ("to_20 ", lambda one: one.resolved.question.temperature_c is not None, "another of the sheet"),
        ("squeeze_low ", inside, "band of the page / another of the sheet"),
    ],
)
def test_a_word_lost_on_the_way_to_the_sheet_is_seen(
    lost: str, where: Callable[[Sizing], bool], words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(
        "tests.campaigns.ordinary_claims.decided_words",
        lambda *known: tuple(text for text in decided_words(*known) if not text.startswith(lost)),
    )
    met = [one for one in answers() if where(one)]
    assert any(words in one for answer in met for one in contradictions(answer))


SOFT = SizingQuestion(
    case_bore_mm=33.2,
    glass_mm=32.14,
    height_mm=1.2,
    case_metal="silver",
    case_wall_mm=0.6,
    case_height_mm=1.5,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
    case_bore_u_mm=0.005,
    glass_u_mm=0.005,
    material="pa66",
)
"""A soft thin bezel, in a plastic of which the years are not known."""


def test_no_bore_works_that_stretches_the_hardest_bezel(monkeypatch: pytest.MonkeyPatch) -> None:
    answer = size(SOFT)
    assert list(contradictions(answer)) == []
    assert "the bezel's yield, even if it is hard" in answer.window.binds_low
    monkeypatch.setattr(demands, "_hard_load", lambda _: None)
    wider = size(SOFT).window.bore_low_mm
    assert wider is not None and answer.window.bore_low_mm is not None
    tight = replace(SOFT, outside_mm=33.2, bore_mm=(wider + answer.window.bore_low_mm) / 2.0)
    assert any("inside its window / will stay stretched" in one for one in contradictions(size(tight)))


def test_what_is_printed_bears_out_what_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """A squeeze of 4.98 % is not printed as 5.0 %, under 5 %."""
    asked = SizingQuestion(case_bore_mm=33.2, glass_mm=32.14, outside_mm=33.2, bore_mm=32.0844)
    said = next(words for words in size(asked).warnings if "it may leak" in words)
    assert said == "squeeze 4.98 %, under 5 %: it may leak"
    monkeypatch.setattr(advice, "_apart", lambda value, _: f"{value:.1f}")
    assert any("printed" in one for one in contradictions(size(asked)))


def test_what_a_stretched_bezel_leaves_is_warned_of() -> None:
    """Soft brass: 10 MPa and more if it springs back, less if it stays stretched."""
    asked = SizingQuestion(
        case_bore_mm=36.43,
        glass_mm=35.31,
        height_mm=1.2,
        case_metal="brass",
        case_wall_mm=0.7,
        case_height_mm=2.0,
        glass_material="sapphire",
        glass_thickness_mm=1.5,
    )
    answer = size(asked)
    assert answer.window.feasible and answer.fit.perhaps is not None
    years = answer.fit.ten_years_mpa
    assert years is not None and years[0] < 10.0 < years[1]
    said = [words for words in answer.warnings if "if the bezel stays stretched" in words]
    assert said == [
        f"if the bezel stays stretched, about {years[0]:.1f} MPa are left after ten years, under 10"
    ]
    assert list(contradictions(answer)) == []
    assert list(contradictions(replace(answer, warnings=()))) != []
