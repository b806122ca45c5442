"""The README's pictures are what the program draws; `python -m tests.make_pictures` writes them anew."""

from __future__ import annotations

import re

import pytest

from tests.make_pictures import STAGES, TARGET, desk_at, picture
from tests.whole.scripts import STRAIGHT

README = TARGET.parents[1] / "README.md"


@pytest.mark.parametrize("name", STAGES)
def test_a_picture_is_what_the_program_draws(name: str) -> None:
    kept = (TARGET / f"{name}.svg").read_text(encoding="utf-8")
    assert kept == picture(desk_at(STAGES[name])), "python -m tests.make_pictures"


def test_the_readme_shows_these_pictures() -> None:
    shown = re.findall(r"sample_sessions/pictures/(\w+)\.svg", README.read_text(encoding="utf-8"))
    assert shown == list(STAGES)


@pytest.mark.parametrize("name", STAGES)
def test_what_is_typed_is_on_the_way_to_an_answer_that_is_taken(name: str) -> None:
    """Nothing is typed that the program would doubt: the whole answer lies within what the page expects."""
    desk = desk_at(STAGES[name])
    step = desk.step
    assert step is not None and desk.page == "step"
    if step.kind != "number":
        assert desk.line.text == ""
        return
    answer = dict(STRAIGHT)[step.key]
    assert desk.line.text and answer.startswith(desk.line.text)
    assert step.gauge is None or step.gauge.low <= float(answer) <= step.gauge.high
