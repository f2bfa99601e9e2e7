"""A disk that forgets what was not forced to it: every state in which a power cut may leave it.

The model is that of crash-consistency testing (Pillai et al., "All File Systems Are Not Created
Equal", OSDI 2014; from memory): a file that was not forced to the disk may hold what it held
when it last was, nothing, a part, or zeros; a name made, changed or taken away in a folder that
was not forced to the disk may be there or not, each by itself; a rename is seen whole or not at
all, or leaves the old name beside the new one. Only what fsync(2) returned for is certain.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import Any, Literal

import pytest

from walkaround.disk import batch_write

Names = Mapping[str, int | None]
"""What changes in a folder in one step: name -> number of the file, None if it is taken away."""
Tree = Mapping[str, bytes | None]
"""A folder as it may be found: path -> what a file holds, None for a folder."""
Deafness = Literal["", "files", "folders"]

ROOT = 0


@dataclass(frozen=True)
class Held:
    """What a file holds: on the disk, if it was ever forced there, and in memory."""

    synced: bytes | None
    live: bytes

    def may_be(self) -> tuple[bytes, ...]:
        if self.synced == self.live:
            return (self.live,)
        half, zeros = self.live[: len(self.live) // 2], bytes(len(self.live))
        return tuple(dict.fromkeys((self.synced or b"", self.live, half, zeros)))


@dataclass(frozen=True)
class Cut:
    """A moment at which power may go, with what had been told to be saved by then."""

    files: Mapping[int, Held]
    certain: Mapping[int, Mapping[str, int]]
    pending: Mapping[int, tuple[tuple[Names, ...], ...]]
    told: Any

    def trees(self) -> Iterator[Tree]:
        """Every state in which the disk may be found."""
        folders = [folder for folder, changes in self.pending.items() if changes]
        for chosen in product(*(product(*self.pending[folder]) for folder in folders)):
            names = {folder: dict(entries) for folder, entries in self.certain.items()}
            for folder, changes in zip(folders, chosen, strict=True):
                _apply(names[folder], changes)
            paths = dict(_paths(names, ROOT, ""))
            shown = list(dict.fromkeys(number for number in paths.values() if number not in names))
            for contents in product(*(self.files[number].may_be() for number in shown)):
                held = dict(zip(shown, contents, strict=True))
                yield {path: held.get(number) for path, number in paths.items()}


class ForgetfulDisk:
    """Follows what is done to a folder, and knows what of it is certain to be on the disk."""

    def __init__(self, root: Path, deaf_to: Deafness = "") -> None:
        """Follow a folder that is there and empty.

        Args:
            root: the folder.
            deaf_to: what the disk only says to have kept, when it is asked to.
        """
        self.cuts: list[Cut] = []
        self.told: tuple[Any, ...] = ()
        self._root = root
        self._deaf_to = deaf_to
        self._numbers: dict[int, int] = {root.stat().st_ino: ROOT}
        self._next = 1
        self._names: dict[int, dict[str, int]] = {ROOT: {}}
        self._certain: dict[int, dict[str, int]] = {ROOT: {}}
        self._pending: dict[int, list[tuple[Names, ...]]] = {ROOT: []}
        self._files: dict[int, Held] = {}

    def tell(self, what: Any) -> None:
        """From now on this is told to be saved."""
        self.told = (*self.told, what)
        self.cut()

    def cut(self) -> None:
        """Power may go here."""
        self._look(self._root, ROOT)
        pending = {folder: tuple(changes) for folder, changes in self._pending.items()}
        certain = {folder: dict(names) for folder, names in self._certain.items()}
        self.cuts.append(Cut(dict(self._files), certain, pending, self.told))

    @contextmanager
    def followed(self, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
        """Follow the calls by which names change and things are forced to the disk."""
        with monkeypatch.context() as patch:
            for name, note in (
                ("fsync", self._synced),
                ("mkdir", lambda *_: None),
                ("link", self._linked),
                ("replace", self._renamed),
                ("rename", self._renamed),
                ("unlink", self._gone),
            ):
                patch.setattr(os, name, self._following(getattr(os, name), note))
            forced = self._following(batch_write.force_to_disk, self._forced)
            patch.setattr(batch_write, "force_to_disk", forced)
            yield
            self.cut()

    def _following(self, real: Callable[..., Any], note: Callable[..., None]) -> Callable[..., Any]:
        def call(*arguments: Any, **more: Any) -> Any:
            self.cut()
            done = real(*arguments, **more)
            note(*arguments)
            return done

        return call

    def _look(self, folder: Path, number: int) -> None:
        """Find what was made or written since the last look; all else is told by its call."""
        for entry in os.scandir(folder):
            if entry.name.startswith("writer."):
                continue  # of no use after a power cut
            known = self._names[number].get(entry.name)
            if known is None:
                known = self._made(entry)
                self._change(number, {entry.name: known})
            if entry.is_dir():
                self._look(Path(entry), known)
            else:
                live = Path(entry).read_bytes()
                before = self._files[known]
                if live != before.live:
                    self._files[known] = Held(before.synced, live)

    def _made(self, entry: os.DirEntry[str]) -> int:
        number, self._next = self._next, self._next + 1
        self._numbers[entry.inode()] = number
        if entry.is_dir():
            self._names[number], self._certain[number], self._pending[number] = {}, {}, []
        else:
            self._files[number] = Held(None, b"")
        return number

    def _change(self, folder: int, *ways: Names) -> None:
        """A change in a folder, which the disk may find in any of these ways, or not at all."""
        _apply(self._names[folder], ways[:1])
        self._pending[folder].append(({}, *ways))

    def _synced(self, handle: int) -> None:
        number = self._numbers.get(os.fstat(handle).st_ino)
        if number is None:
            return
        if number in self._names:
            if self._deaf_to != "folders":
                self._certain[number] = dict(self._names[number])
                self._pending[number].clear()
        elif self._deaf_to != "files":
            live = self._files[number].live
            self._files[number] = Held(live, live)

    def _forced(self, paths: Iterable[str]) -> None:
        for path in paths:
            handle = os.open(path, os.O_RDONLY)
            self._synced(handle)
            os.close(handle)

    def _linked(self, old: Path, new: Path) -> None:
        folder, name = self._place(new)
        from_folder, from_name = self._place(old)
        self._change(folder, {name: self._names[from_folder][from_name]})

    def _renamed(self, old: Path, new: Path) -> None:
        folder, name = self._place(new)
        from_folder, from_name = self._place(old)
        assert folder == from_folder, "The model knows renames inside one folder."
        number = self._names[folder][from_name]
        if self._names[folder].get(name) == number:
            return  # two names of one file: nothing happens
        self._change(folder, {from_name: None, name: number}, {name: number})

    def _gone(self, path: Path) -> None:
        folder, name = self._place(path)
        self._change(folder, {name: None})

    def _place(self, path: Path) -> tuple[int, str]:
        return self._numbers[os.stat(Path(path).parent).st_ino], Path(path).name  # noqa: PTH116


def lay_out(tree: Tree, root: Path) -> None:
    """Make a folder like this; nothing of that name may be there."""
    root.mkdir()
    for path, data in tree.items():
        if data is None:
            (root / path).mkdir()
        else:
            (root / path).write_bytes(data)


def _apply(names: dict[str, int], changes: Iterable[Names]) -> None:
    for change in changes:
        for name, number in change.items():
            if number is None:
                names.pop(name, None)
            else:
                names[name] = number


def _paths(names: Mapping[int, Mapping[str, int]], folder: int, at: str) -> Iterator[Any]:
    for name, number in names[folder].items():
        yield at + name, number
        if number in names:
            yield from _paths(names, number, f"{at}{name}/")
