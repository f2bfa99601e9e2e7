"""Sharing: walks of a data folder, with their photos, written as a signed record file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, Problem, WalkaroundError
from walkaround.base.message import Text, message
from walkaround.disk.durable import TEMPORARY, sync_folder, write_error
from walkaround.exchange.record_file import (
    MOST_PHOTOS_IN_FILE,
    Copy,
    photos_of,
    write_record_file,
)
from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.signatures import Signature, signatures_in
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import original_id
from walkaround.walk.events import Began


@dataclass(slots=True)
class Shared:
    """The walks that were written to a record file.

    Attributes:
        walks: their ids, in order; a walk with several copies is listed once.
        left_out: why a walk, or a photo of it, was left out, by the walk's id.
    """

    walks: list[str] = field(default_factory=list)
    left_out: dict[str, Text] = field(default_factory=dict)


def share(
    path: Path, reader: WalkReader, photos: PhotoFolder, walk_ids: Iterable[str], key: ShopKey
) -> Shared:
    """Write walks as a record file, which appears only when it is complete.

    A walk that cannot be read is left out, and reported; so is a walk of an open double check.

    Args:
        path: the path of the file, in an existing folder.
        reader, photos: the walks and photos of the data folder.
        walk_ids: the ids of the walks to write, with every copy of them; all walks if empty.
        key: the key of this shop.

    Raises:
        InputError: there is no such walk, or there are more photos than a record file may have.
        MachineError: the file could not be written, or the walks cannot be listed.
    """
    shared, walk_of_photo = Shared(), dict[str, str]()
    temporary_path = path.with_name(f"{path.name}{TEMPORARY}")
    ids = _ids(reader, walk_ids)

    def photo_data() -> Iterator[tuple[str, bytes]]:
        if len(walk_of_photo) > MOST_PHOTOS_IN_FILE:
            what = message("exchange-too-many-photos", most=MOST_PHOTOS_IN_FILE)
            raise InputError([Problem(path.name, "", what, message("exchange-share-fewer"))])
        for photo, walk_id in sorted(walk_of_photo.items()):
            yield photo, photos.read(walk_id, photo)

    def copies() -> Iterator[Copy]:
        for copy in copies_of(reader, photos, ids, key, shared):
            walk_of_photo.update(dict.fromkeys(photos_of(copy.rows), copy.walk_id))
            yield copy

    try:
        write_record_file(temporary_path, copies(), photo_data(), key)
        temporary_path.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error
    finally:
        with suppress(OSError):
            temporary_path.unlink(missing_ok=True)
    return shared


def _ids(reader: WalkReader, walk_ids: Iterable[str]) -> Sequence[str]:
    """Return the ids that all copies of these walks are stored under, oldest walk first."""
    stored_ids = list(reader.ids())
    wanted = {original_id(id_) for id_ in walk_ids}
    if not wanted:
        return stored_ids
    for missing in sorted(wanted - set(map(original_id, stored_ids))):
        reader.read(missing)
    return [id_ for id_ in stored_ids if original_id(id_) in wanted]


def copies_of(
    reader: WalkReader, photos: PhotoFolder, ids: Sequence[str], key: ShopKey, shared: Shared
) -> Iterator[Copy]:
    """Read the copies of walks, those of a walk in the order of their last seals.

    Args:
        reader, photos: the walks and photos of the data folder.
        ids: the ids that the copies are stored under, in order.
        key: the key of this shop, which signs what no other shop has signed whole.
        shared: gets the ids of the walks, and what is left out.
    """
    double_checks, at = _OpenDoubleChecks(reader), 0
    while at < len(ids):
        walk_id, copies = original_id(ids[at]), list[Copy]()
        while at < len(ids) and original_id(ids[at]) == walk_id:
            try:
                copy = _copy(reader, photos, ids[at], key)
            except WalkaroundError as error:
                shared.left_out[ids[at]] = error.text
            else:
                if double_checks.holds_back(copy):
                    shared.left_out[walk_id] = message("double-files-wait")
                else:
                    copies.append(copy)
            at += 1
        if copies:
            shared.walks.append(walk_id)
        yield from sorted(copies, key=lambda copy: copy.seals[-1])


class _OpenDoubleChecks:
    """Walks of double checks that are not closed.

    The second person could read in a file what the first one found: no copy of either walk is
    shared before both are closed.
    """

    def __init__(self, reader: WalkReader) -> None:
        self._reader = reader

    @cached_property
    def _blind(self) -> frozenset[str]:
        return frozenset(map(original_id, self._reader.overview().blind))

    def holds_back(self, copy: Copy) -> bool:
        """Whether this walk waits for another one; the list of walks is read only if it may."""
        began = next((event for event in copy.events if isinstance(event, Began)), None)
        return began is not None and began.plan.double and copy.walk_id in self._blind


def _copy(reader: WalkReader, photos: PhotoFolder, id_: str, key: ShopKey) -> Copy:
    file = reader.read(id_)
    if not file.rows:
        raise MachineError(file.damage)
    walk_id = original_id(id_)
    for photo in photos_of(file.rows):
        photos.read(walk_id, photo)
    copy = Copy(walk_id, file.rows, events=file.events)
    signed = [each for each in signatures_in(file.origin.signed) if each]
    signed = [each for each in signed if each.holds(walk_id, copy.seals)]
    # What another shop has signed whole is shared unchanged: the same walks, the same bytes.
    if not any(each.entries == len(copy.rows) for each in signed if each.key != key.public):
        signed.append(Signature.create(key, walk_id, copy.seals))
    return replace(copy, signed=tuple(signed))
