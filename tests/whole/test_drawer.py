"""The drawer: what a job leaves, what another takes out, and what is never offered.

The invented watch is the straight job's: gap 0.5625, walls from 0.597 to 0.641 work.
Long form with 2,000 lives of a shop: python -m tests.campaigns.drawer --long
"""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.effects import DrawerIs, Open
from bench.job import keys
from bench.job.in_drawer import Drawer, Lying, due_again, name_of, swells
from bench.job.values import named_text
from bench.past.drawer import KNOWN_NAME, drawer_in, near
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from rules.sizing.decision import RingDecision
from rules.sizing.squeeze import USUAL_BAND
from rules.tables import plastics
from screens.dispatch import main
from tests.campaigns.drawer import FAULTS, planted, run
from tests.whole.copies import joined, noted
from tests.whole.hands import bench_in, lines
from tests.whole.on_file import OnFile
from tests.whole.past_jobs import job_in
from tests.whole.repairer import Repairer
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT
from tests.whole.seen import read

NOW = "2026-03-06T08:00:00+00:00"
MEASURED, TURNED = STRAIGHT[:5], STRAIGHT[5:]
WITH_SPARES = (
    ("job", "401"),
    *MEASURED,
    ("spares", "2"),
    *TURNED[:-1],
    ("spare_wall_1", "0.618"),
    TURNED[-1],
)
TAKEN = (*MEASURED, ("at_hand", "401 spare-1"), ("hand_height", "1.20"), ("hand_seat", "lies"))


def lying(folder: Path) -> list[str]:
    """What lies in the drawer of a folder."""
    return [one.ref for one in drawer_in(folder, lambda: NOW).rings]


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A finished job with two spares, one of them measured."""
    folder = tmp_path_factory.mktemp("filled")
    lines(folder, [Hand(WITH_SPARES)])
    return folder


@pytest.fixture
def shop(filled: Path, tmp_path: Path) -> Path:
    """The same, for one test alone."""
    shutil.copytree(filled, tmp_path, dirs_exist_ok=True)
    return tmp_path


def test_of_copies_that_went_apart_nothing_lies_until_they_are_joined(shop: Path) -> None:
    one = next((shop / "jobs").glob("00401*.toml"))
    other = noted(one, "seen again", into=one.with_name("00401-copy.toml"))
    assert lying(shop) == ["401 spare-1", "401 tighter-1"], "one of them is an earlier state"
    noted(one, "the strap is worn")
    assert lying(shop) == []
    joined(shop, one, other)
    assert lying(shop) == ["401 spare-1", "401 tighter-1"]


def test_a_spare_is_offered_with_its_chance_and_costs_no_press(shop: Path) -> None:
    desk, said = lines(shop, [Hand((("job", "402"), *MEASURED), until="ring")])
    assert "like job 401, seat 36.43, glass 35.31 mm: its ring, wall 0.605, home and level" in said
    assert (
        "its spare lies in the drawer" in said and "drawer: spare of job 401, wall 0.618, chance 86 %" in said
    )
    asked = [one.key for one in desk.entries if one.kind == "answer"]
    before = job_in(shop, 401).answers
    assert asked == [one.key for one in before[: len(asked)]], "as in the first job of the shop"
    assert desk.step is not None and desk.step.choices[0].word == "accept"


def test_what_is_taken_out_stands_in_the_job_that_took_it(shop: Path) -> None:
    script = (("job", "403"), *TAKEN, ("ring", "accept"), ("marking", "bar_5"))
    desk, said = lines(shop, [Hand(script)])
    assert "The ring of the drawer: it may fit. What next?" in said
    job = desk.job
    assert job is not None and desk.walk is not None and desk.walk.open is None
    ring = job.newest(keys.RING)
    assert ring is not None and named_text(ring.words, "from") == "401 spare-1"
    assert not {keys.LATHE_BAR, keys.nth(keys.HAND_WALL, 1)} & {one.key for one in job.answers}
    data = sheet_data(job, finished=True)
    assert data["at_hand"]["from"] == "401 spare-1" and data["made"]["wall_mm"] == [0.618]
    assert "It is the spare of job 401." in " ".join(" ".join(sheet_lines(data)).split())
    assert lying(shop) == ["401 tighter-1"]
    _, later = lines(shop, [Hand((("job", "404"), *MEASURED), until="ring")])
    assert "drawer: " not in later and "not measured: key its wall in job 401 (* 2)" in later


def test_another_job_may_have_taken_it_since(shop: Path) -> None:
    """Chosen in one window, used in another: whoever comes later is told, and makes a ring."""
    chosen = (("job", "403"), *TAKEN)
    lines(shop, [Hand(chosen, until="ring")])
    assert lying(shop) == ["401 tighter-1"], "chosen is taken out"
    other = shop / "jobs" / "00403.toml"
    shutil.move(other, shop / "away")
    lines(shop, [Hand((("job", "405"), *TAKEN), until="ring")])
    shutil.move(shop / "away", other)
    desk, said = lines(shop, [Hand((), until="ring")], file=str(other))
    assert "The ring of the drawer: another job has taken it since." in said
    assert desk.step is not None and [one.word for one in desk.step.choices] == ["make"]


def test_a_wall_is_keyed_in_a_job_that_is_over(shop: Path) -> None:
    """From the list, at the first try; the job stays over."""
    bench = bench_in(shop)
    repairer = Repairer(OnFile(bench))
    repairer.feed(*bench.carry_out([Open("00401.toml")]))
    repairer.pick("usual")
    repairer.pick_key(keys.nth(keys.SPARE_WALL, 2))
    repairer.type("0.631")
    bench.close()
    rings = drawer_in(shop, lambda: NOW).rings
    assert [(one.ref, one.walls_mm, one.free) for one in rings] == [
        ("401 spare-1", (0.618,), True),
        ("401 tighter-1", (0.631,), True),
    ]


def test_the_drawer_is_shown_on_its_page_and_by_its_command(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--folder", str(shop), "drawer"]) == 0
    said = capsys.readouterr().out
    assert "spare of job 401, 2026-03-0" in said and "wall 0.618 as measured, height 1.20 mm" in said
    assert "wall 0.614 as planned, height 1.20 mm; not offered: its walls were not measured" in said
    assert "acetal black, 45 mm: about 142 mm left after job 401" in said
    assert main(["--folder", str(shop), "drawer", "--json"]) == 0
    rings = json.loads(capsys.readouterr().out)["rings"]
    assert [(one["piece"], one["offered"]) for one in rings] == [("spare-1", True), ("tighter-1", False)]
    desk, page = lines(shop, ["*", "27"])
    assert desk.page == "jobs" and "Rings that no job has used" in page and "wall 0.618 as measured" in page


def test_an_empty_drawer_is_said(tmp_path: Path) -> None:
    repairer = Repairer()
    repairer.feed(DrawerIs(Drawer((), ())))
    assert "The drawer is empty" in read(repairer.desk)
    assert drawer_in(tmp_path, lambda: NOW) == Drawer((), ())


def test_what_was_read_before_is_never_trusted_over_the_files(shop: Path) -> None:
    before = lying(shop)
    assert (shop / KNOWN_NAME).exists() and before
    for rubbish in ("{", '{"format": 2, "version": "x", "rows": {}}', ""):
        (shop / KNOWN_NAME).write_text(rubbish, encoding="utf-8")
        assert lying(shop) == before


def test_a_file_that_cannot_be_used_still_says_what_it_took(shop: Path) -> None:
    path = shop / "jobs" / "00409.toml"
    path.write_text('format = 1\n[[entry]]\nkey = "at_hand"\nvalue = ["401 spare-1", "from 401 spare-1"]\n')
    assert lying(shop) == ["401 tighter-1"]


RING = Lying(
    job="208",
    piece="ring-1",
    at=NOW,
    plastic="pa66",
    outside_mm=36.43,
    wall_mm=0.62,
    height_mm=1.2,
    chamfer_mm=0.15,
    lower_chamfer_mm=0.1,
    walls_mm=(0.62,),
)


def test_only_what_could_fit_is_kept_with_a_job() -> None:
    """Measured, free, of the plastic, for such a seat; the likeliest first."""
    thick = replace(RING, piece="ring-2", wall_mm=0.69)
    never = (
        replace(RING, walls_mm=()),
        replace(RING, free=False),
        replace(RING, plastic="acetal"),
        replace(RING, outside_mm=37.43),
        replace(RING, wall_mm=0.55),
    )
    assert near((thick, *never, RING), "pa66", 36.43, 35.305) == [RING, thick]
    assert name_of("208 tighter-2") == "tighter spare of job 208"


def test_nylon_that_lay_for_a_month_is_measured_again() -> None:
    known = plastics(None)
    assert [key for key, one in known.items() if swells(one)] == ["pa6", "pa66", "pa12"]
    assert not due_again(RING, "2026-04-05T07:00:00+00:00") and due_again(RING, "2026-04-06T08:00:00+00:00")
    assert due_again(RING, "2026-03-05T08:00:00+00:00"), "by a clock that was set back nobody knows"


def test_the_chance_of_a_measured_ring() -> None:
    """In the middle of a band two of its uncertainties wide to each side: 95.45 % (normal distribution)."""
    low, high = USUAL_BAND.low_pct, USUAL_BAND.high_pct
    one = RingDecision((low + high) / 2, (high - low) / 2, "fits", "", None, "")
    assert one.chance_in(USUAL_BAND) == pytest.approx(0.9545, abs=1e-4)


def test_the_book_is_what_the_files_say() -> None:
    counts = run(lives=3, seed=7)
    assert counts.clean, str(counts)
    assert counts.seen["rings offered"] > 5 and counts.seen["rings taken out"] > 1


@pytest.mark.parametrize("name", FAULTS.values(), ids=FAULTS)
def test_a_fault_is_caught(name: str) -> None:
    with planted(name):
        assert not run(lives=20, seed=7, until_wrong=True).clean
