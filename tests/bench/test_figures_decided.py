"""Figures that were decided and that nothing else fixes: a change of one is a decision, not a slip."""

from __future__ import annotations

from typing import Any

import pytest

from bench import in_numbers, job_list, progress, refusal, units
from bench.commands import size
from bench.desk import away, desk, finding, jobs_page, moving, offering, pages, typed, update, wheel
from bench.edits import agreeing, asked, judging
from bench.file import archive, codec, copies, entry, flush, gather, listing, new_job, recover, restore, slug
from bench.job import number
from bench.seals.lathe import cut_checks, turning_facts
from bench.seals.ring import from_drawer, hand, spares
from bench.sheet import pace, turning
from bench.shop import file as shop_file

KIB = 1024
DECIDED: dict[Any, dict[str, Any]] = {
    entry: {
        "FORMAT": 1,
        "KINDS": {"answer", "undo", "confirm", "note", "mark"},
        "STANDS": "stands ",
        "LINE_LIMIT": 16 * KIB,
        "BLOCK_LIMIT": 64 * KIB,
        "FILE_LIMIT": 8 * KIB * KIB,
        "N_LIMIT": 1_000_000_000,
    },
    codec: {"_INT_LIMIT": 1 << 63, "_DIGITS_LIMIT": 60, "_EXPONENT_LIMIT": 400, "_LIST_LIMIT": 1000},
    archive: {
        "WHOLE_LIMIT": KIB**3,
        "FILES_LIMIT": 100_000,
        "_READ_LIMIT": 12 * KIB * KIB,
        "_SUMS_LIMIT": 16 * KIB * KIB,
    },
    slug: {"SHOP_LIMIT": 1_000_000, "SLUG_LIMIT": 40, "NUMBER_LIMIT": 1_000_000_000, "ENDING": ".toml"},
    listing: {"_INDEX_FORMAT": 2, "_INDEX_LIMIT": 256 * KIB * KIB, "UNREADABLE": "unreadable"},
    gather: {"_HOLE": 1000, "SHOWN": 60},
    copies: {"NAME_LIMIT": 60},
    flush: {"INTERRUPTIONS": 1000},
    recover: {"_TORN_LIMIT": 10_000},
    restore: {"_KIN_LIMIT": 100},
    new_job: {"_TRIES": 100},
    shop_file: {"ALIKE": 0.8, "SHOWN": 200},
    desk: {"SMALLEST": (40, 12), "SEEN_S": 1.0},
    away: {"AWAY_S": 900.0, "UNCLEAR_S": 5.0},
    pages: {"PAGEFUL": 9},
    finding: {"SIZE_DIGITS": 4},
    job_list: {"CHUNK": 50},
    typed: {"MM_BEFORE": 2},
    wheel: {"TURN_S": 0.08},
    offering: {"UNUSUAL_MM": 60.0, "TAKES": "1"},
    update: {"LONGEST_ENTRY": 3},
    moving: {"MOST_BELOW": 8},
    jobs_page: {"SOON_S": 0.01, "LONGEST_NUMBER": 9},
    number: {"INCH_PLACES": (3, 4, 5), "MM_PLACES": (2, 3)},
    units: {"_LONGEST": 40},
    in_numbers: {"MANY": 400, "CHUNK": 40},
    progress: {"FIRST_S": 0.5, "EVERY_S": 0.2},
    refusal: {"DONE": 0, "FOUND_SOMETHING": 1, "BAD_INPUT": 2, "COULD_NOT_WRITE": 3, "OUR_FAULT": 4},
    agreeing: {"CLOCK_OFF_S": 86_400.0, "RAN_MIN": 0.1, "SAME": 1e-9},
    asked: {"MOST_STEPS": 500},
    judging: {"MOST_NAMED": 3},
    hand: {"PROUD_MM": 0.03},
    from_drawer: {"OUTSIDE_MM": 0.06},
    cut_checks: {"NEAR_ENOUGH": 0.1, "MOST_DEALT": 4},
    spares: {"SAME_MM": 0.005},
    turning_facts: {"LONGEST": 12_000},
    pace: {"LOOKED_AT": 12, "RINGS": 6, "PLANNED": "planned"},
    turning: {"COLUMNS": 100, "FEW": 4},
    size: {"MOST_WALL_MM": 3.0},
}


@pytest.mark.parametrize("where", DECIDED, ids=lambda module: module.__name__)
def test_what_was_decided_stands(where: Any) -> None:
    assert {name: getattr(where, name) for name in DECIDED[where]} == DECIDED[where]
