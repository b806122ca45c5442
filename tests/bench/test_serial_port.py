"""A serial port read over pairs of pseudo-terminals: noise, parts of lines, unplugged and put back."""

from __future__ import annotations

import os
import queue
import sys
import termios
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from unittest.mock import patch

import pytest
import serial

from bench.shop.serial_line import SerialLine
from bench.wire.heard import Heard
from bench.wire.port import HELD, NO_LIBRARY, UNPLUGGED, Port, Wire, opened, said_of

pytestmark = pytest.mark.skipif(os.name == "nt", reason="pseudo-terminals are of POSIX")
PATIENCE_S = 10.0


class Gauge:
    """One end of a pair, and a name that the other end keeps when it is put in again."""

    def __init__(self, folder: Path) -> None:
        self.port = folder / "gauge"
        self._master = -1
        self.plug_in()

    def plug_in(self) -> None:
        """A new pair under the same name."""
        self._master, other = os.openpty()
        aside = self.port.with_suffix(".new")
        aside.symlink_to(os.ttyname(other))
        aside.replace(self.port)
        self._other = other

    def send(self, data: bytes) -> None:
        """Send, and see that it is on its way."""
        os.write(self._master, data)

    def unplug(self) -> None:
        """Both ends go."""
        with suppress(OSError):
            os.close(self._other)
        os.close(self._master)


class Listener:
    """A wire on a gauge; what it posts, in order."""

    def __init__(self, gauge: Gauge) -> None:
        self.posted: queue.Queue[Heard] = queue.Queue()
        self.open: queue.Queue[Port] = queue.Queue()
        setup = SerialLine(name="micrometer", port=str(gauge.port))
        self.wire = Wire(setup, self.posted.put, open_port=self._opened, again_s=0.01, now=self._now)

        self._looks = 0

    def _now(self) -> float:
        """A clock of its own: half a second and more goes by after every opening, and no time else."""
        self._looks += 1
        return min(self._looks, 2)

    def _opened(self, setup: SerialLine) -> Port:
        port = opened(setup)
        self._looks = 0
        self.open.put(port)
        return port

    def begin(self) -> None:
        """Listen, and wait until the port is open."""
        self.wire.start()
        self.open.get(timeout=PATIENCE_S)

    def next(self) -> Heard:
        """What is posted next."""
        return self.posted.get(timeout=PATIENCE_S)


@pytest.fixture
def gauge(tmp_path: Path) -> Iterator[Gauge]:
    made = Gauge(tmp_path)
    yield made
    with suppress(OSError):
        made.unplug()


@pytest.fixture
def listener(gauge: Gauge) -> Iterator[Listener]:
    made = Listener(gauge)
    yield made
    made.wire.stop()
    if made.wire.ident is not None:
        made.wire.join(PATIENCE_S)
        assert not made.wire.is_alive()


def test_readings_come_whole_through_noise_and_in_parts(gauge: Gauge, listener: Listener) -> None:
    listener.begin()
    gauge.send(b"\xf0\x81~\r\n+036.42 mm\r\n")
    assert "no number in it" in listener.next().words
    assert listener.next().reading == "36.42 mm"


def test_unplugged_is_said_once_and_readings_come_again_when_it_is_back(
    gauge: Gauge, listener: Listener
) -> None:
    listener.begin()
    gauge.send(b"36.42\r\n")
    assert listener.next().number == "36.42"
    gauge.send(b"36.")
    gauge.unplug()
    gone = listener.next()
    while not gone.gone:  # the half line may be told before
        gone = listener.next()
    assert f"micrometer on {gauge.port}: the line is gone ({UNPLUGGED})" in gone.words
    gauge.plug_in()
    assert listener.next().words == f"micrometer on {gauge.port}: the line is back. Send the reading again."
    gauge.send(b"36.44\r\n")
    assert listener.next().number == "36.44"


def test_a_port_that_is_held_or_not_there_is_said_in_plain_words(gauge: Gauge, listener: Listener) -> None:
    first = opened(SerialLine(port=str(gauge.port)))
    with pytest.raises(OSError) as held:
        opened(SerialLine(port=str(gauge.port)))
    assert said_of(held.value) == HELD
    first.close()
    with pytest.raises(OSError) as missing:
        opened(SerialLine(port=str(gauge.port) + "-not"))
    assert said_of(missing.value) == "there is no such file or folder"
    assert listener.wire.ident is None


def test_speed_bits_and_parity_are_those_of_the_shop(gauge: Gauge) -> None:
    port = opened(SerialLine(port=str(gauge.port), speed_baud=4800, data_bits=7, parity="even"))
    assert isinstance(port, serial.Serial) and (port.bytesize, port.parity) == (7, "E")
    assert termios.tcgetattr(port.fileno())[5] == termios.B4800
    port.close()


def test_without_the_library_it_is_said_and_nothing_is_tried_again(gauge: Gauge, listener: Listener) -> None:
    with patch.dict(sys.modules, {"serial": None}):
        listener.wire.start()
        assert listener.next().words == NO_LIBRARY
        listener.wire.join(PATIENCE_S)
    assert listener.posted.empty()
