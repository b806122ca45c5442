"""The demo: a new job beside the samples, holds that can be hurried, and nothing of it left afterwards."""

from __future__ import annotations

import io
import os
import signal
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest

from bench.demo import samples
from bench.desk.effects import Close, Listed, Open, Sample, SaveCopy, SessionOpened
from bench.desk.token import Token
from bench.file.slug import JOBS
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.shop.shop import built_in
from bench.workbench import Workbench
from ringwright import main
from rules.testing.methods import methods
from tests.screens.pty.harness import Terminal, clean_environment
from tests.whole.hands import lines
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT, straight

DEMO = replace(built_in(), demo=True)


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where temporary files go, empty; home and data folder are named and not there."""
    place = tmp_path / "temporary"
    place.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(place))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("RINGWRIGHT_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(place)
    return place


def test_it_opens_at_the_first_question_and_leaves_nothing(
    temporary: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("1\n1\n"))
    assert main(["--plain", "demo"]) == 0
    said = capsys.readouterr().out.splitlines()
    assert any(one.startswith("[paint]") for one in said) and not any("stood" in one for one in said[:3])
    assert said[-1] == "a demo: nothing of it is kept"
    assert list(temporary.iterdir()) == [] and sorted(temporary.parent.iterdir()) == [temporary]


def test_the_samples_stand_beside_the_new_job(
    temporary: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from bench.demo import demo_folder

    folder, path = demo_folder()
    bench = Workbench(folder, demo=True)
    (opened,) = bench.carry_out([Open(str(path))])
    assert isinstance(opened, SessionOpened) and opened.sample and opened.shop.demo and not opened.entries
    (listed,) = bench.carry_out([Close()])
    assert isinstance(listed, Listed) and len(listed.names) == len(samples()) + 1
    assert sum(row.finished for row in listed.rows) >= 3
    bench.leave()
    assert list(temporary.iterdir()) == []


@pytest.mark.parametrize("how", ["hang-up", "told to go"])
@pytest.mark.parametrize("plain", [[], ["--plain"]], ids=["screen", "lines"])
def test_closed_from_outside_it_leaves_nothing(temporary: Path, how: str, plain: list[str]) -> None:
    environment = clean_environment(TMPDIR=str(temporary), HOME=str(temporary.parent / "home"))
    with Terminal(["-m", "ringwright", *plain, "demo"], environment=environment) as terminal:
        terminal.wait_for("old luminous paint on dial")
        assert len(list(temporary.glob("*/jobs/*.toml"))) == len(samples()) + 1
        os.kill(terminal.process.pid, signal.SIGHUP if how == "hang-up" else signal.SIGTERM)
        terminal.process.wait(20)
    assert list(temporary.iterdir()) == []


def test_a_sample_looked_at_from_the_list_is_gone_afterwards(temporary: Path, tmp_path: Path) -> None:
    bench = Workbench(tmp_path / "data")
    (opened,) = bench.carry_out([Sample()])
    assert isinstance(opened, SessionOpened) and opened.sample and len(list(temporary.iterdir())) == 1
    bench.leave()
    assert list(temporary.iterdir()) == [] and not (tmp_path / "data").exists()


def test_a_copy_is_written_only_once_it_is_known_where(temporary: Path, tmp_path: Path) -> None:
    (tmp_path / "home").mkdir()
    lines(tmp_path / "data", [straight(until="glass_1")])
    bench = Workbench(tmp_path / "data")
    bench.carry_out([Open(next((tmp_path / "data" / JOBS).glob("*.toml")).name)])
    (first,) = bench.carry_out([SaveCopy()])
    assert isinstance(first, Token) and str(tmp_path / "home") in first.text
    assert list((tmp_path / "home").iterdir()) == []
    bench.carry_out([SaveCopy()])
    assert len(list((tmp_path / "home").iterdir())) == 1
    bench.leave()


def test_nothing_of_a_demo_is_copied(temporary: Path) -> None:
    from bench.demo import demo_folder

    folder, path = demo_folder()
    bench = Workbench(folder, demo=True)
    bench.carry_out([Open(str(path))])
    for _ in range(2):
        (said,) = bench.carry_out([SaveCopy()])
        assert isinstance(said, Token) and said.text.startswith("No copy")
    bench.leave()
    assert not (temporary.parent / "home").exists() and list(temporary.iterdir()) == []


def hurried(shop_is_demo: bool = True) -> Repairer:
    """Before the hold of an underpressure test, in a demo or not."""
    repairer = fresh(shop=DEMO if shop_is_demo else built_in()).on_to("cased_pressure")
    repairer.pick("usual")
    repairer.pick_key("cased_method")
    repairer.give("underpressure")
    return repairer.on_to("cased_hold")


def test_a_hold_of_the_demo_can_be_hurried_and_proves_nothing() -> None:
    repairer = hurried()
    repairer.give("hurried")
    assert repairer.asked == "cased_result" and repairer.step.opens_after is None
    repairer.give("pass")
    assert repairer.asked == "hand_back" and repairer.desk.job is not None
    sheet = sheet_data(repairer.desk.job, finished=False)
    test = sheet["tests"][-1]
    assert (test["timed"], test["result"], test["stands"]) == ("hurried", "pass", False)
    assert "The cased watch has not passed a test." in sheet["not_tested"] and sheet["retest"] is None
    text = " ".join(" ".join(sheet_lines(sheet)).split())
    assert "hurried in a demo: it proves nothing" in text and "timed by the program" not in text


def test_no_hold_of_a_real_job_can_be_hurried() -> None:
    repairer = hurried(shop_is_demo=False)
    assert [choice.word for choice in repairer.step.choices] == ["start"]
    met = 0
    for key, one in methods().items():
        if "cased" not in one.sittings or one.own_verdict:
            continue
        again = fresh().on_to("hand_back")
        again.answer({"hand_back": "again"})
        again.give(key)
        again.on_to("cased_hold", {"cased_signal_0": "030.0"} if one.reads_deflection else {})
        assert [choice.word for choice in again.step.choices] == ["start"]
        met += 1
    assert met >= 6


def test_a_hurried_pass_opens_no_water_where_it_is_no_demo() -> None:
    repairer = hurried()
    repairer.give("hurried")
    repairer.give("pass")
    for shop, open_to_it in ((DEMO, True), (built_in(), False)):
        again = repairer.copy()
        again.bench.shop = shop
        again.feed(again.bench.opened())
        again.look()
        again.type("1")
        step = again.desk.walk.step("cased_method") if again.desk.walk else None
        assert step is not None
        assert ("water_overpressure" in [one.word for one in step.choices]) is open_to_it


def test_a_hurried_hold_written_into_a_real_job_by_hand_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    script = (*STRAIGHT, ("empty_method", "underpressure"), ("@", "6"))
    lines(tmp_path, [Hand(script, until="renewed")])
    path = next((tmp_path / JOBS).glob("*.toml"))
    text = path.read_text(encoding="utf-8")
    assert '"start"' in text
    path.write_text(text.replace('"start"', '"hurried"', 1), encoding="utf-8")
    capsys.readouterr()
    assert main(["check", str(path), "--folder", str(tmp_path)]) == 1
    assert "empty_hold" in capsys.readouterr().out
