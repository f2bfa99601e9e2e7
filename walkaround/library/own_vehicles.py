"""Checklists and vehicles as they are now, and the crew's own vehicles, made and changed here.

Each own vehicle is a file of the folder `vehicles`. What is written is first read back, so that
nothing is saved that could not be loaded. Any thread may call.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from datetime import date
from itertools import count
from pathlib import Path
from threading import RLock

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.disk import locations
from walkaround.disk.durable import make_folder, sweep, sync_folder, write_durably, write_error
from walkaround.library.load import Library, load_library, reference_of, vehicle_of
from walkaround.library.toml_file import table_in
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle.to_toml import vehicle_toml
from walkaround.vehicle_editor.checks import Reference
from walkaround.vehicle_editor.new_vehicle import (
    id_for,
    is_free,
    new_vehicle_problems,
    without_stray_characters,
)

MAX_UPLOAD_BYTES = 100_000
"""A vehicle file is a page of text; more is not one."""

REMOVED = "removed"
"""The folder, inside that of the own vehicles, where deleted ones are kept."""


class OwnVehicles:
    """The library, and the own vehicles in it."""

    def __init__(
        self, data: Path, today: Callable[[], date], walked: Callable[[], Collection[str]]
    ) -> None:
        """Read everything.

        Args:
            data: the data folder.
            today: gives the day it is.
            walked: gives the ids of all vehicles that walks are of; raises MachineError if that
                cannot be told.

        Raises:
            MachineError: what a killed process left half written cannot be taken away.
        """
        self._data = data
        self._own = locations.own_vehicles(data)
        self._today = today
        self._walked = walked
        self._lock = RLock()
        if self._own.is_dir():
            sweep(self._own)
        self._library = self._read()

    @property
    def library(self) -> Library:
        """Everything, as last read."""
        return self._library

    @property
    def reference(self) -> Reference:
        """What a vehicle being made is checked against."""
        library = self._library
        return reference_of(library.checklists, library.connectors, self._today())

    def vehicle(self, vehicle_id: str) -> Vehicle | None:
        """Return the vehicle of that id, if there is one."""
        vehicles = self._library.vehicles
        return next((vehicle for vehicle in vehicles if vehicle.id == vehicle_id), None)

    def is_own(self, vehicle_id: str) -> bool:
        """Tell whether the vehicle was made in this app, which may change and delete it."""
        path = self._library.vehicle_files.get(vehicle_id)
        return path is not None and path.parent == self._own

    def others(self, vehicle_id: str) -> tuple[Vehicle, ...]:
        """List all vehicles but the one of this id."""
        return tuple(each for each in self._library.vehicles if each.id != vehicle_id)

    def received(self, data: bytes, name: str) -> Vehicle:
        """Return the vehicle in a file that was handed over; nothing is saved.

        Raises:
            InputError: with every problem of the file.
        """
        if len(data) > MAX_UPLOAD_BYTES:
            what = message("problem-larger-than", kb=MAX_UPLOAD_BYTES // 1000)
            raise InputError([Problem(name, "", what, message("problem-choose-a-vehicle-file"))])
        return self._vehicle_in(data, name)

    def save(self, vehicle: Vehicle, was: str = "", *, keep_id: bool = False) -> str:
        """Save a vehicle, new or in place of the own one whose id was `was`; the id it now has.

        Args:
            vehicle: its id only counts with `keep_id`, and if no other vehicle has it.
            was: the id of an own vehicle, or nothing.
            keep_id: for a vehicle from elsewhere, whose walks may come from there too.

        Raises:
            InputError: something is wrong with it, or `was` is no vehicle of one's own.
            MachineError: it could not be written; what was saved before still is.
        """
        with self._lock:
            vehicle = without_stray_characters(vehicle)
            if was:
                self._must_be_own(was)
            if faults := new_vehicle_problems(vehicle, self.others(was), self.reference):
                raise InputError(faults)
            id_ = self._id(vehicle, was, keep_id)
            vehicle = vehicle.model_copy(update={"id": id_})
            text = vehicle_toml(vehicle).encode()
            self._vehicle_in(text, vehicle.name)
            self._write(vehicle.id, text, was)
            return vehicle.id

    def remove(self, vehicle_id: str) -> None:
        """Put the file of an own vehicle into the folder `removed`.

        Raises:
            InputError: it is no vehicle of one's own.
            MachineError: its file could not be moved.
        """
        with self._lock:
            self._must_be_own(vehicle_id)
            self._put_aside(self._library.vehicle_files[vehicle_id])
            self._library = self._read()

    def _read(self) -> Library:
        own = (locations.own_checklists(self._data), self._own)
        return load_library(locations.shipped(), *own, today=self._today())

    def _vehicle_in(self, data: bytes, name: str) -> Vehicle:
        return vehicle_of(table_in(data, name), name, self.reference)

    def _must_be_own(self, vehicle_id: str) -> None:
        if not self.is_own(vehicle_id):
            what = message("problem-vehicle-is-not-own")
            raise InputError([Problem(vehicle_id, "", what, message("problem-copy-a-vehicle"))])

    def _id(self, vehicle: Vehicle, was: str, keep_id: bool) -> str:
        """A vehicle that has walks keeps its id when it is renamed: by it they are its own."""
        before = self.vehicle(was)
        if before and before.name == vehicle.name:
            return was
        files = {path.stem.lower() for path in self._own.glob("*.toml")}
        here = files.union(each.id for each in self._library.vehicles)
        if keep_id and is_free(vehicle.id, here):
            return vehicle.id
        walked = frozenset(self._walked())
        return was if before and was in walked else id_for(vehicle.name, here | walked)

    def _write(self, id_: str, text: bytes, was: str) -> None:
        make_folder(self._own)
        before = self._library.vehicle_files[was] if was else None
        path = before if before and was == id_ else self._own / f"{id_}.toml"
        write_durably(path, text, keep=path.with_suffix(".toml.prev"))
        if before and before != path:
            self._put_aside(before)
        self._library = self._read()

    def _put_aside(self, path: Path) -> None:
        folder = self._own / REMOVED
        make_folder(folder)
        numbered = (folder / f"{path.stem}.{number}.toml" for number in count(2))
        aside = folder / path.name
        if aside.exists():
            aside = next(name for name in numbered if not name.exists())
        try:
            path.rename(aside)
            sync_folder(folder)
            sync_folder(path.parent)
        except OSError as error:
            raise write_error(error, path) from error
