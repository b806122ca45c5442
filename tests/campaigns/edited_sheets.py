"""A finished or half-done job edited by hand and accepted at the desk, for the checker of sheets."""

from __future__ import annotations

import random
import re
from pathlib import Path

from bench.desk.effects import Open
from tests.campaigns.edit_draws import VALUE, blocks_of
from tests.whole.hands import bench_in
from tests.whole.on_file import OnFile
from tests.whole.repairer import Repairer

EDITABLE = (
    r"case_bore_\d|glass_\d|seat_depth|watch|remark|temperature|wall_\d|ring_height|fit_outcome"
    r"|(empty|cased)_(result|pressure|temperature|volume|signal_\d)|marking|renewed"
)
"""Keys of the answers that are edited; the newest of the present ring."""
WORDS = {
    "home": "too_easy",
    "pass": "fail",
    "fail": "pass",
    "none": "back",
    "small": "large",
    "bar_5": "bar_3",
}


def edited(text: str, dice: random.Random) -> str:
    """A session file with one answer changed and signed, or one block taken out."""
    blocks = blocks_of(text)
    begun = max((at for at, block in enumerate(blocks) if 'key = "attempt"' in block), default=0)
    found = {
        key[1]: at
        for at, block in enumerate(blocks)
        if at > begun and (key := re.search(rf'^key = "({EDITABLE})"$', block, re.MULTILINE))
    }
    if not found:
        return text
    at = found[dice.choice(sorted(found))]
    if dice.random() < 0.15:
        return "".join(blocks[:at] + blocks[at + 1 :]) if at < len(blocks) - 1 else text
    value = VALUE.search(blocks[at])
    assert value is not None
    block = blocks[at].replace(value[0], f"value = {changed(value[1], dice)}")
    blocks[at] = re.sub(r'^crc = ".*"$', 'crc = "hand"', block, flags=re.MULTILINE)
    return "".join(blocks)


def changed(value: str, dice: random.Random) -> str:
    """Another word or number in a value, at times with a comma."""
    first = re.match(r'\[?"(\w+)"', value)
    if first and first[1] in WORDS and dice.random() < 0.7:
        return value.replace(f'"{first[1]}"', f'"{WORDS[first[1]]}"', 1)
    number = re.search(r"\d+\.\d+", value)
    if number is None:
        return value
    new = f"{float(number[0]) + dice.choice((0.01, -0.01, 0.1, 1)):.{len(number[0].partition('.')[2])}f}"
    new = new.replace(".", ",") if dice.random() < 0.3 else new
    return value[: number.start()] + new + value[number.end() :]


def accept(path: Path, folder: Path) -> bool:
    """Everything accepted at the desk; False where the gate does not take it."""
    bench = bench_in(folder)
    hand = Repairer(OnFile(bench))
    hand.bench.wall = hand.wall
    for arrival in bench.carry_out([Open(str(path))]):
        hand.feed(arrival)
    taken = hand.desk.page == "damage"
    if taken:
        hand.type("1")
        taken = hand.desk.page != "damage"
    bench.close()
    return taken
