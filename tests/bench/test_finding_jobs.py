"""Jobs found by number, watch, size and result: by keypad, by letters, by the command, and among many."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from bench.begin import begin
from bench.desk.desk import Desk
from bench.desk.effects import Open
from bench.desk.finding import DUE, DUE_WORDS, is_picked, typed
from bench.desk.jobs_page import still_looking
from bench.desk.token import Token
from bench.desk.typed import AnswerLine
from bench.desk.update import update
from bench.file.codec import render_entry
from bench.file.entry import Entry
from bench.file.load import load
from bench.job_list import FOUND_BY
from bench.refusal import DONE
from bench.shop.shop import built_in
from bench.summary import glance, summary
from bench.workbench import Workbench
from ringwright import main
from screens.look import Look
from screens.view import view
from tests.bench.test_list_of_many import filled
from tests.bench.test_standing import SAMPLES

FERRY, HARBOUR, NET, LIGHTHOUSE, TIDE, REEF, WEIR, BUOY = (
    *("208", "214", "221", "226", "231", "236", "238", "243"),
)
FILES = {path.name[2:5]: path.read_bytes() for path in SAMPLES}


@pytest.fixture
def samples(tmp_path: Path) -> Path:
    """A folder with the sample jobs."""
    (tmp_path / "jobs").mkdir()
    for path in SAMPLES:
        (tmp_path / "jobs" / path.name).write_bytes(path.read_bytes())
    return tmp_path


def keyed(desk: Desk, bench: Workbench, texts: Sequence[str]) -> tuple[Desk, list[object]]:
    """The desk after some keys, everything carried out but the opening of a job; and what was asked."""
    asked: list[object] = []
    for text in texts:
        desk, effects = update(desk, Token("key", text))
        asked += effects
        for arrival in bench.carry_out([one for one in effects if not isinstance(one, Open)]):
            desk, _ = update(desk, arrival)
    while still_looking(desk):
        desk, effects = update(desk, Token("tick"))
        for arrival in bench.carry_out(effects):
            desk, _ = update(desk, arrival)
    return desk, asked


def listed_by(folder: Path, texts: Sequence[str]) -> tuple[list[str], Desk, list[object]]:
    """Numbers of the jobs on the list after some keys."""
    bench = Workbench(folder)
    desk, _ = update(Desk(bounce_ms=0, hasty=True), bench.listed(0))
    desk, asked = keyed(desk, bench, texts)
    return [name[2:5] for name in desk.fits], desk, asked


@pytest.mark.parametrize(
    ("keys", "found"),
    [
        ("2", [BUOY, WEIR, REEF, TIDE, LIGHTHOUSE, NET, HARBOUR, FERRY]),
        ("3066", [NET]),
        ("30.66", [NET]),
        ("32.92", [FERRY]),
        ("2026.03.02", [NET]),
        ("20260302", [NET]),
        ("2026.04", []),
        ("0214", [HARBOUR]),
        ([f"char:{letter}" for letter in "aceta"], [REEF, LIGHTHOUSE, NET, HARBOUR, FERRY]),
        ("29.5", [NET]),
        ("33.0", [FERRY]),
        ("31.76", [REEF]),
        ("306", []),
        (["*", "24", "pass"], [BUOY, WEIR, REEF, TIDE, LIGHTHOUSE, HARBOUR, FERRY]),
        (["*", "24", "not tested"], [NET]),
        (["*", "25", "H"], [HARBOUR]),
        (["*", "25", "other"], []),
        ([f"char:{letter}" for letter in "HaRb"], [HARBOUR]),
        ([f"char:{letter}" for letter in "pass"] + [" "] + list("208"), [FERRY]),
    ],
)
def test_jobs_are_found_by_keypad_and_by_letters(
    samples: Path, keys: Sequence[str], found: list[str]
) -> None:
    if keys[0] == "*":
        from bench.desk.everything import PICKS
        from bench.desk.pages import number_at

        what = {"24": "result", "25": "watch"}[keys[1]]
        nth = [word for word, _ in PICKS[what]].index(keys[2])
        keys = ["list", *keys[1], "enter", *str(number_at(nth)), "enter"]
    names, desk, _ = listed_by(samples, keys)
    assert names == found
    if heading := {"24": "only ", "25": "only watches in"}.get("".join(keys[1:3])):
        assert heading in "".join(text for text, _ in view(desk, Look("ascii"))[0])


def test_enter_opens_what_one_size_finds_and_never_another_number(samples: Path) -> None:
    _, _, asked = listed_by(samples, [*"30.66", "enter"])
    assert asked[-1:] == [Open("00221-net-mender.toml")]
    _, desk, asked = listed_by(samples, [*"3066", "enter"])
    assert not any(isinstance(one, Open) for one in asked)
    assert desk.message.startswith("There is no job 3066.") and "1 with that size" in desk.message


def test_watches_that_are_due_for_a_test_are_picked_and_said(samples: Path) -> None:
    bench = Workbench(samples)
    desk, _ = update(Desk(bounce_ms=0, hasty=True), bench.listed(0))

    def on(day: str) -> Desk:
        later = replace(desk, wall=f"{day}T09:00:00+00:00", result_only=DUE)
        return keyed(later, bench, ["9", "back"])[0]

    assert on("2027-03-02").fits == () and len(on("2027-03-03").fits) == 7
    page = "\n".join("".join(text for text, _ in spans) for spans in view(on("2027-03-03"), Look("ascii")))
    assert page.count("pass, test due since 2027-03-03") == 7 and f"only {DUE_WORDS}" in page


def test_a_job_found_by_size_shows_its_sizes(samples: Path) -> None:
    _, desk, _ = listed_by(samples, "30.66")
    page = "\n".join("".join(text for text, _ in spans) for spans in view(desk, Look("ascii")))
    assert "seat 30.66 mm; glass 29.51 mm" in page


def test_the_command_finds_and_says_since_when(samples: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def run(*words: str) -> str:
        assert main(["--folder", str(samples), "jobs", *words]) == DONE
        return capsys.readouterr().out

    for words, number in ((["ferry"], FERRY), (["30,66"], NET), (["pass", "lighthouse"], LIGHTHOUSE)):
        (line,) = run("--find", *words).splitlines()
        assert line.split()[0] == number
    assert "turning, since 2026-03-02 " in run("--find", NET)
    assert "finished, pass, since 2026-03-03 " in run("--find", FERRY)
    (row,) = json.loads(run("--json", "--find", NET))
    assert (row["seat"], row["glass"], row["result"]) == (
        ["30.66 mm", "30.68 mm"],
        ["29.51 mm", "29.51 mm"],
        "",
    )


def test_the_command_finds_remark_date_plastic_and_ring(
    samples: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with begin(samples, built_in(), number=300, like=None, wall=lambda: "") as session:
        for key, value in (("remark", "Crown to be seen to"), ("plastic", "pa66"), ("linked", FERRY)):
            session.append(kind="answer", key=key, value=value, at="2026-05-09T08:00:00+02:00")
    found = {"crown seen": ["300"], "pa66": ["300"], "2026-05-09": ["300"], "2026.05": ["300"]}
    for words, numbers in {**found, "pa66 pass": [], "32,92": [FERRY], "34,19 fin": [FERRY]}.items():
        assert main(["--folder", str(samples), "jobs", "--json", "--find", *words.split()]) == DONE
        rows = json.loads(capsys.readouterr().out)
        assert [row["job"] for row in rows] == numbers, words
    assert (rows[0]["ring"], rows[0]["retest"]) == (["34.19 mm", "32.92 mm", "1.10 mm"], "2027-03-03")


def test_a_second_search_among_many_is_answered_from_the_index(tmp_path: Path) -> None:
    filled(tmp_path, list(FILES.values()), 300)
    for first in (True, False):
        bench = Workbench(tmp_path)
        desk, _ = update(Desk(bounce_ms=0, hasty=True), bench.listed())
        desk = replace(desk, line=AnswerLine("30.6"))
        desk, effects = update(desk, Token("key", "6"))
        for arrival in bench.carry_out(effects):
            desk, _ = update(desk, arrival)
        assert still_looking(desk) is first
        desk, _ = keyed(desk, bench, "")
        assert len(desk.fits) == len(range(list(FILES).index(NET), 300, len(FILES)))


def test_a_pass_keyed_over_a_fail_is_not_said_before_it_holds() -> None:
    loaded = load(FILES[FERRY])
    assert loaded.head is not None
    last = loaded.usable[-1]

    def after(*words: tuple[str, str]) -> dict[str, str]:
        more = [
            Entry(n=last.n + n, at=last.at, kind="answer", key=key, value=word)
            for n, (key, word) in enumerate(words, 1)
        ]
        salt = loaded.head.id if loaded.head else ""
        said = glance(FILES[FERRY] + b"".join(render_entry(one, salt=salt) for one in more))
        assert said is not None
        return said

    fail, good, wrong = (
        ("cased_result", "fail"),
        ("cased_result", "pass"),
        ("cased_correction", "keyed_wrong"),
    )
    again = ("cased_hold", "start")
    assert after(fail)["result"] == after(again, fail, good)["result"] == "fail"
    assert after(again, fail, good, wrong, good)["result"] == after(fail, again, good)["result"] == "pass"


@pytest.mark.parametrize("number", FILES)
def test_the_quick_look_and_the_route_say_the_same(number: str) -> None:
    quick, whole = glance(FILES[number]), summary(load(FILES[number]), built_in())
    assert quick is not None and quick["ring"] and quick["plastic"]
    assert bool(quick["seat"] and quick["glass"]) is (number not in (TIDE, WEIR, BUOY)), (
        "a seal of another joint has neither"
    )
    assert {name: quick[name] for name in FOUND_BY} == {name: whole[name] for name in FOUND_BY}


def test_a_scrolled_list_keeps_its_place_while_rows_arrive(samples: Path) -> None:
    _, desk, _ = listed_by(samples, [f"char:{letter}" for letter in "e"])
    scrolled = replace(desk, scroll=1)
    after, _ = update(scrolled, Token("tick"))
    assert after.scroll == 1


def test_what_is_listed_is_what_fits_after_every_key(samples: Path) -> None:
    """Typing on goes through what fitted before, which is the same as going through all of them."""
    bench = Workbench(samples)
    desk, _ = update(Desk(bounce_ms=0, hasty=True), bench.listed(0))
    letters = [f"char:{one}" for one in "arb"]
    day = (*"2026.03.02", *("back",) * 10)
    for key in (*day, *"30", "6", "6", *("back",) * 4, "2", "1", "back", *letters, "back", *"0"):
        desk, _ = keyed(desk, bench, [key])
        text = "" if desk.line.text == "0" else desk.line.text
        whole = [
            name for name in desk.names if is_picked(desk, name) and (not text or typed(desk, (name,), text))
        ]
        assert list(desk.fits) == whole, (key, desk.line.text)
