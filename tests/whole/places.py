"""Places in a straight job from which a test goes on; each is walked to once."""

from __future__ import annotations

from functools import lru_cache

from tests.whole.repairer import Repairer, fresh

SHORTEST = {
    "hunt_kind": "rate",
    "hunt_settled": "zero",
    "hunt_two_pressures": "opens",
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


def bore_of(repairer: Repairer, attempt: int) -> float:
    """Bore of the ring accepted in an attempt, mm."""
    job = repairer.desk.job
    assert job is not None
    ring = next(answer for answer in reversed(job.attempt_spans()[attempt - 1]) if answer.key == "ring")
    return float(next(text.split()[1] for text in ring.words if text.startswith("bore ")))
