"""A check whose answer the disk refuses: nothing is in the file, and the check is dealt out anew."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from bench.desk.effects import Append, Arrival, Effect
from bench.desk.token import Token
from tests.whole.repairer import Pretended, Repairer, fresh
from tests.whole.seen import read


class FullDisk(Pretended):
    """A workbench on which nothing more can be written while it is full."""

    full = False

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """What comes of effects: an entry is refused, all else is done."""
        refused = [one for one in effects if self.full and isinstance(one, Append)]
        said: list[Arrival] = [Token("refused", "Not saved: the disk is full.") for _ in refused]
        return said + super().carry_out([one for one in effects if one not in refused])


def at_check(seed: int) -> tuple[Repairer, FullDisk]:
    """A repairer before a check among three states, on a disk that has just filled up."""
    bench = FullDisk(seed=seed)
    repairer = Repairer(bench).open().on_to("lathe_eyes")
    bench.full = True
    return repairer, bench


def test_a_wrong_answer_refused_is_dealt_again_differently() -> None:
    changed = 0
    for seed in range(12):
        repairer, bench = at_check(seed)
        before, kept = repairer.desk.dealt, len(bench.entries)
        repairer.type(str(before.index(1) + 1))
        desk = repairer.desk
        assert len(bench.entries) == kept and desk.pending is None
        assert "Not saved" in desk.message and desk.alarm
        assert sorted(desk.dealt) == [0, 1, 2], "no numbers stand before the choices"
        assert "on my face" in read(desk)
        changed += desk.dealt != before
    assert changed >= 6, "the numbers stay as they were"


@pytest.mark.parametrize("seed", range(3))
def test_the_right_one_counts_once_there_is_room_again(seed: int) -> None:
    repairer, bench = at_check(seed)
    repairer.type(str(repairer.desk.dealt.index(2) + 1))
    repairer.key("back")
    bench.full = False
    repairer.type(repairer.right())
    assert repairer.asked == "lathe_key"
    assert [one.key for one in bench.entries[-2:]] == ["lathe_hands", "lathe_eyes"], "the wrong one is kept"


def test_a_right_answer_refused_stays_in_the_line_beside_the_same_numbers() -> None:
    repairer, bench = at_check(1)
    before = repairer.desk.dealt
    typed = repairer.right()
    repairer.type(typed)
    assert repairer.desk.dealt == before and repairer.desk.line.text == typed
    bench.full = False
    repairer.key("enter")
    assert repairer.asked == "lathe_key"


def test_a_check_is_dealt_when_it_comes_on_the_screen() -> None:
    assert sorted(fresh().on_to("lathe_eyes").desk.dealt) == [0, 1, 2]
