"""The serial ports that a shop names, each read by a thread of its own.

Invariant: a port that cannot be opened or goes away is told once in plain words and tried again until it is
back; nothing here decides about a reading. The library is an extra, loaded only where a line is set up.
"""

from __future__ import annotations

import errno
import threading
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from bench.clocks import wall_now
from bench.file.ordinary import read_regular
from bench.file.plain import cause
from bench.file.slug import SHOP, SHOP_LIMIT
from bench.wire.heard import HALF, Heard, heard_in
from bench.wire.stream import Stream, took

if TYPE_CHECKING:
    from bench.shop.serial_line import SerialLine

LISTEN_S = 0.2
"""So long a read waits at most."""
AGAIN_S = 1.0
"""So long after a port was not there it is tried again."""
GONE = "{name} on {port}: the line is gone ({why}). Nothing is lost: go on by keys; it comes back by itself."
BACK = "{name} on {port}: the line is back. Send the reading again."
NO_LIBRARY = "a gauge on a line needs the library pyserial; install ringwright with its extra 'serial'"
HELD = "another program holds it"
UNPLUGGED = "unplugged, or switched off"

Post = Callable[[Heard], object]


class Port(Protocol):
    """What is needed of an open port."""

    def read(self, size: int = 1) -> bytes:
        """At most so many bytes, after the time of a read none."""

    def close(self) -> None:
        """Close it."""


def lines_in(folder: Path) -> tuple[SerialLine, ...]:
    """The lines set up in a folder; none where the shop file cannot be used: opening a job says why."""
    with suppress(OSError, ValueError, RecursionError):
        raw = read_regular(folder / SHOP, SHOP_LIMIT)
        import tomllib

        if b"line" in raw and "line" in tomllib.loads(raw.decode("utf-8-sig")):
            from bench.shop.shop import shop_of  # comes with rules, which the list of jobs does without

            return shop_of(raw, SHOP).lines
    return ()


def opened(setup: SerialLine) -> Port:
    """The port, open and this program's alone; raises OSError, ValueError, ImportError."""
    import serial

    port: Port = serial.Serial(
        setup.port,
        setup.speed_baud,
        bytesize=setup.data_bits,
        parity=setup.parity[0].upper(),
        timeout=LISTEN_S,
        exclusive=True,
    )
    return port


class Wire(threading.Thread):
    """One line, read until it is told to stop."""

    def __init__(
        self,
        setup: SerialLine,
        post: Post,
        *,
        open_port: Callable[[SerialLine], Port] = opened,
        again_s: float = AGAIN_S,
        now: Callable[[], float] = time.monotonic,
    ) -> None:
        super().__init__(daemon=True, name=f"line {setup.port}")
        self._setup, self._post, self._open_port, self._now = setup, post, open_port, now
        self._again_s = again_s
        self._told = False
        self._over = threading.Event()

    def stop(self) -> None:
        """Told to stop; the read that waits ends by itself."""
        self._over.set()

    def run(self) -> None:
        """Open, read, and open again, until the end."""
        while not self._over.is_set():
            try:
                port = self._open_port(self._setup)
            except ImportError:
                self._tell(NO_LIBRARY, gone=True)
                return
            except (OSError, ValueError) as why:
                self._gone(why)
            else:
                self._read(port)
            self._over.wait(self._again_s)

    def _read(self, port: Port) -> None:
        """Read an open port until it goes away."""
        stream = Stream(self._now())
        if self._told:
            self._told = False
            self._tell(BACK)
        try:
            while not self._over.is_set():
                if data := port.read(1):
                    stream = self._took(stream, data)
        except (OSError, ValueError) as why:
            self._gone(why)
        finally:
            with suppress(OSError):
                port.close()

    def _took(self, stream: Stream, data: bytes) -> Stream:
        """Some bytes: what they say is told."""
        at = self._now()
        stream, lines, broken = took(stream, data, at)
        if broken:
            self._tell(HALF)
        for line in lines:
            self._post(heard_in(line, self._setup, at=at, wall=wall_now()))
        return stream

    def _gone(self, why: Exception) -> None:
        """Told once."""
        if not self._told:
            self._told = True
            self._tell(GONE.replace("{why}", said_of(why)), gone=True)

    def _tell(self, words: str, *, gone: bool = False) -> None:
        said = words.format(name=self._setup.name, port=self._setup.port)
        self._post(Heard(self._setup.name, words=said, gone=gone, at=self._now(), wall=wall_now()))


def said_of(why: Exception) -> str:
    """Why a port is not there, in plain words."""
    number = getattr(why, "errno", None)
    if number in (errno.EBUSY, errno.EAGAIN):
        return HELD
    return cause(why) if isinstance(why, OSError) and number not in (None, errno.EIO) else UNPLUGGED


class Wires:
    """Every line that is set up; none is read before it is listened to."""

    def __init__(self, setups: Iterable[SerialLine]) -> None:
        self._setups = tuple(setups)
        self._wires: list[Wire] = []

    def listen(self, post: Post) -> None:
        """Begin to read; what comes is posted from threads."""
        self._wires = [Wire(setup, post) for setup in self._setups]
        for wire in self._wires:
            wire.start()

    def stop(self) -> None:
        """Told to stop."""
        for wire in self._wires:
            wire.stop()
