"""`ringwright manual`: the manual as text, a chapter of it, or the whole as PDF.

Invariant: the text is that of the program and of the files in the repository.
"""

from __future__ import annotations

import argparse
import shutil
from pathlib import Path

from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands.about import Subparsers, new
from bench.manual.chapters import Chapter, chapter_named, chapters
from bench.manual.lines import lines_of

WIDEST, NARROWEST = 90, 40
"""Columns that the text takes at most and at least."""


def add(subparsers: Subparsers) -> None:
    """Its options."""
    parser = new(subparsers, "manual")
    parser.add_argument("chapter", nargs="?", metavar="CHAPTER", help="number of a chapter, or its name")
    parser.add_argument(
        "--pdf", metavar="FILE", type=Path, help="write the whole as PDF, A4; - is standard output"
    )
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print it, or write it; raises Refused for a chapter that is not there, or paper that cannot be."""
    if arguments.pdf is not None:
        return on_paper(arguments.pdf, arguments.chapter)
    wanted = chapters() if arguments.chapter is None else (found(arguments.chapter),)
    columns = min(max(shutil.get_terminal_size().columns, NARROWEST), WIDEST)
    if arguments.chapter is None:
        print("RINGWRIGHT, THE MANUAL\n")
        for one in wanted:
            print(f"  {one.number}  {one.title} ({one.name})")
    for one in wanted:
        print("\n".join(in_print(one, columns, below=arguments.chapter is None)))
    return DONE


def found(words: str) -> Chapter:
    """The chapter asked for; raises Refused with those there are."""
    if (chapter := chapter_named(words)) is None:
        known = ", ".join(f"{one.number} {one.name}" for one in chapters())
        raise Refused(f"chapter {words}: there is no such chapter; there are {known}")
    return chapter


def in_print(chapter: Chapter, columns: int, *, below: bool) -> list[str]:
    """A chapter with its title; `below` another one, it stands off."""
    title = f"{chapter.number}  {chapter.title}"
    head = [*(["", ""] if below else []), title, "=" * len(title), ""]
    return [*head, *(text for text, _ in lines_of(chapter, columns, on_screen=False))]


def on_paper(path: Path, chapter: str | None) -> int:
    """Write the whole as PDF; raises Refused."""
    if chapter is not None:
        raise Refused("--pdf: the whole manual is written; leave the chapter out")
    from bench.paper.manual import write_manual
    from bench.paper.page import NotOnPaper, said_of

    try:
        said_of(path, write_manual(path))
    except NotOnPaper as why:
        raise Refused(str(why), COULD_NOT_WRITE) from why
    return DONE
