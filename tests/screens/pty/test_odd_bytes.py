"""No byte ends the program; the toolkit's own input shows that these bytes can."""

from __future__ import annotations

from tests.campaigns import odd_bytes


def test_odd_bytes_end_nothing_and_leave_nothing_raw() -> None:
    counts = odd_bytes.run()
    assert counts.died == counts.left_raw == []
    assert counts.programs == 4 and counts.bytes_sent > 5_000 and counts.broken_sequences > 50


def test_the_same_bytes_end_the_stock_input() -> None:
    assert odd_bytes.run(planted=True).died
