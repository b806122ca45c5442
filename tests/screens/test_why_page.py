"""The page "why": sentences first, then figures to their meaningful digits, and how it is left."""

from __future__ import annotations

import re

import pytest

from screens.layout import text_of
from screens.look import Look
from screens.view import view
from tests.screens.keying import at_size
from tests.whole.places import at
from tests.whole.repairer import Repairer

STIFF = {"case_wall": "2.0", "case_height": "3.0"}


@pytest.fixture(scope="module")
def standing() -> Repairer:
    """On the page why of a proposed ring in a steel case, where every figure is known."""
    repairer = at("ring")
    repairer.give("metal")
    repairer.give("316L")
    repairer.on_to("ring", STIFF)
    repairer.pick("why")
    return repairer


@pytest.fixture
def why(standing: Repairer) -> Repairer:
    """The same, free to be left."""
    return standing.copy()


def said(repairer: Repairer, columns: int = 100, rows: int = 400) -> list[str]:
    """The lines of the page."""
    lines = view(at_size(repairer.desk, columns, rows), Look("ascii"))
    return [text for one in lines if (text := text_of(one).strip())]


def test_nothing_on_it_is_for_machines(why: Repairer) -> None:
    text = " ".join(said(why))
    assert not re.search(r"\bNone\b|\de[+-]\d|\bwords\b|[a-z]_[a-z]|[a-z] 1;|not known mm", text)
    assert "no source; common practice" not in text and "Own derivation" not in text


def test_the_ends_of_the_window_are_those_of_the_page(why: Repairer) -> None:
    step = why.step
    given = re.search(r"bores that work: (\S+) .*? to (\S+) ", " ".join(step.consequence))
    assert given is not None and given[1] != given[2]
    text = " ".join(said(why))
    assert f"smallest bore that works {given[1]} mm" in text
    assert f"largest bore that works {given[2]} mm" in text
    assert re.search(r"bore \d\d\.\d\d mm", text) and re.search(r"seating force [1-9]\d+ N\b", text)


def test_a_figure_is_as_large_as_it_is(why: Repairer) -> None:
    """What is shown of a stress lies within a twentieth of it, noughts and all."""
    shown = next(one for one in why.step.figures if one.figure.startswith("hoop stress at the seat "))
    load, _, _, high = re.findall(r"(\d+(?:\.\d+)?) (?:N/mm|mm)\b", shown.inputs)
    said_mpa = float(shown.figure.split()[-2])
    inner, outer = 36.43, 36.43 + 4.0
    part = (outer**2 + inner**2) / (outer**2 - inner**2)
    assert float(load) / float(high) * part == pytest.approx(said_mpa, rel=0.1)


def test_sentences_come_first_then_the_figures_each_with_formula_and_source(why: Repairer) -> None:
    lines = said(why)
    first = next(at for at, text in enumerate(lines) if text.startswith("The figures"))
    told = " ".join(lines[2:first])
    assert 3 <= len(re.findall(r"[a-z)]\.(?: |$)", told)) <= 4, told
    for given in (why.step.say[0].split()[1].rstrip(","), why.step.say[0].split()[3].rstrip(",")):
        assert given in told, "the sizes of the ring"
    assert len(why.step.figures) > 8
    assert sum(text.startswith("source: ") for text in lines) == len(why.step.figures)


@pytest.mark.parametrize("size", [(80, 24), (40, 12)], ids=str)
def test_it_says_how_to_leave_and_both_ways_do(why: Repairer, size: tuple[int, int]) -> None:
    assert "Enter or / goes back" in " ".join(said(why, *size)[-3:])
    for key in ("enter", "previous"):
        repairer = why.copy()
        repairer.key(key)
        assert repairer.desk.page == "step" and repairer.step.key == "ring"


def test_digits_are_refused_in_plain_words(why: Repairer) -> None:
    why.key("1")
    assert why.desk.page == "why" and not why.desk.line.text
    assert why.desk.message == "Nothing is keyed on this page: Enter or / goes back."
    why.key("enter")
    assert why.desk.page == "step"
