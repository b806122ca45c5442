"""What commands print for programs is as its schema promises, and a schema notices what is not."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from bench.commands.tree import commands, tree
from bench.sheet.proofs import leak_of
from ringwright import main
from tests.bench.test_leak_command import series
from tests.independent.promised import SCHEMAS, closed, published, spoiled, unlike
from tests.whole.hands import lines
from tests.whole.script import Hand
from tests.whole.scripts import straight

SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_sessions").glob("*.toml"))
SEAT = "--case-bore 28.40 --glass 27.36"
CASE = f"{SEAT} --case-metal brass --case-wall 0.8 --case-height 3 --case-yield 124 --height 1"
LEAK = "--volume 2 --volume-u 0.3 --overpressure 2 --step 0.1"
NOT_TURNED = re.compile(b"gasket_cut_out|oring_taken")
PRINTED = [
    ("size", f"size {SEAT}"),
    ("size", f"size {CASE} --glass-material mineral --glass-thickness 1.8 --overpressure 6"),
    ("size", f"size {SEAT} --ovality 0.3 --seat-depth 1"),
    ("size", f"fit {SEAT} --height 1 --wall 0.57 --used"),
    ("size", f"fit {CASE} --outside 28.40 --bore 26.9"),
    ("plug", "plug --seat 28.4"),
    ("plug", "plug --enters 28.38 --not 28.42"),
    ("leak", f"leak READINGS {LEAK}"),
    ("leak", f"leak SILENT {LEAK}"),
    ("shop", "shop"),
    ("shop", "shop --folder FOLDER"),
    ("year", "shop --year 2026 --folder FOLDER"),
    ("jobs", "jobs --folder FOLDER"),
    ("drawer", "drawer --folder FOLDER"),
    ("check", "check READINGS"),
    *((name, f"{name} {sample}") for name in ("sheet", "check") for sample in SAMPLES),
    *(("plan", f"plan {sample}") for sample in SAMPLES if not NOT_TURNED.search(sample.read_bytes())),
]
CLOSED = {"hold": "glued", "not_this_ring": "closed"}
OWN_NAMES = ("limits", "values", "tools")
"""Objects whose keys are names, not promises."""
Asks = Callable[[str], Any]


@pytest.fixture
def asked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Asks:
    """What a command prints with --json, in a folder with the samples and two files of readings."""
    (tmp_path / "jobs").mkdir()
    for sample in SAMPLES:
        (tmp_path / "jobs" / sample.name).write_bytes(sample.read_bytes())
    (tmp_path / "shop.toml").write_text('works_in = "inch"\n', encoding="utf-8")
    (tmp_path / "READINGS").write_text(series(20.0), encoding="utf-8")
    silent = [f"{60 * n},0.0" for n in range(12)]
    (tmp_path / "SILENT").write_text("\n".join(["time_s,signal", *silent]), encoding="utf-8")
    names = {name: str(tmp_path / name) for name in ("READINGS", "SILENT")} | {"FOLDER": str(tmp_path)}

    def ask(line: str) -> Any:
        capsys.readouterr()
        status = main([*(names.get(word, word) for word in line.split()), "--json"])
        assert status == (1 if line == "check READINGS" else 0), line
        return json.loads(capsys.readouterr().out)

    return ask


def in_short(line: str) -> str:
    """A line without the folder that a sample stands in: it is another in another copy of the tree."""
    return " ".join(word.rpartition("/")[2] for word in line.split())


def test_every_command_for_programs_has_a_schema_and_no_other() -> None:
    able = {name for name, parser in commands(tree()).items() if "--json" in parser.format_help()}
    there = {path.stem for path in SCHEMAS.glob("*.json")}
    assert able - {"fit"} == there - {"year"}, "fit prints what size prints; year is that of the shop"
    assert {name for name, _ in PRINTED} == there
    for name in there:
        schema = json.loads((SCHEMAS / f"{name}.json").read_text(encoding="utf-8"))
        assert schema["$id"] == f"urn:ringwright:json:1:{name}"


@pytest.mark.parametrize(("name", "line"), PRINTED, ids=[in_short(line) for _, line in PRINTED])
def test_what_is_printed_is_as_promised(name: str, line: str, asked: Asks) -> None:
    said = asked(line)
    assert unlike(name, said) == []
    assert all(one["json_format"] == 1 for one in (said if isinstance(said, list) else [said]))


@pytest.mark.parametrize(
    ("name", "line"),
    [*dict(reversed(PRINTED)).items(), PRINTED[6]],
    ids=in_short,
)
def test_a_key_gone_or_of_another_kind_is_noticed(name: str, line: str, asked: Asks) -> None:
    noticed, missed = 0, set()
    for what, now in spoiled(asked(line)):
        if published(name).is_valid(now):
            missed.add(what)
        else:
            noticed += 1
    assert noticed >= 12
    assert all(any(f".{own}." in what for own in OWN_NAMES) for what in missed), missed


def test_a_key_that_no_schema_names_is_noticed_and_breaks_no_program(asked: Asks) -> None:
    said = asked(f"sheet {SAMPLES[0]}")
    said["tests"][0]["weather"] = "fair"
    assert published("sheet").is_valid(said) and not closed("sheet").is_valid(said)


def test_a_test_with_readings_and_a_leak_is_as_promised(asked: Asks) -> None:
    said = asked(f"sheet {SAMPLES[0]}")
    words = (
        "pass",
        "",
        "leak 20.8",
        "leak_low 15.1",
        "leak_high 26.5",
        "leak_decision PASS",
        "leak_law fixed",
    )
    test = said["tests"][0]
    test["leak"] = leak_of(words)
    test["readings"] = {"times_s": [0.0, 60.0], "signals_um": [10.0, 9.9], "step_um": 0.1}
    test["readings"] |= {"volume_cm3": None, "volume_u_cm3": None}
    assert test["leak"]["rate_ug_min"] == 20.8 and unlike("sheet", said) == []
    test["leak"]["low_ug_min"] = "15.1"
    assert not published("sheet").is_valid(said)


@pytest.mark.parametrize("until", ["paint", "glass_1", "not_this_ring"])
def test_an_odd_job_is_as_promised_too(
    until: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Just begun, half measured, closed because no ring is made, and a shop that has no file."""
    script = straight(until=until) if until != "not_this_ring" else Hand(CLOSED)
    lines(tmp_path, [script])
    assert not (tmp_path / "shop.toml").exists()
    place = ["--json", "--folder", str(tmp_path)]
    for name, words in (("sheet", ["1"]), ("jobs", []), ("shop", []), ("plan", ["1"])):
        capsys.readouterr()
        status = main([name, *words, *place])
        said = capsys.readouterr()
        if name == "plan":
            assert status == 2 and not said.out and said.err.count("\n") == 1
        else:
            assert status == 0 and unlike(name, json.loads(said.out)) == []
