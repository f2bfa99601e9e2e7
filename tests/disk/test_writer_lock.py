"""One process writes; others read beside it; a killed one loses nothing and gives way."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from support.stores import files_in, path_of, saved
from support.walks import WALK_ID, begun

from walkaround.base.errors import MachineError
from walkaround.cli import main
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.walk.events import Noted


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


OPEN_AND_WAIT = """
import sys
from pathlib import Path
from walkaround.records.store import WalkStore
store = WalkStore(Path(sys.argv[1]))
print("open", flush=True)
sys.stdin.read()
"""


def other_process(code: str, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", code, *arguments],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )


def test_a_second_process_is_told_which_one_writes_and_may_once_that_one_is_killed(
    tmp_path: Path,
) -> None:
    with other_process(OPEN_AND_WAIT, str(tmp_path)) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "open\n"
        with pytest.raises(MachineError) as caught:
            WalkStore(tmp_path)
        assert f"another walkaround (process {first.pid}) is using" in str(caught.value)
        assert "--data" in str(caught.value)
        assert WalkReader(tmp_path).overview().lines == ()
        first.send_signal(signal.SIGKILL)
        first.wait()
    WalkStore(tmp_path).close()


@pytest.mark.parametrize("left", ["4711", "nonsense", "", "9" * 5000, "\0" * 40])
def test_a_number_that_a_dead_process_left_hinders_nobody(tmp_path: Path, left: str) -> None:
    (tmp_path / "writer.pid").write_text(left, encoding="utf-8")
    WalkStore(tmp_path).close()
    assert (tmp_path / "writer.pid").read_text(encoding="utf-8") == str(os.getpid())


@pytest.mark.usefixtures("store")
@pytest.mark.parametrize("left", ["nonsense", "", "9" * 5000, None])
def test_without_the_number_a_second_process_is_told_all_the_same(
    tmp_path: Path, left: str | None
) -> None:
    holder = tmp_path / "writer.pid"
    holder.unlink()
    if left is None:
        holder.mkdir()
    else:
        holder.write_text(left, encoding="utf-8")
    with pytest.raises(MachineError, match="another walkaround is using"):
        WalkStore(tmp_path)


def test_a_lock_that_is_a_folder_is_told_in_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "writer.lock").mkdir()
    with pytest.raises(MachineError, match=r"writer\.lock"):
        WalkStore(tmp_path)


def test_a_process_started_by_the_writer_does_not_keep_the_right_when_the_writer_dies(
    tmp_path: Path,
) -> None:
    """The voice's worker may outlive a killed app by a moment."""
    code = OPEN_AND_WAIT.replace(
        "print(", "import subprocess; subprocess.Popen(['sleep', '5'], stdout=2)\nprint("
    )
    with other_process(code, str(tmp_path)) as first:
        assert first.stdout is not None
        assert first.stdout.readline() == "open\n"
        first.kill()
        first.wait()
        WalkStore(tmp_path).close()


def test_the_commands_that_only_read_work_beside_a_running_app(
    store: WalkStore, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    saved(store)
    before = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
    assert main(["walks", "--data", str(tmp_path)]) == 0
    assert WALK_ID in capsys.readouterr().out
    assert main(["walks", "--data", str(tmp_path), "--json"]) == 0
    assert {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")} == before
    assert main(["--no-browser", "--port", "0", "--data", str(tmp_path)]) == 2
    assert f"another walkaround (process {os.getpid()})" in capsys.readouterr().err


def test_two_data_folders_are_written_side_by_side(tmp_path: Path) -> None:
    stores = [WalkStore(tmp_path / name) for name in "ab"]
    for each in stores:
        saved(each)
        each.close()


@pytest.mark.parametrize("module", ["filelock", "files"])
def test_a_folder_that_cannot_be_written_is_told_in_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, module: str
) -> None:
    """Tests may run as root, for whom every folder can be written."""

    def denied(*_: Any, **__: Any) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    if module == "files":
        monkeypatch.setattr(Path, "mkdir", denied)
    else:
        monkeypatch.setattr("walkaround.disk.writer_lock.FileLock.acquire", denied)
    with pytest.raises(MachineError, match="choose another with --data"):
        WalkStore(tmp_path / "data")
    monkeypatch.undo()
    WalkStore(tmp_path / "data").close()


def test_what_a_killed_process_was_writing_is_swept_away(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    events = saved(store)
    store.close()
    path = path_of(tmp_path)
    path.with_name(path.name + ".tmp").write_bytes(b"half")
    store = WalkStore(tmp_path)
    assert store.load(WALK_ID).events == events
    assert [line.id for line in store.overview().lines] == [WALK_ID]
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))
    store.close()


def test_walks_are_read_beside_a_writer(store: WalkStore, tmp_path: Path) -> None:
    teller = begun()
    store.create(teller.first)
    reader, stop = WalkReader(tmp_path), threading.Event()
    seen: list[int] = []

    def read() -> None:
        while not stop.is_set():
            loaded = reader.load(WALK_ID)
            seen.append(-1 if loaded.notice else len(loaded.events))

    reading = threading.Thread(target=read)
    reading.start()
    for number in range(30):
        teller.tell(Noted, step="chocks", text=str(number))
        store.append(WALK_ID, teller.walk.events[-1:])
    stop.set()
    reading.join()
    assert -1 not in seen
    assert seen == sorted(seen)
    assert reader.load(WALK_ID).events == teller.walk.events
