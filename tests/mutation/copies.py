"""Private copies of the tree, each with a server of its own; the tree itself is never changed."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import TracebackType
from typing import IO, Any, Self, cast

from tests.mutation.mutants import TOP

QUIET = {
    "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1",
    "OPENBLAS_NUM_THREADS": "1",
    "OMP_NUM_THREADS": "1",
    "PYTHONHASHSEED": "0",
}


def kept_files(top: Path) -> list[str]:
    """What stands in the tree, as git sees it, or all of it where there is no git."""
    command = ["git", "ls-files", "-co", "--exclude-standard", "-z"]
    done = subprocess.run(command, cwd=top, capture_output=True, text=True, check=False)
    if done.returncode == 0:
        names = [name for name in done.stdout.split("\0") if name]
    else:
        names = [path.relative_to(top).as_posix() for path in top.rglob("*") if path.is_file()]
    return sorted(name for name in names if (top / name).is_file() and "__pycache__" not in name)


class Copy:
    """One copy in a folder of its own, and the server in it."""

    def __init__(self, folder: Path, top: Path = TOP) -> None:
        self.top = folder
        for name in kept_files(top):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(top / name, folder / name)
        command = [sys.executable, "-m", "tests.mutation.server", str(folder)]
        if top == TOP:
            command.append("libraries")
        environment = os.environ | QUIET | {"PYTHONPATH": f"{folder}{os.pathsep}{TOP}"}
        self.server = subprocess.Popen(
            command, cwd=folder, env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )

    def ask(self, order: dict[str, Any]) -> list[dict[str, Any]]:
        """What the server says to an order."""
        into, out = cast(IO[str], self.server.stdin), cast(IO[str], self.server.stdout)
        print(json.dumps(order), file=into, flush=True)
        return cast(list[dict[str, Any]], json.loads(out.readline()))

    def with_file(self, file: str, text: bytes, order: dict[str, Any]) -> list[dict[str, Any]]:
        """The same while one file of the copy reads otherwise."""
        path = self.top / file
        before = path.read_bytes()
        try:
            self.put(path, text)
            return self.ask(order)
        finally:
            self.put(path, before)

    @staticmethod
    def put(path: Path, text: bytes) -> None:
        """Writes a file and forgets what was compiled from it."""
        path.write_bytes(text)
        for old in (path.parent / "__pycache__").glob(f"{path.stem}.*"):
            old.unlink()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        cast(IO[str], self.server.stdin).close()
        self.server.wait(timeout=30)
        cast(IO[str], self.server.stdout).close()
