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

from walkaround.base.errors import InputError, MachineError, NotNowError, Problem
from walkaround.base.message import Text, message
from walkaround.exchange.checked import CheckedCopy
from walkaround.exchange.opened import Opened, RecordFileError, Signer, opened
from walkaround.exchange.record_file import photos_of
from walkaround.exchange.shop_key import ShopKey, known_shops
from walkaround.exchange.signatures import Signature, signatures_in, united
from walkaround.exchange.verify import copies, signer_fault, standing
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import kept_before
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import Origin, WalkFile
from walkaround.records.walk_line import copy_id
from walkaround.walk.advance import fold


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
    files, merged, known = list(files), Merged(), known_shops(data)
    for path in files:
        try:
            with opened(path) as file:
                signer = file.signer()
                fault = None if file.whole else message("exchange-bytes-changed")
                fault = fault or (signer_fault(signer, known) if signer else None)
        except RecordFileError as error:
            fault = error.why
        if fault is not None:
            raise _refused_file(called or path.name, fault)
        merged.signers.append(signer)
        merged.standings.append(standing(signer, known))
    taker = _Taker(data, store, open_walks, merged)
    for path in files:
        try:
            with opened(path) as file:
                for each in copies(file):
                    taker.take(file, each)
        except RecordFileError as error:
            raise _refused_file(called or path.name, error.why) from error
    merged.same -= merged.added | merged.conflicts
    merged.added -= merged.conflicts
    return merged


def _refused_file(name: str, why: Text) -> InputError:
    return InputError([Problem(name, "", why, message("exchange-mend"))])


class _Taker:
    """Takes walks into one data folder, one after another."""

    def __init__(self, data: Path, store: WalkStore, open_walks: OpenWalks, merged: Merged) -> None:
        self._own_key = ShopKey.of(data).public
        self._store = store
        self._open_walks = open_walks
        self._photos = PhotoFolder(data)
        self._merged = merged
        self._copies = dict(store.overview().copies)

    def take(self, file: Opened, each: CheckedCopy) -> None:
        """Take one walk in, or say why not."""
        walk_id = each.copy.walk_id
        try:
            if each.faults:
                self._merged.refused[walk_id or file.name] = each.faults[0]
                return
            fold(each.events)
        except NotNowError as error:
            why = message("walk-not-understood", walk=walk_id, why=error.text)
            self._merged.refused[walk_id] = why
            return
        for photo in photos_of(each.copy.rows):
            if data := file.photo(photo):
                self._photos.keep(walk_id, data)
        with self._open_walks.still():
            try:
                here = self._here(walk_id)
            except MachineError as error:
                self._merged.refused[walk_id] = error.text
                return
            self._place(walk_id, each, here)

    def _place(self, walk_id: str, each: CheckedCopy, here: Mapping[str, WalkFile]) -> None:
        """Put it where it belongs among the copies that are here, and its signatures with each."""
        new = list(each.copy.seals)
        after = dict(here)
        longer = [id_ for id_, file in here.items() if _seals(file)[: len(new)] == new]
        shorter = [id_ for id_, file in here.items() if new[: len(file.events)] == _seals(file)]
        if longer:
            self._merged.same.add(walk_id)
        elif shorter:
            elsewhere = here[shorter[0]].origin.elsewhere
            after[shorter[0]] = _file_of(each, elsewhere=elsewhere)
            self._merged.added.add(walk_id)
        else:
            id_ = copy_id(walk_id, new[-1]) if walk_id in here else walk_id
            after[id_] = _file_of(each, elsewhere=True)
            (self._merged.conflicts if here else self._merged.added).add(walk_id)
        pool = [*each.copy.signed, *(one for file in here.values() for one in _signed(file))]
        for id_, file in after.items():
            holding = (one for one in pool if one.holds(walk_id, _seals(file)))
            origin = Origin(file.origin.elsewhere, tuple(one.row() for one in united(holding)))
            joined, kept = replace(file, origin=origin), here.get(id_)
            gone_on = kept is None or len(kept.events) < len(joined.events)
            if gone_on or (joined != kept and not self._as_shared(joined)):
                self._open_walks.take_in(id_, joined)
        self._copies[walk_id] = tuple(after)

    def _as_shared(self, file: WalkFile) -> bool:
        """Whether it is a walk of our own with no signature but that which we make in sharing."""
        signed = list(_signed(file))
        whole = [one.key == self._own_key and one.entries == len(file.events) for one in signed]
        return whole == [True] and not file.origin.elsewhere

    def _here(self, walk_id: str) -> dict[str, WalkFile]:
        """Every copy of a walk that is here, by what it is kept under; damaged ones mended."""
        files = {}
        for id_ in self._copies.get(walk_id, (walk_id,)):
            if self._store.path(id_).exists() or kept_before(self._store.path(id_)).exists():
                file = self._store.read(id_)
                if file.events and not file.sound:
                    self._store.load(id_)
                    file = self._store.read(id_)
                if file.events:
                    files[id_] = file
        return files


def _file_of(each: CheckedCopy, *, elsewhere: bool) -> WalkFile:
    return WalkFile(each.copy.rows, each.events, sound=True, origin=Origin(elsewhere))


def _seals(file: WalkFile) -> list[str]:
    return [event.digest for event in file.events]


def _signed(file: WalkFile) -> Iterable[Signature]:
    return (one for one in signatures_in(file.origin.signed) if one is not None)
