"""What the list of jobs says of a job, from a few of its entries, without walking its route.

Invariant: needs no rules, so that the list opens at once, and shows nothing of a block whose checksum does not fit.
"""

from __future__ import annotations

from collections.abc import Callable

from bench.file.entry import Entry, Head
from bench.file.load import Loaded
from bench.file.pieces import OK, read_block
from bench.file.scan import scan
from bench.job.stage_names import STAGES

STAGE_AFTER = {
    "seat_depth": "size",
    "ring": "cut",
    "measure_again": "measure",
    "remake": "size",
    "fresh_ring": "size",
    "spoiled": "size",
}
"""Answers that lead to another stage."""
CUTTING = (
    "lathe_",
    "tool_",
    "rough_",
    "drill",
    "rest",
    "finish_",
    "outside_",
    "last_",
    "more_",
    "wall_reading",
    "touch",
)
"""How the keys of the third stage begin; `chamfer` and `part` too."""
MEASURING = ("paint", "bench", "hold", "case_bore", "glass_", "seat_", "not_this")
WAITS = {
    "empty_result": "service and casing",
    "fit_outcome": "test of the empty case",
    "cased_result": "handing back",
    "remake": "another ring",
    "dress": "measuring the ring",
}
"""What a job waits for after some answers."""
WAITS_IN = {"measure": "readings", "size": "a ring to be chosen", "cut": "turning", "verify": "testing"}
OVER = {
    "hand_back": ("done",),
    "not_this_ring": ("closed",),
    "no_ring": ("closed",),
    "cannot_turn": ("closed",),
    "remake": ("hand_back",),
    "paint_go": ("stop",),
    "acrylic_anyway": ("no",),
    "empty_found": ("hand_back",),
    "cased_found": ("hand_back",),
}
"""Answers with which a job is over."""
GATED = {"stage": "", "waiting_for": "a look at its file"}


def summary(loaded: Loaded) -> dict[str, str]:
    """Watch, stage, what is waited for and since when, attempt and whether the job is over, as text."""
    if loaded.gated or loaded.head is None:
        return GATED
    answers = [entry for entry in loaded.usable if entry.kind == "answer"]
    watch = next((entry for entry in reversed(answers) if entry.key == "watch"), None)
    attempts = sum(entry.kind == "mark" and entry.key == "attempt" for entry in loaded.usable)
    return told(last_on_the_way(answers), watch, attempts)


def glance(data: bytes) -> dict[str, str]:
    """The same from the bytes of a file, reading only the blocks that are needed, each with its checksum."""
    scanned = scan(data)
    head = read_block(data, scanned.head, salt="", is_head=True)
    if not isinstance(head.content, Head) or head.found != OK:
        return GATED
    salt = head.content.id

    def newest(wanted: Callable[[bytes], bool]) -> Entry | None:
        for block in reversed(scanned.blocks):
            raw = data[block.start : block.end]
            if not wanted(raw):
                continue
            piece = read_block(data, block, salt=salt)
            if piece.found == OK and isinstance(piece.content, Entry):
                return piece.content
        return None

    def on_the_way(raw: bytes) -> bool:
        return b'kind = "answer"' in raw and not any(key in raw for key in ASIDE)

    attempts = sum(b'key = "attempt"' in data[block.start : block.end] for block in scanned.blocks)
    watch = newest(lambda raw: b'key = "watch"' in raw) if b'key = "watch"' in data else None
    return told(newest(on_the_way), watch, attempts)


ASIDE = (b'key = "watch"', b'key = "remark"', b'_slip"')
"""Answers that say nothing of how far a job has come."""


def last_on_the_way(answers: list[Entry]) -> Entry | None:
    """The newest answer that says how far a job has come."""
    names = ("watch", "remark")
    on_it = (
        entry for entry in reversed(answers) if entry.key not in names and not entry.key.endswith("_slip")
    )
    return next(on_it, None)


def told(last: Entry | None, watch: Entry | None, attempts: int) -> dict[str, str]:
    """The summary from the newest answer, the watch and the number of attempt marks."""
    word = first_word(last)
    stage = stage_after(last.key) if last else STAGES[0]
    key = last.key if last else ""
    over = word in OVER.get(key, ())
    return {
        "watch": first_word(watch),
        "stage": stage,
        "step": key,
        "waiting_for": WAITS.get(key, WAITS_IN[stage]),
        "since": last.at if last else "",
        "attempt": str(1 + attempts),
        "finished": "yes" if over else "",
    }


def first_word(entry: Entry | None) -> str:
    """The first word of an answer."""
    if entry is None:
        return ""
    return str(entry.value[0]) if isinstance(entry.value, tuple) and entry.value else str(entry.value)


def stage_after(key: str) -> str:
    """The stage a job is in once a key is answered."""
    if key in STAGE_AFTER:
        return STAGE_AFTER[key]
    if key.startswith(CUTTING) or key in ("chamfer", "part", "touch_off"):
        return "cut"
    if key.startswith(MEASURING):
        return "measure"
    return "verify" if key.startswith(VERIFYING) or key == "dress" else "size"


VERIFYING = ("wall_", "ring_height", "fit_", "marking", "empty_", "cased_", "renewed", "hunt_", "hand_back")
