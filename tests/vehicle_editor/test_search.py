"""Vehicles found among many: by what was typed, in the order in which they are wanted."""

from __future__ import annotations

from support.made_up_vehicles import SEMITRAILER

from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.search import RECENT, matches_typed, natural, search_vehicles


def named(*names: str) -> list[Vehicle]:
    return [
        SEMITRAILER.model_copy(update={"id": f"v{at}", "name": name})
        for at, name in enumerate(names)
    ]


def names_found(vehicles: list[Vehicle], typed: str = "", **how: object) -> list[str]:
    open_defects, walked = how.get("open_defects", {}), how.get("walked", [])
    return [each.name for each in search_vehicles(vehicles, typed, open_defects, walked)]  # type: ignore[arg-type]


def test_names_are_sorted_as_people_count() -> None:
    names = ["Trailer 10", "trailer 9", "Trailer 9b", "10 t truck", "9 t truck", "Trailer"]
    assert sorted(names, key=natural) == [
        "9 t truck", "10 t truck", "Trailer", "trailer 9", "Trailer 9b", "Trailer 10",
    ]  # fmt: skip


def test_each_word_typed_must_stand_in_the_name_the_plate_or_the_vin() -> None:
    assert matches_typed("", "Trailer 9")
    assert matches_typed("9 trai", "Trailer 9")
    assert matches_typed("AB12", "Trailer 9", "KAB 1204 ab12")
    assert not matches_typed("9 truck", "Trailer 9")
    vehicles = named("Trailer 1", "Trailer 21", "Truck 1")
    assert names_found(vehicles, "trailer 1") == ["Trailer 1", "Trailer 21"]
    vehicles[2] = vehicles[2].model_copy(update={"plate": "XY 77"})
    assert names_found(vehicles, "xy") == ["Truck 1"]


def test_open_defects_come_first_then_the_last_walked_then_all_others_in_order() -> None:
    vehicles = named("T 10", "T 9", "T 2", "T 1")
    assert names_found(vehicles) == ["T 1", "T 2", "T 9", "T 10"]
    assert names_found(vehicles, walked=["v1", "v2", "v1"]) == ["T 9", "T 2", "T 1", "T 10"]
    opened = {"v0": 2, "v3": 0}
    assert names_found(vehicles, open_defects=opened, walked=["v1"]) == [
        "T 10", "T 9", "T 1", "T 2",
    ]  # fmt: skip


def test_only_the_last_few_walked_come_first() -> None:
    vehicles = named(*(f"T {number}" for number in range(20)))
    walked = [f"v{number}" for number in range(19, -1, -1)]
    order = names_found(vehicles, walked=walked)
    assert order[:RECENT] == [f"T {number}" for number in range(19, 19 - RECENT, -1)]
    assert order[RECENT] == "T 0"
