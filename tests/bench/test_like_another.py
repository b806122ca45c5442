"""A job like an old one: what was chosen there is offered, what was read is never taken over; linked jobs."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from bench.begin import begin
from bench.desk.desk import Desk
from bench.desk.effects import Start
from bench.desk.entries import NUMBERS
from bench.desk.token import Token
from bench.desk.update import update
from bench.edits.stored import read
from bench.file.slug import JOBS
from bench.refusal import BAD_INPUT, DONE
from bench.seals import SEALS
from bench.shop.shop import built_in
from bench.stages.like import as_there, known_steps
from bench.stages.whole import walk
from bench.workbench import Workbench
from ringwright import main
from screens.look import Look
from screens.view import view

AT = "2026-03-02T09:00:00+00:00"
OLD = {
    "watch": "Buoy painter, hand-wound",
    "hold": "behind",
    "case_bore_1": "31.42 mm",
    "glass_material": "acrylic",
    "glass_1": "30.31 mm",
    "seat_depth": "1.45 mm",
    "plastic": "pa66",
    "cased_method": "underpressure",
}
"""What was answered in the old job; the invented watch of a painter of buoys."""
CHOSEN = {"hold", "glass_material", "plastic", "cased_method"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the old job, number 47."""
    with begin(tmp_path, built_in(), number=47, like=None, wall=lambda: AT) as session:
        for key, word in OLD.items():
            session.append(kind="answer", key=key, value=word, at=AT)
    return tmp_path


class Bench:
    """A desk over a real folder."""

    def __init__(self, folder: Path) -> None:
        self.bench, self.at = Workbench(folder), 100.0
        self.desk, _ = update(Desk(bounce_ms=0, hasty=True), self.bench.listed())

    def key(self, *texts: str) -> Desk:
        """Keys, each carried out."""
        for text in texts:
            self.at += 3.0
            todo: list[object] = [Token("key", text, at=self.at, wall=AT)]
            while todo:
                self.desk, effects = update(self.desk, todo.pop(0))  # type: ignore[arg-type]
                todo += self.bench.carry_out(effects)
        return self.desk

    @property
    def page(self) -> str:
        """What is seen."""
        return "\n".join("".join(text for text, _ in spans) for spans in view(self.desk, Look("ascii")))


def kept(folder: Path, name: str) -> list[tuple[str, str, object]]:
    """Kind, key and value of every entry of a file, read as plain TOML."""
    tree = tomllib.loads((folder / JOBS / name).read_text(encoding="utf-8"))
    return [(one["kind"], one["key"], one["value"]) for one in tree["entry"]]


def test_what_was_chosen_is_offered_and_what_was_read_is_measured_again(folder: Path) -> None:
    at = Bench(folder)
    assert "A new job like job 47, Buoy painter, hand-wound: 0 Enter" in at.key(*"047", "enter").message
    at.key("0", "enter")
    assert "One like job 47" in at.page and "Plastic of the ring: nylon 66 (PA 66)" in at.page
    assert "31.42" not in at.page and "30.31" not in at.page and "Buoy" not in at.page
    at.key("1", "enter", "1", "enter", "1", "enter")
    assert at.desk.step is not None and at.desk.step.key == "hold"
    assert at.desk.step.choices[0].word == "behind" and "as in job 47" in at.page
    assert len(at.desk.step.choices) == 7
    at.key("1", "enter")
    assert at.desk.step.key == "case_bore_1"
    at.bench.close()
    entries = kept(folder, "00048.toml")
    assert next(value for kind, key, value in entries if (kind, key) == ("mark", "like"))[0] == "47"  # type: ignore[index]
    answers = {
        key: value[0] if isinstance(value, list) else value
        for kind, key, value in entries
        if kind == "answer"
    }
    assert (answers["glass_material"], answers["plastic"], answers["hold"]) == ("acrylic", "pa66", "behind")
    assert not {"case_bore_1", "glass_1", "seat_depth", "watch"} & answers.keys()


def test_only_the_number_is_kept_where_the_offer_is_not_taken(folder: Path) -> None:
    at = Bench(folder)
    at.key(*"047", "enter", "0", "enter", "2", "enter", "1", "enter", "1", "enter")
    assert at.desk.step is not None and at.desk.step.choices[0].word == "front"
    assert at.desk.job is not None and at.desk.job.newest("plastic") is None


def test_the_method_of_the_old_job_is_the_usual_one_where_it_is_allowed(folder: Path) -> None:
    assert main(["--folder", str(folder), "new", "--like", "47"]) == DONE
    job, _ = read(folder / JOBS / "00048.toml", built_in())
    found = walk(job, built_in())
    assert found.open is not None and found.open.key == "like_taken"
    mark = job.newest("like")
    assert mark is not None and f"cased_method {OLD['cased_method']}" in mark.words
    asked = known_steps(SEALS["ring"], built_in())[-1]
    assert asked.key == "cased_method" and asked.usual != OLD["cased_method"]
    assert as_there(asked, OLD["cased_method"], "47").usual == OLD["cased_method"]
    barred = replace(asked, choices=tuple(one for one in asked.choices if one.word != OLD["cased_method"]))
    assert as_there(barred, OLD["cased_method"], "47") == barred


@pytest.mark.parametrize("seal", SEALS.values(), ids=list(SEALS))
def test_nothing_that_is_read_can_be_taken_over(seal: object) -> None:
    steps = known_steps(seal, built_in())  # type: ignore[arg-type]
    assert {step.kind for step in steps} == {"choice"} and all(step.mask is None for step in steps)
    if seal is SEALS["ring"]:
        assert {step.key for step in steps} >= CHOSEN


def test_a_job_that_is_not_there_or_cannot_be_read_begins_nothing(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    at = Bench(folder)
    assert "There is no job 99" in at.key(*"099", "enter").message
    assert at.desk.like == ""
    assert main(["--folder", str(folder), "new", "--like", "99"]) == BAD_INPUT
    broken = folder / JOBS / "00047.toml"
    broken.write_bytes(broken.read_bytes().replace(b"pa66", b"pa67"))
    assert main(["--folder", str(folder), "new", "--like", "47"]) == BAD_INPUT
    assert "settle it first" in capsys.readouterr().err
    assert [path.name for path in (folder / JOBS).glob("*.toml")] == ["00047.toml"]


def test_a_job_in_hand_begins_one_like_itself(folder: Path) -> None:
    at = Bench(folder)
    at.key(*"47", "enter", "list")
    _, effects = update(at.key(*str(NUMBERS["like"])), Token("key", "enter", at=at.at + 3.0))
    assert Start(like="00047.toml") in effects


def test_a_link_stands_on_page_list_and_workshops_sheet(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with begin(folder, built_in(), number=48, like=None, wall=lambda: AT) as session:
        session.append(kind="answer", key="linked", value="47", at=AT)
    at = Bench(folder)
    at.desk, _ = update(at.desk, Token("resized", columns=110, rows=24))
    assert "; with 47" in at.page
    at.key(*"48", "enter")
    assert "48  , with job 47" in at.page or "48, with job 47" in at.page
    at.bench.close()
    assert main(["--folder", str(folder), "sheet", "48", "--shop"]) == DONE
    assert "Another job of the same owner: job 47." in capsys.readouterr().out
    assert main(["--folder", str(folder), "sheet", "48"]) == DONE
    assert "same owner" not in capsys.readouterr().out
