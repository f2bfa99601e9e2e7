"""A vehicle of one's own: copied from another, named, given an id, checked before it is kept."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from unicodedata import normalize

from walkaround.base.errors import Problem
from walkaround.base.message import Message, message
from walkaround.base.plaintext import one_line, some_lines
from walkaround.vehicle.model import Kind, Vehicle
from walkaround.vehicle_editor.checks import Reference, vehicle_problems

# `new` is an address of the app; under the others Windows keeps no file.
_PORTS = {f"{port}{number}" for port in ("com", "lpt") for number in range(10)}
_NO_ID = frozenset({"new", "con", "prn", "aux", "nul"} | _PORTS)
_LONGEST_ID = 40
# What a number at its end may add, as in "trailer_12".
_NUMBER = 10


def copy_of(vehicle: Vehicle, names: Collection[str]) -> Vehicle:
    """Make a vehicle of the same build, under a name of its own.

    What belongs to the one vehicle is left out: plate, VIN, notes, damage.
    """
    own_values = {"plate": "", "vin": "", "notes": "", "damage": ()}
    return vehicle.model_copy(update={**own_values, "name": next_name(vehicle.name, names)})


def next_name(name: str, names: Collection[str]) -> str:
    """Return the name with a number after those that these names have: "Pump trailer 4"."""
    base = " ".join(_numbered(name)[0].split())
    numbered = [_numbered(other) for other in names]
    highest = max((number for other, number in numbered if _same(other, base)), default=0)
    return f"{base} {highest + 1}".strip()


def noun(kind: Kind) -> Message:
    """Return what people who number their vehicles call one of this kind: "Trailer", "Tractor"."""
    return message(f"vehicle-noun-{kind.replace(' ', '-')}")


def suggested_names(vehicle: Vehicle, noun: str, names: Collection[str]) -> tuple[str, ...]:
    """List names to tap instead of typing one: by its noun, and like its own if that is taken."""
    name_is_taken = any(_same(vehicle.name, name) for name in names)
    like = [next_name(vehicle.name, names)] if name_is_taken else []
    offered = dict.fromkeys([*like, next_name(noun, names)])
    return tuple(name for name in offered if not _same(name, vehicle.name))


def id_for(name: str, used_ids: Collection[str]) -> str:
    """Make an id from a name, none of those taken."""
    plain = normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    base = "_".join(re.findall(r"[a-z0-9]+", plain))[:_LONGEST_ID].strip("_") or "vehicle"
    numbered = (f"{base}_{number}" for number in range(2, len(used_ids) + len(_NO_ID) + 3))
    return next(id_ for id_ in (base, *numbered) if is_free(id_, used_ids))


def is_free(id_: str, used_ids: Collection[str]) -> bool:
    """Tell whether a vehicle can have this id."""
    return id_ not in used_ids and id_ not in _NO_ID and len(id_) <= _LONGEST_ID + _NUMBER


def same_name(name: str, vehicles: Iterable[Vehicle]) -> Vehicle | None:
    """Find the vehicle that has this name already, however it is spaced and capitalized."""
    return next((vehicle for vehicle in vehicles if _same(vehicle.name, name)), None)


def without_stray_characters(vehicle: Vehicle) -> Vehicle:
    """Drop the blanks, small letters and unseen characters that slip in with typed texts."""
    return vehicle.model_copy(
        update={
            "name": one_line(vehicle.name),
            "plate": one_line(vehicle.plate).upper(),
            "vin": one_line(vehicle.vin).replace(" ", "").upper(),
            "notes": some_lines(vehicle.notes),
            "damage": tuple(map(one_line, vehicle.damage)),
        }
    )


def new_vehicle_problems(
    vehicle: Vehicle, other_vehicles: Iterable[Vehicle], reference: Reference
) -> tuple[Problem, ...]:
    """Find everything that keeps this vehicle from being saved beside the others."""
    return (
        *_name_problems(vehicle, other_vehicles),
        *vehicle_problems(vehicle, vehicle.name, reference),
    )


def _numbered(name: str) -> tuple[str, int]:
    parts = re.fullmatch(r"(?s)(.*?)\s*(\d{1,9})?", name.strip())
    assert parts is not None
    return parts[1], int(parts[2] or 0)


def _same(name: str, other: str) -> bool:
    return " ".join(name.split()).casefold() == " ".join(other.split()).casefold()


def _name_problems(vehicle: Vehicle, other_vehicles: Iterable[Vehicle]) -> list[Problem]:
    if not vehicle.name:
        return [Problem("", "name", message("problem-is-missing"), message("problem-tap-a-name"))]
    if other := same_name(vehicle.name, other_vehicles):
        what = message("problem-name-of-another", name=other.name)
        return [Problem(vehicle.name, "name", what, message("problem-give-each-its-own-name"))]
    return []
