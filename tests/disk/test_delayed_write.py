"""What changes often is in its file a moment later, and a disk that fails stops nobody."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from walkaround.base.errors import MachineError
from walkaround.disk import delayed_write
from walkaround.disk.delayed_write import DelayedFile


def _until_written(path: Path, content: bytes) -> None:
    until = time.monotonic() + 30.0
    while DelayedFile(path).read() != content:
        assert time.monotonic() < until
        time.sleep(0.01)


def test_the_last_of_many_changes_is_in_the_file(tmp_path: Path) -> None:
    path = tmp_path / "kept.json"
    kept = DelayedFile(path)
    for letters in range(1, 6):
        kept.write(b"typed"[:letters])
    _until_written(path, b"typed")
    kept.write(b"")
    _until_written(path, b"")


def test_a_disk_that_takes_nothing_is_told_in_the_log(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fails(*_: object) -> None:
        raise MachineError("the disk is full")

    monkeypatch.setattr(delayed_write, "write_durably", fails)
    monkeypatch.setattr(delayed_write, "DELAY_S", 0.0)
    DelayedFile(tmp_path / "kept.json").write(b"typed")
    until = time.monotonic() + 30.0
    while "kept.json is not kept: the disk is full" not in caplog.text:
        assert time.monotonic() < until
        time.sleep(0.01)
