"""The page of one step: the one thing to do now, the typed value large, what was answered, what follows.

Invariant: title and answer stand in the same place on every step. Where room is short the cautions' details
go first, then the drawn limits and what was answered before, never the question, a choice or the name of a
danger. How it is done stands behind `* 1`, and the page says so.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.answering import mask_of
from bench.desk.desk import Desk
from bench.desk.hold import as_now, countdown, share_run
from bench.job.mask import Mask
from bench.job.steps import Step, Words
from rules.turning.short_words import shortened
from screens.figures import figures
from screens.layout import (
    SPARE,
    WHOLE,
    Line,
    Part,
    as_fit,
    beside,
    clipped,
    fitted,
    left_out,
    line,
    page,
    wrapped,
)
from screens.look import Look
from screens.pages.act import act_lines, rule_under
from screens.pages.frame import bottom, top
from screens.pages.overview import with_overview
from screens.pages.parts import (
    caution_sizes,
    cautions_in,
    choice_lines,
    clipped_choices,
    old_value,
    packed_choices,
)
from screens.pages.step_pictures import gauge, picture_lines, short_gauge
from screens.pages.turning import turning_page

WIDEST = 110
"""Longer lines are hard to read; a wider window gets larger figures instead."""
TALL = ((12, 50), (8, 30), (4, 0))
"""Rows that figures may take, and from which height of the window on."""
ROOMY = 20
"""From this height of the window on no name of a caution is cut."""
WAIT = 60
"""Cells of the line that fills while something is waited for."""


def step_page(desk: Desk, look: Look) -> list[Line]:
    """The step that is shown, in a wide window with the stages beside it."""
    return with_overview(desk, lambda at: page_alone(at, look))


def page_alone(desk: Desk, look: Look) -> list[Line]:
    """The step that is shown, and nothing else."""
    step = desk.step
    if step is None:
        return page(
            top(desk), [Part([line("  The job is finished.", "strong")])], bottom(desk), rows=desk.rows
        )
    step = as_now(desk, step)
    columns = min(desk.columns, WIDEST) - 2
    if step.targets:
        return turning_page(desk, step, look, columns)
    room = desk.rows - len(top(desk)) - len(bottom(desk))
    sizes = [parts_of(desk, step, look, columns, tall) for tall, least in TALL if desk.rows >= least]
    parts = next((one for one in sizes if as_fit(one, room)[-1] is one[-1].lines), sizes[0])
    parts = with_cautions(parts, step, columns, room)
    more = left_out(parts, room)
    return page(top(desk), parts, bottom(desk, more=more, how=bool(step.how)), rows=desk.rows)


def with_cautions(parts: list[Part], step: Step, columns: int, room: int) -> list[Part]:
    """The same parts; rows that stay free hold as many cautions whole as they can, the first ones first."""
    shown, last = as_fit(parts, room), parts[-1]
    free = room - sum(map(len, shown))
    if free < 1 or shown[-1] is not last.short:
        return parts
    return [
        *parts[:-1],
        replace(last, short=[line(""), *cautions_in(step, columns, len(last.short) + free - 1)]),
    ]


def parts_of(desk: Desk, step: Step, look: Look, columns: int, tall: int) -> list[Part]:
    """What stands on the page, its figures at most so many rows tall, the cautions last."""
    side = picture_lines(step, desk, look)
    narrow = columns - len(side[0]) - 1 if side else columns
    act = act_lines(step.title, narrow)
    head = [
        Part([line("")], SPARE),
        Part(act),
        Part(rule_under(desk, act), SPARE, whole=True),
        Part(old_value(desk, step, narrow), 3),
        said_part(step, narrow),
        *answer_parts(desk, step, look, narrow, tall),
    ]
    if side:
        plain = fitted(head, desk.rows - 3)
        head = [Part(beside(plain, side, at=columns + 1 - len(side[0]), role="picture"), 0)]
    return [
        *head,
        Part(earlier(step, columns), 4),
        Part(
            consequence(step, columns, checks=True),
            0,
            short_said(step.consequence, columns) or consequence(step, columns, checks=True)[1:],
        ),
        Part(consequence(step, columns, checks=False), 3),
        Part(gauge(desk, step, look), 5, least=short_gauge(step, columns), whole=True),
        caution_part(step, columns, last=desk.rows >= ROOMY),
    ]


def answer_parts(desk: Desk, step: Step, look: Look, columns: int, tall: int) -> list[Part]:
    """The answer line as large figures, or the numbered choices."""
    mask = mask_of(step)
    if step.kind in ("number",) or step.readback is not None:
        assert mask is not None
        answer = Part(
            number_lines(desk, step, mask, look, columns, tall), 1, short_number(desk, step, mask, columns)
        )
    else:
        whole, packed = choice_lines(desk, step, columns), packed_choices(desk, step, columns)
        answer = Part([line(""), *whole], 0, packed, clipped_choices(desk, step, columns))
    return [*wait_part(desk, step, look, columns), answer]


def number_lines(desk: Desk, step: Step, mask: Mask, look: Look, columns: int, tall: int) -> list[Line]:
    """The typed value over its mask, as large as there is room for, with its unit."""
    lines = [line(""), *large(mask.over(desk.line.text), look, columns, mask.unit, tall=tall), line("")]
    lines += usual_line(desk, step, columns)
    if desk.conversion:
        lines.append(line(f"  {'meaning' if step.below else 'conversion'} shown below", "note"))
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


def wait_part(desk: Desk, step: Step, look: Look, columns: int) -> list[Part]:
    """What is still to be waited for: a sentence, and a line that fills as the time goes by."""
    text = countdown(desk, step)
    if not text:
        return []
    sentence = wrapped(f"  {text}", columns, "strong", hang="  ")
    room = min(columns - 2, WAIT)
    gone = int(room * share_run(desk, step))
    done, rest = ("=", ".") if look.ascii else ("━", "╌")
    filling = [("  " + done * gone, "entry"), (rest * (room - gone), "note")]
    return [Part([line(""), *sentence, filling], 1, sentence)]


def said_part(step: Step, columns: int) -> Part:
    """The order of work, with what of it stands in every window and where the whole is."""
    whole = said(step, columns)
    if not step.brief:
        return Part(whole, 2, short_said(step.say, columns), ends=step.kind == "action")
    return Part(whole, 0, [*said_lines(step.brief, columns)[1:], WHOLE], kept=1)


def said(step: Step, columns: int) -> list[Line]:
    """The order of work, or what is to be known first."""
    return said_lines(step.say, columns)


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


def short_said(texts: Words, columns: int) -> list[Line]:
    """Of sentences that have a short form those alone, in it; nothing where none has one."""
    short = tuple(shortened(text) for text in texts if shortened(text) != text)
    return said_lines(short, columns)[1:]


def said_lines(texts: Words, columns: int) -> list[Line]:
    """Sentences of a step; one that warns stands out."""
    lines: list[Line] = []
    for text in texts:
        role = "caution" if text.startswith("CHECK") else "ink"
        lines += wrapped(f"  {text}", columns, role, hang="    ")
    return [line(""), *lines] if lines else []


def caution_part(step: Step, columns: int, *, last: bool) -> Part:
    """The cautions of the place, their details where there is room; their names are cut last, or before what
    is to be done, in a window where only one of the two fits. On a check, before the danger, what follows
    from earlier answers goes before the details.
    """
    least, names, full = caution_sizes(step, columns)
    if not least:
        return Part([])
    turn = 0 if step.brief and step.kind == "safety" and last else 5
    return Part([line(""), *full], turn, [line(""), *names], least, whole=True, kept=1 if last else 3)


PAGES = {"step": step_page}
