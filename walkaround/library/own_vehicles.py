"""The current library, and the crew's own vehicles, which are made and changed in the app.

Each own vehicle is a file in the folder `vehicles`. Its content is validated before it is written,
so that nothing is saved that could not be loaded. Any thread may call.
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
from walkaround.disk.durable import (
    delete_temporary_files,
    make_folder,
    sync_folder,
    write_durably,
    write_error,
)
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
"""The largest vehicle file: it is a page of text."""

REMOVED = "removed"
"""The folder of deleted vehicles, in that of the own vehicles."""


class OwnVehicles:
    """The library, and the crew's own vehicles in it."""

    def __init__(
        self, data: Path, today: Callable[[], date], walked_ids: Callable[[], Collection[str]]
    ) -> None:
        """Load the library.

        Args:
            data: the data folder.
            today: returns the present day.
            walked_ids: returns the ids of all vehicles with walks; raises MachineError if they
                cannot be read.

        Raises:
            MachineError: temporary files of a killed process cannot be deleted.
        """
        self._data = data
        self._own = locations.own_vehicles(data)
        self._today = today
        self._walked_ids = walked_ids
        self._lock = RLock()
        if self._own.is_dir():
            delete_temporary_files(self._own)
        self._library = self._read()

    @property
    def library(self) -> Library:
        """The library as last loaded."""
        return self._library

    @property
    def reference(self) -> Reference:
        """What a vehicle is checked against."""
        library = self._library
        return reference_of(library.checklists, library.connectors, self._today())

    def vehicle(self, vehicle_id: str) -> Vehicle | None:
        """Return the vehicle with this id; None if there is none."""
        vehicles = self._library.vehicles
        return next((vehicle for vehicle in vehicles if vehicle.id == vehicle_id), None)

    def is_own(self, vehicle_id: str) -> bool:
        """Tell whether a vehicle was made in the app, and may be changed and deleted there."""
        path = self._library.vehicle_files.get(vehicle_id)
        return path is not None and path.parent == self._own

    def others(self, vehicle_id: str) -> tuple[Vehicle, ...]:
        """Return all vehicles except the one with this id."""
        return tuple(each for each in self._library.vehicles if each.id != vehicle_id)

    def parse_file(self, data: bytes, name: str) -> Vehicle:
        """Parse an uploaded vehicle file; nothing is saved.

        Raises:
            InputError: with every problem of the file.
        """
        if len(data) > MAX_UPLOAD_BYTES:
            what = message("problem-larger-than", kb=MAX_UPLOAD_BYTES // 1000)
            raise InputError([Problem(name, "", what, message("problem-choose-a-vehicle-file"))])
        return self._vehicle_in(data, name)

    def save(self, vehicle: Vehicle, old_id: str = "", *, keep_id: bool = False) -> str:
        """Save a new vehicle, or replace an own one; return its id.

        Args:
            vehicle: the vehicle; its id is only used with `keep_id`, and if it is free.
            old_id: the id of the own vehicle to replace; empty for a new one.
            keep_id: whether to keep its id: for a vehicle from elsewhere, whose walks may come too.

        Raises:
            InputError: the vehicle has problems, or `old_id` is no own vehicle.
            MachineError: it could not be written; the old file is unchanged.
        """
        with self._lock:
            vehicle = without_stray_characters(vehicle)
            if old_id:
                self._check_own(old_id)
            if faults := new_vehicle_problems(vehicle, self.others(old_id), self.reference):
                raise InputError(faults)
            id_ = self._id(vehicle, old_id, keep_id)
            vehicle = vehicle.model_copy(update={"id": id_})
            text = vehicle_toml(vehicle).encode()
            self._vehicle_in(text, vehicle.name)
            self._write(vehicle.id, text, old_id)
            return vehicle.id

    def remove(self, vehicle_id: str) -> None:
        """Move the file of an own vehicle to the folder `removed`.

        Raises:
            InputError: it is no own vehicle.
            MachineError: its file could not be moved.
        """
        with self._lock:
            self._check_own(vehicle_id)
            self._move_to_removed(self._library.vehicle_files[vehicle_id])
            self._library = self._read()

    def _read(self) -> Library:
        own = (locations.own_checklists(self._data), self._own)
        return load_library(locations.shipped(), *own, today=self._today())

    def _vehicle_in(self, data: bytes, name: str) -> Vehicle:
        return vehicle_of(table_in(data, name), name, self.reference)

    def _check_own(self, vehicle_id: str) -> None:
        if not self.is_own(vehicle_id):
            what = message("problem-vehicle-is-not-own")
            raise InputError([Problem(vehicle_id, "", what, message("problem-copy-a-vehicle"))])

    def _id(self, vehicle: Vehicle, old_id: str, keep_id: bool) -> str:
        """Return the id to save a vehicle under; one with walks keeps its id when renamed."""
        old_vehicle = self.vehicle(old_id)
        if old_vehicle and old_vehicle.name == vehicle.name:
            return old_id
        files = {path.stem.lower() for path in self._own.glob("*.toml")}
        taken_ids = files.union(each.id for each in self._library.vehicles)
        if keep_id and is_free(vehicle.id, taken_ids):
            return vehicle.id
        walked_ids = frozenset(self._walked_ids())
        return (
            old_id
            if old_vehicle and old_id in walked_ids
            else id_for(vehicle.name, taken_ids | walked_ids)
        )

    def _write(self, id_: str, text: bytes, old_id: str) -> None:
        make_folder(self._own)
        old_path = self._library.vehicle_files[old_id] if old_id else None
        path = old_path if old_path and old_id == id_ else self._own / f"{id_}.toml"
        write_durably(path, text, backup=path.with_suffix(".toml.prev"))
        if old_path and old_path != path:
            self._move_to_removed(old_path)
        self._library = self._read()

    def _move_to_removed(self, path: Path) -> None:
        folder = self._own / REMOVED
        make_folder(folder)
        numbered = (folder / f"{path.stem}.{number}.toml" for number in count(2))
        new_path = folder / path.name
        if new_path.exists():
            new_path = next(name for name in numbered if not name.exists())
        try:
            path.rename(new_path)
            sync_folder(folder)
            sync_folder(path.parent)
        except OSError as error:
            raise write_error(error, path) from error
