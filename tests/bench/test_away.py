"""How long nobody was at the keys, by clocks that sleep, stand, jump and are missing."""

from __future__ import annotations

import pytest

from bench.desk.away import AWAY_S, Moment, why_anew

NINE = "2026-03-02T09:00:00+00:00"
LONG = AWAY_S + 1


def moment(at: float, wall: str = NINE, boot: float | None = None) -> Moment:
    return Moment(at, wall, boot)


@pytest.mark.parametrize(
    ("what", "last", "now", "word"),
    [
        ("a minute", moment(10, boot=40), moment(70, boot=100), ""),
        ("the whole time", moment(10, boot=40), moment(10 + AWAY_S, boot=40 + AWAY_S), ""),
        ("idle", moment(10, boot=40), moment(10 + LONG, boot=40 + LONG), "quarter"),
        ("asleep", moment(10, boot=40), moment(12, boot=42 + LONG), "quarter"),
        ("half idle, half asleep", moment(10, boot=40), moment(470, boot=1000), "quarter"),
        ("a short sleep", moment(10, boot=40), moment(12, boot=642), ""),
        ("boot time going back", moment(10, boot=40), moment(20, boot=30), "clock"),
        (
            "the wall set 12 h on where boot time is known",
            moment(10, boot=40),
            moment(12, "2026-03-02T21:00:02+00:00", 42),
            "",
        ),
        ("a minute, no boot time", moment(10), moment(70, "2026-03-02T09:01:00+00:00"), ""),
        ("the same across the end of summer time", moment(10), moment(70, "2026-03-02T10:01:00+01:00"), ""),
        ("idle, no boot time", moment(10), moment(10 + LONG, "2026-03-02T09:15:01+00:00"), "quarter"),
        ("asleep, no boot time", moment(10), moment(12, "2026-03-02T21:00:02+00:00"), "quarter"),
        ("the wall set back", moment(10), moment(20, "2026-03-02T08:59:00+00:00"), "clock"),
        ("the wall set back a little", moment(10), moment(610, "2026-03-02T09:04:00+00:00"), "clock"),
        ("idle, and the wall set back as long", moment(10), moment(10 + LONG, NINE), "clock"),
        ("a wall that is no time", moment(10), moment(20, "soon"), "clock"),
        ("a wall without offset", moment(10), moment(20, "2026-03-02T09:00:10"), "clock"),
        ("a wall that has gone", moment(10), moment(20, ""), "clock"),
        ("no wall at all", moment(10, ""), moment(70, ""), ""),
        ("boot time that has gone", moment(10, boot=40), moment(12, "2026-03-02T21:00:02+00:00"), "quarter"),
        ("a key let go after a later one", moment(20, boot=50), moment(19.9, boot=49.9), ""),
    ],
)
def test_away(what: str, last: Moment, now: Moment, word: str) -> None:
    why = why_anew(last, now)
    assert bool(why) == bool(word) and word in why, (what, why)
