"""Bringing together: the walks of a record file taken into a data folder.

A data folder holds, of each walk, every copy that is no beginning of another. Taking one in leaves
it so: what is the beginning of a copy that is here adds nothing, what goes on where a copy here
ends takes its place, and what went on differently is kept beside it. Signatures are united. So it
is the same in whichever order files come, and how often.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Text, message
from walkaround.exchange.arriving import Arriving, arriving
from walkaround.exchange.checked import CheckedCopy, check_copy
from walkaround.exchange.opened import Opened, RecordFileError, Signer, opened
from walkaround.exchange.shop_key import ShopKey, known_shops
from walkaround.exchange.signatures import Signature, signatures_in, united
from walkaround.exchange.verify import signer_fault, standing
from walkaround.records.month_folders import walks_in
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import Origin, WalkFile
from walkaround.records.walk_line import WalkLine, copy_id, month_of, original_id

MOST_HEAP_BYTES = 2_000_000
"""Of walks that are saved in one go; meanwhile the taps of others wait."""


@dataclass(slots=True)
class Merged:
    """What became of the walks of some files, each by its id.

    Attributes:
        added: new here, or gone on with.
        same: here already.
        conflicts: another copy is here that went on differently; both are kept.
        refused: why it was not taken.
        signers: who signed each file, None if nobody did.
        standings: one sentence about that for each.
    """

    added: set[str] = field(default_factory=set)
    same: set[str] = field(default_factory=set)
    conflicts: set[str] = field(default_factory=set)
    refused: dict[str, Text] = field(default_factory=dict)
    signers: list[Signer | None] = field(default_factory=list)
    standings: list[Text] = field(default_factory=list)


def merge(
    files: Iterable[Path], data: Path, store: WalkStore, open_walks: OpenWalks, called: str = ""
) -> Merged:
    """Take in every walk of these record files.

    A file that was damaged or changed is refused whole, and before anything of any is taken. A walk
    that is not as it was sealed is refused alone.

    Args:
        files: the record files.
        data, store, open_walks: the data folder, and what writes in it.
        called: what a file is called in sentences, if not by its own name.

    Raises:
        InputError: a file is none, was damaged or changed.
        MachineError: a file cannot be read, or a walk not be saved; what was saved stays.
    """
    files, merged, shops = list(files), Merged(), known_shops(data)
    for path in files:
        try:
            with opened(path) as file:
                signer = file.signer()
                fault = None if file.whole else message("exchange-bytes-changed")
                fault = fault or (signer_fault(signer, shops) if signer else None)
        except RecordFileError as error:
            fault = error.why
        if fault is not None:
            raise _refused_file(called or path.name, fault)
        merged.signers.append(signer)
        merged.standings.append(standing(signer, shops))
    for path in files:
        taker = _Taker(data, store, open_walks, merged)
        try:
            with opened(path) as file, garbage_collection_off():
                for line, each in arriving(file, saving=True):
                    taker.take(file, line, each)
            taker.save()
        except RecordFileError as error:
            raise _refused_file(called or path.name, error.why) from error
    merged.same -= merged.added | merged.conflicts
    merged.added -= merged.conflicts
    return merged


def _refused_file(name: str, why: Text) -> InputError:
    return InputError([Problem(name, "", why, message("exchange-mend"))])


class _Taker:
    """Takes walks of one file into a data folder, one after another.

    New ones are collected until there is enough to save a batch at once.
    """

    def __init__(self, data: Path, store: WalkStore, open_walks: OpenWalks, merged: Merged) -> None:
        self._own_key = ShopKey.of(data).public
        self._store = store
        self._open_walks = open_walks
        self._photos = PhotoFolder(data)
        self._merged = merged
        self._heap: dict[WalkLine, bytes] = {}
        self._heap_bytes = 0
        self._month = ""
        self._there: dict[str, list[str]] = {}

    def take(self, file: Opened, line: bytes, arrival: Arriving) -> None:
        """Take one walk in, or say why not."""
        walk_id, new = arrival.walk_id, arrival.new
        if arrival.faults or new is None or new.line is None:
            why = arrival.faults[0] if arrival.faults else new.refused if new else ""
            self._merged.refused[walk_id or file.name] = why
            return
        for photo in arrival.photos:
            if data := file.photo(photo):
                self._photos.keep(walk_id, data)
        if not self._kept_as(walk_id):
            if new.data:
                self._heap_up(new.line, new.data)
            else:
                self._merged.refused[walk_id] = new.refused
            return
        self.save()
        with self._open_walks.still():
            try:
                here = self._here(walk_id)
            except MachineError as error:
                self._merged.refused[walk_id] = error.text
                return
            self._place(walk_id, check_copy(line, place=1), here)

    def save(self) -> None:
        """Save what is on the heap; MachineError if that fails."""
        if self._heap:
            self._store.add(self._heap)
            self._merged.added.update(line.id for line in self._heap)
            self._heap, self._heap_bytes = {}, 0

    def _heap_up(self, line: WalkLine, data: bytes) -> None:
        if self._heap_bytes + len(data) > MOST_HEAP_BYTES:
            self.save()
        self._heap[line] = data
        self._heap_bytes += len(data)
        self._there[line.id] = [line.id]

    def _place(self, walk_id: str, checked: CheckedCopy, here: Mapping[str, WalkFile]) -> None:
        """Put it where it belongs among the copies that are here, and its signatures with each."""
        new = list(checked.copy.seals)
        after = dict(here)
        longer = [id_ for id_, file in here.items() if _seals(file)[: len(new)] == new]
        shorter = [id_ for id_, file in here.items() if new[: len(file.events)] == _seals(file)]
        if longer:
            self._merged.same.add(walk_id)
        elif shorter:
            elsewhere = here[shorter[0]].origin.elsewhere
            after[shorter[0]] = _file_of(checked, elsewhere=elsewhere)
            self._merged.added.add(walk_id)
        else:
            id_ = copy_id(walk_id, new[-1]) if walk_id in here else walk_id
            after[id_] = _file_of(checked, elsewhere=True)
            (self._merged.conflicts if here else self._merged.added).add(walk_id)
        pool = [*checked.copy.signed, *(one for file in here.values() for one in _signed(file))]
        for id_, file in after.items():
            holding = (one for one in pool if one.holds(walk_id, _seals(file)))
            origin = Origin(file.origin.elsewhere, tuple(one.row() for one in united(holding)))
            joined, kept = replace(file, origin=origin), here.get(id_)
            gone_on = kept is None or len(kept.events) < len(joined.events)
            if gone_on or (joined != kept and not self._as_shared(joined)):
                self._open_walks.take_in(id_, joined)
        self._there[walk_id] = [*after]

    def _as_shared(self, file: WalkFile) -> bool:
        """Whether it is a walk of our own with no signature but that which we make in sharing."""
        signed = list(_signed(file))
        whole = [one.key == self._own_key and one.entries == len(file.events) for one in signed]
        return whole == [True] and not file.origin.elsewhere

    def _here(self, walk_id: str) -> dict[str, WalkFile]:
        """Every copy of a walk that is here, by what it is kept under; damaged ones mended."""
        files = {}
        for id_ in self._kept_as(walk_id):
            file = self._store.read(id_)
            if file.events and not file.sound:
                self._store.load(id_)
                file = self._store.read(id_)
            if file.events:
                files[id_] = file
        return files

    def _kept_as(self, walk_id: str) -> list[str]:
        """What the copies of a walk are kept under; a month is looked through when it begins."""
        if (month := month_of(walk_id)) != self._month:
            self._month, self._there = month, {}
            for id_ in sorted(walks_in(self._store.walks / month)):
                self._there.setdefault(original_id(id_), []).append(id_)
        return self._there.get(walk_id, [])


def _file_of(checked: CheckedCopy, *, elsewhere: bool) -> WalkFile:
    return WalkFile(checked.copy.rows, checked.events, sound=True, origin=Origin(elsewhere))


def _seals(file: WalkFile) -> list[str]:
    return [event.digest for event in file.events]


def _signed(file: WalkFile) -> Iterable[Signature]:
    return (one for one in signatures_in(file.origin.signed) if one is not None)
