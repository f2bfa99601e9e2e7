"""A full disk, a folder made read-only: one sentence, nothing lost, and on again with room."""

from __future__ import annotations

import errno
import io
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from support.scripted import SCRIPT
from support.smalldisk import Ballast, read_only, small_disk
from support.voices import SilentVoice
from support.walks import FakeClock, plan, vehicle

from walkaround.base.errors import MachineError
from walkaround.bootstrap import Parts, build
from walkaround.disk import durable as files
from walkaround.disk import locations
from walkaround.disk.durable import write_durably
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.voice.sound_folder import SoundFolder


class Open:
    """An app on a data folder, with a walk two answers long."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.parts: Parts = build(data, clock=FakeClock(), voice=SilentVoice())
        self.walk_id = self.open_walks.begin(plan(), "Ana")
        self.answered = 0
        for _ in range(2):
            self.answer()
        self.parts.store.change_settings({"wording": "long"})

    @property
    def open_walks(self) -> OpenWalks:
        return self.parts.open_walks

    def answer(self) -> None:
        """The next answers of the script."""
        self.open_walks.do(self.walk_id, "Ana", *SCRIPT[self.answered])
        self.answered += 1

    def saved(self) -> int:
        """How many events of the walk are on the disk, as another process reads them."""
        loaded = WalkReader(self.data).load(self.walk_id)
        assert loaded.notice == ""
        assert loaded.events == self.open_walks.walk(self.walk_id).events
        return len(loaded.events)


@pytest.fixture
def clean() -> Iterator[ExitStack]:
    with ExitStack() as stack:
        yield stack


def refused(act: Callable[[], object], says: str) -> None:
    """The act fails with one sentence."""
    with pytest.raises(MachineError, match=says) as caught:
        act()
    assert str(caught.value).count(". ") == 0
    assert str(caught.value).endswith(".")


def nothing_works_until(app: Open, says: str, mend: Callable[[], object]) -> None:
    """Answers, walks, settings, vehicles are refused, and all of them work once it is mended."""
    parts, before = app.parts, app.saved()
    lines = parts.store.overview().lines
    acts: list[Callable[[], object]] = [
        app.answer,
        lambda: app.open_walks.begin(plan(), "Ben"),
        lambda: parts.store.change_settings({"wording": "short"}),
        lambda: parts.own_vehicles.save(vehicle().model_copy(update={"name": "Bridge trailer 9"})),
    ]
    for _ in range(2):
        for act in acts:
            refused(act, says)
        assert app.saved() == before
        assert parts.store.overview().lines == WalkReader(app.data).overview().lines == lines
        assert parts.store.load_settings() == {"wording": "long"}
    mend()
    for act in acts:
        act()
    assert app.saved() == before + 1
    assert len(parts.store.overview().lines) == 2
    assert parts.store.load_settings() == {"wording": "short"}
    assert not [file for file in app.data.rglob("*") if file.name.endswith(".tmp")]
    parts.close()
    again = WalkStore(app.data)
    assert again.load(app.walk_id).events == app.open_walks.walk(app.walk_id).events
    again.close()


def test_a_full_disk_loses_nothing_and_the_walk_goes_on_when_there_is_room(
    tmp_path: Path, clean: ExitStack
) -> None:
    disk = tmp_path / "disk"
    clean.enter_context(small_disk(disk))
    app, ballast = Open(disk / "data"), Ballast(disk)
    clean.callback(app.parts.close)
    ballast.fill()
    nothing_works_until(app, "no room left", ballast.free)


def test_a_folder_made_read_only_loses_nothing_and_the_walk_goes_on_afterwards(
    tmp_path: Path, clean: ExitStack
) -> None:
    app = Open(tmp_path / "data")
    clean.callback(app.parts.close)
    view = ExitStack()
    clean.enter_context(view)
    view.enter_context(read_only(app.data))
    nothing_works_until(app, "cannot be written", view.close)


def test_an_app_starts_on_a_full_disk_and_shows_what_is_there(
    tmp_path: Path, clean: ExitStack
) -> None:
    disk = tmp_path / "disk"
    clean.enter_context(small_disk(disk))
    app, ballast = Open(disk / "data"), Ballast(disk)
    app.parts.close()
    ballast.fill()
    parts = build(app.data, clock=FakeClock(), voice=SilentVoice())
    clean.callback(parts.close)
    assert parts.open_walks.walk(app.walk_id).events == app.open_walks.walk(app.walk_id).events
    assert [line.id for line in parts.store.overview().lines] == [app.walk_id]
    refused(lambda: parts.open_walks.do(app.walk_id, "Ana", *SCRIPT[2]), "no room left")
    ballast.free()
    parts.open_walks.do(app.walk_id, "Ana", *SCRIPT[2])


def test_a_full_disk_leaves_no_piece_of_a_sound(tmp_path: Path, clean: ExitStack) -> None:
    disk = tmp_path / "disk"
    clean.enter_context(small_disk(disk))
    sounds, ballast = SoundFolder(disk / "speech"), Ballast(disk)
    (disk / "speech").mkdir()
    ballast.fill()

    def render() -> None:
        with sounds.part("0" * 64) as part:
            part.write_bytes(bytes(100_000))

    with pytest.raises(MachineError, match="speech"):
        render()
    assert list((disk / "speech").iterdir()) == []


LIMITED = """
import resource, sys
from pathlib import Path
sys.path[:0] = [sys.argv[2]]
import support.english
from support.walks import begun
from walkaround.base.errors import MachineError
from walkaround.walk.events import Noted
from walkaround.records.store import WalkStore
store, teller = WalkStore(Path(sys.argv[1])), begun()
store.create(teller.first)
before = teller.walk
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, resource.RLIM_INFINITY))
teller.tell(Noted, step="chocks", text="again")
try:
    store.append(teller.walk.id, teller.walk.events[-1:])
except MachineError as error:
    print(error)
assert store.load(teller.walk.id).events == before.events
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
store.append(teller.walk.id, teller.walk.events[-1:])
assert store.load(teller.walk.id).events == teller.walk.events
"""


def test_a_limit_on_the_size_of_files_is_told_like_a_full_disk(tmp_path: Path) -> None:
    """POSIX setrlimit(RLIMIT_FSIZE): a write beyond it fails with EFBIG. Needs no root."""
    command = [sys.executable, "-c", LIMITED, str(tmp_path), str(Path(__file__).parents[1])]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "no room left" in done.stdout


class _Full(io.BufferedWriter):
    """A file on a full disk, which says so when it is written to."""

    def write(self, _: object) -> int:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


CALLS = ("open", "write", "fsync of the file", "link", "first rename", "second rename", "fsync")


@pytest.mark.parametrize("call", CALLS)
def test_room_that_ends_at_any_call_of_a_write_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    path, keep = tmp_path / "a", tmp_path / "a.prev"
    for data in (b"one", b"two"):
        write_durably(path, data, keep)
    with monkeypatch.context() as patch:
        _full_at(call, patch)
        refused(lambda: write_durably(path, b"three", keep), "no room left")
    assert path.read_bytes() == b"two"
    assert {file.name for file in tmp_path.iterdir()} <= {"a", "a.prev"}
    write_durably(path, b"three", keep)
    assert (path.read_bytes(), keep.read_bytes()) == (b"three", b"two")


def _full_at(call: str, patch: pytest.MonkeyPatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    def fail_after(name: str, works: int) -> None:
        real, left = getattr(os, name), iter([True] * works)

        def once(*arguments: object) -> object:
            return real(*arguments) if next(left, False) else fail()

        patch.setattr(os, name, once)

    match call:
        case "open":
            patch.setattr(Path, "open", fail)
        case "write":
            patch.setattr(Path, "open", lambda path, _: _Full(io.FileIO(path, "x")))
        case "fsync of the file":
            fail_after("fsync", 0)
        case "link":
            # Without a second name the file is copied, which needs room as well.
            patch.setattr(os, "link", fail)
            patch.setattr(files.shutil, "copyfile", fail)
        case "first rename":
            fail_after("replace", 0)
        case "second rename":
            fail_after("replace", 1)
        case "fsync":
            fail_after("fsync", 1)


def test_nothing_is_begun_in_a_folder_that_is_a_file(tmp_path: Path) -> None:
    (tmp_path / "data").write_bytes(b"x")
    refused(lambda: WalkStore(tmp_path / "data"), "cannot be made a folder")
    refused(lambda: WalkStore(tmp_path / "data" / "inside"), "cannot be made a folder")
    assert (tmp_path / "data").read_bytes() == b"x"


def test_a_folder_taken_away_in_mid_walk_is_told_and_the_walk_goes_on_when_it_is_back(
    tmp_path: Path,
) -> None:
    app = Open(tmp_path / "data")
    app.data.rename(tmp_path / "elsewhere")
    refused(app.answer, "folder is gone")
    assert len(app.open_walks.walk(app.walk_id).events) == 3
    (tmp_path / "elsewhere").rename(app.data)
    app.answer()
    assert app.saved() == 4
    assert locations.walks(app.data).is_dir()
    app.parts.close()
