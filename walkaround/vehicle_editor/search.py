"""Finding one vehicle among hundreds: what was typed, and what is wanted first."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from walkaround.vehicle.model import Vehicle

RECENT = 5
"""How many of the vehicles walked last come before the others."""
_PARTS = re.compile(r"(\d+)")


def natural(name: str) -> tuple[tuple[bool, int, str], ...]:
    """Make a key that sorts names as people count: "Trailer 9" comes before "Trailer 10"."""
    parts = _PARTS.split(name.casefold())
    return tuple(
        (not part.isdecimal(), int(part) if part.isdecimal() else 0, part) for part in parts if part
    )


def matches_typed(typed: str, *texts: str) -> bool:
    """Tell whether each word that was typed stands somewhere in what is told of a thing."""
    all_told = " ".join(texts).casefold()
    return all(word in all_told for word in typed.casefold().split())


def search_vehicles(
    vehicles: Iterable[Vehicle],
    typed: str,
    open_defects: Mapping[str, int],
    walked: Sequence[str],
) -> tuple[Vehicle, ...]:
    """Find the vehicles of this name, plate or VIN, those first that are wanted first.

    Those with open defects come first, then those walked last, then the others in natural order.

    Args:
        vehicles: to look among.
        typed: words or parts of them; with none all are found.
        open_defects: how many are open, by the vehicle's id.
        walked: ids of vehicles that were walked, the last one first.
    """
    recent = {id_: at for at, id_ in enumerate(list(dict.fromkeys(walked))[:RECENT])}

    def place(vehicle: Vehicle) -> tuple[bool, int, tuple[tuple[bool, int, str], ...]]:
        at = 0 if open_defects.get(vehicle.id) else recent.get(vehicle.id, RECENT)
        return not open_defects.get(vehicle.id), at, natural(vehicle.name)

    hits = (each for each in vehicles if matches_typed(typed, each.name, each.plate, each.vin))
    return tuple(sorted(hits, key=place))
