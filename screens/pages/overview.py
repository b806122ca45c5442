"""The second column of a wide window: the stages, what was answered last, what the job waits for.

Invariant: it only repeats what stands elsewhere, and nothing behind checks that were not answered; the page
itself is as it would be in a window that ends where the column begins.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bench.desk.desk import Desk
from bench.job.standing import STAGES, standing_of
from bench.job.steps import Step
from screens.layout import Line, line, text_of, width, wrapped
from screens.pages.frame import top

LEAST = (130, 40)
"""From this window on it is there."""
WIDE = 30
GAP = 2
"""Cells between the page and the column."""
NEWEST = 6
"""Answers named."""


def with_overview(desk: Desk, page: Callable[[Desk], list[Line]]) -> list[Line]:
    """A page with the column beside it where the window is wide enough, else alone."""
    if desk.columns < LEAST[0] or desk.rows < LEAST[1] or desk.walk is None or desk.asked_shop is not None:
        return page(desk)
    narrow = replace(desk, columns=desk.columns - WIDE - GAP)
    _, *body, keys = page(narrow)
    column = column_lines(desk)[: len(body)]
    joined = [
        [*one, (" " * (narrow.columns + GAP - width(one)), "ink"), *column[at]] if at < len(column) else one
        for at, one in enumerate(body)
    ]
    return [*top(desk), *joined, line(text_of(keys).ljust(desk.columns), "key")]


def named(step: Step, word: str) -> str:
    """An answer under the name of what was asked; the question itself stands on its page."""
    name, _, question = step.title.rstrip(".").partition(":")
    return f"{name}: {step.in_words(word)}" if question else step.with_answer(word)


def column_lines(desk: Desk) -> list[Line]:
    """The column, as long as it is; how far the stage in hand has come stands at the head of the page."""
    walk = desk.walk
    assert walk is not None
    here = desk.step.stage if desk.step is not None else ""
    lines = [line(""), line("The job", "strong")]
    for stage in STAGES:
        count = walk.stage_counts(stage)
        said = "now" if stage == here else f"{count} answered" if count else "to come"
        lines.append(
            line(
                f"{'>' if stage == here else ' '} {stage}: {said}",
                "ink" if count or stage == here else "note",
            )
        )
    lines += [line(""), line("Answered last", "strong")]
    asked = [one for one in walk.shown if one[0].kind != "safety"]
    for step, answer in asked[: -NEWEST - 1 : -1]:
        lines += wrapped(f"  {named(step, answer.word)}", WIDE, "note", hang="    ")
    lines += [line(""), line("Waits for", "strong")]
    waits = standing_of(walk).waits_for or "nothing: it is finished"
    return [*lines, *wrapped(f"  {waits}", WIDE, hang="    ")]
