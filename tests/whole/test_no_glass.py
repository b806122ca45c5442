"""No glass to measure: whole jobs as scripts, with the glass ordered, waited for over a break, and measured.

The invented watch: seat 36.43, 1.45 deep. What a page says is read off the page; the walls expected are
worked out here.
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from bench.command import DONE
from bench.desk.desk import Desk
from ringwright import main
from rules.sizing.glass_order import glasses_to_order, thickness_mm
from rules.tables import glasses
from tests.whole.hands import bench_in, lines, session_text
from tests.whole.on_file import OnFile
from tests.whole.places import at
from tests.whole.repairer import Pretended, Repairer, fresh
from tests.whole.script import Hand, Pair, Typist
from tests.whole.scripts import STRAIGHT
from tests.whole.seen import read

SIZES = ((80, 24), (60, 20), (40, 12))
ORDERED: tuple[Pair, ...] = (
    ("case_bore_1", "3642"),
    ("case_bore_2", "3644"),
    ("glass_1", "usual"),
    ("seat_depth", "1.45"),
    ("glass_order", "35.40 mm"),
)
"""As far as the job waits for the glass."""
CAME: tuple[Pair, ...] = (("glass_comes", "come"), ("glass_1", "3538"), ("glass_2", "3539"))
"""The glass that was ordered."""
REST = tuple(pair for pair in STRAIGHT if pair[0].partition("_")[0] not in ("case", "glass", "seat"))
MADE: tuple[Pair, ...] = (
    ("outside_reading", "36672"),
    ("wall_reading", "0.680"),
    *((f"wall_{place}", "0.575") for place in range(1, 5)),
    ("ring_height", "1.21"),
    ("marking", "bar_5"),
)


def asked(desk: Desk) -> str:
    """Key of the open step."""
    assert desk.walk is not None
    return desk.walk.open.key if desk.walk.open is not None else ""


def file_in(folder: Path) -> str:
    """The session file of the one job."""
    return str(next((folder / "jobs").glob("*.toml")))


def test_the_whole_job_with_the_glass_that_was_ordered(tmp_path: Path) -> None:
    """Left while it waits, opened again, the glass measured, the ring made to it."""
    desk, said = lines(tmp_path, [Hand(ORDERED, until="glass_comes")])
    assert asked(desk) == "glass_comes"
    assert "35.40 mm: wall 0.57" in said and "straight edge 1.5, thickness 1.7 mm or more" in said
    _, said = lines(tmp_path, [], file=file_in(tmp_path))
    assert "It waits for the glass, 35.40 mm ordered." in said
    desk, said = lines(tmp_path, [Hand((*CAME, *MADE))], file=file_in(tmp_path))
    assert asked(desk) == "" and "ordered: 35.40 mm" in said
    text = session_text(tmp_path)
    assert "not here" in text and text.count('key = "glass_1"') == 2


def test_the_list_of_jobs_says_what_it_waits_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines(tmp_path, [Hand(ORDERED, until="glass_comes")])
    capsys.readouterr()
    assert main(["jobs", "--json", "--folder", str(tmp_path)]) == DONE
    rows = json.loads(capsys.readouterr().out)
    row = rows[0] if isinstance(rows, list) else rows["jobs"][0]
    assert row["waiting_for"] == "the glass, 35.40 mm ordered" and row["stage"] == "measure"
    bench = bench_in(tmp_path)
    repairer = Repairer(OnFile(bench))
    repairer.feed(bench.listed())
    assert "the glass, 35.40 mm ordered" in read(repairer.desk)
    bench.close()


def test_a_glass_of_another_size_than_ordered_is_used(tmp_path: Path) -> None:
    other = (("glass_comes", "come"), ("glass_1", "3530"), ("glass_2", "3531"), ("glass_differs", "use"))
    desk, said = lines(tmp_path, [Hand((*ORDERED, *other, *REST))])
    assert asked(desk) == ""
    assert "Ordered 35.40, it measures 35.31 mm: use it?" in said
    assert "Wall with this glass 0.62, with the one ordered 0.57 mm." in said


def test_a_glass_of_another_size_is_sent_back_and_waited_for_again(tmp_path: Path) -> None:
    typing: list[Typist | str] = [
        Hand((*ORDERED, ("glass_comes", "come"), ("glass_1", "3510")), until="glass_2"),
        Hand((("glass_2", "3511"), ("glass_differs", "back")), until="glass_comes"),
    ]
    desk, said = lines(tmp_path, typing)
    assert asked(desk) == "glass_comes" and "CHECK  outside the usual walls, 0.40 to 0.65 mm." in said
    desk, _ = lines(tmp_path, [Hand((*CAME, *MADE))], file=file_in(tmp_path))
    assert asked(desk) == ""
    assert session_text(tmp_path).count('key = "glass_differs"') == 1


def test_a_glass_within_half_a_step_asks_nothing_more(tmp_path: Path) -> None:
    desk, _ = lines(tmp_path, [Hand((*ORDERED, *CAME), until="ring")])
    assert asked(desk) == "ring"


def test_a_glass_that_breaks_on_the_way_is_not_here_again(tmp_path: Path) -> None:
    desk, said = lines(tmp_path, [Hand(ORDERED, until="glass_comes"), "1", "1"])
    assert said.count("has it come?") == 2
    assert asked(desk) == "glass_comes"


def test_an_old_ring_or_a_piece_of_it_says_which_glass_sat_there(tmp_path: Path) -> None:
    """Wall 0.705 and 1.05 high: not the usual walls, and a lower edge."""
    old = (*ORDERED[:-1], ("old_wall", "0.705"), ("old_height", "1.05"), ("glass_order", "35.10 mm"))
    desk, said = lines(tmp_path, [Hand(old, until="glass_comes")])
    assert "By the old ring, wall 0.705" in said and "35.10 mm: wall 0.73, not usual" in said
    assert "straight edge 1.2, thickness 1.4 mm or more" in said
    came = (("glass_comes", "come"), ("glass_1", "3511"), ("glass_2", "3511"))
    desk, _ = lines(tmp_path, [Hand(came, until="ring")], file=file_in(tmp_path))
    page = read(replace(desk, columns=110, rows=60))
    assert "old ring, wall: 0.705 mm" in page and "old ring, height: 1.05 mm" in page


def test_another_diameter_can_be_keyed_and_shows_its_wall(tmp_path: Path) -> None:
    keyed = (*ORDERED[:-1], ("glass_wanted", "3525"), ("glass_order", "35.25 mm"))
    _, said = lines(tmp_path, [Hand(keyed, until="glass_comes")])
    assert "35.25 mm: wall 0.6" in said and "Glass of 35.25 mm ordered" in said


def test_a_seat_measured_again_while_waiting_asks_the_order_again() -> None:
    repairer = fresh().on_to("glass_1")
    repairer.type("1")
    repairer.on_to("glass_comes")
    repairer.pick("replace")
    repairer.pick_key("case_bore_2")
    repairer.type("36.45")
    repairer.go_on_replacing()
    assert repairer.asked == "glass_order"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_size_of_window_offers_it_and_says_the_order(size: tuple[int, int]) -> None:
    def page(repairer: Repairer) -> str:
        return read(replace(repairer.desk, columns=size[0], rows=size[1]))

    repairer = at("glass_1")
    assert "1 Enter: the glass is not here" in page(repairer)
    repairer.type("1")
    repairer.type("1.45")
    said = page(repairer)
    for words in (
        "straight edge 1.5, thickness 1.7 mm or more",
        "35.50 mm: wall 0.51",
        "35.40 mm: wall 0.57",
    ):
        assert words in said, words
    repairer.give("35.40 mm")
    assert "35.40 mm ordered: has it come?" in page(repairer)


def test_the_second_reading_is_not_offered_away() -> None:
    repairer = at("glass_2")
    assert "not here" not in read(repairer.desk)
    before = len(repairer.bench.entries)
    repairer.type("1")
    assert len(repairer.bench.entries) == before


def test_the_step_of_the_stock_is_the_shop_s() -> None:
    bench = Pretended()
    bench.shop = replace(bench.shop, glass_step_mm=0.25)
    repairer = Repairer(bench).open().on_to("glass_1")
    repairer.type("1")
    repairer.type("1.45")
    offered = [choice.word for choice in repairer.step.choices if choice.word.endswith("mm")]
    assert offered == ["35.50 mm", "35.25 mm"]


@pytest.mark.parametrize(
    ("seat", "step", "old_wall", "expected"),
    [
        # wall = gap / 0.91, by hand; nearest to 0.525, the middle of the usual walls
        (36.43, 0.10, None, (35.5, 35.4, 35.6)),
        (36.43, 0.10, 0.60, (35.3, 35.4, 35.5)),
        (28.00, 0.10, None, (27.0, 27.1, 26.9)),
        (28.00, 0.50, None, (27.0, 27.5)),
        (36.43, 0.10, 0.90, (34.8, 34.7, 34.9)),
    ],
)
def test_the_sizes_offered(
    seat: float, step: float, old_wall: float | None, expected: tuple[float, ...]
) -> None:
    found = glasses_to_order(
        lambda glass: (seat - glass) / 2 / 0.91, case_bore_mm=seat, step_mm=step, old_wall_mm=old_wall
    )
    assert tuple(one.glass_mm for one in found) == pytest.approx(expected)
    assert all(one.wall_mm == pytest.approx((seat - one.glass_mm) / 2 / 0.91) for one in found)


def test_thickness_by_the_design_stress() -> None:
    """Mineral, 19.3 MPa (Pilkington): 3 (3 + 0.23) / 8 x 0.3 MPa x (17.2 / t)^2 = 19.3 MPa at t 2.36."""
    table = glasses()
    assert thickness_mm(table["mineral"], glass_mm=35.4, overpressure_bar=3.0) == 2.4
    assert thickness_mm(table["acrylic"], glass_mm=35.4, overpressure_bar=3.0) is None
