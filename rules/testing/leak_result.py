"""The result of a test with readings, as the sheet, the plot and other programs take it.

Invariant: every figure is micrograms a minute at 2 bar overpressure; what was not judged is None.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Leak:
    """A test with readings, judged."""

    rate_ug_min: float | None
    """Leak at 2 bar overpressure by the worse law; None when there is nothing to fit."""
    low_ug_min: float | None
    """Lower end of its 95 % interval; may be negative."""
    high_ug_min: float | None
    """Upper end of its 95 % interval."""
    law: str
    """fixed or laminar: the law by which the leak was referred to 2 bar."""
    decision: str
    """PASS, FAIL, UNDECIDED or NOT_JUDGED."""
    hold_needed_s: float
    """The shortest hold that counts for this test, or the hold as fixed before it."""
    settled: bool | None
    """Whether the reading had settled; None when not judged."""
    reason: str
    """Why the decision is what it is, in one sentence."""
    kind: str
    """measured, gross, no_deflection, too_stiff or dropped_out."""
    duration_s: float
    """From the first to the last reading used."""
    signal_at_start: float | None
    """Fitted signal at time 0, in the gauge's unit."""
    decay_per_s: float | None
    """Fitted relative fall of the signal, 1/s."""
    limit_decay_per_s: float
    """Relative fall that a leak at the limit would show, 1/s."""

    def as_json(self) -> dict[str, object]:
        """The fields others script."""
        return {
            "rate_ug_min": self.rate_ug_min,
            "low_ug_min": self.low_ug_min,
            "high_ug_min": self.high_ug_min,
            "law": self.law,
            "decision": self.decision,
            "hold_needed_s": self.hold_needed_s,
            "settled": self.settled,
            "reason": self.reason,
        }

    def fitted(self, time_s: float) -> float | None:
        """The fitted signal at a time in s, for the plot."""
        if self.signal_at_start is None or self.decay_per_s is None:
            return None
        return self.signal_at_start * math.exp(-self.decay_per_s * time_s)

    def at_limit(self, time_s: float) -> float | None:
        """The signal a leak at the limit would show at a time in s, for the plot."""
        if self.signal_at_start is None:
            return None
        return self.signal_at_start * math.exp(-self.limit_decay_per_s * time_s)
