"""The pages on which the shop is asked, as desks with a heading."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from tests.screens.keying import Keying
from tests.whole.script import Hand, each_line
from tests.whole.shop_presses import OWN

Named = tuple[str, Desk]
SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"


def asked(folder: Path) -> Iterator[Named]:
    """Every question about a shop of one's own, and pages that go by what is assumed."""
    keying = Keying(folder, stated_shop=False)
    for answer in each_line([Hand(OWN, until="lathe_hands")], lambda: keying.desk):
        desk = keying.desk
        if desk.asked_shop is not None and desk.step is not None:
            yield f"shop: {desk.step.key}", desk
        keying.answer(answer)
    keying.run("*", "+", "6")
    yield "shop: its parts", keying.desk
    keying.run("2", "1", "-", "1")
    yield "shop: a number that is taken", keying.desk
    keying.bench.close()
    later = Keying(folder / "later", stated_shop=False)
    later.run(Hand((("your_shop", "later"),), until="lathe_bar"))
    yield "shop: a check that goes by what is assumed", later.desk
    later.run(Hand(until="rough_outside"))
    yield "shop: a cut that goes by what is assumed", later.desk
    later.bench.close()
    yield from learned(folder / "learned")


def learned(folder: Path) -> Iterator[Named]:
    """The shop of the sample jobs: what their rings say, and whether rings are sized by it."""
    shutil.copytree(SAMPLES, folder / "jobs", ignore=shutil.ignore_patterns("pictures"))
    keying = Keying(folder)
    keying.run("*", str(NUMBERS["shop"]))
    yield "shop: what its finished rings say", keying.desk
    keying.run("7", "1")
    yield "shop: whether rings are sized by it", keying.desk
    keying.bench.close()
