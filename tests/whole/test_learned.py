"""A shop that learned from its finished jobs: what is looked up is kept, and nothing else changes a job."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import Append, Learnt, LookUp
from bench.desk.learning import learnt, looked_up_when_due
from bench.file.listing import Row, rows
from bench.file.load import Loaded, load as load_job
from bench.job import keys
from bench.job.job import Job, replay
from bench.job.learned import learned_from, learned_in, learned_words
from bench.job.past import PastRing, from_json, to_json
from bench.job.values import named, named_text
from bench.past import shelf
from bench.past.learning import landed, lately, looked_up, promises_of, repeats
from bench.seals import seal_of
from bench.shop.shop import built_in, load
from bench.stages.whole import walk
from rules.learning.promised import Promise
from screens.dispatch import main
from tests.whole.hands import lines
from tests.whole.sample_answers import FIRST_ATTEMPT
from tests.whole.script import Hand

SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
NOW = "2026-04-01T08:00:00+00:00"
SCRIPT = (("job", "300"), *(pair for pair in FIRST_ATTEMPT[1:] if pair[0] not in ("watch", "remark")))
TO_THE_PRESS = SCRIPT[: next(at for at, pair in enumerate(SCRIPT) if pair[0] == "marking")]


@pytest.fixture(scope="module")
def shop_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A folder with the sample jobs, four turned rings in three of them, and a ring sized after them, to the
    press.
    """
    folder = tmp_path_factory.mktemp("learned")
    (folder / "jobs").mkdir()
    for path in SAMPLES.glob("*.toml"):
        shutil.copy(path, folder / "jobs")
    lines(folder, [Hand(TO_THE_PRESS, until="marking")])
    yield folder


def loaded_in(folder: Path, number: int = 300) -> Loaded:
    """The file of a job."""
    return load_job(next((folder / "jobs").glob(f"{number:05d}*.toml")).read_bytes())


def job_in(folder: Path, number: int = 300) -> Job:
    """A job as its file says it."""
    loaded = loaded_in(folder, number)
    assert loaded.head is not None and not loaded.gated
    return replay(loaded.head, loaded.usable)


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
    assert [1, 0.0051] in order["offsets_mm"], "the turning tool begins with what it cut before"


def test_a_job_walked_again_gives_the_same_whatever_was_learned_since(shop_folder: Path) -> None:
    """Neither other jobs nor the switch change a ring that was accepted, nor its plan."""
    job = job_in(shop_folder)
    shop = built_in()
    wanted = walk(job, shop)
    found = walk(job, replace(shop, learn_from_jobs=False, lately=lately((), shop, NOW)))
    for one in (keys.RING, keys.WALL_READING, keys.last("bore")):
        assert wanted.step(one) == found.step(one)
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
    desk, out = lines(tmp_path, ["*", "18", "9", "2", "8"])
    assert desk.page == "jobs" and "written to shop.toml" in out
    assert "= from your last 5 rings: walls land" in out and "of 5 rings promised 81 %, 4 fitted" in out
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


def test_a_ring_is_read_as_it_came_out(shop_folder: Path) -> None:
    """Aims, walls, tools, outcome; what was allowed for is taken out of where it landed."""
    (ring,) = seal_of(job_in(shop_folder)).past(job_in(shop_folder))
    assert ring.walls_mm == (0.628, 0.631, 0.633, 0.630) and ring.outcome == "home"
    assert ring.allowed_mm == pytest.approx(-0.006) and ring.off_mm == pytest.approx(0.6305 - 0.641)
    assert ring.turned_by == "small bench lathe | tool 2 boring bar, nose 0.20 | acetal"
    assert [tool for tool, _ in ring.tools] == [
        "tool 1 keen right-hand turning tool, nose 0.20",
        "tool 2 boring bar, nose 0.20",
    ]
    assert from_json(to_json([ring])) == (ring,)
    second = job_in(shop_folder, 214)
    first, other = seal_of(second).past(second)
    assert (first.outcome, other.outcome) == ("too_easy", "home") and first.promised == 0.769
    assert first.off_mm == pytest.approx(0.46775 - 0.485)


def test_the_book_beside_the_jobs_is_never_trusted_over_them(
    shop_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rubbish, an older state and a file that changed: read again; what did not change is not."""
    shutil.copytree(shop_folder / "jobs", tmp_path / "jobs")
    wanted = shelf.rings_in(tmp_path)
    assert len(wanted) == 6
    opened: list[int] = []

    def counted(data: bytes) -> Loaded:
        opened.append(len(data))
        return load_job(data)

    monkeypatch.setattr(shelf, "load", counted)
    assert shelf.rings_in(tmp_path) == wanted and opened == []
    book = tmp_path / shelf.KNOWN_NAME
    book.write_text(book.read_text(encoding="utf-8").replace("aimed_mm", "aimed"), encoding="utf-8")
    assert shelf.rings_in(tmp_path) != wanted, "a ring that cannot be read is left out, nothing falls"
    book.write_bytes(b"\xff rubbish")
    assert shelf.rings_in(tmp_path) == wanted and len(opened) == 5
    path = next((tmp_path / "jobs").glob("00226*"))
    path.write_bytes(path.read_bytes()[:1200])
    assert len(shelf.rings_in(tmp_path)) == 5 and len(opened) == 5, "no ring was accepted in what is left"


def test_only_the_newest_jobs_are_looked_at(
    shop_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ten thousand jobs cost no more than the newest of them."""
    (tmp_path / "jobs").mkdir()
    for number in range(1, 400):
        (tmp_path / "jobs" / f"{number:05d}-old.toml").write_bytes(b"")
    shutil.copy(next((shop_folder / "jobs").glob("00208*")), tmp_path / "jobs" / "00400-new.toml")
    looked: list[Path] = []

    def counted(paths: list[Path], **more: Any) -> list[Row]:
        looked.extend(paths)
        return rows(paths, **more)

    monkeypatch.setattr(shelf, "rows", counted)
    assert len(shelf.rings_in(tmp_path)) == 1 and len(looked) == shelf.LOOKED_AT


RING = PastRing(
    job="1", number=1, at=NOW, plastic="acetal", outside_mm=30.0, bore_mm=29.0, height_mm=1.0, aimed_mm=0.5
)


def test_what_says_nothing_of_landing_or_promise_is_left_out() -> None:
    """A ring not turned, not measured or never promised; an outcome with another cause."""
    turned = replace(RING, walls_mm=(0.51,) * 4, turned_by="a | b | acetal")
    assert turned.off_mm == pytest.approx(0.01) and RING.off_mm is None
    assert replace(RING, walls_mm=(0.51,) * 4).off_mm is None
    assert landed([RING], built_in(), "a | b | acetal", NOW) is None
    assert looked_up([RING], built_in(), ("a | b | acetal",), NOW) == ()
    tried = replace(turned, promised=0.8, outcome="home")
    rings = [
        tried,
        replace(tried, leaked=True),
        replace(tried, outcome="shaved", other_cause="burr"),
        replace(tried, outcome="too_easy"),
        replace(tried, outcome=""),
    ]
    assert promises_of(rings) == (Promise(0.8, True), Promise(0.8, False), Promise(0.8, False))
    pairs = [replace(RING, repeats=(("glass", 0.01), ("seat", 0.02)))] * 4
    assert repeats(pairs) == ()
    (glass, seat) = repeats([*pairs, replace(RING, repeats=(("glass", -0.01), ("seat", 0.02)))])
    assert (glass.pairs, seat.what) == (5, "seat") and glass.sd_mm == pytest.approx(0.01 / 2**0.5)


def test_a_mark_is_kept_as_it_is_read_and_rubbish_counts_for_nothing(shop_folder: Path) -> None:
    """Every figure comes back; what was changed by hand into nothing leaves what is assumed."""
    job = job_in(shop_folder)
    learned, mark = learned_in(job, goes_by_it=True), job.newest(keys.LEARNED)
    assert learned is not None and mark is not None
    assert learned_from(learned_words(learned)) == learned and learned_words(learned) == mark.words
    for text in ("lands_sd nothing", "lands_sd 0.0000 mm", "tool_x 0.1 mm"):
        spoiled = tuple(text if word.startswith(text.split()[0][:5]) else word for word in mark.words)
        assert learned_from(spoiled) is None
    odd = replace(learned, lands=replace(learned.lands, odd=("1 of job 9", "2 of job 12")))
    assert learned_from(learned_words(odd)) == odd


def test_a_read_only_job_is_not_written_to(shop_folder: Path) -> None:
    """Nothing is looked up where nothing can be kept; asked once for a ring that nobody knows of."""
    job = job_in(shop_folder)
    entries = [entry for entry in loaded_in(shop_folder).usable if entry.n < job.newest_n(keys.LEARNED)]
    cut = replay(job.head, entries)
    shop = built_in()
    desk = Desk(page="step", job=cut, walk=walk(cut, shop), shop=shop, head=job.head, file="x", sitting=True)
    asked, (effect,) = looked_up_when_due(desk, ())
    assert isinstance(effect, LookUp) and effect.learns[0].startswith("small bench lathe | tool 2")
    assert looked_up_when_due(asked, ()) == (asked, ())
    for idle in (replace(desk, writable=False), replace(desk, sample=True), replace(desk, sitting=False)):
        assert looked_up_when_due(idle, ()) == (idle, ())
    assert learnt(desk, Learnt(effect.learns, ())) == (desk, ())
    assert learnt(desk, Learnt(("another",), ("looked up",))) == (desk, ())
    kept, (mark,) = learnt(desk, Learnt(effect.learns, ("looked up", "rings 1")))
    assert isinstance(mark, Append) and kept.pending is mark and mark.kind == "mark"
