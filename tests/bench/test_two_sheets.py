"""Two sheets for two readers: what the customer's says and never says, what only the workshop's says."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.command import DONE
from bench.commands.sheet import for_programs
from bench.file.load import load
from bench.job import keys
from bench.job.job import Answer, replay
from bench.languages import LANGUAGES
from bench.paper.page import Paper
from bench.paper.slip import write_slip
from bench.seals.lathe.turning_facts import to_text
from bench.seals.ring.record import act_text, read_text, readings, tools_called
from bench.sheet.customer_text import customer_lines, papers_data
from bench.sheet.data import sheet_data
from bench.sheet.tongue import Tongue
from bench.sheet.workshop import search_lines, shop_copy
from ringwright import main
from rules.lengths import speaking
from tests.independent.claims_customer import CustomerClaims, customer_complaints, slip_complaints
from tests.independent.raw_session import Kept
from tests.languages.every_sheet import sample
from tests.rules.test_turning import LATHE, planned
from tests.whole.places import at
from tests.whole.repairer import Repairer

SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
HARBOUR, LIGHTHOUSE = SAMPLES / "00214-harbour-clerk.toml", SAMPLES / "00226-lighthouse-keeper.toml"


def printed(capsys: pytest.CaptureFixture[str], *words: object) -> str:
    """What `ringwright sheet` prints, in one line of words."""
    capsys.readouterr()
    assert main(["sheet", *map(str, words)]) == DONE
    return " ".join(capsys.readouterr().out.split())


def data_of(repairer: Repairer) -> dict[str, Any]:
    """The data of a job that is over."""
    assert repairer.desk.job is not None
    return sheet_data(repairer.desk.job, finished=True)


def page_of(repairer: Repairer) -> str:
    """The customer's page of a job that is over."""
    return " ".join(" ".join(customer_lines(data_of(repairer))).split())


def slip_of(repairer: Repairer) -> str:
    """The words of the slip of a job that is over."""
    return " ".join(one["text"] for one in papers_data(data_of(repairer))["slip"])


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_the_customer_reads_no_word_of_the_workshop(sample: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = printed(capsys, sample)
    assert not re.search(r"%|UTC|[Ss]queeze|undecided|before its last pass|on the bar|[Cc]ased|Ring 2", page)
    assert "not proved, because" in page or "NOT FINISHED" in page


def test_the_customer_reads_what_was_measured_apart_from_what_was_planned(
    capsys: pytest.CaptureFixture[str],
) -> None:
    page = printed(capsys, HARBOUR)
    assert "Measured on the ring: wall 0.490 mm (mean of 4 places), height 0.90 mm." in page
    assert "Planned, not measured on the ring: outside 28.38 mm, bore 27.37 mm." in page
    assert "Finished watch, 3 March 2026, 09:53: held at 2 bar over the pressure of the room. Passed." in page
    assert "Nothing is said of pressures above 2 bar." in page
    assert "By 3 March 2027, and whenever the watch was opened" in page


def test_a_marking_without_a_figure_is_said_as_that(capsys: pytest.CaptureFixture[str]) -> None:
    page, shop = printed(capsys, HARBOUR), printed(capsys, HARBOUR, "--shop")
    assert 'The case says "water-resistant", without a figure.' in page
    assert "Marking: water-resistant, without a figure." in shop and "Marking: 2 bar" not in shop


def test_times_are_those_of_the_clock_at_the_bench(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Kept at two hours east of Greenwich: 22:53 there is the next day here."""
    raw = LIGHTHOUSE.read_text(encoding="utf-8")
    moved = re.sub(r'at = "(\S+?)T(\d\d):(\S+?)\+00:00"', _two_hours_on, raw)
    path = tmp_path / "00226.toml"
    path.write_text(re.sub(r'crc = "\w+"', 'crc = "hand"', moved), encoding="utf-8")
    loaded = load(path.read_bytes())
    assert loaded.head is not None
    entries = [one.entry for one in loaded.entries]
    data = sheet_data(replay(loaded.head, entries), finished=True)
    assert "Finished watch, 3 March 2026, 12:52: held at 3 bar" in " ".join(customer_lines(data))
    assert data["tests"][-1]["at"] == "2026-03-03T10:52:24+00:00"


def _two_hours_on(found: re.Match[str]) -> str:
    return f'at = "{found[1]}T{int(found[2]) + 2:02d}:{found[3]}+02:00"'


def test_the_workshop_reads_readings_tools_offsets_attempts_and_the_plan(
    capsys: pytest.CaptureFixture[str],
) -> None:
    page = printed(capsys, HARBOUR, "--shop")
    for words in (
        "Ring 1 before it: planned bore 27.41 mm, went in too easily.",
        "Ring 1, wall of the ring: 0.468, 0.470, 0.467, 0.466 mm.",
        "Ring 2, last pass of the bore: went to 27.34, diameter; tool 2; 1500 a minute; "
        "offset 0.035 mm on the diameter.",
        "On the small bench lathe, from a bar of 30.00 mm.",
        "Squeeze 8.0 +- 3.9 % of the wall (95 %)",
        "Turning plan",
        "22 bore: go to 27.37, diameter",
        "Time at the bench",
    ):
        assert words in page, words


def test_a_job_at_the_lathe_names_its_plan_and_does_not_print_it(capsys: pytest.CaptureFixture[str]) -> None:
    page = printed(capsys, SAMPLES / "00221-net-mender.toml", "--shop")
    assert "Pass by pass: ringwright plan 221" in page and "touch off" not in page


def test_notes_for_the_workshop_leave_with_the_workshops_sheet_alone() -> None:
    loaded = load(HARBOUR.read_bytes())
    assert loaded.head is not None
    entries = [one.entry for one in loaded.entries]
    note = replace(entries[-1], n=999, kind="note", key=keys.SHOP_NOTE, value="owner pays late")
    data = sheet_data(replay(loaded.head, [*entries, note]), finished=True)
    plain, shop = (json.dumps(for_programs(data, (1.0, 0.0), shop=shop)) for shop in (False, True))
    assert json.loads(plain)["shop_notes"] == [] and "owner pays late" not in plain
    assert json.loads(shop)["shop_notes"] == ["owner pays late"]
    assert "owner pays late" not in " ".join(customer_lines(data))
    assert "Note: owner pays late" in shop_copy(data, (1.0, 0.0))[0].sentences


@pytest.mark.parametrize(
    ("key", "word", "because", "said"),
    [
        ("hold", "glued", "hold: glued", "the glass was glued"),
        ("hold", "foot", "hold: foot", "the glass stands on the foot of its ring"),
        ("bench", "pit", "bench: pit", "a pit or scratch crosses the wall"),
        ("paint", "old", "paint: old", "old luminous paint may hold radium"),
    ],
)
def test_a_job_closed_for_a_reason_names_it(key: str, word: str, because: str, said: str) -> None:
    repairer = at(key)
    repairer.give(word)
    repairer.give("stop" if key == "paint" else "closed")
    data = data_of(repairer)
    assert data["ended_because"] == because
    assert f"The reason: {said}" in page_of(repairer)


def test_old_paint_is_not_called_not_opened_where_the_movement_was_out() -> None:
    repairer = at("paint")
    repairer.give("old")
    repairer.on_to("hand_back", {"paint_go": "go"}).on_to("")
    data, page = data_of(repairer), page_of(repairer)
    assert not any("not opened" in one for one in data["cautions"]) and "not opened" not in page
    assert "it may hold radium. Do not open the watch" in page


def test_an_early_pass_is_to_be_tested_soon_and_names_no_day() -> None:
    """The straight job at one go: both tests within twelve hours of fitting."""
    repairer = at("hand_back").on_to("")
    data = data_of(repairer)
    assert data["tests"][-1]["early"] and data["retest"] and data["retest_soon"]
    slip, page = slip_of(repairer), page_of(repairer)
    assert "Test again soon: tested while the gasket was still settling." in slip
    assert (
        "held at 2 bar over the room, 2 March 2026" in slip and "The case says nothing about water." in slip
    )
    for paper in (slip, page):
        assert "to be repeated" not in paper and not re.search(r"\b[Bb]y \d+ \w+ 20\d\d", paper)


def test_the_checker_reads_the_papers_as_a_customer_does(capsys: pytest.CaptureFixture[str]) -> None:
    """Figures, days and words planted one by one on page and slip are found."""
    sheet = json.loads(printed(capsys, LIGHTHOUSE, "--json"))
    page, slip = printed(capsys, LIGHTHOUSE), " ".join(one["text"] for one in sheet["slip"])
    assert customer_complaints(page, LIGHTHOUSE, sheet) == []
    assert slip_complaints(slip, LIGHTHOUSE, sheet) == []
    for old, new in (
        ("held at 3 bar", "held at 5 bar"),
        ("10:36: did not pass", "10:36: held"),
        ("No test of the finished watch reached that", "The test reached that"),
        ("It was not tested in water.", ""),
        ("Nothing is said of pressures above 3 bar.", ""),
        ("2027", "2028"),
        ("wall 0.604 mm", "wall 0.605 mm"),
        ("back and crown", "back"),
        ("Planned, not measured", "Measured"),
        ("It is not an original part.", ""),
        ("To know", "To know: squeeze 9 %"),
    ):
        assert old in page and customer_complaints(page.replace(old, new), LIGHTHOUSE, sheet), old
    for old, new in (
        ("3 bar", "5 bar"),
        ("10:52", "10:36"),
        ("2027.", "2027, soon."),
        ("marked for 5", "marked for 3"),
    ):
        assert old in slip and slip_complaints(slip.replace(old, new), LIGHTHOUSE, sheet), old


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_word_of_the_slip_leaves_it(
    language: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Where each word of the drawing begins and ends, on 60 mm of paper; the longest where it is measured."""
    ends: list[tuple[str, float, float]] = []
    placed = Paper.at

    def remembered_at(
        paper: Paper, x: float, y: float, text: str, *, size: float = 8.0, align: str = "left"
    ) -> None:
        placed(paper, x, y, text, size=size, align=align)
        wide = paper.pdf.get_string_width(text)
        left = x - {"left": 0.0, "middle": wide / 2, "right": wide}[align]
        ends.append((text, left, left + wide))

    monkeypatch.setattr(Paper, "at", remembered_at)
    slip = tmp_path / "slip.pdf"
    assert main(["sheet", str(LIGHTHOUSE), "--slip", str(slip), "--language", language]) == DONE
    data, shown = sample(LIGHTHOUSE), len(ends)
    data["on_the_ring"]["outside_final"] = True
    write_slip(data, slip, tongue=Tongue(LANGUAGES[language]))
    assert len(ends) > shown and any("\u2300" in one[0] for one in ends)
    assert [one for one in ends if one[1] < 0.5 or one[2] > 59.5] == []


def test_a_watch_not_tested_yet_is_not_said_to_have_missed_its_marking() -> None:
    """Marked 5 bar, the empty case held 3: there was no test of the watch that could reach anything."""
    job = at("marking").copy().on_to("renewed", {"marking": "bar_5"}).desk.job
    assert job is not None
    for finished, said in ((False, "is not tested yet."), (True, "was not tested.")):
        page = " ".join(" ".join(customer_lines(sheet_data(job, finished=finished))).split())
        assert f"The case is marked for 5 bar. The finished watch {said}" in page


def test_a_reading_stands_on_the_workshops_sheet_as_it_was_keyed() -> None:
    keyed = (
        ("glass_1", "32.12 mm"),
        ("wall_1", "0.619 mm"),
        ("wall_2", "0.0244 in"),
        ("glass_2", "32.10 mm"),
    )
    span = [Answer(n, "", key, (word,)) for n, (key, word) in enumerate(keyed, 1)]
    with speaking("in"):
        said = [read_text(one, several=False) for one in readings(1, span)]
    assert said == ["Glass: 32.12, 32.10 mm.", "Wall of the ring: 0.619 mm, 0.0244 in."]


def test_what_a_search_renewed_is_offered_and_stands_on_both_sheets() -> None:
    """The back seal was renewed and the watch was tight: it is new, whatever is keyed afterwards."""
    search = {"hunt_kind": "rate", "hunt_opened": "back", "hunt_back": "tight"}
    repairer = at("cased_check").copy().on_to("hunt_kind", {"cased_result": "fail"})
    assert repairer.step.title == "The tester said fail: what more was seen?"
    assert repairer.step.choices[0].text == "Nothing more"
    repairer.on_to("cased_found", search)
    repairer.give("test")
    assert repairer.asked == "renewed" and repairer.step.choices[0].text == "back, as the search found"
    repairer.give("none")
    data = data_of(repairer)
    assert data["renewed"] == "none" and data["renewed_in_search"] == ["back"]
    assert "Other seals renewed: back." in page_of(repairer)
    shop = [one for section in shop_copy(data, (0.0, 0.0)) for one in section.sentences]
    assert "Search after a failed test: found leaking and renewed: back." in shop


@pytest.mark.parametrize(
    ("done", "kept"),
    [
        ("unchanged", "Nothing was done about it"),
        ("seen_to", "No other part was made; the joint was seen to"),
    ],
)
def test_a_joint_that_leaked_is_not_tested_again_without_a_word(done: str, kept: str) -> None:
    """What was done is asked where no other part is in, and the shop's copy keeps it with the search."""
    search = {"hunt_kind": "loose", "hunt_glass_lifts": "yes"}
    repairer = at("empty_check").copy().on_to("empty_found", {"empty_result": "fail", **search})
    assert "glass joint leaks" in repairer.step.say[0]
    assert "test" not in [choice.word for choice in repairer.step.choices]
    repairer.give(done)
    assert repairer.asked == "empty_pressure"
    data = data_of(repairer)
    assert [(one["sitting"], one["led_to"]) for one in data["searches"]] == [("empty", done)]
    (said,) = search_lines(data)
    assert said.startswith("Empty case, search for the leak: The glass joint leaks") and kept in said


def test_the_checker_follows_a_search_that_was_gone_back_in() -> None:
    """A joint found tight on going back: what was renewed behind the first answer is off the way."""
    way = [("hunt_joint_back", "same"), ("hunt_stem_seal", "tight"), ("hunt_joint_back", "tight")]
    for more, found in (([], set[str]()), ([("hunt_back_seal", "tight")], {"back"})):
        kept = [Kept(n, "", "answer", key, (word,)) for n, (key, word) in enumerate([*way, *more], 1)]
        claims = CustomerClaims("", LIGHTHOUSE, finished=False, is_slip=False)
        claims.now = kept
        assert claims.found_leaking() == found


def test_a_tool_without_a_number_is_called_by_its_kind() -> None:
    """And of a dial the size that it made stands first."""
    one = {"attempt": 1, "act": "last_bore", "said": "bore: go to 9 turns 17 dial, makes 27.16"}
    rest = {"tool": 2, "tool_called": "the boring bar", "rpm": 1350, "offset_mm": None}
    said = "Last pass of the bore: made 27.16, at 9 turns 17 dial; the boring bar; 1350 a minute."
    assert act_text(one | rest, False) == said
    assert act_text(one | rest | {"tool_called": None}, False) == said.replace("the boring bar", "tool 2")
    order = to_text(planned(lathe=replace(LATHE, numbered_tools=False)).order)
    kept = Answer(1, "", "lathe_bar", ("right", f"order {order}"))
    assert tools_called([kept])[2] == "the boring bar" and tools_called([]) == {}
