"""Faults worth a name: each must be noticed by a test that reaches it. `python -m tests.mutation --named`."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tests.mutation.mutants import TOP, Mutant


@dataclass(frozen=True)
class Named:
    """A piece of a file that stands there once, and by what it is replaced."""

    what: str
    file: str
    before: str
    after: str

    def mutant(self, top: Path = TOP) -> Mutant:
        """The fault as a mutant; ValueError if the piece does not stand there once."""
        source = (top / self.file).read_bytes()
        old = self.before.encode()
        if source.count(old) != 1:
            raise ValueError(f"{self.what}: stands {source.count(old)} times in {self.file}: {self.before}")
        start = source.index(old)
        line = source[:start].count(b"\n") + 1
        return Mutant(
            file=self.file,
            scope=self.what,
            operator="named",
            start=start,
            end=start + len(old),
            text=self.after,
            line=line,
            lines=range(line, line + old.count(b"\n") + 1),
            inside=True,
        )


SEATED, DEMANDS, FIT = "rules/sizing/seated.py", "rules/sizing/demands.py", "rules/testing/leak_fit.py"
ARRIVALS = "bench/desk/arrivals.py"

NAMED = (
    Named(
        "sign of the gap in cold and warm", SEATED, "- here.shift.gap_mm - self", "+ here.shift.gap_mm - self"
    ),
    Named(
        "ten years at the friction keyed",
        DEMANDS,
        "min(limits.LOW_FRICTION, joint.friction)",
        "joint.friction",
    ),
    Named(
        "press warned of at 1.5 times what it gives",
        "rules/sizing/advice.py",
        "press is not None and force > press",
        "press is not None and force > 1.5 * press",
    ),
    Named(
        "no drift of the temperature in a leak",
        "rules/testing/rig.py",
        "math.hypot(max(scatter, digit), drift, line.slope * relative)",
        "math.hypot(max(scatter, digit), line.slope * relative)",
    ),
    Named(
        "bore from the wall without the outside",
        "rules/turning/correction.py",
        "now = outside - 2.0 * reading_mm if is_wall",
        "now = expected_mm if is_wall",
    ),
    Named(
        "a long boring bar cuts as deep as a short one",
        "rules/turning/schedule.py",
        "0.25 if ratio > VERY_LONG_BAR else 0.5 if ratio > STEEL_BAR_SPRINGS_FROM else 1.0",
        "1.0",
    ),
    Named(
        "a very long boring bar cuts as deep as a long one",
        "rules/turning/schedule.py",
        "0.25 if ratio > VERY_LONG_BAR",
        "0.5 if ratio > VERY_LONG_BAR",
    ),
    Named(
        "a long boring bar without a warning",
        "rules/turning/planning.py",
        "if order.boring.reach_over_shank > STEEL_BAR_SPRINGS_FROM:",
        "if False:",
    ),
    Named(
        "findings accepted in a file to read only",
        "bench/desk/gate.py",
        "if not desk.writable:",
        "if False:",
    ),
    Named(
        "queued entries kept after a refused save",
        ARRIVALS,
        "told = replace(desk, pending=None, then=(), message",
        "told = replace(desk, pending=None, message",
    ),
    Named("no way back to the first question", "bench/desk/moving.py", "if at == 0:", "if at <= 1:"),
    Named(
        "bell half a minute early",
        ARRIVALS,
        "if seconds_left(desk, step) > 0:",
        "if seconds_left(desk, step) > 30:",
    ),
    Named(
        "no relaxation of an hour in the trapped hold",
        DEMANDS,
        "strip.relaxed(joint.plastic.relaxation_1h or 1.0)",
        "strip",
    ),
    Named(
        "plate formula beyond its range", "rules/sizing/glass.py", "if pressure > stiffest_mpa:", "if False:"
    ),
    Named(
        "stress at which it is reached beyond the range",
        "rules/sizing/glass.py",
        "if design is not None and design / stress <= stiffest_mpa:",
        "if design is not None:",
    ),
    Named(
        "pi out of the hold", DEMANDS, "glass_mm / (4.0 * friction)", "glass_mm / (4.0 * math.pi * friction)"
    ),
    Named(
        "pi out of the press",
        DEMANDS,
        "(joint.friction * math.pi * joint.glass_mm)",
        "(joint.friction * joint.glass_mm)",
    ),
    Named(
        "force words a fifth off",
        "rules/sizing/pressing.py",
        "FIRM_PRESS_N = 100.0, 500.0, 2000.0",
        "FIRM_PRESS_N = 120.0, 600.0, 2400.0",
    ),
    Named(
        "no doubt of the volume in a gross leak",
        FIT,
        "least * (1.0 - rig.volume_u_cm3 / rig.volume_cm3)",
        "least",
    ),
    Named(
        "temperature out of the budget",
        "rules/sizing/resolved.py",
        'Component("temperature", _warmth_mm(joint)',
        'Component("temperature", 0.0 * _warmth_mm(joint)',
    ),
)
