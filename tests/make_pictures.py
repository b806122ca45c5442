"""`python -m tests.make_pictures`: the README's pictures of the four stages, made from the program itself.

Each is a page at 80 x 24 as the program shows it in the straight job of the tests, written as SVG.
"""

from __future__ import annotations

import tempfile
from dataclasses import replace
from io import StringIO
from pathlib import Path

from rich.console import Console
from rich.text import Text

from bench.desk.desk import Desk
from bench.desk.typed import AnswerLine
from screens.look import Look
from screens.theme import styles
from screens.view import view
from tests.whole.hands import lines
from tests.whole.scripts import STRAIGHT, straight

TARGET = Path(__file__).resolve().parent.parent / "sample_sessions" / "pictures"
STAGES = {"measure": "glass_2", "size": "ring", "cut": "wall_reading", "verify": "wall_4"}
"""Name of each picture: the step it shows; the answer of the script is typed but for its last key."""
FRAME = """<svg xmlns="http://www.w3.org/2000/svg" xml:space="preserve"
 viewBox="0 0 {terminal_width} {terminal_height}">
<style>
text {{ font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: {char_height}px; \
white-space: pre }}
{styles}</style>
<defs>{lines}</defs>
<rect width="100%" height="100%" fill="#eeeeee"/>
{backgrounds}
<g>{matrix}</g>
</svg>
"""


def desk_at(key: str) -> Desk:
    """The desk of the straight job at a step, with its answer being typed."""
    with tempfile.TemporaryDirectory() as folder:
        desk, _ = lines(Path(folder), [straight(until=key)])
    typing = dict(STRAIGHT).get(key, "")[:-1]
    return replace(desk, line=AnswerLine(typing), columns=80, rows=24, message="")


def picture(desk: Desk) -> str:
    """A page as SVG, without anything fetched from elsewhere."""
    console = Console(width=80, record=True, file=StringIO(), force_terminal=True, color_system="truecolor")
    roles = styles(name="day", depth="full")
    for spans in view(desk, Look("half")):
        text = Text()
        for piece, role in spans:
            text.append(piece, roles[role])
        console.print(text, overflow="crop", no_wrap=True)
    return console.export_svg(title="ringwright", code_format=FRAME, unique_id="page")


def main() -> None:
    """Write the four pictures."""
    TARGET.mkdir(parents=True, exist_ok=True)
    for name, key in STAGES.items():
        path = TARGET / f"{name}.svg"
        path.write_text(picture(desk_at(key)), encoding="utf-8")
        print(path.name)


if __name__ == "__main__":
    main()
