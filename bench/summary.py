"""What the list of jobs says of a job, from its entries alone.

Invariant: needs no rules, so that the list opens at once; the exact next step is worked out once a job was opened.
"""

from __future__ import annotations

from bench.file.entry import Entry
from bench.file.load import Loaded
from bench.job import replay
from bench.steps import STAGES

FIRST_KEYS = {
    "paint": "measure",
    "case_bore_1": "measure",
    "ring": "cut",
    "dress": "verify",
}
"""Answers that open the next stage, with the stage they lead to."""
PARKED = {"empty_result": "service and casing", "fit_outcome": "the test of the empty case"}
ENDED = {
    "hand_back": ("done",),
    "not_this_ring": ("closed",),
    "no_ring": ("closed",),
    "cannot_turn": ("closed",),
}
"""Answers with which a job is over."""


def summary(loaded: Loaded) -> dict[str, str]:
    """Watch, stage, what is waited for and since when, attempt and whether the job is over, as text."""
    if loaded.gated or loaded.head is None:
        return {"stage": "", "waiting_for": "a look at its file"}
    job = replay(loaded.head, loaded.usable)
    watch = job.newest("watch")
    last = job.answers[-1] if job.answers else None
    over = any(
        (answer := job.newest(key)) is not None
        and answer.word in words
        and answer.n > job.newest_n("attempt")
        for key, words in ENDED.items()
    )
    return {
        "watch": watch.word if watch else "",
        "stage": stage_now(loaded.usable),
        "step": last.key if last else "",
        "waiting_for": PARKED.get(last.key, "") if last and last.word in ("pass", "home") else "",
        "since": last.at if last else "",
        "attempt": str(job.attempt),
        "finished": "yes" if over else "",
    }


def stage_now(entries: tuple[Entry, ...]) -> str:
    """The stage a job has reached, from the newest answer that opens one."""
    stage = STAGES[0]
    for entry in entries:
        if entry.kind == "mark" and entry.key == "attempt":
            stage = "size"
        elif entry.kind == "answer":
            stage = FIRST_KEYS.get(entry.key, stage)
            if entry.key == "seat_depth":
                stage = "size"
    return stage
