"""`ringwright leak FILE`: a leak rate from a file of gauge readings, with a plot.

Invariant: it only reads; whatever the decision, the status is 0, and bad input is one line that names the
line of the file or the option.
"""

from __future__ import annotations

import argparse
import csv
import re
import sys
import textwrap
from collections.abc import Callable, Sequence
from pathlib import Path

from bench.clean import clean
from bench.command import DONE, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from rules.testing.air import ROOM_C
from rules.testing.leak_curve import AT_LIMIT, FITTED, READING, LeakCurve, leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.rig import LEAST_HOLD_S, OVERPRESSURE_BAR, STEP, TEMPERATURE_C, VOLUME_CM3, Rig

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
_LARGEST_FILE = 10_000_000
STANDARD_INPUT = Path("-")
_COLUMNS = ("time_s", "signal")
_TEXT_WIDTH, _PLOT_WIDTH, _PLOT_HEIGHT = 78, 60, 13


def add(subparsers: Subparsers) -> None:
    """Register `leak`."""
    parser = new(subparsers, "leak")
    parser.add_argument(
        "file", metavar="FILE", type=Path, help="CSV: a header, then time_s and signal; - for standard input"
    )
    parser.add_argument(
        "--volume", type=_figure(*VOLUME_CM3, "cm3"), required=True, help="free volume inside, cm3"
    )
    parser.add_argument("--volume-u", type=_figure(0, 100, "cm3"), required=True, help="good to, 95 %%, cm3")
    parser.add_argument(
        "--overpressure", type=_figure(*OVERPRESSURE_BAR, "bar"), required=True, help="bar over the room"
    )
    parser.add_argument(
        "--step",
        type=_figure(*STEP, "as the signal"),
        required=True,
        help="step of the gauge, in the unit of signal",
    )
    parser.add_argument(
        "--temperature",
        type=_figure(*TEMPERATURE_C, "C"),
        default=ROOM_C,
        help=f"degrees C, {ROOM_C:g} if not given",
    )
    parser.add_argument(
        "--hold", type=_figure(LEAST_HOLD_S / 60, 1440, "min"), help="hold fixed before the test, minutes"
    )
    parser.add_argument(
        "--after-venting",
        type=_figure(-1e9, 1e9, "as the signal"),
        help="reading after venting, in the unit of signal",
    )
    parser.add_argument("--json", action="store_true", help="the result for a program")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Fit the readings and print the result; status 0, or 2 for bad input."""
    times, signal = read_csv(arguments.file)
    try:
        leak = fit_leak(
            times,
            signal,
            Rig(
                arguments.volume,
                arguments.volume_u,
                arguments.overpressure,
                arguments.step,
                arguments.temperature,
            ),
            fixed_hold_s=None if arguments.hold is None else 60.0 * arguments.hold,
            after_venting_reading=arguments.after_venting,
        )
    except ValueError as error:
        raise Refused(f"{named(arguments.file)}: {error}") from error
    if arguments.json:
        give({"leak": _rounded({**leak.as_json(), "kind": leak.kind})})
    else:
        print("\n".join(_text(leak, times, signal, arguments)))
    return DONE


def named(path: Path) -> str:
    """A file as a refusal names it."""
    return "standard input" if path == STANDARD_INPUT else clean(str(path))


def read_csv(path: Path) -> tuple[list[float], list[float]]:
    """Times in s and signals from a CSV with one header line; raises Refused with the line at fault.

    Columns may stand in any order, other columns are left alone; semicolons with decimal commas are read too.
    """
    name = named(path)
    if path == STANDARD_INPUT and sys.stdin is None:
        raise Refused(f"{name} is closed: nothing can be read from it")
    try:
        with sys.stdin.buffer if path == STANDARD_INPUT else path.open("rb") as file:
            raw = file.read(_LARGEST_FILE + 1)
        text = raw.decode("utf-8-sig")
    except OSError as error:
        raise Refused(f"{name}: no such file, or it cannot be read") from error
    except UnicodeDecodeError as error:
        raise Refused(f"{name}: line {raw[: error.start].count(10) + 1}: not UTF-8 text") from error
    if len(raw) > _LARGEST_FILE:
        raise Refused(f"{name}: more than {_LARGEST_FILE // 1_000_000} MB; give the readings of one test")
    lines = text.splitlines()
    separator = ";" if lines and ";" in lines[0] else ","
    try:
        return _columns(name, lines, separator)
    except csv.Error as error:
        raise Refused(f"{name}: {error}") from error


def _columns(name: str, lines: list[str], separator: str) -> tuple[list[float], list[float]]:
    rows = csv.reader(lines, delimiter=separator)
    header = [word.strip().lower() for word in next(rows, [])]
    for column in _COLUMNS:
        if header.count(column) != 1:
            raise Refused(f"{name}: line 1: the header needs one column {column}; expected time_s,signal")
    places = [header.index(column) for column in _COLUMNS]
    times: list[float] = []
    signal: list[float] = []
    for row in rows:
        if not any(word.strip() for word in row):
            continue
        where = f"{name}: line {rows.line_num}"
        if len(row) != len(header):
            raise Refused(f"{where}: {len(row)} columns, {len(header)} expected as in the header")
        words = [row[place].strip() for place in places]
        time_s, one = (_number(word.replace(",", ".") if separator == ";" else word, where) for word in words)
        if times and time_s <= times[-1]:
            raise Refused(f"{where}: time {time_s:g} s after {times[-1]:g} s; times must rise")
        times.append(time_s)
        signal.append(one)
    return times, signal


def _number(word: str, where: str) -> float:
    if not _NUMBER.fullmatch(word) or not abs(float(word)) <= 1e9:
        raise Refused(f"{where}: {clean(word)[:40]!r} is not a number from -1e9 to 1e9")
    return float(word)


def _figure(low: float, high: float, unit: str) -> Callable[[str], float]:
    """A reader of one option: a plain number with point or comma, inside its range."""

    def read(word: str) -> float:
        typed = word.strip().replace(",", ".")
        if not _NUMBER.fullmatch(typed):
            raise argparse.ArgumentTypeError(
                f"{clean(word)[:40]!r} is not a number; give {low:g} to {high:g} {unit}"
            )
        if not low <= float(typed) <= high:
            raise argparse.ArgumentTypeError(f"{clean(word)[:40]} is outside {low:g} to {high:g} {unit}")
        return float(typed)

    return read


def _rounded(fields: dict[str, object]) -> dict[str, object]:
    return {
        key: round(value, 3) + 0.0 if isinstance(value, float) else value for key, value in fields.items()
    }


def _text(
    leak: Leak, times: Sequence[float], signal: Sequence[float], arguments: argparse.Namespace
) -> list[str]:
    over, minutes = arguments.overpressure, leak.duration_s / 60
    settled = {True: "settled", False: "not settled", None: "settling not judged"}[leak.settled]
    lines = [
        f"{leak.decision.replace('_', ' ')}: {leak.reason}.",
        f"Dry test at {over:g} bar over, {minutes:.1f} min, {arguments.temperature:g} C; "
        f"hold needed {leak.hold_needed_s / 60:g} min; {settled}.",
        f"Referred to 2 bar overpressure by the law that quotes the larger leak ({leak.law}).",
        f"Pressure not raised above {over:g} bar.",
    ]
    wrapped = [part for line in lines for part in textwrap.wrap(line, _TEXT_WIDTH)]
    if leak.signal_at_start is None:
        return wrapped
    return [*wrapped, "", *plot(leak_curve(times, signal, leak))]


def plot(curve: LeakCurve) -> list[str]:
    """Readings (o), fit (-) and the line of a leak at the limit (x), as lines of plain characters."""
    (first, last), (low, high) = curve.minutes, curve.signals
    rows = [[" "] * _PLOT_WIDTH for _ in range(_PLOT_HEIGHT)]
    for mark, points in (("x", curve.limit), ("-", curve.fitted), ("o", curve.readings)):
        for time, signal in points:
            column = round((time - first) / (last - first) * (_PLOT_WIDTH - 1))
            rows[round((high - signal) / ((high - low) or 1.0) * (_PLOT_HEIGHT - 1))][column] = mark
    labels = {0: f"{high:.4g}", _PLOT_HEIGHT - 1: f"{low:.4g}"}
    body = [f"{labels.get(i, ''):>8} |{''.join(row).rstrip()}" for i, row in enumerate(rows)]
    axis = f"{'':8} +{'-' * _PLOT_WIDTH}"
    scale = f"{'':10}{first:<10.3g}{'minutes':^{_PLOT_WIDTH - 20}}{last:>10.3g}"
    return [*body, axis, scale, f"{'':10}o {READING}   - {FITTED}   x {AT_LIMIT}"]
