"""python -m tests.mutation --rooms rules --count 500 --seed 1 [--workers 2] [--into FILE]

Draws so many mutants of the rooms evenly and writes what came of them: counts by room and the survivors with
file, line, before and after. `--rooms bench/file,bench/desk` takes several rooms; `--again FILE` tries the
survivors of an earlier report only; `--named` tries the faults of `named.py`; `--record` only records what
the tests reach. The exit status is 1 if a named fault is not noticed.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from pathlib import Path

from tests.mutation.mutants import Mutant, all_mutants, drawn_evenly
from tests.mutation.named import NAMED
from tests.mutation.reach import cache_folder, uses_in
from tests.mutation.report import as_data, written
from tests.mutation.trial import Bench, benches


def arguments() -> argparse.Namespace:
    """What was asked for."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.mutation", description="Faults planted one at a time."
    )
    parser.add_argument("--rooms", default="rules", help="folders of the product, parted by commas")
    parser.add_argument("--count", type=int, default=100, help="how many mutants (100)")
    parser.add_argument("--seed", type=int, default=1, help="of the draw (1)")
    parser.add_argument("--workers", type=int, default=1, help="copies at work at a time (1)")
    parser.add_argument("--into", type=Path, help="file for the report; beside it the same as JSON")
    parser.add_argument("--again", type=Path, help="JSON of an earlier report: its survivors only")
    parser.add_argument("--named", action="store_true", help="the faults of named.py")
    parser.add_argument("--record", action="store_true", help="record what the tests reach, and no more")
    return parser.parse_args()


def chosen(asked: argparse.Namespace) -> tuple[list[Mutant], int]:
    """The mutants to try, and how many there are in all."""
    if asked.named:
        return [one.mutant() for one in NAMED], len(NAMED)
    every = all_mutants(asked.rooms.split(","))
    drawn = drawn_evenly(every, asked.count, asked.seed)
    if asked.again:
        rows = json.loads(asked.again.read_text(encoding="utf-8"))
        alive = {(row["file"], row["words"]) for row in rows if row["end"] in ("survived", "unreached")}
        sources = {file: Path(file).read_bytes() for file, _ in alive}
        drawn = [one for one in every if one.file in sources]
        drawn = [one for one in drawn if (one.file, one.words(sources[one.file])) in alive]
    return drawn, len(every)


def say(words: str) -> None:
    """How far it is."""
    print(time.strftime("%H:%M:%S"), words, file=sys.stderr, flush=True)


def run(asked: argparse.Namespace, bench: Bench) -> int:
    """Records, tries, reports."""
    started = time.monotonic()
    bench.record(say)
    recording = time.monotonic() - started
    if asked.record:
        return 0
    bench.uses = uses_in()
    mutants, of = chosen(asked)
    verdicts = bench.judge_all(mutants, say)
    took = (time.monotonic() - started) / 60
    head = (
        f"# Mutants of {asked.rooms}: {len(mutants)} of {of}, seed {asked.seed}"
        if not asked.named
        else "# Named"
    )
    head += f"\n\n{took:.0f} minutes with {asked.workers} at a time, {recording / 60:.0f} of them recording"
    text = written(verdicts, head)
    into = asked.into or cache_folder() / "report.md"
    into.write_text(text, encoding="utf-8")
    into.with_suffix(".json").write_text(as_data(verdicts), encoding="utf-8")
    print(text, f"\nwritten to {into}", sep="")
    return int(bool(asked.named and any(one.alive for one in verdicts)))


def main() -> int:
    """Run from the command line."""
    asked = arguments()
    with benches(asked.workers) as bench:
        return run(asked, bench)


if __name__ == "__main__":
    raise SystemExit(main())
