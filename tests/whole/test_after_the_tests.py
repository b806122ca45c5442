"""Every result of every test leads on: through the search, to another test, a ring, or an honest end."""

from __future__ import annotations

from collections import deque
from dataclasses import replace

import pytest

from bench.sheet.data import sheet_data
from rules.cautions import for_places
from rules.testing.hunt import RENEWED, Search, reached, search
from tests.campaigns.lathe_walker import recorded
from tests.whole.lathe_judge import fault
from tests.whole.places import SHORTEST, at
from tests.whole.repairer import Repairer
from tests.whole.seen import read

COVERED = {"hunt_crown_positions": "same"}


def of_a_verdict() -> Search:
    """The search after a tester's own verdict, without what only a reading shows."""
    graph = search()
    asked = {key: one for key, one in graph.questions.items() if not one.unread}
    onward = {key: one.unread for key, one in graph.questions.items() if one.unread}

    def led(place: str) -> str:
        while place in onward:
            leads = {one.key: one.leads_to for one in graph.questions[place].answers}
            place = leads[onward[place]]
        return place

    straight = {
        key: replace(one, answers=tuple(replace(way, leads_to=led(way.leads_to)) for way in one.answers))
        for key, one in asked.items()
    }
    return reached(Search(graph.start, straight, graph.conclusions))


def ways_through() -> list[dict[str, str]]:
    """Ways through the search that together use every answer to every question."""
    graph = of_a_verdict()
    ways: dict[str, tuple[tuple[str, str], ...]] = {graph.start: ()}
    queue, found = deque([graph.start]), []
    while queue:
        place = queue.popleft()
        for answer in graph.questions[place].answers:
            way = (*ways[place], (place, answer.key))
            found.append((answer.leads_to, way))
            if answer.leads_to not in ways and answer.leads_to not in graph.conclusions:
                ways[answer.leads_to] = way
                queue.append(answer.leads_to)
    ends = dict(reversed([(place, way) for place, way in found if place in graph.conclusions]))
    onward = {place: to_an_end(place) for place in graph.questions}
    whole = [(*way, *onward.get(place, ())) for place, way in found]
    return [{f"hunt_{key}": word for key, word in way} for way in [*whole, *ends.values()]]


def to_an_end(place: str) -> tuple[tuple[str, str], ...]:
    """The last answer to every further question, until a conclusion."""
    graph, way = of_a_verdict(), []
    while place not in graph.conclusions:
        answer = graph.questions[place].answers[-1]
        way.append((place, answer.key))
        place = answer.leads_to
    return tuple(way)


def test_every_answer_of_the_search_leads_to_a_conclusion_and_back_into_the_job() -> None:
    ways, seen, ends = ways_through(), set(), set()
    for sitting in ("empty", "cased"):
        failed = at(f"{sitting}_result")
        failed.wait(700)
        failed.give("fail")
        for way in ways:
            repairer = failed.copy()
            repairer.on_to(f"{sitting}_found", way)
            seen |= set(way.items())
            ends.add(repairer.step.say[0])
            lead = repairer.step.choices[0].word
            repairer.give(lead)
            check_lead(repairer, sitting, lead)
    graph = of_a_verdict()
    answers = {(f"hunt_{key}", one.key) for key, asked in graph.questions.items() for one in asked.answers}
    assert seen == answers
    assert {said for said in ends if "has been renewed" not in said} == {
        one.words.format(seal="ring") for one in graph.conclusions.values() if one.key != RENEWED
    }
    assert "Another seal leaked and has been renewed (the back)" in " ".join(ends)


@pytest.mark.parametrize(("way", "key"), [({}, "hunt_crown_positions"), (COVERED, "hunt_joint_glass")])
def test_pressure_raised_to_search_is_warned_of_as_a_test_is(way: dict[str, str], key: str) -> None:
    """Each time: the screen checked first, from a low pressure, vented before a joint is touched."""
    repairer = at("empty_result")
    repairer.give("fail")
    repairer.on_to(f"hunt_check_{key.removeprefix('hunt_')}", {"hunt_opened": "none", **way})
    assert repairer.step.kind == "safety" and "Raise it in steps" not in read(repairer.desk)
    repairer.answer()
    assert repairer.asked == key and repairer.step.guarded_by == (f"hunt_check_{key[5:]}",)
    warned = [one.title for one in for_places(repairer.step.cautions)]
    assert {"Compressed air stores energy", "Within the tester's rating", "Vent slowly"} <= set(warned)
    said = " ".join(repairer.step.say)
    assert said.index("has come down") < said.index("room temperature") < said.index("in steps: 0.5")
    kept = recorded(repairer.bench.entries)
    assert fault(kept, key, text=said) == ""
    assert fault(kept[:-1], key, text=said) != ""


def test_the_order_of_a_test_and_what_an_unknown_glass_may_do() -> None:
    """Stand, close, raise, wait; and the glass is warned of until its thickness is known."""
    repairer = at("empty_check")
    assert "It may break and splinter" in read(repairer.desk)
    repairer.answer()
    said = " ".join(repairer.step.say)
    order = ("room temperature", "Close the screen", "Raise it in steps: 0.5", "Wait for its verdict")
    assert sorted(map(said.index, order)) == [said.index(words) for words in order]


def test_a_tester_with_a_verdict_is_not_asked_what_it_cannot_show() -> None:
    repairer = at("empty_result")
    repairer.give("fail")
    assert [one.word for one in repairer.step.choices] == ["rate", "water", "gross", "loose"]
    repairer.give("rate")
    assert repairer.asked == "hunt_opened"


def check_lead(repairer: Repairer, sitting: str, lead: str) -> None:
    """The job goes on where the conclusion says; before another ring the commoner cause is asked."""
    if lead == "ring":
        assert repairer.asked == "leak_cause" and repairer.step.choices[0].word == "dirt"
        repairer.answer()
    job = repairer.desk.job
    assert job is not None
    wanted = {"ring": "ring", "measure": "measure_again", "hand_back": ""}
    wanted["test"] = "renewed" if sitting == "cased" else f"{sitting}_pressure"
    assert repairer.asked == wanted[lead], (sitting, lead)
    assert job.attempt == (2 if lead == "ring" else 1)


@pytest.mark.parametrize("sitting", ["empty", "cased"])
@pytest.mark.parametrize("lead", ["ring", "measure", "seen_to", "hand_back"])
def test_every_lead_of_the_search_ends_the_job(sitting: str, lead: str) -> None:
    repairer = at(f"{sitting}_result")
    repairer.on_to(
        "" if lead == "hand_back" else None,
        {f"{sitting}_result": "fail", **SHORTEST, f"{sitting}_found": lead},
    )
    if lead == "hand_back":
        assert repairer.asked == "" and repairer.desk.job is not None
        assert sheet_data(repairer.desk.job, finished=True)["ended"]
        return
    repairer.on_to("")
    assert repairer.keyed[-1] == "hand_back"


@pytest.mark.parametrize("sitting", ["empty", "cased"])
def test_a_test_that_could_not_be_judged_leads_on(sitting: str) -> None:
    repairer = at(f"{sitting}_result").on_to(f"{sitting}_unclear", {f"{sitting}_result": "not_judged"})
    after = {
        "again": f"{sitting}_pressure",
        "search": "hunt_kind",
        "go_on": "renewed" if sitting == "empty" else "hand_back",
    }
    for choice in repairer.step.choices:
        other = repairer.copy()
        other.give(choice.word)
        if choice.goto:
            assert other.step.key == choice.goto
        else:
            assert other.asked == after[choice.word]
    for _ in range(3):
        repairer.on_to(
            f"{sitting}_unclear", {f"{sitting}_unclear": "again", f"{sitting}_result": "not_judged"}
        )
    repairer.give("go_on")
    repairer.on_to("")


def test_another_test_after_the_last_one() -> None:
    repairer = at("hand_back")
    repairer.give("again")
    assert repairer.step.key == "cased_method"
    repairer.give("dry_pass_fail")
    assert repairer.asked == "cased_pressure"
    repairer.on_to("")
    assert repairer.desk.job is not None
    tests = sheet_data(repairer.desk.job, finished=True)["tests"]
    assert [test["sitting"] for test in tests] == ["empty", "cased", "cased"]


def test_a_test_soon_after_fitting_is_early_and_one_a_day_later_is_not() -> None:
    repairer = at("empty_pressure")
    repairer.on_to("renewed")
    repairer.wait(24 * 3600)
    repairer.open()
    repairer.on_to("")
    assert repairer.desk.job is not None
    tests = sheet_data(repairer.desk.job, finished=True)["tests"]
    assert [test["early"] for test in tests] == [True, False]
