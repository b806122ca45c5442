"""The customer's papers in words: the sheet in lines, sheet and slip as data beside their words.

Invariant: only what the statements say, in one language.
"""

from __future__ import annotations

from typing import Any

from bench.job.statement import Statement
from bench.sheet.customer import customers_sheet, dated, titled
from bench.sheet.slip import slip
from bench.sheet.text import folded
from bench.sheet.tongue import ENGLISH, Tongue

NOT_FINISHED = "NOT FINISHED"


def customer_lines(data: dict[str, Any], tongue: Tongue = ENGLISH, *, columns: int = 76) -> tuple[str, ...]:
    """The customer's sheet in lines of at most `columns` characters."""
    lines = head_lines(data, tongue)
    for part in customers_sheet(data):
        lines += ["", tongue.words(part.heading), *(f"  {tongue.sentence(one)}" for one in part.statements)]
    if notice := tongue.notice():
        lines += ["", *notice]
    return folded(lines, columns)


def head_lines(data: dict[str, Any], tongue: Tongue) -> list[str]:
    """What stands above the parts."""
    day = dated(data)
    return [
        *([] if data["finished"] else [tongue.words(NOT_FINISHED)]),
        *([data["shop_name"]] if data["shop_name"] else []),
        tongue.sentence(titled(data)),
        *([data["watch"]] if data["watch"] else []),
        *([tongue.sentence(day)] if day else []),
    ]


def papers_data(data: dict[str, Any], tongue: Tongue = ENGLISH) -> dict[str, Any]:
    """Sheet and slip for a program: statements by name with their values, the English words beside them, and
    those of the language in which they are printed.
    """
    return {
        "customer": [
            {
                "heading": part.heading,
                "heading_translated": tongue.words(part.heading),
                "statements": [with_words(one, tongue) for one in part.statements],
            }
            for part in customers_sheet(data)
        ],
        "slip": [with_words(one, tongue) for one in slip(data)],
        "language": tongue.language.word,
        "translation_notice": list(tongue.notice()),
    }


def with_words(said: Statement, tongue: Tongue) -> dict[str, Any]:
    """One statement for a program."""
    return {**said.data(), "text": ENGLISH.sentence(said), "translated": tongue.sentence(said)}
