"""A process that has pytest loaded, the libraries if asked, nothing of the product; each run is a fork of it.

    python -m tests.mutation.server COPY [libraries]

stands in a private copy of the tree, reads one order a line (JSON) and writes one answer a line.
{"record": file of tests, "into": file} runs them and notes what each reaches; {"tests": [...]} runs them
until one fails or their time is used, and answers how it ended.
"""

from __future__ import annotations

import contextlib
import importlib
import json
import os
import resource
import select
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.mutation.recording import record
from tests.mutation.running import HANGS_AFTER, try_tests

LIBRARIES = (
    *("pytest", "_pytest.assertion.rewrite", "pytest_asyncio.plugin", "_hypothesis_pytestplugin", "coverage"),
    *("hypothesis.strategies", "hypothesis.internal.conjecture.engine", "numpy", "scipy.stats"),
    *("scipy.optimize", "scipy.integrate", "scipy.special", "scipy.sparse.linalg", "rich.console"),
    *("textual.app", "textual.pilot", "textual.widgets", "pint", "tomli_w", "fpdf", "platformdirs"),
    *("GTC", "pyte", "pypdf", "tomllib", "sqlite3", "zipfile"),
)
PLUGINS = 6
"""So many of them are what pytest itself needs."""
STUCK, STUCK_RECORDING = 90.0, 600.0
"""Wall seconds without a word after which a run is ended: it waits for something that does not come. A test
that is recorded may take longer, however busy the computer.
"""
MEMORY = 6 * 2**30

Answer = dict[str, Any]


def in_fork(work: Callable[[Callable[[Answer], None]], None], stuck_s: float) -> list[Answer]:
    """What a fork says while it works; its end, and everything it has started, is seen to."""
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.setsid()
        os.close(reads)
        nothing = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(nothing, stream)
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        try:
            work(lambda answer: void(os.write(writes, json.dumps(answer).encode() + b"\n")))
        finally:
            os._exit(0)
    os.close(writes)
    said = b""
    while select.select([reads], [], [], stuck_s)[0] and (piece := os.read(reads, 65536)):
        said += piece
    with contextlib.suppress(ProcessLookupError, PermissionError):
        os.killpg(child, signal.SIGKILL)
    status = os.waitpid(child, 0)[1]
    os.close(reads)
    answers = [json.loads(line) for line in said.splitlines()]
    if not answers or "end" not in answers[-1]:
        hung = os.WIFSIGNALED(status) and os.WTERMSIG(status) in (signal.SIGXCPU, signal.SIGKILL)
        answers.append({"end": "hung" if hung else "died"})
    return answers


def void(_: object) -> None:
    """Nothing, whatever was answered."""


def limited() -> None:
    """The processor ends a fork that goes round for ever."""
    used = sum(resource.getrusage(resource.RUSAGE_SELF)[:2])
    hard = resource.getrlimit(resource.RLIMIT_CPU)[1]
    resource.setrlimit(resource.RLIMIT_CPU, (int(used + HANGS_AFTER) + 1, hard))


def main() -> None:
    """Serve until the orders end."""
    os.chdir(sys.argv[1])
    sys.path.insert(0, sys.argv[1])
    for name in LIBRARIES if "libraries" in sys.argv[2:] else LIBRARIES[:PLUGINS]:
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    for line in sys.stdin:
        order = json.loads(line)

        def work(say: Callable[[Answer], None], order: Answer = order) -> None:
            if "record" in order:
                record(order["record"], Path(order["into"]), say)
            else:
                limited()
                try_tests(order["tests"], say, limited)

        stuck_s = STUCK_RECORDING if "record" in order else STUCK
        print(json.dumps(in_fork(work, stuck_s)), flush=True)


if __name__ == "__main__":
    main()
