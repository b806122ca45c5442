"""Plain lines say what is left of a hold, and its end; and take a number whose meaning was shown first."""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from threading import Thread

import pytest

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from bench.desk.hold import until_next_word
from bench.shop.shop import built_in
from screens.lines_in import by_thread, lines_from
from screens.plain import Plain
from tests.whole.hands import Clock, bench_in, lines
from tests.whole.script import Hand, Pair, picked
from tests.whole.scripts import STRAIGHT

BEFORE_A_HOLD: tuple[Pair, ...] = (*STRAIGHT, ("empty_method", "underpressure"))


@pytest.fixture(scope="module")
def holding(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a job before the hold of an underpressure test."""
    folder = tmp_path_factory.mktemp("holding")
    lines(folder, [Hand(BEFORE_A_HOLD, until="empty_hold")])
    return folder


def at_the_hold(holding: Path, tmp_path: Path, clock: Clock) -> tuple[Plain, io.StringIO]:
    """The same job opened in lines, its check answered."""
    (tmp_path / "jobs").mkdir()
    for path in (holding / "jobs").glob("*.toml"):
        (tmp_path / "jobs" / path.name).write_bytes(path.read_bytes())
    out, bench = io.StringIO(), bench_in(tmp_path, clock=clock)
    plain = Plain(
        Desk(hasty=True, bounce_ms=0), bench, out=out, wall=clock, now=clock.steady, boot=clock.steady
    )
    plain.start(next((tmp_path / "jobs").glob("*.toml")).name)
    plain.go_on()
    plain.prompt()
    assert plain.desk.step is not None and plain.desk.step.key == "empty_check"
    plain.answer(str(plain.desk.dealt.index(0) + 1))
    return plain, out


def since(out: io.StringIO) -> list[str]:
    """What was said since it was last asked for."""
    said = out.getvalue().splitlines()
    out.seek(0)
    out.truncate()
    return said


def test_the_minutes_left_are_said_and_the_end(holding: Path, tmp_path: Path) -> None:
    clock = Clock(step_s=0.0)
    plain, out = at_the_hold(holding, tmp_path, clock)
    plain.answer("1")
    plain.prompt()
    said = since(out)
    assert "= Another 5 min to hold, of 5 min." in said
    assert any(one.startswith("  1 pass - not yet: ") for one in said)
    assert not any("Let the air back" in one for one in said)
    wait, told = plain.due(woken=False), []
    while wait is not None:
        clock.wait(wait)
        wait = plain.due(woken=True)
        told.append([one for one in since(out) if "Another" in one])
    assert told == [*([f"= Another {left} min to hold, of 5 min."] for left in (4, 3, 2, 1)), []]
    plain.due(woken=False)
    assert since(out) == [], "the end is said once"


def test_at_the_end_what_to_do_now_is_said_and_asked(holding: Path, tmp_path: Path) -> None:
    clock = Clock(step_s=0.0)
    plain, out = at_the_hold(holding, tmp_path, clock)
    plain.answer("1")
    plain.prompt()
    since(out)
    clock.wait(301)
    plain.due(woken=True)
    said = since(out)
    assert said[0] == "= The time is over." and "= Let the air back in slowly; only then open." in said
    assert any(one.startswith("  1 pass - glass did not move") for one in said)
    assert said[-1].startswith("[empty_result]")


def test_an_answer_too_early_says_what_is_left(holding: Path, tmp_path: Path) -> None:
    clock = Clock(step_s=0.0)
    plain, out = at_the_hold(holding, tmp_path, clock)
    plain.answer("1")
    clock.wait(60)
    plain.answer("1")
    assert "! the hold is still to run. Another 4 min to hold, of 5 min." in since(out)


def test_a_long_hold_is_told_of_seldom() -> None:
    from tests.whole.places import before_a_hold

    repairer = before_a_hold()
    repairer.answer()
    repairer.look()
    assert until_next_word(repairer.desk, repairer.step) == pytest.approx(298.0)


def with_shop(change: Callable[..., object], monkeypatch: pytest.MonkeyPatch) -> None:
    """The shop of every folder, changed."""
    monkeypatch.setattr("bench.workbench.shop_in", lambda _folder: change(built_in()))


def inch_lines(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *typed: str) -> tuple[Desk, str]:
    """Lines in a shop that works in inch, up to the first reading of the seat and these."""
    with_shop(lambda shop: replace(shop, works_in="inch"), monkeypatch)
    return lines(tmp_path, [Hand(until="case_bore_1"), *typed])


def test_enter_again_takes_what_was_converted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk, said = inch_lines(tmp_path, monkeypatch, "1.434in", "")
    assert "Enter again takes it" in said and desk.step is not None and desk.step.key == "case_bore_2"
    assert desk.job is not None and desk.job.answers[-1].word == "1.434 in"


def test_another_number_or_a_minus_takes_its_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk, said = inch_lines(tmp_path, monkeypatch, "1.434in", "1.436in", "-", "", "1.435in", "")
    assert said.count("Enter again takes it") == 3
    assert desk.job is not None and desk.job.answers[-1].word == "1.435 in"
    assert [one.key for one in desk.job.answers].count("case_bore_1") == 1


def test_a_shorter_hold_is_taken_in_lines_too(holding: Path, tmp_path: Path) -> None:
    plain, out = at_the_hold(holding, tmp_path, Clock(step_s=0.0))
    for text in ("*", str(NUMBERS["usual"])):
        plain.answer(text)
    for text in (picked(plain.desk, "empty_minutes"), "002"):
        plain.answer(text)
    assert "Enter again takes it" in since(out)[-1]
    plain.answer("")
    assert plain.desk.step is not None and "2 min" in plain.desk.step.choices[0].text


@pytest.mark.parametrize("way", [lines_from, by_thread])
def test_lines_are_read_as_they_come_and_the_wait_is_told(way: Callable[..., Iterator[str]]) -> None:
    """A line in two pieces, ends of three kinds, and a word in between when something is due."""
    read, write = os.pipe()
    woken: list[bool] = []

    def due(*, woken: bool) -> float | None:
        waits.append(woken)
        if woken:
            os.write(write, b"two\r\nthree\rfour")
            os.close(write)
            return None
        return 0.01 if len(waits) == 2 else None

    waits = woken
    with os.fdopen(read, encoding="utf-8") as source:
        os.write(write, b"one\n")
        assert list(way(source, due)) == ["one\n", "two\n", "three\n", "four"]
    assert woken[:3] == [False, False, True]


def test_a_text_without_a_descriptor_is_only_read() -> None:
    assert list(lines_from(io.StringIO("a\nb"), lambda *, woken: 0.0)) == ["a\n", "b"]


def test_input_that_ends_while_something_is_due_ends_the_lines() -> None:
    read, write = os.pipe()
    closing = Thread(target=os.close, args=(write,))
    with os.fdopen(read, encoding="utf-8") as source:
        closing.start()
        assert list(lines_from(source, lambda *, woken: 60.0)) == []
    closing.join()
