"""Parts of the page of a step that stand on every kind of it: choices, an answer given before, cautions.

Invariant: no choice is left out, and wherever there is danger the word CAUTION stands.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.desk.desk import Desk
from bench.desk.hold import is_shut
from bench.desk.pages import PAGEFUL
from bench.job.steps import Choice, Step
from rules.cautions import Caution, for_places
from screens.layout import Line, clipped, line, width, wrapped


def choice_lines(desk: Desk, step: Step, columns: int) -> list[Line]:
    """The choices with the numbers they have now; nine at most."""
    lines: list[Line] = []
    for number, choice in shown_choices(desk, step):
        role = "chosen" if desk.line.text == str(number) else "ink"
        lines += wrapped(f"  {number}  {choice.text}", columns, role, hang="     ")
    if len(step.choices) > PAGEFUL:
        lines.append(line(f"     {len(step.choices)} in all; + shows the next", "note"))
    return lines


def packed_choices(desk: Desk, step: Step, columns: int) -> list[Line]:
    """The choices whole, as many on a line as it holds, where there is no room for a line each."""
    lines: list[Line] = []
    for number, choice in shown_choices(desk, step):
        role = "chosen" if desk.line.text == str(number) else "ink"
        text = f"  {number}  {choice.text}"
        if lines and width(lines[-1]) + len(text) + 1 <= columns:
            lines[-1] = [*lines[-1], (f" {text}", role)]
        else:
            lines += wrapped(text, columns, role, hang="     ")
    return lines


def clipped_choices(desk: Desk, step: Step, columns: int) -> list[Line]:
    """A line for each choice, cut, where whole they do not even fit packed; for nine the smallest window has
    no rows, so the last two share one.
    """
    shown = shown_choices(desk, step)

    def cut_to(at: int, room: int) -> tuple[str, str]:
        number, choice = shown[at]
        role = "chosen" if desk.line.text == str(number) else "ink"
        return clipped(f"  {number}  {choice.text}", room), role

    lines: list[Line] = [[cut_to(at, columns)] for at in range(len(shown))]
    if len(shown) < PAGEFUL:
        return lines
    text, role = cut_to(PAGEFUL - 2, columns // 2)
    return [*lines[:-2], [(text.ljust(columns // 2), role), cut_to(PAGEFUL - 1, columns - columns // 2)]]


def shown_choices(desk: Desk, step: Step) -> tuple[tuple[int, Choice], ...]:
    """The choices that are open with the numbers they have now: in a new order for a check."""
    if step.kind == "safety" and step.choices:
        return tuple((number, step.choices[place]) for number, place in enumerate(desk.dealt, 1))
    numbered = enumerate(step.choices[desk.offset : desk.offset + PAGEFUL], 1)
    return tuple(one for one in numbered if not is_shut(desk, step, desk.offset + one[0] - 1))


def old_value(desk: Desk, step: Step, columns: int) -> list[Line]:
    """An answer given before: the one being looked at, or one that no longer counts."""
    walk = desk.walk
    if walk is None:
        return []
    answer = desk.in_force(step)
    if answer is not None:
        return [
            line(
                clipped(f"  answered: {step.in_words(answer.word)}; another answer replaces it", columns),
                "note",
            )
        ]
    if walk.stale is not None and walk.open is step and step.kind in ("number", "choice"):
        before = step.in_words(walk.stale.word)
        return [line(clipped(f"  before: {before} (no longer counts)", columns), "note")]
    return []


def caution_sizes(step: Step, columns: int, *, more: str = "") -> tuple[list[Line], list[Line], list[Line]]:
    """The cautions of the place: in one line, by their names, and with their details; nothing without any.

    `more`: the line also says that the rest of the page stands elsewhere, in these words.
    """
    items = for_places(step.cautions)
    if not items:
        return [], [], []
    full = [piece for item in items for piece in whole_caution(item, columns)]
    names = tuple(dict.fromkeys(item.title for item in items))
    short = named_cautions(items, columns)
    others = more or (f" and {len(names) - 1} more" if len(names) > 1 else "")
    others += ": * 1 Enter" if more else ": *"
    least = clipped(f"  CAUTION  {names[0]}", columns - len(others)) + others
    return [line(least, "caution")], short, full


def whole_caution(item: Caution, columns: int) -> list[Line]:
    """One caution with its details."""
    title = wrapped(f"  CAUTION  {item.title}", columns, "caution", hang="    ")
    return [*title, *wrapped(f"    {' '.join(item.lines)}", columns, hang="    ")]


def named_cautions(items: Sequence[Caution], columns: int) -> list[Line]:
    """Some cautions by their names, and where the rest of them stands."""
    names = "; ".join(dict.fromkeys(item.title for item in items))
    return wrapped(f"  CAUTION  {names}. More: *", columns, "caution", hang="    ")


def cautions_in(step: Step, columns: int, rows: int) -> list[Line]:
    """The cautions in so many rows: whole while there is room, the rest by name."""
    items = for_places(step.cautions)
    for many in range(len(items), -1, -1):
        whole = [piece for item in items[:many] for piece in whole_caution(item, columns)]
        rest = named_cautions(items[many:], columns) if items[many:] else []
        if len(whole) + len(rest) <= rows:
            return [*whole, *rest]
    return []
