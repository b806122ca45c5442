"""Every result of every test leads on: through the search, to another test, a ring, or an honest end."""

from __future__ import annotations

from collections import deque

import pytest

from bench.sheet.data import sheet_data
from rules.testing.hunt import search
from tests.whole.places import SHORTEST, at
from tests.whole.repairer import Repairer


def ways_through() -> list[dict[str, str]]:
    """Ways through the search that together use every answer to every question."""
    graph = search()
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
    graph, way = search(), []
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
    graph = search()
    answers = {(f"hunt_{key}", one.key) for key, asked in graph.questions.items() for one in asked.answers}
    assert seen == answers
    assert ends == {one.words.format(seal="ring") for one in graph.conclusions.values()}


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
@pytest.mark.parametrize("lead", ["ring", "measure", "test", "hand_back"])
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
