"""What the tests reach, recorded once and kept outside the repository, named by what it rests on."""

from __future__ import annotations

import ast
import gzip
import hashlib
import json
import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from platformdirs import user_cache_path

from tests.mutation.copies import Copy, kept_files
from tests.mutation.mutants import PRODUCT, TOP, Mutant, files_in, given

LEFT_OUT = ("tests/house/", "tests/mutation/", "tests/screens/pty/")
"""What reads the text of the product, what is meant here, and what waits for a terminal at a hand's pace."""
SLOWER = 2.5
"""How much slower a test is at most while it is recorded."""


def cache_folder() -> Path:
    """Where recordings are kept."""
    return user_cache_path("ringwright-mutation")


def test_files(top: Path = TOP) -> list[str]:
    """Files of tests that may meet a mutant."""
    names = [name for name in kept_files(top) if name.startswith("tests/") and name.endswith(".py")]
    return [one for one in names if Path(one).name.startswith("test_") and not one.startswith(LEFT_OUT)]


def names_of(top: Path = TOP) -> dict[str, str]:
    """Under which name the recording of each file of tests is kept: all it rests on is in it."""
    tests = set(test_files(top))
    ground = hashlib.sha256()
    for name in kept_files(top):
        if name not in tests and not name.startswith(LEFT_OUT) and not name.endswith(".md"):
            ground.update(name.encode() + b"\0" + (top / name).read_bytes() + b"\0")
    return {
        one: hashlib.sha256(ground.digest() + one.encode() + (top / one).read_bytes()).hexdigest()[:32]
        for one in sorted(tests)
    }


def recorded(copy: Copy, file: str, name: str, folder: Path) -> str:
    """Records a file of tests unless it is known; what came of it, in words."""
    place = folder / f"{name}.json.gz"
    if place.exists():
        return "known"
    folder.mkdir(parents=True, exist_ok=True)
    aside = place.with_suffix(f".{copy.top.name}")
    said = copy.ask({"record": file, "into": str(aside)})[-1]
    if said["end"] != "recorded":
        return f"not recorded: {said['end']}"
    aside.rename(place)
    return f"{said['tests']} tests" + (f", {said['unfit']} unfit" if said["unfit"] else "")


@dataclass
class Reach:
    """Which tests reach a line, how long they take and how much else they reach."""

    seconds: dict[str, float] = field(default_factory=dict)
    lines: dict[str, int] = field(default_factory=dict)
    by_file: dict[str, dict[str, int]] = field(default_factory=lambda: defaultdict(dict))
    """File of the product, then test, then its lines as bits."""
    unfit: list[str] = field(default_factory=list)
    spoken: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    """Names in the text of a file of tests, then the tests in it: what is read there without a call."""

    def add(self, kept: Path, text: str) -> None:
        """Takes in what was recorded of one file of tests, and its text."""
        found = json.loads(gzip.decompress(kept.read_bytes()))
        self.unfit += found["unfit"]
        for name in set(re.findall(r"\w+", text)):
            self.spoken[name] |= set(found["tests"])
        for test, row in found["tests"].items():
            self.seconds[test] = max(row["seconds"], 0.001)
            bits = {file: int(text, 16) for file, text in row["reach"].items()}
            self.lines[test] = sum(one.bit_count() for one in bits.values())
            for file, one in bits.items():
                self.by_file[file][test] = one

    def reaching(self, file: str, lines: Iterable[int]) -> set[str]:
        """Tests that reach one of the lines."""
        mask = sum(1 << line for line in set(lines))
        return {test for test, bits in self.by_file.get(file, {}).items() if bits & mask}

    def order(self, tests: Iterable[str], limit: float, file: str) -> list[str]:
        """Nearest and fastest first, of one test with many figures the later ones a little after.

        Near is a test that reaches little else, and of the file that was changed as much as any does, what
        all of them reach left out.
        """
        count: dict[str, int] = defaultdict(int)
        weighed = []
        own = {test: self.by_file.get(file, {}).get(test, 0).bit_count() for test in tests}
        least, most = min(own.values(), default=0) - 1, max(own.values(), default=0)
        for test in sorted(own, key=lambda one: (self.seconds[one], one)):
            times = count[test.split("[")[0]]
            count[test.split("[")[0]] += 1
            far = (1.0 + self.lines[test] / 200.0) * ((most - least) / (own[test] - least)) ** 2
            weighed.append((self.seconds[test] * far * (1.0 + times / 4.0), test))
        chosen, left = [], SLOWER * limit
        for _, test in sorted(weighed):
            if self.seconds[test] <= left:
                chosen.append(test)
                left -= self.seconds[test]
        return chosen


@dataclass
class Uses:
    """Where a name given on the floor of a module or in a class is used: in functions, or by other names."""

    lines: dict[str, set[tuple[str, int]]] = field(default_factory=lambda: defaultdict(set))
    names: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))

    def read(self, file: str, node: ast.AST, within: tuple[str, ...], inside: bool) -> None:
        """Goes through a tree."""
        for one in ast.iter_child_nodes(node):
            mine = within
            if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
                self.read(file, one, within, True)
                continue
            if isinstance(one, ast.stmt) and not inside:
                mine = (*within, one.name) if isinstance(one, ast.ClassDef) else (*within, *given(one))
            used = one.id if isinstance(one, ast.Name) else getattr(one, "attr", None)
            if isinstance(used, str) and inside:
                self.lines[used].add((file, one.lineno))  # type: ignore[attr-defined]
            elif isinstance(used, str):
                self.names[used].update(set(mine) - {used})
            self.read(file, one, mine, inside)

    def of(self, names: Iterable[str]) -> set[tuple[str, int]]:
        """Lines that use one of the names, or a name that rests on one."""
        seen: set[str] = set()
        open_names = list(names)
        while open_names:
            name = open_names.pop()
            if name not in seen:
                seen.add(name)
                open_names += self.names.get(name, ())
        return {line for name in seen for line in self.lines.get(name, ())}


def uses_in(top: Path = TOP) -> Uses:
    """Uses of names over the product."""
    found = Uses()
    for path in files_in(PRODUCT, top):
        found.read(path.relative_to(top).as_posix(), ast.parse(path.read_bytes()), (), False)
    return found


def tests_for(mutant: Mutant, reach: Reach, uses: Uses) -> set[str]:
    """Tests that meet a mutant; one on the floor of a module is met where its name is used or read."""
    if mutant.inside:
        return reach.reaching(mutant.file, mutant.lines)
    met = set(reach.spoken.get(mutant.names[-1], ())) if mutant.names else set()
    by_file: dict[str, set[int]] = defaultdict(set)
    for file, line in uses.of(mutant.names[-1:]):
        by_file[file].add(line)
    for file, lines in by_file.items():
        met |= reach.reaching(file, lines)
    return met or set(reach.by_file.get(mutant.file, {}))
