"""A tiny desk for trying the shell: readings of one diameter are keyed, kept in a file and shown.

`python -m tests.screens.demonstration FILE [--save-ms N]` opens it; every accepted reading is one line of
FILE, every refused one a line that begins with !. The key list (*) leaves, a reading of 99.99 rings the
bell, 88.88 is a fault, 77.77 starts a timer of three seconds.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from bench.desk.bounce import Bounce, settle_ms, strain
from bench.desk.desk import SMALLEST
from bench.desk.keys import key_line, resolve
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import AnswerLine, type_key
from bench.job.mask import Mask
from bench.job.number import Refusal, read_number
from screens.app import run_face
from screens.face import Face
from screens.figures import figures
from screens.look import drop_overrides, look_here, refusal_here

MASK = Mask(2, 2, "mm", 5.0, 99.99)
Outcome = tuple["Table", tuple[Any, ...]]


@dataclass(frozen=True, slots=True)
class Table:
    """What the demonstration knows."""

    line: AnswerLine = AnswerLine()  # noqa: RUF009
    before: AnswerLine = AnswerLine()  # noqa: RUF009
    bounce: Bounce = Bounce()  # noqa: RUF009
    readings: tuple[str, ...] = ()
    saving: str = ""
    message: str = "ready"
    columns: int = 80
    rows: int = 24
    seconds_left: int = 0
    painted: int = 0


@dataclass(frozen=True, slots=True)
class Keep:
    """Effect: write one line to the file."""

    text: str


def update(table: Table, token: Token) -> Outcome:
    """The demonstration after one token."""
    if token.kind == "resized":
        return replace(table, columns=token.columns, rows=token.rows), ()
    if token.kind == "painted":
        return replace(table, painted=table.painted + 1), ()
    if token.kind == "tick":
        left = table.seconds_left - 1
        return replace(table, seconds_left=left), () if left else (Bell(),)
    if token.kind == "saved":
        return replace(table, readings=(*table.readings, table.saving), message="saved"), ()
    if token.kind == "leave":
        return table, (Leave(0, f"{len(table.readings)} readings saved"),)
    bounce, out = strain(table.bounce, token, typing=bool(table.line.text))
    table = replace(table, bounce=bounce)
    effects: tuple[Any, ...] = ()
    for key in out:
        table, more = one_key(table, key)
        effects += more
    return table, effects


def one_key(table: Table, token: Token) -> Outcome:
    """One key that has passed the filter."""
    if token.kind == "undo":
        return replace(table, line=table.before), ()
    text = resolve(token.text, typing=bool(table.line.text))
    if text == "list":
        return table, (Leave(0, f"{len(table.readings)} readings saved"),)
    if text == "enter" and not table.line.void:
        return accept(table) if table.line.text else (replace(table, message="nothing typed"), ())
    if text.startswith("paste:"):
        return replace(
            table, line=AnswerLine(text.removeprefix("paste:")), message="pasted: Enter accepts it"
        ), ()
    line = type_key(table.line, text, mask=MASK)
    return replace(table, line=line, before=table.line, message=line.void), ()


def accept(table: Table) -> Outcome:
    """Enter on a line with something in it."""
    read = read_number(table.line.text, MASK)
    emptied = replace(table, line=AnswerLine(), before=AnswerLine())
    if isinstance(read, Refusal):
        return replace(emptied, message=read.why), (Keep(f"! {table.line.text}"),)
    if read.value == 88.88:
        raise RuntimeError("planted fault")
    if read.value == 77.77:
        return replace(emptied, seconds_left=3), ()
    bell = (Bell(),) if read.value == 99.99 else ()
    return replace(emptied, saving=read.value_text), (Keep(read.value_text), *bell)


def view(table: Table) -> list[list[tuple[str, str]]]:
    """The page as lines of text and role."""
    if table.columns < SMALLEST[0] or table.rows < SMALLEST[1]:
        return [[(f"40 x 12 needed  {table.line.text}"[: table.columns], "ink")]]
    said = "caution" if table.line.void else "ink"
    large = figures(MASK.over(table.line.text), table.columns, 8)
    lines: list[list[tuple[str, str]]] = [
        [("demonstration", "title")],
        [("diameter", "strong"), ("  mm", "note")],
        *([(row, "entry")] for row in large),
        [(f"typed [{table.line.text}]", "ink")],
        [(table.message, said)],
        [(f"{len(table.readings)} kept, last {' '.join(table.readings[-3:])}", "note")],
    ]
    if table.seconds_left > 0:
        lines.append([(f"{table.seconds_left} s left", "ink")])
    lines += [[]] * (table.rows - len(lines) - 1)
    return [*lines, [(key_line(table.columns), "key")]]


def face_for(path: Path, *, save_ms: float = 0) -> Face[Table]:
    """The demonstration with its file."""

    def carry_out(effects: Sequence[Any]) -> list[Token]:
        with path.open("a", encoding="utf-8") as file:
            for effect in effects:
                file.write(f"{effect.text}\n")
        time.sleep(save_ms / 1000)
        return [Token("saved") for effect in effects if not effect.text.startswith("!")]

    return Face(
        Table(),
        update,
        carry_out,
        view,
        ticking=lambda table: table.seconds_left > 0,
        settle_ms=lambda table: settle_ms(table.bounce),
        look=look_here(),
    )


def main() -> int:
    """Open the demonstration."""
    drop_overrides()
    why = refusal_here()
    if why:
        print(f"ringwright: {why}", file=sys.stderr)
        return 2
    save_ms = float(sys.argv[sys.argv.index("--save-ms") + 1]) if "--save-ms" in sys.argv else 0.0
    return run_face(face_for(Path(sys.argv[1]), save_ms=save_ms))


if __name__ == "__main__":
    sys.exit(main())
