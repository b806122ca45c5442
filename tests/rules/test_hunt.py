"""The search for a leak: every path ends, none loops, every conclusion can be reached."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from rules.checks import OutOfRange
from rules.testing.air import fixed_to_reference, laminar_to_reference
from rules.testing.hunt import BACK, GLASS, JOINTS, Conclusion, Search, SearchQuestion, next_step, search


def paths(graph: Search, place: str | None = None, walked: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every way through the graph, as the places walked; raises on a loop or a dead end."""
    place = place or graph.start
    if place in walked:
        raise AssertionError(f"loop at {place}: {walked}")
    walked = (*walked, place)
    if place in graph.conclusions:
        yield walked
        return
    if place not in graph.questions:
        raise AssertionError(f"{walked[-2]} leads to {place}, which is neither question nor conclusion")
    if len(graph.questions[place].answers) < 2:
        raise AssertionError(f"{place} leaves no choice")
    for answer in graph.questions[place].answers:
        yield from paths(graph, answer.leads_to, walked)


def test_every_path_ends_and_everything_is_reached() -> None:
    graph = search()
    walked = list(paths(graph))
    assert {way[-1] for way in walked} == set(graph.conclusions)
    assert {place for way in walked for place in way[:-1]} == set(graph.questions)
    assert max(len(way) for way in walked) <= 14
    assert len(walked) > 50


@pytest.mark.parametrize("joint", [joint for joint in JOINTS if joint != GLASS])
def test_every_path_of_another_joint_ends_too(joint: str) -> None:
    """Its own joint is looked at twice at most, and the glass is one seal among others there."""
    ends = {way[-1] for way in paths(search(joint))}
    own = "new_own" if joint == BACK else "new_oring"
    assert own in ends and not ends & {"new_ring", "new_glass"} and ends <= set(search(joint).conclusions)


def test_the_checker_sees_a_loop_and_a_dead_end() -> None:
    graph = search()
    question = graph.questions["seat_sound"]
    for leads_to in ("kind", "nowhere"):
        answers = (*question.answers[:-1], type(question.answers[0])("x", "x", leads_to))
        broken = SearchQuestion(question.key, question.ask, question.why, answers)
        with pytest.raises(AssertionError):
            list(paths(Search(graph.start, {**graph.questions, "seat_sound": broken}, graph.conclusions)))


def test_the_function_walks_the_same_paths() -> None:
    """Answer each question in each way it offers, through the pure function alone."""
    ends: set[str] = set()
    open_answers: list[dict[str, str]] = [{}]
    while open_answers:
        answers = open_answers.pop()
        step = next_step(answers, "ring")
        if isinstance(step, Conclusion):
            ends.add(step.key)
            continue
        assert step.key not in answers
        open_answers += [{**answers, step.key: answer.key} for answer in step.answers]
    assert ends == set(search().conclusions)


def test_where_the_job_goes_on() -> None:
    goes_to = {key: one.goes_to for key, one in search().conclusions.items()}
    assert set(goes_to.values()) == {"ring", "measure", "test", "hand_back"}
    assert goes_to["new_ring"] == "ring"
    assert "not water-resistant" in search().conclusions["hand_back"].words


def test_answers_off_the_path_do_not_count_and_wrong_ones_are_refused() -> None:
    first = next_step({"bubbles": "glass"}, "ring")
    assert isinstance(first, SearchQuestion) and first.key == search().start
    with pytest.raises(OutOfRange, match="known are"):
        next_step({first.key: "perhaps"}, "ring")


def test_questions_fit_a_keypad_and_a_narrow_window() -> None:
    for question in search().questions.values():
        assert 2 <= len(question.answers) <= 9
        assert len({answer.key for answer in question.answers}) == len(question.answers)
        assert all(len(answer.text) <= 50 for answer in question.answers)


def test_the_ratios_asked_for_are_those_of_the_two_flow_laws() -> None:
    """2 bar against 1 bar: 2.00 for a fixed opening, 2.66 for a laminar path."""
    texts = {one.key: one.text for one in search().questions["two_pressures"].answers}
    fixed, laminar = fixed_to_reference(1.0), laminar_to_reference(1.0)
    assert f"Below {fixed:.1f}" in texts["closes"]
    assert f"{fixed:.1f} to {laminar:.1f}" in texts["steady"]
    assert f"Above {laminar:.1f}" in texts["opens"]
