"""How fast the screen opens, answers a key and takes an answer, and what it costs while nobody types.

Run by hand with `python -m tests.campaigns.terminal_speed`; it is no part of the tests. The program runs
under a real pseudo-terminal beside the smallest program of the same toolkit, turn about, so that a busy
computer slows both; the figures to look at are the ratios. Bytecode is compiled first. Needs Linux.
"""

from __future__ import annotations

import argparse
import compileall
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median, quantiles

from tests.screens.pty.harness import ROOT, Terminal, clean_environment

QUIET_S = 0.06
"""A key is done with when nothing has come back for this long."""
TAKEN_OVER = "\x1b[?1004h"
"""The toolkit asks for this when it takes the terminal."""
PACKAGES = ("rules", "bench", "screens", "tests")


@dataclass(frozen=True)
class Program:
    """One program and one page of it."""

    name: str
    words: list[str]
    ready: str
    """Stands on the first useful screen."""
    keys: tuple[bytes, ...]
    """Pressed in turn; each changes the screen."""
    first: tuple[tuple[bytes, str], ...] = ()
    """Keys that lead to the page to be measured, each with the text to wait for."""
    fresh: tuple[Path, Path] | None = None
    """A file copied over another before each start, so that every run finds the same job."""
    answers: tuple[bytes, ...] = ()
    """Answers keyed at the end; Enter is timed until the next question begins to be painted."""


@dataclass
class Measured:
    """All that was measured of one program."""

    start_ms: list[float] = field(default_factory=list)
    """Until the first useful screen stands."""
    keys_ms: list[float] = field(default_factory=list)
    """Until the toolkit has the terminal as well: from then on keys are read, those that waited first."""
    start_cpu_ms: list[float] = field(default_factory=list)
    key_ms: list[float] = field(default_factory=list)
    accept_ms: list[float] = field(default_factory=list)
    memory_mib: list[float] = field(default_factory=list)
    idle_wakeups_per_s: list[float] = field(default_factory=list)
    idle_cpu_percent: list[float] = field(default_factory=list)
    idle_bytes: list[float] = field(default_factory=list)


def status(pid: int, name: str) -> int:
    """A number out of the status of a process, summed over its threads for context switches."""
    total = 0
    for task in Path(f"/proc/{pid}/task").iterdir():
        for line in (task / "status").read_text().splitlines():
            if line.startswith(name):
                total += int(line.split()[1])
    return total


def switches(pid: int) -> int:
    """How often the process was woken or put aside so far."""
    return status(pid, "voluntary_ctxt_switches") + status(pid, "nonvoluntary_ctxt_switches")


def cpu_ms(pid: int) -> float:
    """Processor time used so far by the threads that live."""
    tasks = Path(f"/proc/{pid}/task").iterdir()
    return sum(int((task / "schedstat").read_text().split()[0]) for task in tasks) / 1e6


def chunks(terminal: Terminal, quiet_s: float) -> Iterator[tuple[float, bytes]]:
    """What comes back until nothing has come for a while, each piece with its time."""
    while True:
        before = len(terminal.output)
        if not terminal.drain(quiet_s):
            return
        yield time.monotonic(), bytes(terminal.output[before:])


def press(terminal: Terminal, key: bytes) -> float:
    """Milliseconds from a key to the first output that belongs to it."""
    started = time.monotonic()
    os.write(terminal.master, key)
    times: list[float] = []
    while not times:
        times = [at for at, _ in chunks(terminal, QUIET_S)]
        if time.monotonic() - started > 5:
            raise SystemExit(f"the key {key!r} was never answered")
    return (times[0] - started) * 1000


def measure(program: Program, into: Measured, *, presses: int, idle_s: float) -> None:
    """Start the program once and measure everything."""
    if program.fresh:
        shutil.copyfile(*program.fresh)
    started = time.monotonic()
    with Terminal(program.words, columns=100, rows=30, model=False) as terminal:
        wait_raw(terminal, program.ready)
        into.start_ms.append((time.monotonic() - started) * 1000)
        into.start_cpu_ms.append(cpu_ms(terminal.process.pid))
        wait_raw(terminal, TAKEN_OVER)
        into.keys_ms.append((time.monotonic() - started) * 1000)
        for key, text in program.first:
            terminal.output.clear()
            terminal.send(key)
            wait_raw(terminal, text)
        settle(terminal)
        into.key_ms += [press(terminal, program.keys[n % len(program.keys)]) for n in range(presses)]
        idle(terminal, into, idle_s)
        for answer in program.answers:
            terminal.send(answer)
            settle(terminal)
            into.accept_ms.append(press(terminal, b"\r"))
        into.memory_mib.append(peak_mib(terminal.process.pid))
        terminal.process.send_signal(signal.SIGTERM)
        terminal.process.wait(10)


def wait_raw(terminal: Terminal, text: str) -> None:
    """Wait for text in what was written, without a model of the screen."""
    terminal.wait(lambda: text.encode() in terminal.output, repr(text))


def settle(terminal: Terminal) -> None:
    """Wait until nothing more is written."""
    for _ in chunks(terminal, 0.3):
        pass


def idle(terminal: Terminal, into: Measured, seconds: float) -> None:
    """Watch the program while nobody types."""
    settle(terminal)
    pid, written = terminal.process.pid, len(terminal.output)
    woken, used, started = switches(pid), cpu_ms(pid), time.monotonic()
    end = started + seconds
    while (left := end - time.monotonic()) > 0:
        terminal.drain(left)
    took = time.monotonic() - started
    into.idle_wakeups_per_s.append((switches(pid) - woken) / took)
    into.idle_cpu_percent.append((cpu_ms(pid) - used) / took / 10)
    into.idle_bytes.append(float(len(terminal.output) - written))


def peak_mib(pid: int) -> float:
    """The most memory the process ever held."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmHWM"):
            return int(line.split()[1]) / 1024
    raise AssertionError("no VmHWM in the status of the process")


def job_folder(folder: Path, count: int) -> Path:
    """A folder of jobs that all wait at the first reading of the seat; the newest has the highest number."""
    words = [sys.executable, "-m", "ringwright", "--folder", str(folder), "--plain"]
    answers = "0\n1\n1\n1\n"
    subprocess.run(
        words,
        input=answers,
        text=True,
        cwd=ROOT,
        env=clean_environment(),
        stdout=subprocess.DEVNULL,
        check=True,
    )
    made = next((folder / "jobs").glob("*.toml"))
    for number in range(2, count + 1):
        shutil.copyfile(made, made.with_name(f"{number:05d}.toml"))
    return folder


ANSWERS = (b"33.20", b"33.21", b"32.14", b"32.15")
"""Two readings of the seat, two of the glass."""


def programs(folder: Path, many: Path) -> list[Program]:
    """The smallest program, the list of jobs with a thousand and ten thousand jobs, and a step."""
    start = ["-m", "ringwright", "--folder"]
    return [
        Program("smallest", ["-m", "tests.campaigns.smallest_app"], "the last key: none", (b"1", b"2")),
        Program("jobs, 1,000", [*start, str(folder)], "waits for", (b"1", b"-")),
        Program("jobs, 10,000", [*start, str(many)], "waits for", (b"1", b"-")),
        Program(
            "step",
            [*start, str(folder), "1000"],
            "where it stood",
            (b"3", b"-"),
            ((b"1\r", "Glass seat"),),
            (folder / "jobs" / "00999.toml", folder / "jobs" / "01000.toml"),
            ANSWERS,
        ),
    ]


def table(found: dict[str, Measured]) -> str:
    """The figures and their ratios to the smallest program."""
    base = found["smallest"]
    lines = [
        f"{'':14}{'start':>9}{'':>7}{'keys from':>10}{'':>7}{'start cpu':>10}{'':>7}"
        f"{'key p50':>9}{'':>7}{'p95':>8}{'':>8}{'MiB':>7}"
    ]
    for name, one in found.items():
        p95, base95 = (quantiles(m.key_ms, n=20)[-1] for m in (one, base))
        start, cpu, keys = median(one.start_ms), median(one.start_cpu_ms), median(one.keys_ms)
        key, memory = median(one.key_ms), median(one.memory_mib)
        lines.append(
            f"{name:14}{start:7.0f}ms{start / median(base.start_ms):6.2f}x"
            f"{keys:8.0f}ms{keys / median(base.keys_ms):6.2f}x"
            f"{cpu:8.0f}ms{cpu / median(base.start_cpu_ms):6.2f}x"
            f"{key:7.2f}ms{key / median(base.key_ms):6.2f}x{p95:7.2f}{p95 - base95:+8.2f}"
            f"{memory:7.1f}{memory / median(base.memory_mib):6.2f}x"
            f"  idle {median(one.idle_wakeups_per_s):.1f} wakes/s, {median(one.idle_cpu_percent):.2f} %,"
            f" {median(one.idle_bytes):.0f} bytes"
            + (f", answer p95 {quantiles(one.accept_ms, n=20)[-1]:.1f} ms" if one.accept_ms else "")
        )
    return "\n".join(lines)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--presses", type=int, default=30)
    parser.add_argument("--idle", type=float, default=3.0)
    parser.add_argument("--only", help="measure the smallest program and those whose name begins so")
    given = parser.parse_args()
    for package in PACKAGES:
        compileall.compile_dir(ROOT / package, quiet=1)
    with tempfile.TemporaryDirectory() as folder:
        few, many = job_folder(Path(folder) / "few", 1_000), job_folder(Path(folder) / "many", 10_000)
        wanted = programs(few, many)
        if given.only:
            wanted = [one for one in wanted if one.name.startswith(("smallest", given.only))]
        found = {program.name: Measured() for program in wanted}
        for number in range(given.rounds + 1):
            for program in wanted if number % 2 else reversed(wanted):
                into = found[program.name] if number else Measured()  # the first round warms up
                measure(
                    program,
                    into,
                    presses=given.presses if number else 2,
                    idle_s=given.idle if number else 0.1,
                )
    print(table(found))


if __name__ == "__main__":
    main()
