"""Merging: the walks of a record file saved in a data folder.

A data folder holds, of each walk, every copy that is not the beginning of another copy. Merging
keeps this so: a copy that is the beginning of one here adds nothing, a copy that continues one here
replaces it, and a copy that was continued differently is saved as well. Signatures are merged. So
the result does not depend on the order in which files are merged, or how often.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Message, Text, message
from walkaround.exchange.copy_check import CheckedCopy, check_copy
from walkaround.exchange.file_walks import FileWalk, read_walks
from walkaround.exchange.record_file_reader import (
    RecordFile,
    RecordFileError,
    Signer,
    open_record_file,
)
from walkaround.exchange.shop_key import ShopKey, known_shops
from walkaround.exchange.signatures import Signature, merge_signatures, signatures_in
from walkaround.exchange.verify import signer_fault, signer_message
from walkaround.records.month_folders import walks_in
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import Origin, WalkFile
from walkaround.records.walk_line import WalkLine, copy_id, month_of, original_id

MOST_BATCH_BYTES = 2_000_000
"""The most bytes of walks that are saved at once; meanwhile the taps of others wait."""


@dataclass(slots=True)
class Merged:
    """The result of merging some files; walks by their ids.

    Attributes:
        added: walks that are new here, or have new events.
        same: walks that were here already.
        conflicts: walks that were continued differently here; both copies are kept.
        refused: why a walk was not merged.
        signers: who signed each file; None if nobody did.
        signer_messages: one sentence about the signer of each file.
    """

    added: set[str] = field(default_factory=set)
    same: set[str] = field(default_factory=set)
    conflicts: set[str] = field(default_factory=set)
    refused: dict[str, Text] = field(default_factory=dict)
    signers: list[Signer | None] = field(default_factory=list)
    signer_messages: list[Text] = field(default_factory=list)

    @property
    def counts(self) -> Message:
        """One sentence with the number of walks of each kind."""
        return message(
            "exchange-merged",
            added=len(self.added),
            same=len(self.same),
            conflicts=len(self.conflicts),
            refused=len(self.refused),
        )


def merge(
    files: Iterable[Path], data: Path, store: WalkStore, open_walks: OpenWalks, file_name: str = ""
) -> Merged:
    """Merge every walk of these record files into a data folder.

    A file that was damaged or changed is refused whole, before any walk of any file is saved. A
    walk that does not match its seals is refused alone.

    Args:
        files: the record files.
        data, store, open_walks: the data folder, and the objects that write in it.
        file_name: the name to show for a file; its own name if empty.

    Raises:
        InputError: a file is no record file, or was damaged or changed.
        MachineError: a file cannot be read, or a walk cannot be saved; what was saved stays.
    """
    files, merged, shops = list(files), Merged(), known_shops(data)
    for path in files:
        try:
            with open_record_file(path) as file:
                signer = file.signer()
                fault = None if file.whole else message("exchange-bytes-changed")
                fault = fault or (signer_fault(signer, shops) if signer else None)
        except RecordFileError as error:
            fault = error.why
        if fault is not None:
            raise _refused_file(file_name or path.name, fault)
        merged.signers.append(signer)
        merged.signer_messages.append(signer_message(signer, shops))
    for path in files:
        merger = _Merger(data, store, open_walks, merged)
        try:
            with open_record_file(path) as file, garbage_collection_off():
                for line, file_walk in read_walks(file, saving=True):
                    merger.take(file, line, file_walk)
            merger.save()
        except RecordFileError as error:
            raise _refused_file(file_name or path.name, error.why) from error
    merged.same -= merged.added | merged.conflicts
    merged.added -= merged.conflicts
    return merged


def _refused_file(name: str, why: Text) -> InputError:
    return InputError([Problem(name, "", why, message("exchange-mend"))])


class _Merger:
    """Merges the walks of one file into a data folder, one after another.

    New walks are collected until there are enough to save a batch at once.
    """

    def __init__(self, data: Path, store: WalkStore, open_walks: OpenWalks, merged: Merged) -> None:
        self._own_key = ShopKey.of(data).public
        self._store = store
        self._open_walks = open_walks
        self._photos = PhotoFolder(data)
        self._merged = merged
        self._batch: dict[WalkLine, bytes] = {}
        self._batch_bytes = 0
        self._month = ""
        self._ids_here: dict[str, list[str]] = {}

    def take(self, file: RecordFile, line: bytes, file_walk: FileWalk) -> None:
        """Merge one walk, or note why it is refused."""
        walk_id, new_walk = file_walk.walk_id, file_walk.new
        if file_walk.faults or new_walk is None or new_walk.line is None:
            why = file_walk.faults[0] if file_walk.faults else new_walk.refused if new_walk else ""
            self._merged.refused[walk_id or file.name] = why
            return
        for photo in file_walk.photos:
            if data := file.photo(photo):
                self._photos.save(walk_id, data)
        if not self._copy_ids(walk_id):
            if new_walk.data:
                self._add_to_batch(new_walk.line, new_walk.data)
            else:
                self._merged.refused[walk_id] = new_walk.refused
            return
        self.save()
        with self._open_walks.paused():
            try:
                copies_here = self._copies_here(walk_id)
            except MachineError as error:
                self._merged.refused[walk_id] = error.text
                return
            self._place(walk_id, check_copy(line, place=1), copies_here)

    def save(self) -> None:
        """Save the batch.

        Raises:
            MachineError: it could not be saved.
        """
        if self._batch:
            self._store.add(self._batch)
            self._merged.added.update(line.id for line in self._batch)
            self._batch, self._batch_bytes = {}, 0

    def _add_to_batch(self, line: WalkLine, data: bytes) -> None:
        if self._batch_bytes + len(data) > MOST_BATCH_BYTES:
            self.save()
        self._batch[line] = data
        self._batch_bytes += len(data)
        self._ids_here[line.id] = [line.id]

    def _place(
        self, walk_id: str, checked: CheckedCopy, copies_here: Mapping[str, WalkFile]
    ) -> None:
        """Save a walk among its copies here, and its signatures with each of them."""
        new_seals = list(checked.copy.seals)
        copies_after = dict(copies_here)
        longer = [
            id_ for id_, file in copies_here.items() if _seals(file)[: len(new_seals)] == new_seals
        ]
        shorter = [
            id_
            for id_, file in copies_here.items()
            if new_seals[: len(file.events)] == _seals(file)
        ]
        if longer:
            self._merged.same.add(walk_id)
        elif shorter:
            elsewhere = copies_here[shorter[0]].origin.elsewhere
            copies_after[shorter[0]] = _file_of(checked, elsewhere=elsewhere)
            self._merged.added.add(walk_id)
        else:
            id_ = copy_id(walk_id, new_seals[-1]) if walk_id in copies_here else walk_id
            copies_after[id_] = _file_of(checked, elsewhere=True)
            (self._merged.conflicts if copies_here else self._merged.added).add(walk_id)
        signatures = [
            *checked.copy.signed,
            *(one for file in copies_here.values() for one in _signed(file)),
        ]
        for id_, file in copies_after.items():
            valid = (one for one in signatures if one.holds(walk_id, _seals(file)))
            origin = Origin(
                file.origin.elsewhere, tuple(one.row() for one in merge_signatures(valid))
            )
            joined_copy, copy_here = replace(file, origin=origin), copies_here.get(id_)
            has_more_events = copy_here is None or len(copy_here.events) < len(joined_copy.events)
            if has_more_events or (joined_copy != copy_here and not self._as_shared(joined_copy)):
                self._open_walks.import_walk(id_, joined_copy)
        self._ids_here[walk_id] = [*copies_after]

    def _as_shared(self, file: WalkFile) -> bool:
        """Tell whether it is our own walk with no signature but the one we make on sharing."""
        signed = list(_signed(file))
        whole = [one.key == self._own_key and one.entries == len(file.events) for one in signed]
        return whole == [True] and not file.origin.elsewhere

    def _copies_here(self, walk_id: str) -> dict[str, WalkFile]:
        """Read every copy of a walk that is here, by the id it is stored under; mend damage."""
        files = {}
        for id_ in self._copy_ids(walk_id):
            file = self._store.read(id_)
            if file.events and not file.sound:
                self._store.load(id_)
                file = self._store.read(id_)
            if file.events:
                files[id_] = file
        return files

    def _copy_ids(self, walk_id: str) -> list[str]:
        """Return the ids that copies of a walk are stored under; each month is listed once."""
        if (month := month_of(walk_id)) != self._month:
            self._month, self._ids_here = month, {}
            for id_ in sorted(walks_in(self._store.walks / month)):
                self._ids_here.setdefault(original_id(id_), []).append(id_)
        return self._ids_here.get(walk_id, [])


def _file_of(checked: CheckedCopy, *, elsewhere: bool) -> WalkFile:
    return WalkFile(checked.copy.rows, checked.events, sound=True, origin=Origin(elsewhere))


def _seals(file: WalkFile) -> list[str]:
    return [event.digest for event in file.events]


def _signed(file: WalkFile) -> Iterable[Signature]:
    return (one for one in signatures_in(file.origin.signed) if one is not None)
