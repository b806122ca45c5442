"""The tree of all commands: one for help, dispatch, completion and the man page.

Invariant: only the command that is asked for is loaded, all of them for completion and the man page.
"""

from __future__ import annotations

import argparse
from importlib import import_module
from pathlib import Path

from bench.command import DONE, Parser, Refused
from bench.commands.about import ABOUT, Subparsers, new
from bench.version import MADE_BY, VERSION

PLAIN = "ask the same in lines, for a screen reader, a script or a slow connection"
SHELLS = ("bash", "zsh", "fish")
STATUSES = (
    "Exit status: 0 done; 1 check found something to say, or a file was left out of a backup or an import;\n"
    "2 bad input, unknown job or file, no terminal; 3 could not write, or open elsewhere; 4 a fault of ours."
)


def tree(only: str | None = None) -> argparse.ArgumentParser:
    """The parser of everything; with `only` the options of that command alone are loaded."""
    parser: argparse.ArgumentParser = Parser(
        prog="ringwright",
        usage="ringwright [--folder FOLDER] [--plain] [JOB]\n       ringwright [--folder FOLDER] COMMAND ...",
        description="Opens the list of jobs, or one job, full screen; --plain does the same in lines.",
        epilog=f"ringwright COMMAND --help says more, with units and an example.\n\n{STATUSES}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--folder", metavar="FOLDER", type=Path, help="where shop.toml and jobs/ are")
    parser.add_argument("-V", "--version", action="version", version=MADE_BY)
    subparsers = parser.add_subparsers(
        dest="command",
        title="commands",
        metavar="COMMAND",
        prog="ringwright [--folder FOLDER]",
    )
    asked = ABOUT[only].module if only in ABOUT else None
    for name, about in ABOUT.items():
        if name in subparsers.choices:  # came with another one of its module
            continue
        if not about.module:
            own(subparsers, name)
        elif only is not None and about.module != asked:
            new(subparsers, name)
        elif about.module == __name__:
            add_words(subparsers, name)
        else:
            import_module(about.module).add(subparsers)
    return parser


def own(subparsers: Subparsers, name: str) -> None:
    """A command of the screen, or help."""
    parser = new(subparsers, name)
    if name in ("open", "demo"):
        parser.add_argument("--plain", action="store_true", help=PLAIN)
    if name == "open":
        parser.add_argument("job", nargs="?", metavar="JOB", help="number of a job, or a session file")
    if name == "help":
        parser.add_argument("about", nargs="?", metavar="COMMAND", choices=tuple(ABOUT), help="a command")


def add_words(subparsers: Subparsers, name: str) -> None:
    """Completion, or the man page."""
    parser = new(subparsers, name)
    if name == "completion":
        parser.add_argument("shell", choices=SHELLS, help="the shell")
    parser.set_defaults(run=completion if name == "completion" else man)


def completion(arguments: argparse.Namespace) -> int:
    """Print the script for a shell; raises Refused without the library for it."""
    try:
        import shtab
    except ImportError as why:
        raise Refused(
            "completion needs the library shtab; install ringwright with its extra 'shell'"
        ) from why
    print(shtab.complete(tree(), shell=arguments.shell))
    return DONE


def man(_arguments: argparse.Namespace) -> int:
    """Print the manual page."""
    print(man_page(), end="")
    return DONE


def man_page() -> str:
    """The manual page in the format of man(7), from the tree."""
    parser = tree()
    lines = [
        f'.TH RINGWRIGHT 1 "" "ringwright {VERSION}" "User Commands"',
        ".SH NAME",
        "ringwright \\- make, fit and prove the plastic ring that holds a watch glass",
        ".SH SYNOPSIS",
        ".B ringwright\n[\\-\\-folder FOLDER] [\\-\\-plain] [JOB]",
        ".br\n.B ringwright\n[\\-\\-folder FOLDER] COMMAND ...",
        ".SH DESCRIPTION",
        troff(parser.description or ""),
        ".SH OPTIONS",
        *options(parser),
        ".SH COMMANDS",
    ]
    for name, one in commands(parser).items():
        lines += [f".SS {name}", troff(ABOUT[name].more), *options(one), ".PP", "Example:"]
        lines += [f".RS\n.nf\n{troff(f'ringwright {line}')}\n.fi\n.RE" for line in ABOUT[name].examples]
    return "\n".join([*lines, ".SH EXIT STATUS", troff(STATUSES.partition(": ")[2])]) + "\n"


def commands(parser: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    """The parsers of the commands by name."""
    found: dict[str, argparse.ArgumentParser] = {}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            found |= action.choices
    return found


def options(parser: argparse.ArgumentParser) -> list[str]:
    """Options and words of one parser."""
    out = []
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            continue
        value = "" if action.nargs == 0 else f" {action.metavar or action.dest.upper()}"
        named = ", ".join(action.option_strings) + value if action.option_strings else value.strip()
        out += [".TP", f".B {troff(named)}", troff((action.help or "").replace("%%", "%"))]
    return out


def troff(text: str) -> str:
    """A text as it stands in the page: dashes and backslashes as themselves, no line that is a request."""
    safe = text.replace("\\", "\\e").replace("-", "\\-")
    return "\n".join(f"\\&{line}" if line.startswith((".", "'")) else line for line in safe.splitlines())
