"""What goes wrong at the lathe or under the press, and the ring after it."""

from __future__ import annotations

import re

import pytest

from bench.job.job import replay
from bench.sheet.data import sheet_data
from bench.shop.shop import built_in
from bench.stages.whole import walk
from tests.whole.places import at, bore_of
from tests.whole.seen import read


def test_an_outside_past_its_size_keeps_the_wall_by_a_smaller_bore() -> None:
    repairer = at("outside_reading")
    wall = 0.620
    repairer.on_to("past_outside", {"outside_reading": "36.350", "outside_reading_2": "36.352"})
    repairer.give("smaller_bore")
    assert repairer.asked == "tool_boring_again"
    repairer.on_to("wall_1")
    assert repairer.step.gauge is not None and repairer.step.gauge.target == pytest.approx(wall, abs=0.006)
    repairer.on_to("")
    assert repairer.desk.job is not None and repairer.desk.job.attempt == 1


@pytest.mark.parametrize("word", ["fresh", "smaller_bore"])
def test_an_outside_past_its_size_always_has_a_way(word: str) -> None:
    repairer = at("outside_reading")
    repairer.on_to("past_outside", {"outside_reading": "36.350", "outside_reading_2": "36.352"})
    repairer.give(word)
    repairer.on_to("")
    assert repairer.desk.job is not None
    assert repairer.desk.job.attempt == (2 if word == "fresh" else 1)


def test_a_bore_past_its_size_is_a_fresh_ring_or_a_larger_glass() -> None:
    past = at("wall_reading").on_to("past_bore", {"wall_reading": "0.560", "wall_reading_2": "0.561"})
    fresh_one = past.copy()
    fresh_one.give("fresh")
    assert fresh_one.asked == "fresh_ring"
    fresh_one.on_to("ring")
    assert fresh_one.desk.job is not None and fresh_one.desk.job.attempt == 2
    past.give("larger_glass")
    past.on_to("case_bore_1", {"measure_again": "done"})
    walls = {f"hand_wall_{place}": "0.561" for place in range(1, 5)}
    past.on_to("", {"glass_1": "35.40", "glass_2": "35.41", **walls, "hand_height": "1.20"})
    assert past.keyed.count("glass_1") == 2 and past.keyed.count("rough_outside") == 1, (
        "no second ring is cut"
    )


def test_a_wrong_tool_number_asks_that_tool_alone_again() -> None:
    repairer = at("tool_turning")
    done = repairer.keyed.count("rough_bore")
    repairer.type("9")
    assert repairer.asked == "tool_turning"
    repairer.answer()
    assert repairer.asked == "finish_outside" and repairer.keyed.count("rough_bore") == done


def test_a_wrong_check_starts_the_list_again_without_telling_the_right_answer() -> None:
    repairer = at("lathe_key")
    right = int(repairer.right())
    repairer.type(str(right % 3 + 1))
    assert repairer.asked == "lathe_hands"
    assert "holder" not in repairer.desk.message and repairer.desk.alarm
    before = len(repairer.bench.entries)
    repairer.pick("undo")
    assert len(repairer.bench.entries) == before, "a wrong check was taken back"
    repairer.on_to("rough_outside")


def test_a_spoiled_piece_begins_another_ring_and_can_be_taken_back() -> None:
    repairer = at("drill")
    repairer.pick("spoiled")
    assert repairer.asked == "ring" and repairer.desk.job is not None and repairer.desk.job.attempt == 2
    back = repairer.copy()
    back.pick("undo")
    assert back.asked == "drill" and back.desk.job is not None and back.desk.job.attempt == 1
    assert "Taken back: ring 1 was given up as spoiled; ring 2 is not begun" in read(back.desk)
    repairer.on_to("")
    assert repairer.desk.job.attempt == 2
    data = sheet_data(repairer.desk.job, finished=True)
    assert [one["outcome"] for one in data["attempts"]] == ["spoiled", "home"]


@pytest.mark.parametrize("spoiled_before", [0, 1])
def test_a_piece_spoiled_whose_mark_was_never_written_begins_another_ring_when_opened(
    spoiled_before: int,
) -> None:
    """The program was killed between the word and the mark: what was accepted holds all the same."""
    repairer = at("drill")
    for _ in range(spoiled_before):
        repairer.pick("spoiled")
        repairer.on_to("drill")
    repairer.pick("spoiled")
    kept = repairer.bench.entries
    cut_off = next(at for at in range(len(kept) - 1, 0, -1) if kept[at].key == "spoiled") + 1
    del kept[cut_off:]
    repairer.feed(repairer.bench.opened())
    job = repairer.desk.job
    assert job is not None and job.attempt == 1 + spoiled_before
    assert repairer.asked == "attempt", "the spoiled piece would be gone on with"
    repairer.type("1")
    assert repairer.asked == "ring"
    job = repairer.desk.job
    assert job is not None and job.attempt == 2 + spoiled_before
    assert [mark.key for mark in job.marks].count("attempt") == 1 + spoiled_before
    repairer.on_to("")
    data = sheet_data(repairer.desk.job, finished=True) if repairer.desk.job else {}
    assert [one["outcome"] for one in data["attempts"]] == ["spoiled"] * (1 + spoiled_before) + ["home"]


def test_a_third_attempt_works_as_the_second() -> None:
    """Too easy, too easy, home: each ring tighter than the one before,
    every check and reading asked again.
    """
    repairer = at("fit_outcome")
    spans = []
    for _ in range(2):
        repairer.on_to("ring", {"fit_outcome": "too_easy", "remake": "ring"})
        before = len(repairer.keyed)
        repairer.on_to("fit_outcome")
        spans.append(repairer.keyed[before:])
    assert spans[0] == spans[1]
    assert "lathe_hands" in spans[0] and "wall_1" in spans[0] and "fit_ready" in spans[0]
    assert not any("2" in key.replace("wall_2", "") for key in spans[1])
    repairer.on_to("")
    assert bore_of(repairer, 1) > bore_of(repairer, 2) > bore_of(repairer, 3)
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=True)
    assert [one["outcome"] for one in data["attempts"]] == ["too_easy", "too_easy", "home"]


@pytest.mark.parametrize("outcome", ["too_easy", "would_not_start", "shaved", "chipped", "bezel_moved"])
def test_every_outcome_of_pressing_leads_on(outcome: str) -> None:
    repairer = at("fit_outcome")
    repairer.give(outcome)
    if outcome in ("shaved", "chipped"):
        assert repairer.asked == "fit_cause"
        repairer.give("none")
    assert repairer.asked == "remake"
    for choice in repairer.step.choices:
        other = repairer.copy()
        other.give(choice.word)
        if choice.word == "keep":
            assert other.desk.page == "jobs"
        elif choice.word == "hand_back":
            assert other.asked == ""
        elif choice.word == "measure":
            other.on_to("case_bore_1", {"measure_again": "done"})
        else:
            assert other.asked == "ring"
            other.on_to("")


def test_a_job_ended_before_the_cause_was_asked_stays_ended() -> None:
    """A file in which a shaved ring was handed back and nobody was asked by what it was shaved."""
    repairer = at("fit_outcome")
    repairer.on_to("", {"fit_outcome": "shaved", "fit_cause": "none", "remake": "hand_back"})
    repairer.bench.entries = [entry for entry in repairer.bench.entries if entry.key != "fit_cause"]
    job = replay(repairer.bench.head, repairer.bench.entries)
    assert walk(job, built_in()).open is None


def test_a_chipped_glass_is_measured_again_and_the_old_change_is_forgotten() -> None:
    """What the loose ring taught was another glass:
    the ring for the new one is proposed from its own readings.
    """
    repairer = at("fit_outcome")
    repairer.on_to("ring", {"fit_outcome": "too_easy", "remake": "ring"})
    repairer.on_to("case_bore_1", {"fit_outcome": "chipped", "remake": "measure", "measure_again": "done"})
    repairer.on_to("lathe_hands")
    assert repairer.desk.job is not None and repairer.desk.job.attempt == 3
    assert bore_of(repairer, 3) == bore_of(repairer, 1) != bore_of(repairer, 2)


def test_spares_are_offered_first_and_only_while_there_are_any() -> None:
    repairer = at("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("2")
    repairer.on_to("remake", {"fit_outcome": "too_easy"})
    assert [choice.word for choice in repairer.step.choices[:3]] == ["spare_tighter", "spare", "ring"]
    turned = repairer.keyed.count("part")
    repairer.give("spare_tighter")
    repairer.on_to("remake", {"fit_outcome": "too_easy"})
    assert repairer.keyed.count("part") == turned, "a spare was turned a second time"
    assert bore_of(repairer, 2) == pytest.approx(bore_of(repairer, 1) - 0.02)
    assert repairer.step.choices[0].word == "ring", "a spare looser than one that went in too easily"
    repairer.give("ring")
    repairer.on_to("wall_1")
    assert repairer.keyed.count("part") == turned + 1, "a ring that is no spare was not turned"


def test_another_size_than_the_spare_has_to_be_turned() -> None:
    repairer = at("ring")
    repairer.pick("usual")
    repairer.pick_key("spares")
    repairer.give("1")
    repairer.on_to("ring", {"fit_outcome": "too_easy", "remake": "spare"})
    repairer.give("bore")
    repairer.type("35.12")
    repairer.on_to("lathe_hands")


def test_what_a_spoiled_ring_left_on_the_bar_comes_off_first() -> None:
    """Said with the checks of the next ring, as deep as the drill went; no more once that one is begun."""
    repairer = at("finish_outside")
    repairer.pick("spoiled")
    repairer.on_to("lathe_bar")
    said = " ".join(repairer.step.to_do)
    assert re.search(r"still on the bar: part or saw it off first, \d+\.\d mm of it or more, then face", said)
    repairer.on_to("drill")
    assert "still on the bar" not in " ".join((*repairer.step.to_do, *repairer.step.consequence))


def test_a_ring_that_was_parted_leaves_nothing_to_saw_off() -> None:
    repairer = at("fit_ready").on_to("ring", {"fit_outcome": "shaved"})
    repairer.on_to("lathe_bar")
    assert "still on the bar" not in " ".join(repairer.step.to_do)
