"""Answers changed in an editor: read as they are meant, or refused with line, value and what is expected;
marked on the workshop's sheet; newer than what rested on them.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections import Counter
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from bench.desk.effects import Open
from bench.edits.judging import judged
from bench.file.load import Loaded, load
from bench.job.job import Answer
from bench.job.kept import KEPT, Misfit
from bench.job.reading_back import read_back
from bench.job.steps import Choice, Step
from bench.shop.shop import Shop, built_in
from ringwright import main
from tests.campaigns.edit_draws import blocks_of
from tests.campaigns.hand_edits import run, wholes
from tests.whole.hands import bench_in, lines
from tests.whole.on_file import OnFile
from tests.whole.repairer import Repairer
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT, straight

FINISHED = Path(__file__).resolve().parents[2] / "sample_sessions" / "00208-ferry-captain.toml"
OUTCOMES = {"understood", "refused", "marked", "looked at what rests on it"}


def begun(folder: Path, until: str = "") -> Path:
    """The straight job until a step is asked; to its end where none is named."""
    lines(folder, [straight(until=until)] if until else [straight()])
    return next((folder / "jobs").glob("*.toml"))


def edit(path: Path, key: str, change: Callable[[str], str]) -> str:
    """The value line of the newest answer to a key changed, and crc = "hand" under it."""
    blocks = blocks_of(path.read_text(encoding="utf-8"))
    at = max(n for n, block in enumerate(blocks) if f'key = "{key}"' in block)
    was = re.search(r"^value = .*$", blocks[at], re.MULTILINE)
    assert was is not None and change(was[0]) != was[0], blocks[at]
    block = blocks[at].replace(was[0], change(was[0]))
    blocks[at] = re.sub(r'^crc = ".*"$', 'crc = "hand"', block, flags=re.MULTILINE)
    path.write_text("".join(blocks), encoding="utf-8")
    return change(was[0])


def opened(folder: Path, path: Path) -> Repairer:
    """A repairer who has opened the file, and before whom the gate stands."""
    bench = bench_in(folder)
    hand = Repairer(OnFile(bench))
    hand.bench.wall = hand.wall
    for arrival in bench.carry_out([Open(str(path))]):
        hand.feed(arrival)
    bench.close() if hand.desk.page != "damage" else None
    return hand


def accepted(folder: Path, path: Path) -> Repairer:
    """The same, with everything accepted."""
    hand = opened(folder, path)
    assert hand.desk.page == "damage" and not any(one.refused for one in hand.desk.findings)
    hand.type("1")
    assert hand.desk.page == "account", hand.desk.message
    assert isinstance(hand.bench, OnFile)
    hand.bench.real.close()
    return hand


def value_of(hand: Repairer, key: str) -> Answer:
    """The answer to a key that counts."""
    assert hand.desk.job is not None
    answer = hand.desk.job.newest(key)
    assert answer is not None
    return answer


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("36,42 mm", "36.42 mm"),
        ("36.42mm", "36.42 mm"),
        ("36.42 MM", "36.42 mm"),
        ("36.42", "36.42 mm"),
        ("  36,42mm ", "36.42 mm"),
        ("36.52 mm", "36.52 mm"),
    ],
)
def test_a_length_is_read_as_it_is_meant(tmp_path: Path, written: str, meant: str) -> None:
    path = begun(tmp_path, "seat_depth")
    edit(path, "case_bore_1", lambda _: f'value = "{written} "')
    assert value_of(accepted(tmp_path, path), "case_bore_1").words == (meant,)


@pytest.mark.parametrize(
    "written", ["3642 mm", "36.4 mm", "364.2 mm", "36.42 cm", "about 36", "", "٣٦.٤٢ mm"]
)
def test_what_is_not_certain_is_refused_with_line_value_and_what_is_expected(
    tmp_path: Path, written: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = begun(tmp_path, "seat_depth")
    line = edit(path, "case_bore_1", lambda _: f'value = "{written}"')
    number = path.read_text(encoding="utf-8").split("\n").index(line) + 1
    before = path.read_bytes()
    hand = opened(tmp_path, path)
    (finding,) = hand.desk.findings
    assert finding.refused and finding.line == number
    assert finding.words.startswith(f"line {number}: ") and f"case_bore_1 = {written};" in finding.words
    assert "expected __.__ mm from 5 to 80" in finding.words
    hand.type("1")
    assert hand.desk.page == "damage" and "correct" in hand.desk.message
    assert path.read_bytes() == before
    assert isinstance(hand.bench, OnFile)
    hand.bench.real.close()
    assert main(["check", str(path), "--folder", str(tmp_path)]) == 1
    assert f"line {number}: " in capsys.readouterr().out.lower()
    assert main(["jobs", "--json", "--folder", str(tmp_path)]) == 0
    assert json.loads(capsys.readouterr().out)[0]["waiting_for"] == "a look at its file"


def test_a_value_that_was_accepted_before_and_cannot_be_read_shuts_the_gate_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = begun(tmp_path, "seat_depth")
    edit(path, "case_bore_2", lambda _: 'value = "wide"')
    with (
        patch("bench.edits.judging.judged", lambda loaded, _: loaded),
        pytest.raises(ValueError, match="wide"),
    ):
        opened(tmp_path, path).type("1")
    assert "confirm" in path.read_text(encoding="utf-8")
    hand = opened(tmp_path, path)
    assert [one.refused for one in hand.desk.findings] == [True]
    for words in (["jobs"], ["sheet", str(path)], ["check", str(path)]):
        assert main([*words, "--folder", str(tmp_path)]) in (0, 1, 2)
    assert "expected" in capsys.readouterr().out


def test_a_corrected_measurement_sends_the_job_back(tmp_path: Path) -> None:
    """Both readings of the seat a millimetre larger, at the lathe: the ring rests on them no more."""
    path = begun(tmp_path, "lathe_hands")
    for key in ("case_bore_1", "case_bore_2"):
        edit(path, key, lambda value: value.replace("36.", "37."))
    hand = accepted(tmp_path, path)
    assert hand.desk.walk is not None and hand.desk.walk.open is not None
    assert hand.desk.walk.open.key in ("glass_1", "ring", "case_bore_3"), hand.desk.walk.open.key
    assert hand.desk.walk.answer("ring") is None
    again = opened(tmp_path, path)
    assert again.desk.walk is not None and again.desk.walk.open == hand.desk.walk.open


def test_two_changes_are_read_though_one_leads_elsewhere(tmp_path: Path) -> None:
    """The glass is held by a spring now: no reading of the seat would be asked, and one was corrected."""
    path = begun(tmp_path, "lathe_hands")
    edit(path, "hold", lambda _: 'value = "Spring"')
    edit(path, "case_bore_1", lambda _: 'value = "36,45 mm"')
    hand = accepted(tmp_path, path)
    assert value_of(hand, "hold").word == "spring" and value_of(hand, "case_bore_1").word == "36.45 mm"
    assert hand.desk.walk is not None and hand.desk.walk.open is not None
    assert hand.desk.walk.open.key == "not_this_ring"


def test_a_wrong_check_changed_by_hand_has_the_checks_asked_again(tmp_path: Path) -> None:
    path = tmp_path / "jobs" / "00001.toml"
    path.parent.mkdir()
    text = next(one for one in wholes() if 'key = "tool_boring_again_slip"' in one)
    blocks = blocks_of(text)
    slips = [at for at, block in enumerate(blocks) if 'key = "tool_boring_again_slip"' in block]
    given = next(at for at in range(slips[-1], len(blocks)) if 'key = "tool_boring_again"' in blocks[at])
    path.write_text("".join(blocks[: given + 1]), encoding="utf-8")
    edit(path, "tool_boring_again_slip", lambda value: value.replace('"wrong"', '"Wrong"'))
    hand = accepted(tmp_path, path)
    slip, check = (value_of(hand, key) for key in ("tool_boring_again_slip", "tool_boring_again"))
    assert slip.word == "wrong" and slip.n > check.n


def second_ring(folder: Path) -> Path:
    """A job whose first ring went in too easily and whose second is at the lathe."""
    first = Hand(STRAIGHT[:11], until="fit_outcome")
    again = Hand((("fit_outcome", "too_easy"), ("remake", "ring")), until="ring")
    lines(folder, [first, again, Hand((("ring", "accept"),), until="finish_bore")])
    return next((folder / "jobs").glob("*.toml"))


@pytest.mark.parametrize(
    ("key", "old", "new", "asked"),
    [
        ("fit_outcome", "too_easy", "would_not_start", "ring"),
        ("remake", "wall 0.630", "wall 0.640", "ring"),
        ("wall_1", "0.602", "0.612", "lathe_hands"),
    ],
)
def test_what_an_earlier_ring_has_taught_is_rested_on(
    tmp_path: Path, key: str, old: str, new: str, asked: str
) -> None:
    path = second_ring(tmp_path)
    edit(path, key, lambda value: value.replace(old, new))
    hand = accepted(tmp_path, path)
    assert hand.desk.walk is not None and hand.desk.walk.open is not None
    assert hand.desk.walk.open.key == asked
    assert value_of(hand, key).n < value_of(hand, "attempt").n
    if asked == "ring":
        lines(tmp_path, [Hand((("ring", "accept"),), until="finish_bore")])


def test_a_finished_job_is_not_computed_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "jobs" / FINISHED.name
    path.parent.mkdir()
    path.write_bytes(FINISHED.read_bytes())
    place = ["--folder", str(tmp_path)]
    main(["sheet", str(path), *place])
    before = capsys.readouterr().out
    edit(path, "case_bore_1", lambda value: re.sub(r"(\d\d)\.", lambda one: f"{int(one[1]) + 1}.", value))
    hand = accepted(tmp_path, path)
    assert hand.desk.walk is not None and hand.desk.walk.open is None
    main(["sheet", str(path), *place])
    assert capsys.readouterr().out == before
    main(["sheet", str(path), "--shop", *place])
    shop = " ".join(capsys.readouterr().out.split())
    assert re.search(r"Changed by hand after the end: entry \d+, case_bore_1 is now \d\d\.\d\d mm", shop)
    main(["jobs", "--json", *place])
    assert json.loads(capsys.readouterr().out)[0]["finished"] is True


def test_an_undo_written_by_hand_is_said_to_take_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = begun(tmp_path, "seat_depth")
    text = path.read_text(encoding="utf-8")
    last = blocks_of(text)[-1]
    found = re.search(r"^n = (\d+)$", last, re.MULTILINE)
    assert found is not None and 'key = "glass_2"' in last
    n = int(found[1])
    undo = f'kind = "undo"\nkey = "glass_2"\nvalue = "35.30 mm"\nof = {n}\ncrc = "hand"\n'
    path.write_text(
        f'{text.rstrip()}\n\n[[entry]]\nn = {n + 1}\nat = "2026-03-02T10:00:00+00:00"\n{undo}\n',
        encoding="utf-8",
    )
    (finding,) = load(path.read_bytes()).findings
    assert f"takes back entry {n}, glass_2 = 35.30 mm" in finding.words
    accepted(tmp_path, path)
    main(["sheet", str(path), "--shop", "--folder", str(tmp_path)])
    shop = " ".join(capsys.readouterr().out.split())
    assert f"entry {n + 1} takes back entry {n}, glass_2 = 35.30 mm; accepted" in shop
    assert "is now" not in shop


def test_a_missing_block_is_named_by_check_and_on_the_workshops_sheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = begun(tmp_path, "ring")
    blocks = blocks_of(path.read_text(encoding="utf-8"))
    path.write_text("".join([*blocks[:5], *blocks[7:]]), encoding="utf-8")
    main(["check", str(path)])
    assert "entries 5 to 6 are missing" in capsys.readouterr().out
    accepted(tmp_path, path)
    main(["check", str(path)])
    assert "accepted before: before line" in (said := capsys.readouterr().out)
    assert "entries 5 to 6 are missing" in said
    main(["sheet", str(path), "--shop", "--folder", str(tmp_path)])
    assert "Missing in the file: entry 5 to 6; accepted" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    ("key", "old", "new", "expected"),
    [
        ("empty_result", "pressure 3 bar", "pressure 20 bar", "at most 3 bar, which the tester reaches"),
        ("empty_result", "pressure 3 bar", "pressure 2 bar", "the same pressure in empty_pressure (3.0 bar)"),
        ("empty_pressure", "3.0 bar", "2.0 bar", "the same pressure in empty_pressure (2.0 bar)"),
        ("empty_result", "held unknown", "held 10 min", "held unknown, since the tester timed itself"),
        ("empty_result", "timed tester", "timed program", "timed tester, as the hold was begun"),
        ("fit_outcome", "2026-", "2027-", "a time that is not after its answer"),
        ("fit_outcome", "squeeze 6.95", "squeeze 9.00", "is a squeeze of 6.9 %, not 9.0 %"),
        (
            "fit_outcome",
            "walls 0.602 0.605 0.607 0.604",
            "walls 0.700 0.700 0.700 0.700",
            "walls that were read of this ring",
        ),
        ("empty_result", "method dry_pass_fail", "method by_ear", "a method such as"),
    ],
)
def test_edits_are_held_against_each_other(
    tmp_path: Path, key: str, old: str, new: str, expected: str
) -> None:
    path = begun(tmp_path)
    edit(path, key, lambda value: value.replace(old, new))
    (finding,) = opened(tmp_path, path).desk.findings
    assert finding.refused and expected in finding.words


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("held ", "held 9", "held no longer than the hold"),
        ("ran 11.6 min", "ran 1.6 min", "ran for the 5 min that were held"),
        ("timed program", "timed asked", "timed program, as the hold was begun"),
        ("timed program", "timed tester", "timed program, as the hold was begun"),
    ],
)
def test_an_edited_result_is_held_against_its_hold(tmp_path: Path, old: str, new: str, expected: str) -> None:
    lines(tmp_path, [Hand((*STRAIGHT, ("empty_method", "underpressure")))])
    path = next((tmp_path / "jobs").glob("*.toml"))
    edit(path, "empty_result", lambda value: value.replace(old, new))
    (finding,) = opened(tmp_path, path).desk.findings
    assert finding.refused and expected in finding.words


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("bore 35.19", "bore 34.19", "in a gap of 0.563 mm is a squeeze of 49.8 %, not 9.3 %"),
        ("outside 36.43", "outside 36.93", "not 9.3 %"),
        ("squeeze 9.3", "squeeze 7.3", "is a squeeze of 9.3 %, not 7.3 %"),
        ("bore 35.19", "bore 36.19", "too thin to turn"),
        ('"chamfer 0.15', '"chamfer 0.95', "so much of the wall is left to it"),
        ("height 1.20", "height 3.00", "no more than the seat is deep (1.45 mm)"),
        ("height 1.20", "height 9.00", "outside 0.3 to 6 mm"),
        ("glass 35.305", "glass 36.505", "a glass smaller than the seat"),
        ("spares 0", "spares 7", "spares: 7 is outside 0 to 4"),
    ],
)
def test_a_ring_that_contradicts_itself_is_not_turned(
    tmp_path: Path, old: str, new: str, expected: str
) -> None:
    path = begun(tmp_path, "finish_bore")
    edit(path, "ring", lambda value: value.replace(old, new))
    (finding,) = opened(tmp_path, path).desk.findings
    assert finding.refused and expected in finding.words


def test_the_gate_names_the_word_that_is_not_as_it_was_offered(tmp_path: Path) -> None:
    path = begun(tmp_path, "finish_bore")
    edit(path, "ring", lambda value: value.replace("seat_u 0.040", "seat_u 0.001"))
    (finding,) = opened(tmp_path, path).desk.findings
    assert finding.words.endswith(", not as offered: seat_u 0.001 mm")
    assert "stands" not in finding.words and "outside 36.43 mm, bore 35.19" in finding.words


def test_every_answer_of_every_kept_job_is_read_to_the_letter_by_the_step_it_answers() -> None:
    """No value changed, every checksum replaced by "hand": nothing is refused, nothing read otherwise."""
    read = 0
    for text in wholes()[::6]:
        head, rest = text.split("\n[[entry]]", 1)
        by_hand = re.sub(r'(?m)^crc = "[0-9a-f]{8}"$', 'crc = "hand"', rest)
        found = judged(load(f"{head}\n[[entry]]{by_hand}".encode()), built_in())
        assert [one.words for one in found.findings if one.refused or "read as" in one.words] == []
        read += len(found.findings)
    assert read > 500


def test_every_name_of_a_kept_word_is_known() -> None:
    """The second word of an act at the lathe is an instruction; a check keeps what was found."""
    seen: Counter[str] = Counter()
    for text in wholes():
        for one in tomllib.loads(text)["entry"]:
            words = one.get("value", "")
            if one["kind"] != "answer" or not isinstance(words, list) or words[0] in ("wrong", "right"):
                continue
            rest = [word for word in words[1:] if " " in word and not word.startswith("stands ")]
            rest = rest[1:] if words[0] == "done" else rest
            seen.update(name for word in rest if not (name := word.partition(" ")[0])[0].isdigit())
    assert len(seen) > 30 and sum(seen.values()) > 5000
    assert set(seen) <= set(KEPT)


def test_a_word_of_a_name_that_only_its_step_knows_is_read_by_it() -> None:
    choice = Choice("cut", "cut", with_it=("thick 1.25 mm", "from sheet"))
    step = Step(key="gasket", stage="cut", kind="result", title="", choices=(choice,))
    assert read_back(step, ("CUT", "thick 1,35mm", "from strip")) == ("cut", "thick 1.35 mm", "from strip")
    with pytest.raises(Misfit, match="a number in mm"):
        read_back(step, ("cut", "thick much"))
    held = replace(step, choices=(Choice("start", "start", with_it=("10 min",)),))
    assert [read_back(held, ("start", text))[1] for text in ("10", "10min", "12 MIN")] == [
        "10 min",
        "10 min",
        "12 min",
    ]
    with pytest.raises(Misfit, match="nothing of the kind of 'wide 3 mm'"):
        read_back(step, ("cut", "wide 3 mm"))


def test_drawn_edits_end_in_no_fault_and_reach_every_outcome() -> None:
    counts = run()
    print(counts)
    assert counts.clean, counts
    assert set(counts.seen) >= OUTCOMES, counts


def off(loaded: Loaded, _: Shop) -> Loaded:
    """The values of a file taken as they stand."""
    return loaded


FAULTS: dict[str, tuple[int, tuple[tuple[str, Any], ...]]] = {
    "the shapes are not looked at": (
        3,
        (
            ("bench.edits.judging.judged", off),
            ("bench.edits.stored.judged", off),
            ("bench.edits.judging.judged", off),
        ),
    ),
    "accepted edits are not marked": (2, (("bench.sheet.data.changes_of", lambda _: []),)),
    "an edit counts from where it stands": (27, (("bench.edits.judging._counted", lambda *_: False),)),
    "a comma is read as nothing": (7, (("bench.job.kept.PLAIN", {ord(","): None}),)),
}
"""Where drawing begins, and what is planted."""


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_found(name: str) -> None:
    first, planted = FAULTS[name]
    assert run(first=first, most=1).clean
    with ExitStack() as stack:
        for target, fault in planted:
            stack.enter_context(patch(target, fault))
        counts = run(first=first, most=1)
    assert not counts.clean, name
