"""The page of one step: the one thing to do now, the typed value large, what was answered, what follows.

Invariant: title and answer stand in the same place on every step; what is dropped when room is short is the
picture first, then how it is done, then the cautions' details, never the question or the answer.
"""

from __future__ import annotations

from bench.desk.answering import mask_of
from bench.desk.desk import Desk
from bench.desk.hold import seconds_left
from bench.desk.pages import PAGEFUL
from bench.job.mask import Mask
from bench.job.steps import Choice, Step, Words
from rules.cautions import for_places
from screens.figures import figures
from screens.layout import SPARE, Line, Part, beside, clipped, fitted, line, page, wrapped
from screens.look import Look
from screens.pages.frame import bottom, in_words, top
from screens.pages.step_pictures import PICTURE, gauge, picture_lines, short_gauge

WIDEST = 110
"""Longer lines are hard to read; a wider window gets larger figures instead."""


def step_page(desk: Desk, look: Look) -> list[Line]:
    """The step that is shown."""
    step = desk.step
    if step is None:
        return page(
            top(desk), [Part([line("  The job is finished.", "strong")])], bottom(desk), rows=desk.rows
        )
    side = picture_lines(step, desk, look)
    columns = min(desk.columns, WIDEST) - 2
    narrow = columns - PICTURE - 1 if side else columns
    head = [
        Part([line("")], SPARE),
        Part(wrapped(f"  {step.title}", narrow, "strong", hang="  ")),
        Part(old_value(desk, step, narrow), 2),
        Part(said(step, narrow), 1, ends=step.kind == "action"),
        *answer_parts(desk, step, look, narrow),
    ]
    tail = [
        Part(earlier(step, columns), 2),
        Part(consequence(step, columns, checks=True), 0, consequence(step, columns, checks=True)[:2]),
        Part(consequence(step, columns, checks=False), 2),
        Part(gauge(desk, step, look), 3, least=short_gauge(step, columns), whole=True),
        caution_part(step, columns),
        Part(how(step, columns), SPARE),
    ]
    if side:
        plain = fitted(head, desk.rows - 3)
        head = [Part(beside(plain, side, at=columns + 1 - PICTURE, role="picture"), 0)]
    return page(top(desk), [*head, *tail], bottom(desk), rows=desk.rows)


def answer_parts(desk: Desk, step: Step, look: Look, columns: int) -> list[Part]:
    """The answer line as large figures, or the numbered choices."""
    mask = mask_of(step)
    if step.kind in ("number",) or step.readback is not None:
        assert mask is not None
        return [
            Part(number_lines(desk, step, mask, look, columns), 1, short_number(desk, step, mask, columns))
        ]
    parts = [Part([line(""), *choice_lines(desk, step, columns)], 0, short_choices(desk, step, columns))]
    timer = timer_line(desk, step)
    if timer:
        parts.insert(0, Part(large(timer, look, columns), 1, [line(f"  {timer}", "entry")]))
    return parts


def number_lines(desk: Desk, step: Step, mask: Mask, look: Look, columns: int) -> list[Line]:
    """The typed value over its mask, as large as there is room for, with its unit."""
    tall = 4 if desk.rows < 30 else 8 if desk.rows < 50 else 12
    lines = [line(""), *large(mask.over(desk.line.text), look, columns, mask.unit, tall=tall), line("")]
    lines += usual_line(desk, step, columns)
    if desk.conversion:
        lines.append(line("  conversion shown below", "note"))
    return lines


def usual_line(desk: Desk, step: Step, columns: int) -> list[Line]:
    """How the usual value is taken, where there is one; while an offer stands, how that is."""
    if desk.offered is not None:
        return [line(clipped(f"  {desk.offered.takes}", columns), "strong")]
    if not step.usual:
        return []
    said = step.usual_said or f"1 Enter takes {step.usual}"
    if step.optional:
        said = f"usual: {step.usual}; 1 Enter takes it"
    return [line(clipped(f"  {said}", columns), "note")]


def short_number(desk: Desk, step: Step, mask: Mask, columns: int) -> list[Line]:
    """The typed value where there is no room for large figures."""
    typed = line(f"  {mask.over(desk.line.text)} {mask.unit}", "entry")
    return [typed, *usual_line(desk, step, columns)] if step.usual_said or desk.offered else [typed]


def large(text: str, look: Look, columns: int, unit: str = "", *, tall: int = 4) -> list[Line]:
    """A text in large figures, its unit beside the last row."""
    rows = figures(text, columns - 10, tall, look.figures)
    lines = [line(f"  {row}", "entry") for row in rows]
    if unit and lines:
        lines[-1] = [*lines[-1], (f" {unit}", "note")]
    return lines


def choice_lines(desk: Desk, step: Step, columns: int) -> list[Line]:
    """The choices with the numbers they have now; nine at most."""
    choices = shown_choices(desk, step)
    lines: list[Line] = []
    for number, choice in enumerate(choices, 1):
        role = "chosen" if desk.line.text == str(number) else "ink"
        lines += wrapped(f"  {number}  {choice.text}", columns, role, hang="     ")
    if len(step.choices) > PAGEFUL:
        lines.append(line(f"     {len(step.choices)} in all; + shows the next", "note"))
    return lines


def short_choices(desk: Desk, step: Step, columns: int) -> list[Line]:
    """The choices on one line each, where there is no room for more."""
    return [
        line(
            clipped(f"  {number}  {choice.text}", columns),
            "chosen" if desk.line.text == str(number) else "ink",
        )
        for number, choice in enumerate(shown_choices(desk, step), 1)
    ]


def shown_choices(desk: Desk, step: Step) -> tuple[Choice, ...]:
    """The choices as they stand on the page: in a new order for a check."""
    if step.kind == "safety" and step.choices:
        return tuple(step.choices[place] for place in desk.dealt)
    return step.choices[desk.offset : desk.offset + PAGEFUL]


def timer_line(desk: Desk, step: Step) -> str:
    """Minutes and seconds still to run, empty where no timer runs."""
    if step.opens_after is None:
        return ""
    left = seconds_left(desk, step)
    return f"{left // 60:02.0f}:{left % 60:02.0f}"


def said(step: Step, columns: int) -> list[Line]:
    """The order of work, or what is to be known first."""
    return said_lines(step.say, columns)


def old_value(desk: Desk, step: Step, columns: int) -> list[Line]:
    """An answer given before: the one being looked at, or one that no longer counts."""
    walk = desk.walk
    if walk is None:
        return []
    answer = desk.in_force(step)
    if answer is not None:
        return [
            line(clipped(f"  answered: {in_words(step, answer.word)}; another replaces it", columns), "note")
        ]
    if walk.stale is not None and walk.open is step and step.kind in ("number", "choice"):
        before = in_words(step, walk.stale.word)
        return [line(clipped(f"  before: {before} (no longer counts)", columns), "note")]
    return []


def earlier(step: Step, columns: int) -> list[Line]:
    """Readings taken before."""
    if not step.earlier:
        return []
    rows = [""]
    for place, value in step.earlier:
        item = f"{place}: {value}"
        longer = f"{rows[-1]}   {item}" if rows[-1] else f"  {item}"
        rows = [*rows[:-1], longer] if len(longer) <= columns else [*rows, f"  {item}"]
    return [line(""), *(line(clipped(row, columns), "note") for row in rows if row)]


def consequence(step: Step, columns: int, *, checks: bool) -> list[Line]:
    """What follows from the answers so far: what warns, which is never left out, or the rest."""
    chosen = tuple(text for text in step.consequence if text.startswith("CHECK") is checks)
    return said_lines(chosen, columns)


def said_lines(texts: Words, columns: int) -> list[Line]:
    """Sentences of a step; one that warns stands out."""
    lines: list[Line] = []
    for text in texts:
        role = "caution" if text.startswith("CHECK") else "ink"
        lines += wrapped(f"  {text}", columns, role, hang="    ")
    return [line(""), *lines] if lines else []


def caution_part(step: Step, columns: int) -> Part:
    """The cautions of the place, their details where there is room."""
    items = for_places(step.cautions)
    full: list[Line] = []
    for item in items:
        full.append(line(clipped(f"  CAUTION  {item.title}", columns), "caution"))
        full += [line(clipped(f"    {text}", columns)) for text in item.lines]
    if not items:
        return Part([])
    names = tuple(dict.fromkeys(item.title for item in items))
    short = wrapped(f"  CAUTION  {'; '.join(names)}. More: *", columns, "caution", hang="    ")
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    least = clipped(f"  CAUTION  {names[0]}", columns - len(more) - 3) + f"{more}: *"
    return Part([line(""), *full], 5, [line(""), *short], [line(least, "caution")], whole=True)


def how(step: Step, columns: int) -> list[Line]:
    """How it is measured or done."""
    if not step.how:
        return []
    lines = [one for text in step.how for one in wrapped(f"  {text}", columns, "note", hang="    ")]
    return [line(""), *lines]


PAGES = {"step": step_page}
