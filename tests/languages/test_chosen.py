"""Where the language of the customer's papers is chosen: for the shop, for a job, for one paper."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, DONE
from bench.commands.sheet import tongue_for
from bench.file.slug import SHOP
from bench.job import keys
from bench.languages import language_words
from bench.sheet.data import sheet_data
from bench.shop.shop import built_in
from bench.shop.starter import starter_text
from ringwright import main
from tests.languages.every_sheet import SAMPLES
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.stated import stated

LIGHTHOUSE = next(path for path in SAMPLES if "lighthouse" in path.stem)


def printed(capsys: pytest.CaptureFixture[str], folder: Path, *words: str) -> str:
    """What `ringwright sheet` prints of a sample."""
    assert main(["sheet", str(LIGHTHOUSE), "--folder", str(folder), *words]) == DONE
    return capsys.readouterr().out


def test_the_language_of_the_shop_is_said_by_keypad_and_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    stated(tmp_path)
    before = (tmp_path / SHOP).read_text(encoding="utf-8")
    desk, out = lines(tmp_path, ["*", "18", "9", "2", "8"])
    assert desk.page == "jobs" and "written to shop.toml" in out
    after = (tmp_path / SHOP).read_text(encoding="utf-8")
    assert tomllib.loads(after) == {**tomllib.loads(before), "papers_in": "de"}
    assert after.replace('papers_in = "de"', 'papers_in = "en"') == before
    assert "Zurückgegeben am 3. März 2026, 10:52" in printed(capsys, tmp_path)
    assert "Handed back 3 March 2026, 10:52" in printed(capsys, tmp_path, "--language", "en")
    assert "What was tested" not in printed(capsys, tmp_path, "--shop")
    assert json.loads(printed(capsys, tmp_path, "--json"))["language"] == "de"


def test_a_job_has_a_language_of_its_own_from_the_list() -> None:
    """Before the first cut and once all is over: nothing is asked again, the day on the sheet stays."""
    for place in ("paint", "hand_back"):
        repairer = at(place).copy()
        if place == "hand_back":
            repairer.on_to("")
        asked = repairer.desk.step
        before = sheet_data(repairer.desk.job, finished=True) if repairer.desk.job else {}
        repairer.pick("usual")
        repairer.pick_key(keys.PAPERS_IN)
        assert repairer.step.choices[0].word == "as_the_shop"
        repairer.give("it")
        assert repairer.desk.step == asked and repairer.desk.job is not None
        data = sheet_data(repairer.desk.job, finished=True)
        assert data == {**before, "papers_in": "it"}
        assert tongue_for(None, data, built_in()).language.word == "it"
        assert tongue_for("fr", data, built_in()).language.word == "fr"


def test_a_job_that_names_none_is_printed_as_the_shop_prints() -> None:
    for own in (None, "as_the_shop"):
        assert tongue_for(None, {"papers_in": own}, None).language.word == "en"


def test_the_workshops_sheet_is_in_no_other_language(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(LIGHTHOUSE), "--shop", "--language", "de"]) == BAD_INPUT
    assert "the workshop's is in English" in capsys.readouterr().err


def test_the_starter_names_every_language() -> None:
    text = starter_text(built_in())
    assert 'papers_in = "en"' in text and f"({', '.join(language_words())})" in text
