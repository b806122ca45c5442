"""The prompt of a step in plain lines.

Invariant: one line holds the key, the question and how it is answered.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.replacing import Replacing
from bench.job import keys
from bench.job.steps import Step


def prompt_line(desk: Desk) -> str:
    """The prompt: key of the step, question, unit and mask."""
    if desk.page == "jobs":
        return "[job] Number of a job, 0 = new:"
    if desk.page in ("list", "pick", "damage"):
        return f"[{desk.page}] Which one:"
    if desk.page == "replacing":
        return "[replacing] Replace the answer:" if isinstance(desk.replacing, Replacing) else "[sure] Do it:"
    step = desk.step
    if desk.page == "text":
        return f"[{desk.at}] {step.title if step and desk.at not in keys.NOTES else 'Note'} (text):"
    if step is None:
        return "[job] Finished:"
    return f"[{step.key}] {step.title}{mask_text(step)}:"


def what_stops(desk: Desk) -> tuple[str, ...]:
    """What stops counting once an answer is replaced, a line each."""
    from screens.layout import text_of
    from screens.pages.replacing import said

    about = desk.replacing
    wide = replace(desk, columns=200)
    return tuple(text_of(spans).strip() for spans in said(about, wide)) if about is not None else ()


def cautions(step: Step) -> tuple[str, ...]:
    """The cautions of the place, a line each."""
    from rules.cautions import for_places

    return tuple(f"CAUTION {item.title}: {' '.join(item.lines)}" for item in for_places(step.cautions))


def mask_text(step: Step) -> str:
    """Unit and mask of a number, empty for a choice."""
    if step.mask is not None:
        return f" ({step.mask.unit}, {step.mask.shown})" if step.mask.unit else f" ({step.mask.shown})"
    return " (number read off)" if step.readback is not None else ""
