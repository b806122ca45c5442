"""What the gate says of a changed entry: enough to find it, and nothing that stands behind checks."""

from __future__ import annotations

import pytest

from bench.file.entry import Entry, Value
from bench.file.gather import shown


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (("done", "outside: go to 36.83, diameter", "tool 1", "rpm 420"), "done, with what was cut or set"),
        ("36.44 mm", "36.44 mm"),
        (("accept", "outside 36.43 mm"), "accept, outside 36.43 mm"),
        ("done", "done"),
    ],
)
def test_the_gate_names_no_figure_to_go_to(value: Value, said: str) -> None:
    entry = Entry(n=3, at="", kind="answer", key="rough_outside", value=value)
    assert shown(entry) == said
