"""Spares of a set-up whose ring was kept for a larger glass, and what is said of their walls."""

from __future__ import annotations

import pytest

from bench.job import keys
from bench.seals.ring.spares import spares_left
from tests.whole.repairer import Repairer, fresh


@pytest.fixture(scope="module")
def kept() -> Repairer:
    """Two spares turned, and the ring, its bore too large, parted and kept for a larger glass."""
    repairer = fresh().on_to("ring")
    repairer.pick("usual")
    repairer.pick_key(keys.SPARES)
    repairer.type("3")
    repairer.on_to("past_bore", {"wall_reading": "0.560", "wall_reading_2": "0.561"})
    repairer.give("larger_glass")
    return repairer


def test_the_ring_kept_for_a_larger_glass_is_none_of_the_spares(kept: Repairer) -> None:
    repairer = kept.copy().on_to("case_bore_1", {"measure_again": "done"})
    walls = {f"hand_wall_{place}": "0.561" for place in range(1, 5)}
    repairer.on_to("fit_ready", {"glass_1": "35.40", "glass_2": "35.41", **walls, "hand_height": "1.20"})
    job = repairer.desk.job
    assert job is not None and job.attempt == 2
    assert [one.word for one in spares_left(job)] == ["spare", "spare_tighter"]
