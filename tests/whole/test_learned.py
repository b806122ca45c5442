"""A shop that learned from its finished jobs: what is looked up is kept, and nothing else changes a job."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import Append, Learnt, LookUp
from bench.desk.learning import learnt, looked_up_when_due
from bench.job import keys
from bench.job.job import replay
from bench.job.values import named, named_text
from bench.past.learning import lately
from bench.shop.shop import built_in, load
from bench.stages.whole import walk
from screens.dispatch import main
from tests.whole.hands import lines
from tests.whole.past_jobs import NOW, TO_THE_PRESS, job_in, learned_folder, loaded_in
from tests.whole.script import Hand


@pytest.fixture(scope="module")
def shop_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Made once for all of them."""
    return learned_folder(tmp_path_factory.mktemp("learned"))


def test_what_was_looked_up_stands_in_the_job_before_the_ring(shop_folder: Path) -> None:
    job = job_in(shop_folder)
    mark, ring = job.newest(keys.LEARNED), job.newest(keys.RING)
    assert mark is not None and ring is not None and mark.n < ring.n
    assert (named(mark.words, "rings"), named(mark.words, "of_line")) == (4, 4)
    lands = named(mark.words, "lands")
    assert lands is not None and lands < -0.004, "the sample rings came out thin"
    assert named(ring.words, "lands") == pytest.approx(lands, abs=6e-4)
    assert named(ring.words, "chance") is not None


def test_the_lathe_aims_beside_the_ring_and_its_order_keeps_the_ring(shop_folder: Path) -> None:
    """The ring stays as accepted; the bore is aimed so that a wall that lands thin comes out as wanted."""
    job = job_in(shop_folder)
    ring, last = job.newest(keys.RING), job.newest(keys.last("bore"))
    checked = job.newest(keys.LATHE_SPEED)
    assert ring is not None and last is not None and checked is not None
    order = json.loads(named_text(checked.words, "order"))
    assert order["ring"]["bore_mm"] == named(ring.words, "bore")
    offset, lands = named(last.words, "offset"), named(ring.words, "lands")
    went_to = float(last.words[1].split()[3].rstrip(","))
    assert offset is not None and lands is not None
    aimed = (named(ring.words, "bore") or 0.0) + 2.0 * lands
    assert went_to + offset == pytest.approx(aimed, abs=0.0051), "to the step of the read-out"
    assert order["offsets_mm"] == [], "a tool is touched off again: no offset of another job holds"


def test_a_job_walked_again_gives_the_same_whatever_was_learned_since(shop_folder: Path) -> None:
    """Neither other jobs nor the switch change a ring that was accepted, nor its plan."""
    job = job_in(shop_folder)
    shop = built_in()
    wanted = walk(job, shop)
    found = walk(job, replace(shop, learn_from_jobs=False, lately=lately((), shop, NOW)))
    for one in (keys.RING, keys.WALL_READING, keys.last("bore")):
        assert wanted.step(one) == found.step(one)
    bar = next(step for step, _ in wanted.done if step.key == keys.LATHE_BAR)
    assert (
        "walls land 0.006 mm thin in this shop: the bore is aimed 0.012 mm smaller than accepted" in bar.say
    )
    step = wanted.step(keys.RING)
    assert step is not None and "From your last 4 rings: walls land 0.006 thin" in step.why
    assert "assumed on size, good to 0.010" in step.why


def test_presses_are_those_of_a_shop_that_knows_nothing(shop_folder: Path, tmp_path: Path) -> None:
    """The same script, and the same answers in the file."""
    desk, _ = lines(tmp_path, [Hand(TO_THE_PRESS, until="marking")])
    asked = [entry.key for entry in desk.entries if entry.kind == "answer"]
    assert asked == [one.key for one in job_in(shop_folder).answers]
    assert not any(entry.key == keys.LEARNED for entry in desk.entries), "no finished job, no mark"


def test_nothing_is_looked_up_where_the_shop_says_so(shop_folder: Path, tmp_path: Path) -> None:
    """Switched off by keypad; the file keeps it with its word, and the page of the shop says it."""
    shutil.copytree(shop_folder / "jobs", tmp_path / "jobs")
    desk, out = lines(tmp_path, ["*", "18", "7", "1", "2", "8"])
    assert desk.page == "jobs" and "written to shop.toml" in out
    assert "from your last 5 rings: walls land" in out and "of 5 rings promised 81 %, 4 fitted" in out
    assert "learn_from_jobs = false" in (tmp_path / "shop.toml").read_text(encoding="utf-8")
    assert not load(tmp_path).learn_from_jobs
    to_the_ring = (("job", "301"), *TO_THE_PRESS[1:7])
    desk, _ = lines(tmp_path, [Hand(to_the_ring, until="ring")])
    assert not any(entry.key == keys.LEARNED for entry in desk.entries)
    assert desk.step is not None and "From your last" not in desk.step.why


def test_the_command_says_what_was_learned(
    shop_folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bench.commands.shop.wall_now", lambda: NOW)
    assert main(["--folder", str(shop_folder), "shop"]) == 0
    said = capsys.readouterr().out
    assert "from your last 5 rings: walls land 0.006 thin, good to 0.0" in said
    assert "of 5 rings promised 81 %, 4 fitted" in said
    assert main(["--folder", str(shop_folder), "shop", "--json"]) == 0
    learned = json.loads(capsys.readouterr().out)["finished_rings"]
    assert learned["lands"]["rings"] == 5 and learned["promised"]["fitted"] == 4
    assert learned["promised_by_tenths"][0]["low"] is None, "ten rings are needed for an interval"


def test_a_read_only_job_is_not_written_to(shop_folder: Path) -> None:
    """Nothing is looked up where nothing can be kept; asked once for a ring that nobody knows of."""
    job = job_in(shop_folder)
    entries = [entry for entry in loaded_in(shop_folder).usable if entry.n < job.newest_n(keys.LEARNED)]
    cut = replay(job.head, entries)
    shop = built_in()
    desk = Desk(page="step", job=cut, walk=walk(cut, shop), shop=shop, head=job.head, file="x", sitting=True)
    asked, (effect,) = looked_up_when_due(desk, ())
    assert isinstance(effect, LookUp) and effect.mark == keys.LEARNED
    assert effect.learns[0].startswith("small bench lathe | tool 2")
    asked, (drawer,) = looked_up_when_due(asked, ())
    assert isinstance(drawer, LookUp) and drawer.mark == keys.LOOKED_IN
    assert looked_up_when_due(asked, ()) == (asked, ())
    for idle in (replace(desk, writable=False), replace(desk, sample=True), replace(desk, sitting=False)):
        assert looked_up_when_due(idle, ()) == (idle, ())
    assert learnt(desk, Learnt(effect.learns, keys.LEARNED, ())) == (desk, ())
    assert learnt(desk, Learnt(("another",), keys.LEARNED, ("looked up",))) == (desk, ())
    kept, (mark,) = learnt(desk, Learnt(effect.learns, keys.LEARNED, ("looked up", "rings 1")))
    assert isinstance(mark, Append) and kept.pending is mark and mark.kind == "mark"
