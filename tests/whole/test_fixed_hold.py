"""The hold of a dry test with readings is fixed when it is started;
what is changed afterwards does not move it.
"""

from __future__ import annotations

from bench.file.entry import Head
from bench.job.job import Answer, replay
from bench.job.keys import EMPTY
from bench.job.steps import Step
from bench.stages.deflection import with_readings
from bench.stages.proving_steps import Setup
from rules.testing.methods import method
from rules.testing.rig import READINGS


def steps_until_reading(temperature_c: float, fixed: str) -> tuple[Step, Step]:
    """The step that starts the hold, and the first timed reading after it
    was started with `fixed` minutes.
    """
    given = {
        "empty_volume_exact": ("not measured",),
        "empty_volume": ("large",),
        "empty_gauge_step": ("0.1",),
        "empty_signal_0": ("0.4 um",),
        "empty_hold": ("start", "2026-03-03T10:49:12+00:00", fixed),
    }
    setup = Setup(EMPTY, method("dry_deflection"), 0.5, ())
    job = replay(Head(format=1, id="00000000", job="1", made_by="test"), ())
    stage = with_readings(job, setup, f"{temperature_c:.0f} C", (), hurried=False)
    step = next(stage)
    hold = step
    for n in range(1, 20):
        if step.key == "empty_hold":
            hold = step
        if step.key == "empty_signal_1":
            return hold, step
        step = stage.send(Answer(n, "", step.key, given[step.key]))
    raise AssertionError("no reading was asked")


def test_a_temperature_changed_after_the_start_does_not_move_the_hold() -> None:
    cold, _ = steps_until_reading(5.0, "100 min")
    warm, _ = steps_until_reading(35.0, "100 min")
    assert cold.hold_s != warm.hold_s  # the hold that is planned does depend on it
    minutes = f"{cold.hold_s / 60:.0f} min"
    _, reading = steps_until_reading(35.0, minutes)
    assert reading.opens_after is not None
    assert reading.opens_after[1] == cold.hold_s / (READINGS - 1)
