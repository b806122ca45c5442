"""A flush that is interrupted again and again ends in words; one interrupted now and then goes on."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
INTERRUPTED = """
#include <errno.h>
#include <stdlib.h>
#include <unistd.h>
#include <sys/syscall.h>
int fsync(int fd) {
    static long calls = 0;
    long nth = atol(getenv("NTH"));
    if (++calls % nth) { errno = EINTR; return -1; }
    return syscall(SYS_fsync, fd);
}
"""
"""A system in which only every Nth flush comes to its end."""


@pytest.mark.skipif(
    shutil.which("cc") is None or sys.platform != "linux", reason="needs a C compiler and Linux"
)
@pytest.mark.parametrize(
    ("nth", "said"), [("1000000000", "the system interrupted it again and again"), ("7", "saved: ")]
)
def test_a_flush_that_is_interrupted(tmp_path: Path, nth: str, said: str) -> None:
    (tmp_path / "x.c").write_text(INTERRUPTED)
    library = tmp_path / "x.so"
    subprocess.run(["cc", "-shared", "-fPIC", "-o", str(library), str(tmp_path / "x.c")], check=True)
    done = subprocess.run(
        [sys.executable, "-m", "ringwright", "--folder", str(tmp_path / "here"), "--plain"],
        input="0\n1\n",
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "LD_PRELOAD": str(library), "NTH": nth, "PYTHONPATH": str(ROOT)},
        timeout=60,
        check=False,
    )
    assert said in done.stdout
    assert done.returncode == 0
