"""Sharing: walks of a data folder, with their photos, written as a record file that is signed."""

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
    """What went into a record file.

    Attributes:
        walks: ids of the walks, in order; one with several copies stands there once.
        left_out: why a walk, or a photo of it, is not in it, by the walk's id.
    """

    walks: list[str] = field(default_factory=list)
    left_out: dict[str, Text] = field(default_factory=dict)


def share(
    path: Path, reader: WalkReader, photos: PhotoFolder, walk_ids: Iterable[str], key: ShopKey
) -> Shared:
    """Write walks as a record file; it is there when all of it is.

    What cannot be read is left out, and told; so is a walk of a double check that is not closed.

    Args:
        path: the file, in a folder that is there.
        reader, photos: of the data folder.
        walk_ids: ids of walks, each with every copy of it; all walks if there are none.
        key: of this shop.

    Raises:
        InputError: there is no such walk, or more photos than a record file holds.
        MachineError: the file could not be written, or the walks cannot be listed.
    """
    shared, walk_of_photo = Shared(), dict[str, str]()
    fresh = path.with_name(f"{path.name}{TEMPORARY}")
    ids = _ids(reader, walk_ids)

    def pictures() -> Iterator[tuple[str, bytes]]:
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
        write_record_file(fresh, copies(), pictures(), key)
        fresh.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
    return shared


def _ids(reader: WalkReader, walk_ids: Iterable[str]) -> Sequence[str]:
    """What every copy of these walks is kept under here, oldest walk first."""
    there = list(reader.ids())
    wanted = {original_id(id_) for id_ in walk_ids}
    if not wanted:
        return there
    for missing in sorted(wanted - set(map(original_id, there))):
        reader.read(missing)
    return [id_ for id_ in there if original_id(id_) in wanted]


def copies_of(
    reader: WalkReader, photos: PhotoFolder, ids: Sequence[str], key: ShopKey, shared: Shared
) -> Iterator[Copy]:
    """List each walk, its copies in the order of their last seals, whatever they are called here.

    Args:
        reader, photos: of the data folder.
        ids: what the copies are kept under, in order.
        key: of this shop, which signs what no other one has signed whole.
        shared: takes note of the walks, and of what is left out.
    """
    waiting, at = _Waiting(reader), 0
    while at < len(ids):
        walk_id, several = original_id(ids[at]), list[Copy]()
        while at < len(ids) and original_id(ids[at]) == walk_id:
            try:
                copy = _copy(reader, photos, ids[at], key)
            except WalkaroundError as error:
                shared.left_out[ids[at]] = error.text
            else:
                if waiting.holds_back(copy):
                    shared.left_out[walk_id] = message("double-files-wait")
                else:
                    several.append(copy)
            at += 1
        if several:
            shared.walks.append(walk_id)
        yield from sorted(several, key=lambda copy: copy.seals[-1])


class _Waiting:
    """Walks of double checks that are not closed.

    Whoever walks second would find in a file what the first one found: neither walk is given out,
    in any copy, before both are closed.
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
    # What another shop has signed whole is passed on as it came: the same walks, the same bytes.
    if not any(each.entries == len(copy.rows) for each in signed if each.key != key.public):
        signed.append(Signature.made(key, walk_id, copy.seals))
    return replace(copy, signed=tuple(signed))
