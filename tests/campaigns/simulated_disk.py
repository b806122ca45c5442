"""A disk in memory that can lose power, and a wrapper that makes any call fail.

The model is harsher than any real file system: between two flushes each write, each change of size and each
name may reach the disk or not, on its own and in any mixture. It imports nothing of the session file but the
interface it stands in for.
"""

from __future__ import annotations

import errno
import os
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from bench.file.disk import Disk, FileFacts


class PowerCut(BaseException):
    """The machine is off; nothing after this reaches the disk."""


@dataclass(eq=False)
class Node:
    """One file: what is on the disk, and what is only in memory."""

    number: int
    durable: bytes = b""
    cache: bytearray = field(default_factory=bytearray)
    pending: list[tuple[str, int, bytes]] = field(default_factory=list)
    changed: int = 0

    def flush(self) -> None:
        """All pending changes reach the disk."""
        for change in self.pending:
            self.durable = _apply(self.durable, change)
        self.pending.clear()

    def forget(self) -> None:
        """A failed flush: the changes stay visible, count as clean, and never reach the disk."""
        self.pending.clear()

    def after_cut(self, chance: random.Random, mood: str) -> bytes:
        """What is found after a power cut: some of the pending changes, wholly, in part or as bare size."""
        found = self.durable
        for change in self.pending:
            choice = mood if mood != "mixed" else chance.choice(["none", "all", "part", "size"])
            if choice == "all":
                found = _apply(found, change)
            elif choice == "part":
                what, at, data = change
                part = (what, at, data[: chance.randint(0, len(data))])
                found = _apply(found, part if what == "write" else change)
            elif choice == "size" and change[0] == "write":
                end = change[1] + chance.randint(0, len(change[2]))
                found = found + bytes(max(0, end - len(found)))
        return found


def _apply(content: bytes, change: tuple[str, int, bytes]) -> bytes:
    what, at, data = change
    if what == "cut":
        return content[:at] + bytes(max(0, at - len(content)))
    padded = content + bytes(max(0, at - len(content)))
    return padded[:at] + data + padded[at + len(data) :]


class SimulatedDisk(Disk):
    """Files in memory, with everything that is not flushed at the mercy of a power cut."""

    def __init__(self) -> None:
        self.nodes: dict[Path, Node] = {}
        self.folders: set[Path] = {Path("/")}
        self.kept_names: dict[Path, Node] = {}
        self.kept_folders: set[Path] = {Path("/")}
        self.fds: dict[int, tuple[Node, int]] = {}
        self.places: dict[int, int] = {}
        """Where a descriptor that does not append writes next."""
        self.locks: dict[int, int] = {}
        self.ticks = 0

    def content(self, path: Path) -> bytes:
        """What a reader sees."""
        return bytes(self.nodes[path].cache)

    def put(self, path: Path, data: bytes) -> None:
        """A file that was always there."""
        for folder in path.parents:
            self.folders.add(folder)
            self.kept_folders.add(folder)
        node = Node(self._tick(), durable=data, cache=bytearray(data), changed=self.ticks)
        self.nodes[path] = self.kept_names[path] = node

    def cut(self, chance: random.Random, mood: str = "mixed") -> SimulatedDisk:
        """The disk as it is found when the power is back. Moods: mixed, none (of the pending), all, size."""
        after = SimulatedDisk()
        after.ticks = self.ticks
        after.folders = self.kept_folders | {f for f in self.folders if self._survives(chance, mood)}
        after.folders = {f for f in after.folders if all(parent in after.folders for parent in f.parents)}
        after.kept_folders = set(after.folders)
        fresh: dict[int, Node] = {}
        for path in self.nodes.keys() | self.kept_names.keys():
            was, now = self.kept_names.get(path), self.nodes.get(path)
            node = now if was is now or self._survives(chance, mood) else was
            if node is None or path.parent not in after.folders:
                continue
            if node.number not in fresh:
                data = node.after_cut(chance, mood)
                fresh[node.number] = Node(
                    node.number, durable=data, cache=bytearray(data), changed=node.changed
                )
            after.nodes[path] = after.kept_names[path] = fresh[node.number]
        return after

    @staticmethod
    def _survives(chance: random.Random, mood: str) -> bool:
        return mood == "all" or (mood == "mixed" and chance.random() < 0.5)

    def _tick(self) -> int:
        self.ticks += 1
        return self.ticks

    def _named(self, path: Path) -> Node:
        if path not in self.nodes:
            raise FileNotFoundError(errno.ENOENT, "no such file")
        return self.nodes[path]

    def _seen(self, node: Node) -> FileFacts:
        names = sum(other is node for other in self.nodes.values())
        return FileFacts((1, node.number), len(node.cache), node.changed, True, False, names)

    def look(self, path: Path) -> FileFacts:
        if path in self.folders:
            return FileFacts((1, -1), 0, 0, False, False, 1)
        return self._seen(self._named(path))

    def look_at(self, fd: int) -> FileFacts:
        return self._seen(self.fds[fd][0])

    def open(self, path: Path, flags: int) -> int:
        node = self.nodes.get(path)
        if node is not None and flags & os.O_EXCL:
            raise FileExistsError(errno.EEXIST, "there already")
        if node is None:
            if not flags & os.O_CREAT or path.parent not in self.folders:
                raise FileNotFoundError(errno.ENOENT, "no such file")
            node = self.nodes[path] = Node(self._tick(), changed=self.ticks)
        elif flags & os.O_TRUNC:
            self._change(node, ("cut", 0, b""))
        fd = 1000 + self._tick()
        self.fds[fd] = (node, flags)
        return fd

    def close(self, fd: int) -> None:
        node, _ = self.fds.pop(fd)
        if self.locks.get(node.number) == fd:
            del self.locks[node.number]

    def lock(self, fd: int) -> bool:
        return self.locks.setdefault(self.fds[fd][0].number, fd) == fd

    def read(self, fd: int, count: int, offset: int) -> bytes:
        node, flags = self.fds[fd]
        if flags & os.O_WRONLY:
            raise OSError(errno.EBADF, "opened to write only")
        return bytes(node.cache[offset : offset + count])

    def _change(self, node: Node, change: tuple[str, int, bytes]) -> None:
        node.cache = bytearray(_apply(bytes(node.cache), change))
        node.pending.append(change)
        node.changed = self._tick()

    def write(self, fd: int, data: bytes) -> int:
        node, flags = self.fds[fd]
        if not flags & (os.O_RDWR | os.O_WRONLY):
            raise OSError(errno.EBADF, "opened to read only")
        place = len(node.cache) if flags & os.O_APPEND else self.places.get(fd, 0)
        self._change(node, ("write", place, data))
        self.places[fd] = place + len(data)
        return len(data)

    def truncate(self, fd: int, size: int) -> None:
        node, flags = self.fds[fd]
        if not flags & (os.O_RDWR | os.O_WRONLY):
            raise OSError(errno.EINVAL, "opened to read only")
        self._change(node, ("cut", size, b""))

    def flush(self, fd: int) -> None:
        self.fds[fd][0].flush()

    def fail_flush(self, fd: int) -> None:
        """What a failed flush does to the pages: they count as clean."""
        self.fds[fd][0].forget()

    def link(self, old: Path, new: Path) -> None:
        node = self._named(old)
        if new in self.nodes:
            raise FileExistsError(errno.EEXIST, "there already")
        self.nodes[new] = node

    def unlink(self, path: Path) -> None:
        self._named(path)
        del self.nodes[path]

    def make_folder(self, path: Path) -> None:
        self.folders.add(path)

    def flush_folder(self, path: Path) -> None:
        if path not in self.folders:
            raise FileNotFoundError(errno.ENOENT, "no such folder")
        self.kept_folders |= {folder for folder in self.folders if folder.parent == path}
        kept = {name: node for name, node in self.kept_names.items() if name.parent != path}
        self.kept_names = kept | {name: node for name, node in self.nodes.items() if name.parent == path}

    def names(self, folder: Path) -> list[str]:
        if folder not in self.folders:
            raise FileNotFoundError(errno.ENOENT, "no such folder")
        return [path.name for path in self.nodes if path.parent == folder]

    def whereabouts(self) -> str:
        return "simulated"


Plan = Callable[[int, str], BaseException | str | None]
"""For the nth call and its name: an exception to raise, "part" to write half, or None."""


class FaultyDisk(Disk):
    """Any disk, with a plan for its calls."""

    def __init__(self, inner: Disk, plan: Plan) -> None:
        self.inner, self.plan = inner, plan
        self.calls = 0
        self.failed = 0

    def _may(self, name: str) -> bool:
        """Raise as planned; True if the call is to be done in part."""
        self.calls += 1
        planned = self.plan(self.calls, name)
        if planned is None:
            return False
        self.failed += 1
        if isinstance(planned, BaseException):
            raise planned
        return True

    def look(self, path: Path) -> FileFacts:
        self._may("look")
        return self.inner.look(path)

    def look_at(self, fd: int) -> FileFacts:
        self._may("look_at")
        return self.inner.look_at(fd)

    def open(self, path: Path, flags: int) -> int:
        self._may("open")
        return self.inner.open(path, flags)

    def close(self, fd: int) -> None:
        try:
            self._may("close")
        except OSError:
            self.inner.close(fd)
            raise
        self.inner.close(fd)

    def lock(self, fd: int) -> bool:
        self._may("lock")
        return self.inner.lock(fd)

    def read(self, fd: int, count: int, offset: int) -> bytes:
        half = self._may("read")
        return self.inner.read(fd, max(1, count // 2) if half else count, offset)

    def write(self, fd: int, data: bytes) -> int:
        half = self._may("write")
        return self.inner.write(fd, data[: max(1, len(data) // 2)] if half else data)

    def truncate(self, fd: int, size: int) -> None:
        self._may("truncate")
        self.inner.truncate(fd, size)

    def flush(self, fd: int) -> None:
        try:
            self._may("flush")
        except OSError:
            if isinstance(self.inner, SimulatedDisk):
                self.inner.fail_flush(fd)
            raise
        self.inner.flush(fd)

    def link(self, old: Path, new: Path) -> None:
        self._may("link")
        self.inner.link(old, new)

    def unlink(self, path: Path) -> None:
        self._may("unlink")
        self.inner.unlink(path)

    def make_folder(self, path: Path) -> None:
        self._may("make_folder")
        self.inner.make_folder(path)

    def flush_folder(self, path: Path) -> None:
        self._may("flush_folder")
        self.inner.flush_folder(path)

    def names(self, folder: Path) -> list[str]:
        self._may("names")
        return self.inner.names(folder)

    def whereabouts(self) -> str:
        return self.inner.whereabouts()
