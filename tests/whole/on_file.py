"""The hands of a repairer on a real workbench."""

from __future__ import annotations

from collections.abc import Sequence

from bench.desk.effects import Arrival, Effect
from bench.workbench import Workbench
from tests.whole.repairer import Pretended


class OnFile(Pretended):
    """A workbench with a file: effects are really carried out."""

    def __init__(self, bench: Workbench) -> None:
        super().__init__()
        self.real = bench

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """Carry out effects on the file."""
        arrivals = self.real.carry_out(effects)
        if self.real.session is not None:
            self.entries = list(self.real.session.entries)
        return arrivals
