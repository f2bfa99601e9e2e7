"""Things named like walks that are none: the app starts, lists what it can, and says the rest."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from support.stores import path_of, saved
from support.walks import FakeClock, plan

from walkaround.base.errors import MachineError
from walkaround.disk import locations
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.walk.events import Noted

GOOD_ID = "20261125_081502_4f3a9c"
ODD_ID = "20261126_081502_000000"


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _socket(path: Path) -> None:
    # A socket's address is short; the folder of a test is not.
    here = Path.cwd()
    os.chdir(path.parent)
    try:
        with socket.socket(socket.AF_UNIX) as bound:
            bound.bind(path.name)
    finally:
        os.chdir(here)


def _huge(path: Path) -> None:
    path.touch()
    os.truncate(path, 10**10)


def _link_to(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


GARBAGE: dict[str, Callable[[Path], None]] = {
    "folder": Path.mkdir,
    "pipe": _pipe,
    "socket": _socket,
    "empty file": Path.touch,
    "link to a device that never ends": _link_to("/dev/zero"),
    "link to itself": lambda path: path.symlink_to(path),
    "link to nothing": _link_to("nowhere"),
    "link to a folder": _link_to(".."),
    "zeros": lambda path: path.write_bytes(bytes(5000)) and None,
    "ten gigabytes": _huge,
}


@pytest.fixture
def data(tmp_path: Path) -> Iterator[Path]:
    """A data folder with one walk of four events, closed."""
    store = WalkStore(tmp_path / "data")
    saved(store)
    store.close()
    return tmp_path / "data"


def everything_else_works(data: Path) -> str:
    """The good walk is read and listed, a new one begun; what the list says of the odd one."""
    store = WalkStore(data)
    lines = {line.id: line for line in store.overview().lines}
    assert (lines[GOOD_ID].answered, lines[GOOD_ID].trouble) == (3, "")
    open_walks = OpenWalks(store, FakeClock())
    assert WalkReader(data).load(GOOD_ID).events == open_walks.walk(GOOD_ID).events
    new = open_walks.begin(plan(), "Ana")
    open_walks.do(GOOD_ID, "Ana", (Noted, {"step": "chocks", "text": "on we go"}))
    store.close()
    assert {line.id for line in WalkReader(data).overview().lines} == {new, *lines}
    return lines[ODD_ID].trouble if ODD_ID in lines else ""


@pytest.mark.parametrize("kind", GARBAGE)
def test_what_is_named_like_a_walk_and_is_none_is_listed_with_a_word(data: Path, kind: str) -> None:
    GARBAGE[kind](path_of(data, ODD_ID))
    trouble = everything_else_works(data)
    assert trouble.endswith(".")
    assert trouble.count(". ") == 0
    assert ODD_ID in trouble
    assert os.path.lexists(path_of(data, ODD_ID))


@pytest.mark.parametrize("kind", GARBAGE)
def test_odd_things_in_the_place_of_the_file_before_cost_no_answer(data: Path, kind: str) -> None:
    before = path_of(data, ODD_ID).with_suffix(".json.prev")
    GARBAGE[kind](before)
    path_of(data, ODD_ID).write_bytes(b"")
    assert everything_else_works(data).endswith(".")


@pytest.mark.parametrize("kind", [kind for kind in GARBAGE if kind != "folder"])
def test_odd_things_in_the_place_of_the_kept_list_cost_time_only(data: Path, kind: str) -> None:
    kept = locations.walk_list(data)
    kept.unlink()
    GARBAGE[kind](kept)
    assert everything_else_works(data) == ""
    assert kept.is_file()
    assert not kept.is_symlink()


def test_a_folder_in_the_place_of_the_kept_list_costs_time_only(data: Path) -> None:
    kept = locations.walk_list(data)
    kept.unlink()
    kept.mkdir()
    assert everything_else_works(data) == ""
    assert kept.is_dir()


@pytest.mark.parametrize("kind", GARBAGE)
def test_odd_things_beside_the_months_are_passed_over(data: Path, kind: str) -> None:
    for name in ("notes", "2026-10.json", ".hidden"):
        GARBAGE[kind](locations.walks(data) / name)
    assert everything_else_works(data) == ""


@pytest.mark.parametrize("kind", [kind for kind in GARBAGE if "folder" not in kind])
def test_a_month_that_is_no_folder_hides_no_other_month(data: Path, kind: str) -> None:
    GARBAGE[kind](locations.walks(data) / "2026-10")
    assert everything_else_works(data) == ""


@pytest.mark.parametrize("kind", GARBAGE)
def test_settings_that_are_none_are_told_or_left_at_their_defaults(data: Path, kind: str) -> None:
    GARBAGE[kind](locations.settings(data))
    store = WalkStore(data)
    with suppress(MachineError):
        assert store.load_settings() == {}
    store.close()


def test_a_file_that_may_not_be_read_is_told_and_hides_no_other(data: Path) -> None:
    """Root may read everything, so a child gives that right away first."""
    odd = path_of(data, ODD_ID)
    odd.write_bytes(path_of(data, GOOD_ID).read_bytes())
    odd.chmod(0)
    for folder in (data, *data.parents):
        if folder.stat().st_uid == os.getuid():
            folder.chmod(folder.stat().st_mode | 0o055)
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        if os.getuid() == 0:
            os.setuid(65534)
        lines = {line.id: line.trouble for line in WalkReader(data).overview().lines}
        os.write(writing, repr(sorted(lines.items())).encode())
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as told:
        said = told.read()
    os.waitpid(child, 0)
    assert f"('{GOOD_ID}', '')" in said
    assert "cannot be read (permission denied)" in said
