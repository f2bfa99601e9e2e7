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
from stores import files_in, path_of, saved
from walks import (
    WALK_ID,
    begun,
)

from walkaround.errors import MachineError
from walkaround.events import Noted
from walkaround.reader import WalkReader
from walkaround.store import WalkStore


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


OPEN_AND_WAIT = """
import sys
from pathlib import Path
from walkaround.store import WalkStore
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
        assert WalkReader(tmp_path).lines() == ()
        first.send_signal(signal.SIGKILL)
        first.wait()
    WalkStore(tmp_path).close()


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
        monkeypatch.setattr("walkaround.onewriter.FileLock.acquire", denied)
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
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))
    store.close()


KILLED_WHILE_WRITING = """
import os, sys
from pathlib import Path
sys.path[:0] = [sys.argv[2]]
from walks import begun
from walkaround.events import Noted
from walkaround.store import WalkStore
store = WalkStore(Path(sys.argv[1]))
teller = begun()
store.create(teller.first)
while True:
    teller.tell(Noted, step="chocks", text="again")
    store.append(teller.walk.id, teller.walk.events[-1:])
    print(len(teller.walk.events), flush=True)
"""


def test_what_was_told_to_be_saved_outlives_a_kill_at_any_moment(tmp_path: Path) -> None:
    for number in range(5):
        data = tmp_path / str(number)
        with other_process(KILLED_WHILE_WRITING, str(data), str(Path(__file__).parent)) as writer:
            assert writer.stdout is not None
            lines = [writer.stdout.readline() for _ in range(3 + 7 * number)]
            writer.kill()
            told = int([*lines, *writer.stdout.read().splitlines()][-1])
        store = WalkStore(data)
        loaded = store.load(WALK_ID)
        assert loaded.notice == ""
        assert len(loaded.events) >= told >= 3
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
