"""What the sheet of a flat gasket claims, worked out again from the raw session file."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from tests.campaigns.sheet_claims import customers_of, sheet_of, shop_of
from tests.independent.raw_session import Kept, kept_entries

SAMPLE = Path(__file__).resolve().parents[2] / "sample_sessions" / "00231-tide-gauger.toml"
Sheet = dict[str, Any]


def spans(entries: list[Kept]) -> list[list[Kept]]:
    """The answers of each gasket in turn, split at its own marks."""
    found: list[list[Kept]] = [[]]
    for one in entries:
        if one.kind == "mark" and one.key == "gasket_attempt":
            found.append([])
        elif one.kind == "answer":
            found[-1].append(one)
    return found


def said_by(span: list[Kept], key: str, name: str = "") -> str | None:
    """The newest word to a key, or the text kept under a name with it."""
    newest = next((one for one in reversed(span) if one.key == key), None)
    if newest is None:
        return None
    kept = dict(word.partition(" ")[::2] for word in newest.words[1:])
    return kept.get(name) if name else newest.word


SIZES = ("outside", "inside", "thickness")


def entered(every: list[list[Kept]]) -> Sheet:
    """What the entries say of the gasket that is shown."""
    now = every[-1]
    read = [said_by(now, f"gasket_thickness_{n}") for n in range(1, 5)]
    laid = next(one for one in reversed(now) if one.key == "gasket_laid")
    return {
        "attempts": len(every),
        "outcomes": [said_by(span, "gasket_laid") for span in every],
        "thickness": [float(word.split()[0]) for word in read if word],
        "width": float((said_by(now, "gasket_width") or "0").split()[0]),
        "planned": [said_by(now, "gasket_accepted", name) for name in SIZES],
        "material": said_by(now, "gasket_accepted", "material"),
        "fitted": laid.words[1] if laid.word == "home" else None,
        "results": [one.word for one in now if one.key in ("empty_result", "cased_result")],
    }


def claimed_by(sheet: Sheet) -> Sheet:
    """The same as the sheet has it."""
    gasket, made = sheet["gasket"], sheet["made_gasket"]
    return {
        "attempts": sheet["attempt"],
        "outcomes": [one["outcome"] for one in sheet["attempts"]],
        "thickness": made["thickness_mm"],
        "width": made["width_mm"],
        "planned": [f"{gasket[f'{name}_mm']:.2f} mm" for name in SIZES],
        "material": gasket["material"],
        "fitted": sheet["fitted_at"],
        "results": [one["result"] for one in sheet["tests"]],
    }


def complaints(sheet: Sheet, text: str, entries: list[Kept]) -> list[str]:
    """Everything that the entries do not hold."""
    every = spans(entries)
    own, claims = entered(every), claimed_by(sheet)
    found = [f"{name}: {claims[name]} for {value}" for name, value in own.items() if claims[name] != value]
    height = float((said_by(every[-1], "gasket_accepted", "room_height") or "0").split()[0])
    squeeze = 100.0 * (1.0 - height / (math.fsum(own["thickness"]) / len(own["thickness"])))
    if abs(squeeze - sheet["made_gasket"]["squeeze_pct"]) > 0.051:
        found.append(f"squeeze: {sheet['made_gasket']['squeeze_pct']} for {squeeze:.2f}")
    outside = f"{sheet['gasket']['outside_mm']:.2f}"
    return found + [f"the page has no {shown}" for shown in (outside, "Flat gasket") if shown not in text]


@pytest.fixture(scope="module")
def claimed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Sheet, str, list[Kept]]:
    folder = tmp_path_factory.mktemp("gasket")
    sheet, _ = sheet_of(SAMPLE, folder)
    assert "flat gasket" in customers_of(SAMPLE, folder).lower()
    return sheet, shop_of(SAMPLE, folder), kept_entries(SAMPLE)[1]


def test_the_sample_claims_what_its_entries_hold(claimed: tuple[Sheet, str, list[Kept]]) -> None:
    assert complaints(*claimed) == []
    assert len(claimed[0]["attempts"]) == 3


@pytest.mark.parametrize(
    ("part", "name", "wrong"),
    [
        ("made_gasket", "squeeze_pct", 30.0),
        ("made_gasket", "thickness_mm", [0.6]),
        ("gasket", "thickness_mm", 0.7),
        ("gasket", "material", "fkm"),
    ],
)
def test_a_wrong_claim_is_noticed(
    claimed: tuple[Sheet, str, list[Kept]], part: str, name: str, wrong: object
) -> None:
    sheet, text, entries = claimed
    assert complaints({**sheet, part: {**sheet[part], name: wrong}}, text, entries)
