"""Durable writing: the file is whole and new, or untouched; nothing is left lying about."""

from __future__ import annotations

import errno
import os
import shutil
import stat
from pathlib import Path

import pytest

from walkaround.base.errors import MachineError
from walkaround.disk import durable as files
from walkaround.disk.durable import (
    damaged_name,
    delete_temporary_files,
    make_folder,
    read_file,
    rename_damaged,
    write_durably,
)


def failing(number: int) -> object:
    def fail(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    return fail


def names(folder: Path) -> set[str]:
    return {file.name for file in folder.iterdir()}


def test_a_file_holds_what_was_written_last_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    write_durably(tmp_path / "a.json", b"one")
    write_durably(tmp_path / "a.json", b"two")
    assert (tmp_path / "a.json").read_bytes() == b"two"
    assert names(tmp_path) == {"a.json"}


def test_what_the_file_held_before_is_kept(tmp_path: Path) -> None:
    path, keep = tmp_path / "a.json", tmp_path / "a.json.prev"
    for data in (b"one", b"two", b"three"):
        write_durably(path, data, keep)
    assert (path.read_bytes(), keep.read_bytes()) == (b"three", b"two")
    assert names(tmp_path) == {"a.json", "a.json.prev"}


def test_everything_is_forced_to_the_disk_in_an_order_that_a_power_cut_cannot_hurt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Data before its name, the folder last, as POSIX fsync and rename ask for."""
    done: list[str] = []
    replace, fsync = os.replace, os.fsync

    def told_replace(old: str, new: str) -> None:
        done.append(f"{Path(old).name} -> {Path(new).name}")
        replace(old, new)

    def told_fsync(handle: int) -> None:
        done.append(f"sync {Path(f'/proc/self/fd/{handle}').readlink().name}")
        fsync(handle)

    write_durably(tmp_path / "a", b"one")
    monkeypatch.setattr(os, "replace", told_replace)
    monkeypatch.setattr(os, "fsync", told_fsync)
    write_durably(tmp_path / "a", b"two", tmp_path / "b")
    assert done == ["sync a.tmp", "b.tmp -> b", "a.tmp -> a", f"sync {tmp_path.name}"]


@pytest.mark.parametrize("call", ["fsync", "replace"])
@pytest.mark.parametrize(
    ("number", "says"),
    [
        (errno.ENOSPC, "no room left"),
        (errno.EACCES, "permission denied"),
        (errno.EROFS, "cannot be written"),
        (errno.EIO, "check the disk"),
    ],
)
@pytest.mark.parametrize("keep", [None, "a.prev"])
def test_a_write_that_fails_says_why_and_changes_nothing(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    call: str,
    number: int,
    says: str,
    keep: str | None,
) -> None:
    path = tmp_path / "a"
    write_durably(path, b"one")
    monkeypatch.setattr(os, call, failing(number))
    with pytest.raises(MachineError, match=says) as caught:
        write_durably(path, b"two", tmp_path / keep if keep else None)
    assert str(path) in str(caught.value)
    assert str(caught.value).count(". ") == 0
    assert path.read_bytes() == b"one"
    assert names(tmp_path) <= {"a", "a.prev"}


@pytest.mark.parametrize("there_before", [True, False])
def test_a_folder_that_cannot_be_forced_to_the_disk_gives_the_old_file_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there_before: bool
) -> None:
    path = tmp_path / "a"
    if there_before:
        write_durably(path, b"one")
    monkeypatch.setattr(files, "sync_folder", failing(errno.EIO))
    with pytest.raises(MachineError):
        write_durably(path, b"two", tmp_path / "a.prev")
    assert read_file(path) == (b"one" if there_before else None)


def test_a_write_goes_on_after_one_that_failed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After a failure both names may be of one file; renaming one to the other does nothing."""
    path, keep = tmp_path / "a", tmp_path / "a.prev"
    write_durably(path, b"one", keep)
    replace = os.replace

    def fails_for_the_file(old: Path, new: Path) -> None:
        if Path(new) == path:
            raise OSError(errno.EIO, "fault")
        replace(old, new)

    monkeypatch.setattr(os, "replace", fails_for_the_file)
    for _ in range(2):
        with pytest.raises(MachineError):
            write_durably(path, b"two", keep)
    monkeypatch.undo()
    assert names(tmp_path) == {"a", "a.prev"}
    write_durably(path, b"two", keep)
    assert (path.read_bytes(), keep.read_bytes()) == (b"two", b"one")
    assert names(tmp_path) == {"a", "a.prev"}


def test_the_old_file_is_kept_where_files_cannot_have_two_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "link", failing(errno.EPERM))
    path, keep = tmp_path / "a", tmp_path / "a.prev"
    for data in (b"one", b"two"):
        write_durably(path, data, keep)
    assert (path.read_bytes(), keep.read_bytes()) == (b"two", b"one")
    assert names(tmp_path) == {"a", "a.prev"}


def test_a_damaged_file_gets_a_name_that_no_file_has(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    for number in (1, 2):
        path.write_bytes(str(number).encode())
        rename_damaged(path)
    assert names(tmp_path) == {"a.json.damaged-1", "a.json.damaged-2"}
    assert (tmp_path / "a.json.damaged-1").read_bytes() == b"1"
    assert damaged_name(path).name == "a.json.damaged-3"


def test_a_file_that_is_not_there_reads_as_nothing_and_one_unreadable_says_so(
    tmp_path: Path,
) -> None:
    assert read_file(tmp_path / "nowhere") is None
    with pytest.raises(MachineError, match="cannot be read"):
        read_file(tmp_path)


def test_what_a_killed_process_left_is_swept_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("a.json", "a.json.tmp"):
        (tmp_path / name).write_bytes(b"x")
    (tmp_path / "folder.tmp").mkdir()
    delete_temporary_files(tmp_path)
    assert names(tmp_path) == {"a.json", "folder.tmp"}
    (tmp_path / "b.tmp").write_bytes(b"x")
    monkeypatch.setattr(Path, "unlink", failing(errno.EACCES))
    with pytest.raises(MachineError, match="permission denied"):
        delete_temporary_files(tmp_path)


def test_folders_are_made_with_those_above_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_folder(tmp_path / "a" / "b")
    assert (tmp_path / "a" / "b").is_dir()
    make_folder(tmp_path / "a" / "b")
    shutil.rmtree(tmp_path / "a")
    monkeypatch.setattr(Path, "mkdir", failing(errno.EACCES))
    with pytest.raises(MachineError, match="--data"):
        make_folder(tmp_path / "a" / "b")


def test_a_write_cut_off_does_not_touch_a_file_that_goes_by_both_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A power cut in the middle of a rename may leave the temporary name beside the real one."""
    path = tmp_path / "a"
    write_durably(path, b"one")
    os.link(path, tmp_path / "a.tmp")
    monkeypatch.setattr(os, "fsync", failing(errno.ENOSPC))
    with pytest.raises(MachineError, match="no room left"):
        write_durably(path, b"two")
    assert path.read_bytes() == b"one"


@pytest.mark.parametrize("number", [errno.EINVAL, errno.ENOTSUP])
def test_a_file_system_that_cannot_be_asked_to_keep_names_is_written_to_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    """As fsync(2) of Linux says: EINVAL where the file does not support synchronisation."""
    fsync = os.fsync

    def refuses_folders(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(number, os.strerror(number))
        fsync(handle)

    monkeypatch.setattr(os, "fsync", refuses_folders)
    make_folder(tmp_path / "data")
    write_durably(tmp_path / "data" / "a", b"one")
    assert (tmp_path / "data" / "a").read_bytes() == b"one"


def test_a_folder_is_made_below_one_whose_names_may_not_be_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "data").mkdir()
    opened = os.open

    def may_not(path: Path, flags: int) -> int:
        if Path(path) == tmp_path:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return opened(path, flags)

    monkeypatch.setattr(os, "open", may_not)
    make_folder(tmp_path / "data" / "walks")
    assert (tmp_path / "data" / "walks").is_dir()


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a")
    with pytest.raises(MachineError, match="no ordinary file"):
        read_file(tmp_path / "a")


def test_a_file_of_gigabytes_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "a").touch()
    os.truncate(tmp_path / "a", 10**10)
    with pytest.raises(MachineError, match="larger than 200 MB"):
        read_file(tmp_path / "a")


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(MachineError, match="its folder is gone; put it back"):
        write_durably(tmp_path / "gone" / "a", b"one")
