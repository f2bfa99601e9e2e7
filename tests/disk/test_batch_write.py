"""Many files written together: whole, forced to the disk before they get their names."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from walkaround.base.errors import MachineError
from walkaround.disk import batch_write
from walkaround.disk.batch_write import write_batch


@pytest.mark.parametrize("linux", [True, False])
def test_each_file_holds_what_it_should_and_nothing_else_is_left(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, linux: bool
) -> None:
    monkeypatch.setattr(batch_write, "_LINUX", linux)
    files = {tmp_path / f"{number}.json": bytes([number]) * number for number in range(5)}
    (tmp_path / "3.json.tmp").write_bytes(b"of a killed process")
    write_batch(files)
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == files


def test_none_has_its_name_before_all_are_on_the_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls: list[str] = []
    real_rename, real_force = os.rename, batch_write.force_to_disk
    monkeypatch.setattr(os, "rename", lambda *a: (calls.append("name"), real_rename(*a)))
    patch = monkeypatch.setattr
    patch(batch_write, "force_to_disk", lambda a: (calls.append("disk"), real_force(a)))
    monkeypatch.setattr(batch_write, "sync_folder", lambda _: calls.append("folder"))
    write_batch({tmp_path / "a": b"1", tmp_path / "b": b"2"})
    assert calls == ["disk", "name", "name", "folder"]


def test_a_folder_that_is_not_there_is_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(MachineError, match="gone"):
        write_batch({tmp_path / "gone" / "a": b"1"})
    write_batch({})
