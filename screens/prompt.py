"""What a page says in plain lines: sentences, choices, and the prompt.

Invariant: one line holds the question and how it is answered. Where no person types, but a script, the names
under which the file keeps things stand beside them.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.entries import NOT_NOW, items
from bench.desk.hold import as_now, countdown, is_shut
from bench.desk.manual import CHAPTERS
from bench.desk.pages import NOTES, PAGEFUL, number_at
from bench.desk.replacing import Replacing
from bench.job.steps import Step, Words
from bench.manual.chapters import chapters


def prompt_line(desk: Desk) -> str:
    """The prompt: question, unit and mask; before it, for a script, the key of the step."""
    key, question = asked_by(desk)
    return f"[{key}] {question}:" if desk.hasty else f"{question}:"


def asked_by(desk: Desk) -> tuple[str, str]:
    """The key of what is asked, and the question."""
    if desk.page == "jobs":
        return "job", "Number of a job, 0 = new"
    if desk.page in ("list", "pick", "damage", CHAPTERS):
        return desk.page, "Which one"
    if desk.page == "replacing":
        replaces = isinstance(desk.replacing, Replacing)
        return ("replacing", "Replace the answer") if replaces else ("sure", "Do it")
    step = as_now(desk, desk.step) if desk.step else None
    if desk.page == "text":
        return desk.at, f"{step.title if step and desk.at not in NOTES else 'Note'} (text)"
    if step is None:
        return "job", "Finished"
    return step.key, f"{step.title}{mask_text(step)}"


def what_stops(desk: Desk) -> tuple[str, ...]:
    """What stops counting once an answer is replaced, a line each."""
    from screens.layout import text_of
    from screens.pages.replacing import said

    about = desk.replacing
    wide = replace(desk, columns=200)
    return tuple(text_of(spans).strip() for spans in said(about, wide)) if about is not None else ()


def said(desk: Desk) -> Words:
    """What stands on a page besides its question and its choices."""
    if desk.page == "damage":
        return tuple(f"CHECK {finding.words}" for finding in desk.findings)
    if desk.page == "replacing":
        return what_stops(desk)
    if desk.page != "step" or desk.step is None:
        return ()
    step = as_now(desk, desk.step)
    waits = (left,) if (left := countdown(desk, step)) else ()
    more = (f"{len(step.choices)} choices in all; + shows the next",) if len(step.choices) > PAGEFUL else ()
    return (*step.to_do, *waits, *step.consequence, *more, *cautions(step))


def choices(desk: Desk) -> list[tuple[int, str, str]]:
    """What can be chosen on the page at hand: number, word, text; a list whole."""
    if desk.page == "list":
        return [(one.number, one.word, ("" if one.now else NOT_NOW) + one.text) for one in items(desk)]
    if desk.page == "pick":
        return [(number_at(index), *picked) for index, picked in enumerate(desk.picks)]
    if desk.page == CHAPTERS:
        return [(one.number, one.name, one.title) for one in chapters()]
    return [(number, *choice) for number, choice in enumerate(on_a_page(desk), 1)]


def on_a_page(desk: Desk) -> tuple[tuple[str, str], ...]:
    """The numbered choices of a page that is no list: (word, text); no word where that tells the answer."""
    if desk.page == "replacing" and desk.replacing is not None:
        return tuple((way.word, way.text) for way in desk.replacing.ways)
    if desk.page == "damage":
        return (("use", "use it as it stands now"), ("leave", "leave it"))
    step = desk.step if desk.page == "step" else None
    if step is None:
        return ()
    if step.kind == "safety" and step.choices:
        return tuple(("", step.choices[place].text) for place in desk.dealt)
    if step.kind == "number" and desk.offered is not None:
        return (("offer", desk.offered.line),)
    if step.kind == "number":
        return (("usual", step.usual_said or step.usual),) if step.usual else ()
    shown = enumerate(step.choices[desk.offset : desk.offset + PAGEFUL], desk.offset)
    return tuple(
        (one.word, f"not yet: {one.text}" if is_shut(desk, step, place) else one.text) for place, one in shown
    )


def cautions(step: Step) -> tuple[str, ...]:
    """The cautions of the place, a line each."""
    from rules.cautions import for_places

    return tuple(f"CAUTION {item.title}: {' '.join(item.lines)}" for item in for_places(step.cautions))


def mask_text(step: Step) -> str:
    """Unit and mask of a number, empty for a choice."""
    if step.mask is not None:
        return f" ({step.mask.unit}, {step.mask.shown})" if step.mask.unit else f" ({step.mask.shown})"
    return " (number read off)" if step.readback is not None else ""
