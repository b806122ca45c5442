"""From the words of the command line to a command, the plain lines or the full screen.

Invariant: a headless command loads no Textual, and the list of jobs loads no rules.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.file.plain import cause
from bench.folder import find_job, home
from bench.refusal import COULD_NOT_WRITE, DONE, OUR_FAULT, Refused

if TYPE_CHECKING:
    from bench.workbench import Workbench

COMMANDS = {
    "size": "bench.commands.size",
    "fit": "bench.commands.size",
    "jobs": "bench.commands.jobs",
    "sheet": "bench.commands.sheet",
    "check": "bench.commands.check",
    "export": "bench.commands.backup",
    "import": "bench.commands.backup",
    "shop": "bench.commands.shop",
    "plan": "bench.commands.plan",
    "plug": "bench.commands.plug",
    "leak": "bench.commands.leak",
}
"""Headless commands and the modules that know them; a module is loaded when it is asked for."""

HELP = """usage: ringwright [--folder FOLDER] [--plain] [JOB]
       ringwright [--folder FOLDER] COMMAND ...

Opens the list of jobs, or one job, full screen; --plain does the same in lines.

commands:
  size, fit        propose a ring, assess a given one
  jobs, sheet JOB  the list of jobs, the sheet of one
  plan JOB, plug   the turning plan, a stepped plug
  leak FILE        a leak rate from readings
  shop             what stands in this shop
  check FILE       what a session file is
  export, import   a backup of all jobs, and back
  demo             a new job beside the samples, in a folder that is gone afterwards
  keys             what arrives when a key is pressed

ringwright COMMAND --help says more."""


def main(words: Sequence[str] | None = None) -> int:
    """Run the program; the exit status."""
    given = list(sys.argv[1:] if words is None else words)
    try:
        status = dispatch(given)
        if sys.stdout is not None:
            sys.stdout.flush()
    except Refused as refused:
        status = refused_in_words(str(refused), refused.status)
    except BrokenPipeError:
        status = unsaid(DONE)
    except KeyboardInterrupt:
        status = DONE
    except OSError as error:
        status = unsaid(refused_in_words(system_refused(error), COULD_NOT_WRITE))
    except Exception as error:
        kind, text = type(error).__name__, " ".join(str(error).split())[:200]
        words_of_it = f"a fault of ours; what was accepted is saved: {kind}: {text}"
        status = refused_in_words(words_of_it, OUR_FAULT)
    return status


def refused_in_words(text: str, status: int) -> int:
    """One line on standard error, if anybody can hear it; the status."""
    with suppress(OSError):
        print(f"ringwright: {' '.join(text.split())}", file=sys.stderr)
    return status


def system_refused(error: OSError) -> str:
    """What the system refused, and where, in plain words."""
    place = f"{clean(str(error.filename))}: " if error.filename else "not everything could be written: "
    return place + cause(error)


def unsaid(status: int) -> int:
    """What cannot be printed is given up, so that the end of the program does not try again; the status."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    return status


def dispatch(given: list[str]) -> int:
    """Headless command, help, plain or full screen."""
    folder, given = taken_folder(given)
    if given[:1] in (["-h"], ["--help"]):
        print(HELP)
        return 0
    if given[:1] == ["--version"]:
        from bench.version import MADE_BY

        print(MADE_BY)
        return 0
    if given and given[0] in COMMANDS:
        return headless(given, folder)
    if given[:1] == ["keys"]:
        from screens.keys_seen import keys_seen

        return keys_seen()
    return screen(given, folder)


def taken_folder(given: list[str]) -> tuple[Path | None, list[str]]:
    """Take --folder FOLDER out of the words, before or after the command; raises Refused without a value."""
    rest: list[str] = []
    folder: Path | None = None
    words = iter(given)
    for item in words:
        if item == "--folder":
            value = next(words, None)
            if value is None or not value:
                raise Refused("--folder: name a folder after it")
            folder = Path(value)
        elif item.startswith("--folder="):
            folder = Path(item.removeprefix("--folder="))
        else:
            rest.append(item)
    return folder, rest


def headless(given: list[str], folder: Path | None) -> int:
    """Run a command that needs no screen."""
    from bench.command import Parser, report

    parser = Parser(prog="ringwright")
    subparsers = parser.add_subparsers(dest="command", parser_class=Parser)
    import_module(COMMANDS[given[0]]).add(subparsers)
    arguments = parser.parse_args(given)
    arguments.folder = home(folder)
    return report(arguments.run, arguments)


def screen(given: list[str], folder: Path | None) -> int:
    """The full screen or the plain lines, on the list of jobs, a job, or a sample."""
    gc.disable()  # until the first page stands: the shell turns it on again
    from bench.workbench import Workbench

    plain = "--plain" in given
    rest = [item for item in given if item != "--plain"]
    surplus = next((item for item in rest if item.startswith("-")), None)
    if surplus is not None or len(rest) > 1:
        raise Refused(f"{surplus or rest[1]}: not known here; ringwright --help lists what is")
    file = ""
    if rest == ["demo"]:
        from bench.demo import demo_folder, end_in_order

        end_in_order()
        place, path = demo_folder()
        file, bench = str(path), Workbench(place, demo=True)
    else:
        place = home(folder)
        bench = Workbench(place)
        file = str(find_job(place, rest[0]).absolute()) if rest else ""
    try:
        return shown(bench, file, plain=plain)
    finally:
        bench.leave()


def shown(bench: Workbench, file: str, *, plain: bool) -> int:
    """The full screen or the plain lines on a workbench, until the person leaves."""
    if plain:
        gc.enable()
        from screens.plain import run_plain

        return run_plain(bench, file=file)
    from screens.full import run_full

    return run_full(bench, file=file)
