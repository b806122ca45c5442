"""What the sheet of an O-ring claims, worked out again from the raw session file."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from tests.campaigns.sheet_claims import customers_of, sheet_of, shop_of
from tests.independent.raw_session import Kept, kept_entries
from tests.independent.test_gasket_claims import said_by

SAMPLE = Path(__file__).resolve().parents[2] / "sample_sessions" / "00238-weir-warden.toml"
Sheet = dict[str, Any]


def spans(entries: list[Kept]) -> list[list[Kept]]:
    """The answers of each ring in turn, split at its own marks."""
    found: list[list[Kept]] = [[]]
    for one in entries:
        if one.kind == "mark" and one.key == "oring_attempt":
            found.append([])
        elif one.kind == "answer":
            found[-1].append(one)
    return found


def length(word: str | None) -> float:
    """A kept length, mm."""
    return float((word or "nan").split()[0])


def refused(span: list[Kept], key: str) -> str | None:
    """That one was not put in, since it was refused as it was measured."""
    return "off_its_band" if said_by(span, key) in ("another", "measure") else None


def complaints(sheet: Sheet, text: str, entries: list[Kept]) -> list[str]:
    """Everything that the entries do not hold; squeeze and fill are worked out from what was measured."""
    every = spans(entries)
    now, one, made = every[-1], sheet["oring"], sheet["measured_oring"]
    cords = [length(said_by(now, f"oring_cord_{n}")) for n in (1, 2)]
    inside, laid = length(said_by(now, "oring_inside")), said_by(now, "oring_laid")
    kept = {
        name: length(said_by(now, "oring_accepted", f"groove_{name}")) for name in ("inner", "outer", "other")
    }
    cord = math.fsum(cords) / len(cords)
    volume = cord**2 * (inside + cord)
    fitted = math.sqrt(volume / (kept["outer"] - cord))
    squeeze = 100.0 * (1.0 - (kept["outer"] - kept["inner"]) / 2.0 / fitted)
    room = (kept["outer"] - kept["inner"]) / 2.0 * kept["other"]
    found = [
        f"{name}: {claim} for {held}"
        for name, claim, held in (
            ("cord", made["cord_mm"], cords),
            ("inside", made["inside_mm"], inside),
            ("chosen", one["cord_mm"], length(said_by(now, "oring_accepted", "cord"))),
            ("rubber", one["material"], said_by(now, "oring_accepted", "material")),
            ("limits", one["cord_by"], said_by(now, "oring_accepted", "cord_by")),
            ("outcome", sheet["put_in"]["outcome"], laid),
            (
                "outcomes",
                [a["outcome"] for a in sheet["attempts"]],
                [said_by(s, "oring_laid") or refused(s, "oring_off_its_band") for s in every],
            ),
        )
        if claim != held
    ]
    found += [f"squeeze: {made['squeeze_pct']} for {squeeze}"] * (abs(made["squeeze_pct"] - squeeze) > 0.06)
    fill = 100.0 * math.pi / 4.0 * fitted**2 / room
    found += [f"fill: {made['fill_pct']} for {fill}"] * (abs(made["fill_pct"] - fill) > 0.7)
    return found + [
        f"the page has no {shown}" for shown in (f"{cords[0]:.3f}", "O-ring 3") if shown not in text
    ]


@pytest.fixture(scope="module")
def claimed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Sheet, str, list[Kept]]:
    folder = tmp_path_factory.mktemp("oring")
    sheet, _ = sheet_of(SAMPLE, folder)
    page = customers_of(SAMPLE, folder)
    assert "O-ring" in page and "made in this workshop" not in page
    return sheet, shop_of(SAMPLE, folder), kept_entries(SAMPLE)[1]


def test_the_sample_claims_what_its_entries_hold(claimed: tuple[Sheet, str, list[Kept]]) -> None:
    assert complaints(*claimed) == []
    assert [one["outcome"] for one in claimed[0]["attempts"]] == ["off_its_band", "home", "home"]


@pytest.mark.parametrize(
    ("part", "name", "wrong"),
    [
        ("measured_oring", "squeeze_pct", 30.0),
        ("measured_oring", "cord_mm", [0.6]),
        ("oring", "cord_by", "standard"),
        ("put_in", "outcome", "cut"),
    ],
)
def test_a_wrong_claim_is_noticed(
    claimed: tuple[Sheet, str, list[Kept]], part: str, name: str, wrong: object
) -> None:
    sheet, text, entries = claimed
    assert complaints({**sheet, part: {**sheet[part], name: wrong}}, text, entries)
