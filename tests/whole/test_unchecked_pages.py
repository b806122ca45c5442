"""Checks of an earlier sitting count as not given from the moment a job is opened, on whatever page."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import SessionOpened
from bench.desk.entries import NUMBERS
from bench.desk.token import Leave
from screens.plain import Plain
from tests.campaigns.lathe_walker import recorded
from tests.whole.lathe_judge import SAYS_RAISING, SAYS_TURNING, fault
from tests.whole.places import at
from tests.whole.repairer import Pretended, Repairer
from tests.whole.seen import read

AT_THE_LATHE = ("rough_outside", "drill", "finish_outside", "outside_reading", "last_bore", "chamfer", "part")
AT_THE_TESTER = ("empty_hold", "empty_result")
WITH_READINGS = ("empty_signal_0", "empty_hold")
TALL = 200
"""Rows of a window in which every page stands whole."""


def with_readings(key: str) -> Repairer:
    """A repairer before a step of the test with readings."""
    repairer = at("empty_pressure").copy()
    repairer.pick("usual")
    repairer.pick_key("empty_method")
    repairer.give("dry_deflection")
    return repairer.on_to(key, {"empty_signal_0": "12.0"} if key == "empty_hold" else {})


PLACES = [(key, at) for key in (*AT_THE_LATHE, *AT_THE_TESTER)] + [
    (key, with_readings) for key in WITH_READINGS
]


def reopened(repairer: Repairer, *, writable: bool) -> None:
    """The program was killed, and the job is opened again; or it is opened a second time, to read only."""
    opened: SessionOpened = repairer.bench.opened()
    why = "" if writable else "open in another window"
    repairer.feed(replace(opened, writable=writable, why_read_only=why))
    repairer.desk = replace(repairer.desk, rows=TALL)


def pages(repairer: Repairer) -> Iterator[tuple[str, Desk]]:
    """Every page that can be laid over the present one, and everything that can be picked from the lists."""
    yield "at first", repairer.desk
    for item in NUMBERS.values():
        other = repairer.copy()
        other.key("list")
        yield "the list", other.desk
        other.type(str(item))
        yield f"entry {item}", other.desk
        if other.desk.page == "pick":
            for _ in range(5):
                other.key("next")
                yield f"entry {item}, further down", other.desk
            other.type("1")
            yield f"entry {item}, the first picked", other.desk
            other.key("previous")
            yield "and the one before it", other.desk


@pytest.mark.parametrize("writable", [True, False])
@pytest.mark.parametrize(("key", "stand"), PLACES, ids=[f"{key}-{stand.__name__}" for key, stand in PLACES])
def test_no_page_says_what_to_do_before_the_checks(key: str, stand: object, *, writable: bool) -> None:
    repairer = stand(key)  # type: ignore[operator]
    before = read(replace(repairer.desk, rows=TALL, columns=70))
    reopened(repairer, writable=writable)
    met = 0
    for name, desk in pages(repairer):
        met += 1
        step = desk.step.key if desk.page == "step" and desk.step is not None else ""
        entries = recorded(repairer.bench.entries)
        wrong = fault(entries, step, opened_at=len(entries), text=read(desk))
        assert not wrong, f"{name}: {wrong}"
    assert met > 30
    if key not in ("outside_reading", "empty_result"):
        assert SAYS_TURNING.search(before) or SAYS_RAISING.search(before), "the judge reads nothing there"


def test_the_page_of_the_pressure_says_nothing_of_raising_it() -> None:
    for stand in (at, with_readings):
        desk = replace(stand("empty_pressure").desk, rows=TALL)
        for page in ("step", "why"):
            assert not SAYS_RAISING.search(read(replace(desk, page=page)))


def test_the_hold_of_a_test_that_is_over_is_not_looked_back_at_without_its_check() -> None:
    repairer = at("renewed").copy()
    reopened(repairer, writable=True)
    repairer.type("1")
    for _ in range(8):
        repairer.key("previous")
        assert repairer.step.key != "empty_hold"
    assert "empty_result" in repairer.desk.walk.keys  # type: ignore[union-attr]


def test_where_it_stood_keeps_its_count() -> None:
    repairer = at("last_bore").copy()
    kept = len(repairer.desk.job.answers)  # type: ignore[union-attr]
    reopened(repairer, writable=True)
    assert f"{kept} answers kept" in read(repairer.desk) and "in the stage cut" in read(repairer.desk)


def test_a_mark_that_is_refused_leaves_the_checks_not_given() -> None:
    """After a quarter of an hour the new sitting cannot be written:
    the account, and nothing behind the checks.
    """
    repairer = at("last_bore").copy()
    repairer.wait(1000)
    from bench.desk.token import Token
    from bench.desk.update import update

    desk, effects = update(repairer.desk, Token("key", "1", at=repairer.seconds, wall=repairer.wall()))
    assert effects
    desk, _ = update(desk, Token("refused", "the disk is full", wall=repairer.wall()))
    assert desk.page == "account"
    for page in ("account", "why"):
        assert not SAYS_TURNING.search(read(replace(desk, page=page, rows=TALL)))


class ToRead(Pretended):
    """A bench on which a job stands that another window has open."""

    def __init__(self, stood: Repairer, *, writable: bool) -> None:
        super().__init__()
        self.entries, self.writable = list(stood.bench.entries), writable

    def opened(self) -> SessionOpened:
        """The job as it is opened here."""
        return replace(
            super().opened(), writable=self.writable, why_read_only="" if self.writable else "in use"
        )

    def close(self) -> None:
        """Nothing is open."""

    def farewell(self, leave: Leave) -> Leave:
        """Nothing was written that could not be saved."""
        return leave


@pytest.mark.parametrize("writable", [True, False])
@pytest.mark.parametrize("key", [*AT_THE_LATHE[:5], "empty_hold"])
def test_plain_lines_say_nothing_before_the_checks(key: str, *, writable: bool) -> None:
    out = io.StringIO()
    bench = ToRead(at(key), writable=writable)
    plain = Plain(Desk(hasty=True, bounce_ms=0), bench, out=out)  # type: ignore[arg-type]
    bench.wall = at(key).wall
    plain.start("00001.toml")
    plain.run(iter(["*", "1", "*", "3", "*", "/"]))
    said = " ".join(out.getvalue().split())
    assert "answers kept" in said
    assert not SAYS_TURNING.search(said) and not SAYS_RAISING.search(said), said
