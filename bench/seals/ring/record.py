"""What the workshop keeps of the straight ring besides: every reading as it was keyed, and what was done at
the lathe with which tool, speed and offset.

Invariant: nothing stands here that an answer does not hold.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby
from operator import itemgetter
from typing import Any

from bench.job import keys
from bench.job.as_keyed import taken, which_stand
from bench.job.job import Answer
from bench.job.values import named, named_text, number
from bench.seals.lathe.turning_facts import from_text
from bench.seals.seal import Section
from rules.checks import OutOfRange
from rules.lengths import length
from rules.turning import operations
from rules.turning.cutting_words import OPERATION_NAMES, tool_short
from rules.turning.readout import BORE, OUTSIDE
from rules.turning.tool_choice import tools_of

READ = {
    keys.CASE_BORE: "glass seat",
    keys.PLUG_ENTERS: "step of the plug that enters",
    keys.PLUG_STAYS_OUT: "step of the plug that stays out",
    keys.PLUG_STAYS_OUT_AGAIN: "step of the plug that stays out, again",
    keys.GLASS: "glass",
    keys.SEAT_DEPTH: "height of the seat",
    keys.SEAT_DEPTH_AGAIN: "height of the seat, again",
    keys.GLASS_EDGE: "straight edge of the glass",
    keys.OLD_WALL: "wall of the old ring",
    keys.OLD_HEIGHT: "height of the old ring",
    keys.HAND_WALL: "wall of the ring that was there",
    keys.HAND_HEIGHT: "height of the ring that was there",
    keys.BAR_MEASURED: "bar",
    keys.OUTSIDE_READING: "outside on the bar",
    keys.WALL_READING: "wall on the bar",
    keys.WALL: "wall of the ring",
    keys.RING_HEIGHT: "height of the ring",
}
"""What is read, by the key of the reading."""
MORE = range(1, 10)
DONE = {
    **OPERATION_NAMES,
    operations.CHAMFER: "chamfers",
    keys.last(OUTSIDE): "last pass of the outside",
    keys.last(BORE): "last pass of the bore",
    **{keys.more(OUTSIDE, n): "another pass of the outside" for n in MORE},
    **{keys.more(BORE, n): "another pass of the bore" for n in MORE},
}
"""What is done at the lathe, by the key of the act."""
PLACED = re.compile(r"(?:second_|third_)?([a-z_]+?)(?:_each)?(?:_\d+)?(?:_late)?")
"""The key of a reading, of whichever place and time."""
SIZED = re.compile(r"went to (.*?), makes ([\d.]+(?: mm| in)?)")
"""A figure of a dial and the size that it makes, which comes first on paper."""
FIGURE = re.compile(r"[0-9.]+ (?:mm|in)")


def record(spans: Sequence[Sequence[Answer]]) -> dict[str, Any]:
    """Readings and work at the lathe of every ring, for the sheet's data."""
    return {
        "readings": [one for n, span in enumerate(spans, 1) for one in readings(n, span)],
        "at_the_lathe": [one for n, span in enumerate(spans, 1) for one in acts(n, span)],
    }


def readings(n: int, span: Sequence[Answer]) -> list[dict[str, Any]]:
    """What was read for one ring, in the order of the file; of a reading keyed again every value, and which
    of them another was keyed in the place of.
    """
    return [
        {"attempt": n, "what": one["what"], "values_mm": in_mm(one["as_keyed"]), **one}
        for one in taken(n, span, _read_of)
    ]


def in_mm(words: Sequence[str]) -> list[float]:
    """Readings as they were keyed, mm."""
    return [round(number(word), 6) for word in words]


def _read_of(answer: Answer) -> str | None:
    """What an answer is a reading of, a figure at whichever place and time."""
    key = PLACED.fullmatch(answer.key)
    return key[1] if key and key[1] in READ and FIGURE.fullmatch(answer.word) else None


def acts(n: int, span: Sequence[Answer]) -> list[dict[str, Any]]:
    """What was done at the lathe for one ring, in the order of the file."""
    called = tools_called(span)
    return [
        {
            "attempt": n,
            "act": act,
            "said": answer.words[1] if len(answer.words) > 1 else None,
            "tool": (number_of := whole(named(answer.words, "tool"))),
            "tool_called": called.get(number_of) if number_of is not None else None,
            "rpm": whole(named(answer.words, "rpm")),
            "offset_mm": named(answer.words, "offset"),
        }
        for answer in span
        if act_name(act := operations.begun(answer.key)) and answer.word == "done"
    ]


def tools_called(span: Sequence[Answer]) -> dict[int, str]:
    """What each tool is called in the shop: by its kind where it shows no number; nothing where the plan of
    the ring cannot be read.
    """
    kept = [text for answer in span if (text := named_text(answer.words, "order"))]
    try:
        order = from_text(kept[-1]) if kept else None
    except OutOfRange:
        order = None
    return {} if order is None else {tool.number: tool_short(order.lathe, tool) for tool in tools_of(order)}


def act_name(act: str) -> str:
    """What an act at the lathe is called; empty for what is none."""
    piece = keys.spare_number(act)
    return DONE.get(act, "") if piece is None else f"spare, piece {piece}"


def whole(value: float | None) -> int | None:
    """A count as a whole number."""
    return None if value is None else int(value)


def recorded(data: dict[str, Any]) -> tuple[Section, ...]:
    """Readings and work at the lathe, in sentences."""
    several = data["attempt"] > 1
    done = (act_text(one, several) for one in data["at_the_lathe"])
    return (
        Section("Readings as they were keyed", tuple(read_text(one, several) for one in data["readings"])),
        Section("At the lathe", (*equipment_text(data["turned"]), *done)),
    )


def of_ring(one: dict[str, Any], several: bool) -> str:
    """Which ring it belongs to, where there were several."""
    return f"Ring {one['attempt']}, " if several else ""


def sentence(text: str) -> str:
    """A text with a capital in front."""
    return f"{text[:1].upper()}{text[1:]}"


def read_text(one: dict[str, Any], several: bool) -> str:
    """One thing that was read, figure by figure as it was keyed; a unit stands once after its figures."""
    stand, gone = which_stand(one)
    by_unit = groupby((word.split() for word in stand), key=itemgetter(1))
    values = ", ".join(f"{', '.join(figure for figure, _ in run)} {unit}" for unit, run in by_unit)
    return sentence(f"{of_ring(one, several)}{READ[one['what']]}: {values}{gone}.")


def act_text(one: dict[str, Any], several: bool) -> str:
    """One act at the lathe: where it went to, tool, speed and offset."""
    name, said = act_name(one["act"]), (one["said"] or "").replace("go to", "went to")
    surface, _, rest = said.partition(": ")
    to = SIZED.sub(r"made \2, at \1", rest if surface in name else said)
    parts = [f"{of_ring(one, several)}{name}" + (f": {to}" if to else "")]
    if one["tool"] is not None:
        parts.append(one["tool_called"] or f"tool {one['tool']}")
    if one["rpm"] is not None:
        parts.append(f"{one['rpm']} a minute")
    if one["offset_mm"] is not None:
        parts.append(f"offset {length(one['offset_mm'], 3)} on the diameter")
    return sentence(f"{'; '.join(parts)}.")


def equipment_text(turned: dict[str, Any]) -> tuple[str, ...]:
    """Lathe and bar of the ring that is shown."""
    if turned["lathe"] is None or turned["bar_mm"] is None:
        return ()
    return (f"On the {turned['lathe']}, from a bar of {length(turned['bar_mm'])}.",)
