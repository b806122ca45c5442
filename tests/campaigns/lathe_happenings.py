"""What happens between two right answers: whims of the hand, other windows, sleep, files, disks."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import cast

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from bench.desk.token import Token
from bench.job.job import replay, words_of
from bench.workbench import Workbench
from screens.plain import Plain
from tests.campaigns.lathe_bench import NAME, Filed, edited
from tests.campaigns.lathe_walker import Walker, usual
from tests.whole.lathe_judge import seen_whole

WHOLE = ((80, 24), (132, 43), (60, 20), (40, 12), (110, 45))
SMALL = ((39, 24), (80, 11), (20, 6), (1, 1))
"""Windows, and windows too small to show a question."""


def back(walk: Walker) -> None:
    """Some questions back; a check that stands there is sometimes answered anew, as it comes."""
    walk.press(*["previous"] * walk.dice.randint(1, 4))
    if walk.check[0] and walk.dice.random() < 0.3:
        walk.type(str(walk.dice.randint(1, 3)))


def forward(walk: Walker) -> None:
    """One question forward."""
    walk.press("next")


def from_the_list(walk: Walker) -> None:
    """Anything from the list "everything else"."""
    walk.press("list", *["next"] * walk.dice.randint(0, 2))
    walk.type(str(walk.dice.choice(list(NUMBERS.values()))))


def started_again(walk: Walker) -> None:
    """The program is ended and started again."""
    walk.tally.met["resumed"] += 1
    walk.come_back()


def leave_alone(walk: Walker) -> None:
    """Nobody is there, on whatever page, and the computer may sleep; then a key."""
    if walk.dice.random() < 0.5:
        walk.press("list")
        if walk.dice.random() < 0.7:
            walk.type(str(walk.dice.randint(1, 7)))
    walk.dice.choice((walk.hand.wait, walk.hand.sleep))(walk.dice.choice((300, 1000, 40000)))
    walk.press(walk.dice.choice(("1", "2", "3", "previous", "list", "next")))


def clock_set(walk: Walker) -> None:
    """Somebody sets the wall clock, or the network does; where nothing else counts sleep, it is unclear."""
    walk.tally.met["clock set"] += 1
    walk.hand.now += timedelta(hours=walk.dice.choice((-30, -1, -0.1, 0.3, 1, 30)))
    walk.clock_set = not walk.hand.tells_boot
    walk.press(walk.dice.choice(("1", "2", "3", "previous", "list", "next")))


def any_digit(walk: Walker) -> None:
    """A digit, wherever it is."""
    walk.type(str(walk.dice.randint(0, 9)))


def take_back(walk: Walker) -> None:
    """Undo, from wherever the list is; sometimes twice."""
    walk.tally.met["taken back"] += 1
    walk.clear()
    walk.press("list")
    if walk.hand.desk.page == "list":
        walk.type(str(NUMBERS["undo"]))


def other_window(walk: Walker) -> None:
    """The window gets another size; in one that shows nothing some keys are pressed, and it grows again."""
    if walk.dice.random() < 0.5:
        walk.resize(*walk.dice.choice(SMALL))
        walk.press(*usual(walk.hand.desk), "enter", walk.dice.choice(("list", "previous", "1")))
    walk.resize(*walk.dice.choice(WHOLE))


def second_window(walk: Walker) -> None:
    """The job is opened a second time, to read only, and looked through; then replayed from its entries."""
    walk.tally.met["second windows"] += 1
    other, dice = walk.hand.copy(), walk.dice
    bench = cast("Filed", other.bench)
    bench.writable = False
    columns, rows = dice.choice(WHOLE)
    other.desk = replace(other.desk, columns=columns, rows=rows)
    since, kept = walk.bench.last_n, len(bench.entries)
    other.feed(bench.opened())
    walk.judge(other.desk, since)
    keys = ("1", "2", "3", "4", "5", "6", "enter", "enter", "list", "list", "previous", "next")
    for _ in range(8):
        other.key(dice.choice(keys))
        walk.judge(other.desk, since)
    if len(bench.entries) > kept:
        walk.tally.faults.append("a window that only reads has written")
    job = walk.hand.desk.job
    if job is not None and not walk.bench.full and job != replay(job.head, walk.bench.entries):
        walk.tally.faults.append("the job is not what its entries replayed give")


def plain_lines(walk: Walker) -> None:
    """The job goes on in plain lines for a while, or is read in them; then in the window again."""
    bench, hand, dice = walk.bench, walk.hand, walk.dice
    if bench.raw is not None:
        return
    bench.writable = dice.random() < 0.85
    walk.since, walk.clock_set, out = bench.last_n, False, io.StringIO()
    walk.last_key_s = hand.seconds + hand.asleep
    plain = Plain(
        Desk(hasty=dice.random() < 0.5, bounce_ms=0),
        cast("Workbench", bench),
        out=out,
        wall=hand.wall,
        now=lambda: hand.seconds,
        boot=lambda: hand.boot,
    )
    plain.start(NAME)
    for _ in range(dice.randint(3, 12)):
        plain.go_on()
        plain.prompt()
        walk.tally.met["plain lines"] += 1
        walk.tally.pages["plain"] += 1
        walk.judge_text("plain lines", " ".join(out.getvalue().split()), walk.since)
        out.seek(0)
        out.truncate()
        if plain._left is not None or plain.desk.page == "jobs":
            break
        hand.wait(2 if dice.random() < 0.97 else 1000)
        walk.counted()
        plain.answer(line_for(walk, plain.desk))
    bench.writable = True
    walk.come_back()


def line_for(walk: Walker, desk: Desk) -> str:
    """What is typed in plain lines: mostly the usual, sometimes anything."""
    if walk.dice.random() < 0.2 or desk.page != "step":
        return walk.dice.choice(("*", "/", "+", "1", "2", "3", "5", "8"))
    return usual(desk)


def changed_by_hand(walk: Walker) -> None:
    """The program is ended, a hand is in the file, and it is opened again."""
    walk.tally.met["edited by hand"] += 1
    if walk.bench.raw is None and walk.bench.entries:
        walk.bench.raw = edited(walk.bench, walk.dice)
    walk.come_back()


def sent_away(walk: Walker) -> None:
    """The job is exported, taken in elsewhere, and opened there."""
    walk.tally.met["sent and taken in"] += 1
    if walk.bench.raw is None:
        walk.bench.send_away()
    walk.come_back()


def full_disk(walk: Walker) -> None:
    """For a while nothing can be saved, whatever is keyed; the program may be started again meanwhile."""
    walk.tally.met["refused"] += 1
    walk.bench.full = True
    if walk.dice.random() < 0.3:
        walk.come_back()
    for _ in range(walk.dice.randint(1, 3)):
        walk.go_on()
    walk.bench.full = False
    walk.clear()


def hastily(walk: Walker) -> None:
    """Keys as fast as a hand that does not look."""
    walk.tally.met["hasty"] += 1
    if not seen_whole(walk.hand.desk.columns, walk.hand.desk.rows):
        return
    walk.clear()
    for _ in range(3):
        walk.hand.feed(Token("painted", at=walk.hand.seconds, wall=walk.hand.wall()))
        walk.press(*usual(walk.hand.desk), "enter", slowly=False)
    walk.hand.look()


HAPPENINGS: dict[Callable[[Walker], None], float] = {
    back: 5,
    forward: 3,
    from_the_list: 7,
    started_again: 4,
    leave_alone: 2,
    clock_set: 1,
    any_digit: 3,
    take_back: 3,
    other_window: 2.5,
    second_window: 1,
    plain_lines: 0.8,
    changed_by_hand: 0.8,
    sent_away: 0.5,
    full_disk: 1,
    hastily: 1.5,
    Walker.go_on: 65,
}
"""What happens in a walk, and how often of a hundred times or so."""


def act(walk: Walker) -> None:
    """One thing a hand does, or one thing that happens; what was just wrong is often taken back."""
    last = walk.bench.entries[-1] if walk.bench.entries else None
    if last is not None and words_of(last)[0] == "wrong" and walk.dice.random() < 0.2:
        take_back(walk)
        return
    walk.dice.choices(list(HAPPENINGS), list(HAPPENINGS.values()))[0](walk)
