"""What the readings of a test say, as the step that shows it and the words that are kept.

Invariant: the decision is written with the readings it rests on; nothing is judged again later.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.steps import Choice, Picture, Step, Why, Words
from bench.stages.proving_steps import Setup
from rules.testing.air import LIMIT_UG_MIN
from rules.testing.leak_curve import leak_curve
from rules.testing.leak_result import Leak
from rules.testing.rig import READINGS

LAST = READINGS - 1
WORDS = {"PASS": "pass", "FAIL": "fail", "UNDECIDED": "not_judged", "NOT_JUDGED": "not_judged"}
LIMIT_SOURCE = "ISO 2281 clause 4.1 by a typed copy"


def leak_words(leak: Leak) -> Words:
    """A judged leak as it is written with the result."""
    if leak.rate_ug_min is None:
        return (f"leak_decision {leak.decision}", f"leak_reason {leak.reason}")
    low = leak.low_ug_min if leak.low_ug_min is not None else leak.rate_ug_min
    high = "unknown" if leak.high_ug_min is None else f"{leak.high_ug_min:.1f} ug/min"
    return (
        f"leak {leak.rate_ug_min:.1f} ug/min",
        f"leak_low {low:.1f} ug/min",
        f"leak_high {high}",
        f"leak_decision {leak.decision}",
        f"leak_law {leak.law}",
        f"leak_reason {leak.reason}",
    )


def rate_words(leak: Leak) -> tuple[str, str]:
    """The rate, and the ends of its interval with the limit; the second empty where one is not known."""
    rate, ends = "no rate", ""
    if leak.rate_ug_min is not None:
        rate = f"leak {leak.rate_ug_min:.0f} ug/min at 2 bar overpressure"
    if leak.low_ug_min is not None and leak.high_ug_min is not None:
        ends = f", 95 %: {leak.low_ug_min:.0f} to {leak.high_ug_min:.0f}; limit {LIMIT_UG_MIN:g}"
    return rate, ends


def outcome_step(
    setup: Setup, leak: Leak, times_s: list[float], signals: list[float], decided: Words, since: str
) -> Step:
    """What the readings say, accepted by 1 Enter; `since` is when a hold timed by the program began."""
    sitting, verdict = setup.sitting, leak.decision.replace("_", " ")
    rate, ends = rate_words(leak)
    held = (*decided, *leak_words(leak))
    return Step(
        key=sitting.result,
        stage="verify",
        kind="result",
        title=f"{verdict}: {rate}{ends}",
        say=(leak.reason,),
        choices=(
            Choice(WORDS[leak.decision], f"accept this result: {verdict}", with_it=held, stamp=True),
            Choice("not_judged", "something went wrong: it does not count", with_it=decided, stamp=True),
        ),
        rests_on=(
            *setup.rests,
            sitting.vented,
            sitting.vented_by,
            keys.nth(sitting.signal, LAST),
            sitting.correction,
        ),
        cautions=setup.method.ending.cautions,
        picture=Picture("leak", curve=leak_curve(times_s, signals, leak, unit="um")),
        ran_since=since,
        why=f"The limit is {LIMIT_UG_MIN:g} ug/min at 2 bar overpressure ({LIMIT_SOURCE}). "
        f"{setup.method.ending.why} {setup.method.claim.sentence}",
        figures=(
            Why(
                rate,
                "slope of the logarithm of the readings times volume, density of air and pressure, "
                "brought to 2 bar overpressure by the law that gives more",
                f"{len(signals)} readings over {times_s[-1]:.0f} s",
                f"{LIMIT_SOURCE} (limit); exponential decay of a fixed conductance",
            ),
        ),
    )
