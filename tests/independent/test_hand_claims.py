"""Sheets of jobs that were edited by hand claim no more than their entries, and every edit is said where it
belongs; faults planted one by one are found.
"""

from __future__ import annotations

import random
import tempfile
from collections import Counter
from functools import lru_cache
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from tests.campaigns.edited_sheets import accept, edited
from tests.campaigns.sheet_claims import by_hand, sheet_of, shop_of
from tests.independent.hand_claims import page_complaints
from tests.independent.sheet_claims import complaints
from tests.whole.hands import Clock, lines
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT

EVERY_SAMPLE = sorted((Path(__file__).resolve().parents[2] / "sample_sessions").glob("*.toml"))
SAMPLES = [one for one in EVERY_SAMPLE if 'key = "seal"' not in one.read_text(encoding="utf-8")]
"""Those of the straight ring."""


def edited_job(folder: Path, seed: int) -> Path:
    """A sample with an edit that was accepted."""
    path = folder / "jobs" / "00001.toml"
    path.parent.mkdir(exist_ok=True)
    dice = random.Random(seed)
    text = SAMPLES[seed % len(SAMPLES)].read_text(encoding="utf-8")
    for _ in range(20):
        path.write_text(edited(text, dice), encoding="utf-8")
        if accept(path, folder):
            return path
    raise AssertionError("no edit was accepted")


@pytest.mark.parametrize("seed", range(8))
def test_a_page_that_hides_or_invents_an_edit_is_caught(tmp_path: Path, seed: int) -> None:
    path = edited_job(tmp_path, seed)
    page = " ".join(shop_of(path, tmp_path).split())
    sheet, text = sheet_of(path, tmp_path)
    assert complaints(sheet, text, path) == [] and page_complaints(page, path) == []
    (one,) = sheet["changed_by_hand"]
    for planted in (
        page.replace("; accepted", "; looked at"),
        page.replace(f"entry {one['entry']}", "entry 999"),
        f"{page} Changed by hand: entry 7, glass_1 is now 20.00 mm.",
        page.replace(" after the end", "")
        if one["after_end"]
        else page.replace(": entry", " after the end: entry"),
    ):
        assert planted != page and page_complaints(planted, path) != []
    assert complaints(sheet, f"{text} Changed by hand: entry 7.", path) != []
    assert complaints({**sheet, "changed_by_hand": []}, text, path) != []


@lru_cache(maxsize=1)
def with_readings() -> str:
    """A finished job whose cased watch was tested with readings."""
    read = [("cased_signal_0", "012.5")] + [(f"cased_signal_{n}", "012.5") for n in range(1, 13)]
    script = (*STRAIGHT, ("cased_method", "dry_deflection"), *read, ("cased_vented", "zero"))
    with tempfile.TemporaryDirectory() as name:
        lines(Path(name), [Hand(script)], clock=Clock(step_s=200.0))
        return next((Path(name) / "jobs").glob("*.toml")).read_text(encoding="utf-8")


def complained(seeds: range, folder: Path) -> list[str]:
    """Complaints about samples, and a job with readings, edited up to three times each."""
    found: list[str] = []
    texts = [path.read_text(encoding="utf-8") for path in SAMPLES] + [with_readings()]
    for seed in seeds:
        path = folder / "jobs" / "00001.toml"
        path.parent.mkdir(exist_ok=True)
        text = texts[seed % len(texts)]
        last = (
            text.rindex("\n[[entry]]", 0, text.rindex('key = "hand_back"')) if "hand_back" in text else None
        )
        path.write_text(text[:last], encoding="utf-8")
        found += by_hand(path, folder, seed, Counter())
    return found


FAULTS: dict[str, tuple[str, Any]] = {
    "a pass stands on a reading changed afterwards": ("bench.sheet.proofs.undermined", lambda *_: False),
    "an edit counts from where it stands": ("bench.edits.judging._counted", lambda *_: False),
}

SHOWS_FROM = {"an edit counts from where it stands": 28, "a pass stands on a reading changed afterwards": 4}
"""The edit from which it soon shows."""


def test_none_is_complained_of(tmp_path: Path) -> None:
    assert complained(range(16), tmp_path) == []


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_found(name: str, tmp_path: Path) -> None:
    """Among the same edits."""
    with patch(*FAULTS[name]):
        seeds = range(SHOWS_FROM.get(name, 0), 30)
        assert any(complained(range(seed, seed + 1), tmp_path) for seed in seeds)
