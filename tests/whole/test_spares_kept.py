"""Spares of a set-up whose ring was kept for a larger glass, and what is said of their walls."""

from __future__ import annotations

import pytest

from bench.job import keys
from bench.seals.ring.spares import spares_left
from bench.seals.ring.text import sections
from bench.sheet.data import sheet_data
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


def test_a_spare_is_said_not_to_be_measured_and_the_bar_to_be_shorter(kept: Repairer) -> None:
    repairer = kept.copy().on_to("spare_2")
    assert "Its wall is not measured on the bar" in " ".join(repairer.step.consequence)
    repairer.on_to("dress")
    assert repairer.step.consequence[-1] == "Note it: * my shop."
    repairer.on_to("measure_again")
    job = repairer.desk.job
    assert job is not None
    data = sheet_data(job, finished=False)
    assert data["turned"]["spares_left"] == 2
    said = "Of the same set-up: 2 spare rings, their walls not measured on the bar."
    assert any(said in text for section in sections(data) for text in section.sentences)


def test_a_spare_is_turned_as_the_ring_was_each_tool_looked_at(kept: Repairer) -> None:
    """Parting warns where something is parted, the hole of the ring before is there, and spares are known."""
    repairer, steps = kept.copy().on_to("part"), []
    while repairer.asked != "dress":
        steps.append(repairer.step)
        repairer.answer()
    parting = [one for one in steps if "parting" in one.cautions]
    assert all("part: go to" in one.targets[-1].words for one in parting) and len(parting) == 3
    turned = [one for one in steps if one.kind == "action" and one not in parting]
    assert all("swarf" in one.cautions for one in turned if "rest:" not in one.targets[0].words)
    looks = [one for one in steps if one.kind == "safety"]
    assert len(looks) == 2 * 4, "after each change of tools"
    said = [text for one in turned for target in one.targets for text in target.before]
    assert not any(text.startswith("point at the face") or "fit tool" in text for text in said)
    assert sum("the hole goes on" in text for text in said) == 2
    ends = [one.choices[0].text.partition("; laid apart as ")[2] for one in parting]
    assert ends == ["", "spare 1", "spare 2, bore 0.02 mm tighter"]
