"""Places in a straight job from which a test goes on; each is walked to once."""

from __future__ import annotations

from functools import lru_cache

from tests.whole.repairer import Repairer, fresh

SHORTEST = {
    "hunt_kind": "loose",
    "hunt_glass_lifts": "yes",
}
"""One way through the search, to a new ring."""


@lru_cache(maxsize=16)
def standing_at(key: str) -> Repairer:
    """A repairer in a straight job before a step."""
    return fresh().on_to(key)


def at(key: str) -> Repairer:
    """Another repairer in a straight job before a step, free to go on."""
    return standing_at(key).copy()


@lru_cache(maxsize=4)
def _standing_before_a_hold(sitting: str) -> Repairer:
    repairer = at(f"{sitting}_pressure")
    for key, answer in ((f"{sitting}_method", "underpressure"), (f"{sitting}_minutes", "010")):
        if key.endswith("_minutes"):
            repairer.on_to(f"{sitting}_hold")
        repairer.pick("usual")
        repairer.pick_key(key)
        repairer.give(answer)
    return repairer.on_to(f"{sitting}_hold")


def before_a_hold(sitting: str = "cased") -> Repairer:
    """Another repairer before the hold of an underpressure test, ten minutes on the clock."""
    return _standing_before_a_hold(sitting).copy()


def bore_of(repairer: Repairer, attempt: int) -> float:
    """Bore of the ring accepted in an attempt, mm."""
    job = repairer.desk.job
    assert job is not None
    ring = next(answer for answer in reversed(job.attempt_spans()[attempt - 1]) if answer.key == "ring")
    return float(next(text.split()[1] for text in ring.words if text.startswith("bore ")))
