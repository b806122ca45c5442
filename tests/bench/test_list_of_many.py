"""The list of jobs over many files: quick, with its progress told,
and stopped by nothing that stands there.
"""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.copy_effects import FindCopies
from bench.desk.desk import Desk
from bench.desk.effects import Glance
from bench.desk.jobs_page import still_looking
from bench.desk.token import Token
from bench.desk.update import update
from bench.file.codec import render_entry, render_head
from bench.file.load import load
from bench.folder import GLANCED_NAME, INDEX_NAME
from bench.in_numbers import MANY, apply_to_many
from bench.job_list import listed
from bench.progress import FIRST_S, Progress
from bench.refusal import BAD_INPUT, DONE
from bench.workbench import Workbench
from ringwright import main
from screens.full import fed, in_window, opening
from screens.look import Look
from screens.serving import ticking
from screens.view import view
from tests.bench.test_standing import SAMPLES, prefixes, without_word

ENDING = [path.read_bytes() for path in SAMPLES]
OPEN = [part for data in ENDING for part in prefixes(data)[10::9]]


def silent(data: bytes) -> bytes:
    """A file as a version wrote it that does not say where its job stands."""
    loaded = load(data)
    assert loaded.head is not None
    blocks = [render_entry(without_word(one), salt=loaded.head.id) for one in loaded.usable]
    return render_head(loaded.head) + b"".join(blocks)


def filled(folder: Path, contents: list[bytes], count: int) -> Path:
    """A folder with so many jobs."""
    jobs = folder / "jobs"
    jobs.mkdir(parents=True)
    for number in range(1, count + 1):
        (jobs / f"{number:05d}.toml").write_bytes(contents[number % len(contents)])
    return folder


def test_the_list_is_the_same_the_first_time_and_again(tmp_path: Path) -> None:
    filled(tmp_path, [*OPEN, *map(silent, OPEN)], MANY + 10)
    for open_steps in (False, True):
        first = listed(tmp_path, open_steps=open_steps)
        assert listed(tmp_path, open_steps=open_steps) == first
        assert len(first) == MANY + 10
        assert all(row.stage and (row.finished or row.waiting_for) for row in first)
        assert all(bool(row.step) is not row.finished for row in first) is open_steps


def test_a_file_that_changes_is_looked_at_again(tmp_path: Path) -> None:
    filled(tmp_path, [OPEN[0]], 3)
    before = listed(tmp_path)
    (tmp_path / "jobs" / "00002.toml").write_bytes(ENDING[0])
    after = listed(tmp_path)
    assert (after[0], after[2]) == (before[0], before[2]) and after[1] != before[1]


STANDING_THERE: dict[str, Callable[[Path], object]] = {
    "pipe": os.mkfifo,
    "folder": Path.mkdir,
    "link": lambda path: path.symlink_to("/dev/zero"),
    "nothing": lambda path: path.write_bytes(b""),
    "noise": lambda path: path.write_bytes(bytes(range(256)) * 50),
    "large": lambda path: path.write_bytes(bytes(9 * 2**20)),
}


@pytest.mark.parametrize("name", STANDING_THERE)
def test_what_stands_among_the_jobs_stops_no_list(
    tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    filled(tmp_path, [OPEN[0]], 1)
    STANDING_THERE[name](tmp_path / "jobs" / "00002.toml")
    for words in (["jobs"], ["jobs", "--json"]):
        assert main(["--folder", str(tmp_path), *words]) == DONE
    assert len(capsys.readouterr().out.splitlines()) == 3
    rows = Workbench(tmp_path).listed().rows
    assert [row.number for row in rows] == ["2", "1"]
    assert rows[0].waiting_for and rows[1].stage


@pytest.mark.parametrize("name", [INDEX_NAME, GLANCED_NAME])
@pytest.mark.parametrize("kind", STANDING_THERE)
def test_what_stands_in_place_of_an_index_stops_no_list(
    tmp_path: Path, name: str, kind: str, capsys: pytest.CaptureFixture[str]
) -> None:
    filled(tmp_path, [silent(OPEN[0])], 1)
    STANDING_THERE[kind](tmp_path / name)
    assert main(["--folder", str(tmp_path), "jobs", "--json"]) == DONE


@pytest.mark.parametrize("kind", ["pipe", "folder", "link"])
def test_what_stands_in_place_of_the_shop_file_is_refused_by_name(
    tmp_path: Path, kind: str, capsys: pytest.CaptureFixture[str]
) -> None:
    filled(tmp_path, [OPEN[0]], 1)
    STANDING_THERE[kind](tmp_path / "shop.toml")
    for words in (["shop"], ["sheet", "1"], ["--plain", "1"]):
        assert main(["--folder", str(tmp_path), *words]) in (BAD_INPUT, 3)
        assert "shop.toml line 1: cannot be read" in capsys.readouterr().err
    assert main(["--folder", str(tmp_path), "jobs"]) == DONE


class Terminal(io.StringIO):
    """A terminal that keeps what was written to it."""

    def isatty(self) -> bool:
        return True


def seconds(step: float) -> Callable[[], float]:
    """A clock that goes on by so much at every look."""
    passed = iter(step * n for n in range(10**6))
    return lambda: next(passed)


def test_progress_is_told_to_who_waits(tmp_path: Path) -> None:
    filled(tmp_path, [OPEN[0]], 30)
    out = Terminal()
    progress = Progress(out, "jobs looked at", now=seconds(0.1))
    listed(tmp_path, told=progress.told)
    progress.clear()
    assert "9 of 30 jobs looked at" in out.getvalue()
    assert out.getvalue().endswith("\r")


@pytest.mark.parametrize(("out", "step"), [(io.StringIO(), 1.0), (None, 1.0), (Terminal(), FIRST_S / 100)])
def test_progress_is_not_told_to_a_script_nor_of_what_is_done_at_once(
    out: io.StringIO | None, step: float
) -> None:
    progress = Progress(out, "jobs looked at", now=seconds(step))
    for done in range(50):
        progress.told(done, 50)
    progress.clear()
    assert out is None or out.getvalue() == ""


def doubled(path: Path) -> str:
    """Work that kills the process it is done in, where that is a helping one and the file says so."""
    if path.name == "00777" and os.getpid() != MAIN:
        os._exit(1)
    return path.name * 2


MAIN = os.getpid()


@pytest.mark.parametrize("count", [0, 3, MANY - 1, 2 * MANY])
def test_many_are_done_in_order_whatever_becomes_of_a_process(count: int) -> None:
    paths = [Path(f"{n:05d}") for n in range(count)]
    heard: list[tuple[int, int]] = []
    made = list(apply_to_many(doubled, paths, told=lambda done, of: heard.append((done, of))))
    assert made == [path.name * 2 for path in paths]
    assert heard == [(n, count) for n in range(1, count + 1)]


def key(text: str) -> Token:
    """A key."""
    return Token("key", text)


def looked_for(desk: Desk, bench: Workbench) -> Iterator[Desk]:
    """The desk after every tick that it wants while it looks for the jobs of one stage."""
    while ticking(desk):
        desk, effects = update(desk, Token("tick"))
        assert all(isinstance(effect, Glance | FindCopies) for effect in effects)
        for arrival in bench.carry_out(effects):
            desk, _ = update(desk, arrival)
        yield desk


def test_every_job_of_a_stage_is_counted(tmp_path: Path) -> None:
    """A thousand jobs, of which a quarter fits: all are counted, a few at a time, and told meanwhile."""
    cut = next(part for part in OPEN if b"stands cut" in part[-600:])
    filled(tmp_path, [cut, OPEN[0], OPEN[0], ENDING[0]], 1000)
    bench = Workbench(tmp_path)
    desk, _ = update(Desk(bounce_ms=0), bench.listed())
    desk, effects = update(replace(desk, stage_only="cut"), key("next"))
    for arrival in bench.carry_out(effects):
        desk, _ = update(desk, arrival)
    assert still_looking(desk)
    heading = "".join(text for text, _ in view(desk, Look("ascii"))[0])
    assert "so far" in heading and "of 1000 jobs looked into" in heading
    steps = list(looked_for(desk, bench))
    assert len(steps) > 10
    assert len(steps[-1].fits) == 250
    heading = "".join(text for text, _ in view(steps[-1], Look("ascii"))[0])
    assert "of 250 of 1000 jobs, only cut" in heading


def test_the_first_list_is_that_of_the_desk_that_goes_on_with_it(tmp_path: Path) -> None:
    """It stands before all that changes a desk is loaded, and is what that would have made of it."""
    bench = Workbench(filled(tmp_path, ENDING, 60))
    sooner = in_window(bench, opening(bench, ""), 100, 40)
    later = fed(bench, Desk(), bench.listed(), Token("resized", columns=100, rows=40))
    later = replace(later, now=sooner.now, wall=sooner.wall, twins={}, twins_of=())  # looked for later
    assert later == sooner
    assert len(sooner.known) == 33 and view(sooner, Look()) == view(later, Look())
