"""The command itself: what is noticed dies, what changes nothing lives, what nobody reaches is told apart."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.mutation.mutants import all_mutants, compiles, drawn_evenly, files_in, mutants_of
from tests.mutation.named import NAMED, Named
from tests.mutation.reach import uses_in
from tests.mutation.report import ENTRY, EQUIVALENT, counted, equivalent, share, written
from tests.mutation.trial import Bench, Verdict, benches

TINY = '''"""Small."""

LEAST = 3


def enough(count: int) -> bool:
    """Whether so many are enough."""
    return count >= LEAST


def larger(one: int, other: int) -> int:
    """The larger."""
    return one if one > other else other


def idle() -> int:
    """Nobody asks."""
    return 1
'''
TESTS = """
from rules.tiny import enough, larger

def test_enough():
    assert enough(3) and not enough(2)

def test_larger():
    assert larger(1, 2) == 2 and larger(2, 1) == 2 and larger(2, 2) == 2
"""


SAME = "return one if one >= other else other"


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A product of one module with its tests."""
    top = tmp_path_factory.mktemp("tree")
    for name, text in (("rules/tiny.py", TINY), ("rules/__init__.py", ""), ("bench/__init__.py", "")):
        (top / name).parent.mkdir(exist_ok=True)
        (top / name).write_text(text, encoding="utf-8")
    (top / "tests").mkdir()
    (top / "tests" / "test_tiny.py").write_text(TESTS, encoding="utf-8")
    return top


@pytest.fixture(scope="module")
def bench(tree: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """A copy of it, with what its tests reach."""
    with benches(1, tree) as one:
        one.record(lambda _: None, tmp_path_factory.mktemp("kept"))
        one.uses = uses_in(tree)
        yield one


@pytest.fixture(scope="module")
def verdicts(tree: Path, bench: Bench) -> list[Verdict]:
    """Some mutants of it."""
    every = all_mutants(["rules"], tree)
    source = (tree / "rules/tiny.py").read_bytes()
    some = [one for one in every if changed(one.words(source)) in SOME or one.scope == "idle"]
    return bench.judge_all(some, lambda _: None)


SOME = {"LEAST = 4", "return count > LEAST", SAME}


def changed(words: str) -> str:
    """The line as changed."""
    return words.rpartition(" -> ")[2]


def ends(verdicts: list[Verdict], scope: str) -> dict[str, str]:
    """The end of each mutant in a function, by its line as changed."""
    return {changed(one.words): one.end for one in verdicts if one.mutant.scope.startswith(scope)}


def test_what_a_test_notices_is_killed(verdicts: list[Verdict]) -> None:
    assert ends(verdicts, "enough") == {"return count > LEAST": "killed"}
    assert {one.by for one in verdicts if one.mutant.scope == "enough"} == {"tests/test_tiny.py::test_enough"}


def test_a_figure_on_the_floor_meets_the_tests_of_what_uses_it(verdicts: list[Verdict]) -> None:
    floor = [one for one in verdicts if one.mutant.line == 3]
    assert [(changed(one.words), one.end, one.reaching) for one in floor] == [("LEAST = 4", "killed", 1)]


def test_what_changes_nothing_lives(verdicts: list[Verdict]) -> None:
    assert ends(verdicts, "larger") == {SAME: "survived"}


def test_what_no_test_reaches_is_told_apart_and_counts_as_alive(verdicts: list[Verdict]) -> None:
    assert set(ends(verdicts, "idle").values()) == {"unreached"}
    assert all(one.alive for one in verdicts if one.mutant.scope == "idle")


def test_a_test_that_is_called_otherwise_here_keeps_no_other_from_running(bench: Bench) -> None:
    """The name of a test may hold the folder of the copy in which it was recorded."""
    asked = {"tests": ["tests/test_tiny.py::test_gone[/1/one]", "tests/test_tiny.py::test_enough"]}
    with bench.copy() as copy:
        said = copy.with_file("rules/tiny.py", TINY.replace("LEAST = 3", "LEAST = 4").encode(), asked)[-1]
        assert (said["end"], said["by"], said["run"]) == ("killed", "tests/test_tiny.py::test_enough", 1)
        assert copy.ask(asked)[-1]["end"] == "survived"


def test_the_report_counts_and_lists_them(verdicts: list[Verdict]) -> None:
    alive = sum(one.alive for one in verdicts)
    text = written(verdicts, "# Tiny")
    assert f"survived: {alive} of {len(verdicts)}, " in text and "no test reaches it" in text
    same = next(one for one in verdicts if one.end == "survived")
    line = f"{same.mutant.file}:{same.mutant.line} (comparison; 1 of 1 tests): `{same.words}`"
    assert line in text and "one > other else other -> return one if one >= other" in line
    assert counted(verdicts, {same.words: "equal"})[0].startswith(f"survived: {alive - 1} of ")


def test_a_named_fault_stands_once(tree: Path) -> None:
    assert Named("less", "rules/tiny.py", "count >= LEAST", "count > LEAST").mutant(tree).line == 8
    with pytest.raises(ValueError, match="stands 3 times"):
        Named("less", "rules/tiny.py", "def ", "x").mutant(tree)


@pytest.mark.parametrize("one", NAMED, ids=lambda one: one.what)
def test_each_named_fault_can_still_be_planted(one: Named) -> None:
    mutant = one.mutant()
    assert compiles(mutant.applied((Path(__file__).parents[2] / one.file).read_bytes()))


SOURCES = {
    "x = a < 1.5": {"a <= 1.5", "a >= 1.5", "a < 1.8", "a < (-1.5)"},
    "x = a + b": {"a - b"},
    "x = f'{a}' + b": set(),
    "x = -2": {"2", "-3"},
    "x = not (a)": {" (a)"},
    "x = a and b or c": {"a or b or c", "a and b and c"},
    "x = 'two words'": set(),
    "x = 'loose'": {"'loose_x'"},
    "x: Literal['a'] = b": set(),
    "x = [i for i in a if i]": {"[i for i in a if True]"},
    "x = a[1]": {"a[2]"},
    "x = known(1, low=a)": {"known(2, low=a)", "known((-1), low=a)", "known(1)"},
}


@pytest.mark.parametrize("source", SOURCES)
def test_what_the_operators_make(source: str) -> None:
    text = source.encode()
    made = {one.applied(text).decode().split(" = ", 1)[1] for one in mutants_of("x.py", text, KNOWN)}
    assert made == SOURCES[source]


KNOWN = {"known": frozenset({"low"})}


def test_the_draw_is_even_and_the_same_for_a_seed() -> None:
    every = [one for path in files_in(["rules/sizing"])[:3] for one in mutants_of("x", path.read_bytes(), {})]
    assert drawn_evenly(every, 40, 3) == drawn_evenly(every, 40, 3) != drawn_evenly(every, 40, 4)
    half = len(every) // 2
    first = sum(one in every[:half] for seed in range(60) for one in drawn_evenly(every, 20, seed))
    assert 500 < first < 700


def test_every_equivalent_one_can_be_drawn_and_has_its_reason() -> None:
    entries = [line for line in EQUIVALENT.read_text(encoding="utf-8").splitlines() if line.startswith("- ")]
    assert all(ENTRY.fullmatch(line) for line in entries)
    named = equivalent()
    assert len(named) == len(entries)
    files = sorted({words.split(" in ")[0] for words in named})
    sources = {file: (Path(__file__).parents[2] / file).read_bytes() for file in files}
    drawn = {one.words(text) for file, text in sources.items() for one in mutants_of(file, text, {})}
    assert set(named) - drawn == set()


def test_a_share_comes_with_what_it_may_be() -> None:
    assert share(10, 100) == "10 of 100, 10.0 % (5.5 to 17.4 %)"
