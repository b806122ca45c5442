"""From the words of the command line to a command, the plain lines or the full screen.

Invariant: a headless command loads no Textual, and the list of jobs loads no rules.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.file.plain import cause
from bench.folder import home
from bench.refusal import COULD_NOT_WRITE, DONE, OUR_FAULT, HelpGiven, Refused
from bench.which_job import find_job

if TYPE_CHECKING:
    from argparse import Namespace

    from bench.workbench import Workbench


def main(words: Sequence[str] | None = None) -> int:
    """Run the program; the exit status."""
    given = list(sys.argv[1:] if words is None else words)
    try:
        status = dispatch(given)
        if sys.stdout is not None:
            sys.stdout.flush()
    except Refused as refused:
        status = refused_in_words(str(refused), refused.status)
    except HelpGiven:
        status = told()
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


def told() -> int:
    """What the parser printed has to have gone out; the status."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except BrokenPipeError:
        return unsaid(DONE)
    except OSError as error:
        return unsaid(refused_in_words(system_refused(error), COULD_NOT_WRITE))
    return DONE


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
    """Headless command, help, plain or full screen.

    The list of jobs, or a job by its number, opens without a parser of commands being loaded.
    """
    folder, given = taken_folder(given)
    if "" in given:
        raise Refused("an empty word names no job, file or folder: leave it out, or name one")
    if not given or (len(given) == 1 and given[0].isdecimal()):
        return screen("".join(given), folder)
    from bench.commands.about import ABOUT
    from bench.commands.tree import tree

    name = next((word for word in given if not word.startswith("-")), "")
    if {"-V", "--version"} & set(given[:1]):
        name, given = "", given[:1]
    elif name in ABOUT:
        given.remove(name)
    elif {"-h", "--help"} & set(given[:1]):
        name = ""
    else:
        name = "open"
    parser = tree(name)
    arguments, surplus = parser.parse_known_args([name, *given] if name else given)
    if surplus:
        raise Refused(f"{surplus[0]}: not known here; ringwright {name} --help lists what is")
    if name == "help":
        return helped(arguments.about)
    if name == "keys":
        from screens.keys_seen import keys_seen

        return keys_seen(home(folder))
    if name in ("open", "demo"):
        job = getattr(arguments, "job", None) or ""
        return screen(job, folder, plain=arguments.plain, demo=name == "demo")
    return headless(arguments, folder)


def helped(about: str | None) -> int:
    """Print the help of the program, or of one command."""
    from bench.commands.tree import tree

    tree(about or "").parse_args([about, "--help"] if about else ["--help"])
    return DONE


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


def headless(arguments: Namespace, folder: Path | None) -> int:
    """Run a command that needs no screen; a folder that was named is there, or is made by it."""
    from bench.command import report

    makes = arguments.command == "import" or getattr(arguments, "write", False)
    arguments.folder = home(folder)
    if folder is not None and not makes and not folder.exists():
        raise Refused(f"--folder: no such folder: {folder}")
    return report(arguments.run, arguments)


def screen(job: str, folder: Path | None, *, plain: bool = False, demo: bool = False) -> int:
    """The full screen or the plain lines, on the list of jobs, a job, or a sample."""
    gc.disable()  # until the first page stands: the shell turns it on again
    from bench.workbench import Workbench

    file = ""
    if demo:
        from bench.demo import demo_folder, end_in_order

        end_in_order()
        place, path = demo_folder()
        file, bench = str(path), Workbench(place, demo=True)
    else:
        place = home(folder)
        bench = Workbench(place)
        file = str(find_job(place, job).absolute()) if job else ""
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
