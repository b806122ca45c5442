"""What is loaded when: no Textual for a headless command, no rules and no Pint for the list of jobs."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]


def loaded_after(code: str, folder: Path) -> set[str]:
    """Top-level and ringwright modules in memory after some code ran in a fresh interpreter."""
    tail = "\nimport json, sys; print('\\n' + json.dumps(sorted(sys.modules)))"
    environment = {**os.environ, "RINGWRIGHT_HOME": str(folder)}
    done = subprocess.run(
        [sys.executable, "-c", code + tail],
        cwd=TOP,
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    names: list[str] = json.loads(done.stdout.splitlines()[-1])
    return set(names)


HEADLESS = (
    ["jobs"],
    ["shop"],
    ["size", "--case-bore", "28.40", "--glass", "27.36", "--json"],
    [
        "fit",
        "--case-bore",
        "28.40",
        "--glass",
        "27.36",
        "--outside",
        "28.40",
        "--bore",
        "27.26",
        "--height",
        "1",
    ],
)


@pytest.mark.parametrize("words", HEADLESS, ids=lambda words: words[0])
def test_headless_commands_load_no_textual(words: list[str], tmp_path: Path) -> None:
    names = loaded_after(f"from ringwright import main; assert main({words!r}) == 0", tmp_path)
    assert not any(name.partition(".")[0] == "textual" for name in names)
    assert "bench.command" in names


def test_lengths_in_mm_load_no_pint(tmp_path: Path) -> None:
    names = loaded_after(f"from ringwright import main; main({HEADLESS[2]!r})", tmp_path)
    assert "pint" not in names


def test_the_list_of_jobs_loads_no_rules(tmp_path: Path) -> None:
    """The page of jobs is painted from names and summaries alone; the first opened job brings the rules."""
    code = """
from pathlib import Path
import os
from bench.workbench import Workbench
from screens.full import opening
from screens.look import Look
from screens.view import view
import screens.app
desk = opening(Workbench(Path(os.environ["RINGWRIGHT_HOME"])), "")
assert view(desk, Look())
"""
    names = loaded_after(code, tmp_path)
    assert "screens.pages.jobs" in names
    assert not any(name.partition(".")[0] == "rules" for name in names)
    assert "pint" not in names and "bench.stages" not in names


def test_the_screen_loads_no_ssl_and_no_palette_of_commands(tmp_path: Path) -> None:
    """Both cost start and memory, and are never used; whoever asks for them afterwards has them."""
    code = """
from screens.lean import left_out
with left_out():
    import screens.app
import sys
assert "ssl" not in sys.modules and "textual.widgets._input" not in sys.modules
from ssl import SSLContext
from textual.command import CommandPalette
assert CommandPalette.__init__ and SSLContext.wrap_socket
"""
    names = loaded_after(code, tmp_path)
    assert "screens.app" in names and "textual.command" in names


@pytest.mark.parametrize("words", ([], ["7"]), ids=("list", "number"))
def test_the_everyday_way_loads_no_parser_of_commands(words: list[str], tmp_path: Path) -> None:
    names = loaded_after(f"from ringwright import main; main({words!r})", tmp_path)
    assert "screens.dispatch" in names and not {"argparse", "bench.commands.tree"} & names
