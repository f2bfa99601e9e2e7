"""The wiring of a vehicle as outside checks read it, and as people do."""

from __future__ import annotations

import json
import re
from datetime import date
from functools import cache
from typing import Any

import pytest
from support.english import ENGLISH

from walkaround.cli_output import wiring_text
from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for
from walkaround.lamps.wiring import wire
from walkaround.lamps.wiring_document import wiring_document
from walkaround.library.load import Library, load_library
from walkaround.library.standard_tables import standard_tables
from walkaround.vehicle.model import Electrical, Vehicle


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def shipped_vehicle(id_: str) -> Vehicle:
    return next(vehicle for vehicle in library().vehicles if vehicle.id == id_)


def lamps_of(vehicle: Vehicle) -> tuple[Lamp, ...]:
    return lamps_for(vehicle, library().checklists)


def document(vehicle: Vehicle) -> dict[str, Any]:
    lamps = lamps_of(vehicle)
    wiring = wire(vehicle, lamps, library().connectors)
    made = wiring_document(vehicle, lamps, wiring, standard_tables().bulbs)
    found: dict[str, Any] = json.loads(json.dumps(made))
    return found


def made(kind: str = "semitrailer", **electrical: Any) -> Vehicle:
    """A wide vehicle of 12 m, wired so."""
    return Vehicle.model_validate(
        {
            "id": "made",
            "kind": kind,
            "made": date(2015, 5, 1),
            "width_mm": 2500.0,
            "length_mm": 12000.0,
            "electrical": Electrical.model_validate(electrical),
        }
    )


every = pytest.mark.parametrize("id_", sorted(vehicle.id for vehicle in library().vehicles))


@every
def test_the_document_has_what_outside_checks_read(id_: str) -> None:
    vehicle = shipped_vehicle(id_)
    found = document(vehicle)
    assert (found["volts"], found["connector"]) == (
        vehicle.electrical.volts,
        vehicle.electrical.connector,
    )
    circuits = {circuit["id"] for circuit in found["circuits"]}
    for circuit in found["circuits"]:
        assert set(circuit) >= {"id", "pin", "flashes"}
        assert re.fullmatch(r"[a-z0-9_]+", circuit["id"])
        assert circuit["flashes"] == ("turn" in circuit["id"].split("_"))
    assert all(re.fullmatch(r"[a-z0-9_]+", cluster) for cluster in found["clusters"])
    for filament in found["filaments"]:
        assert set(filament) >= {"housing", "circuit", "cluster", "watts", "volts", "led"}
        assert filament["circuit"] in circuits
        assert filament["cluster"] in found["clusters"]
        assert filament["watts"] > 0
        assert filament["led"] in (True, False)
    lit = {filament["circuit"] for filament in found["filaments"]}
    assert lit == circuits
    assert {filament["cluster"] for filament in found["filaments"]} == set(found["clusters"])
    assert len(found["clusters"]) == len(set(found["clusters"]))


@every
def test_each_lamp_has_a_filament_but_combined_stop_and_turn_share_one(id_: str) -> None:
    vehicle = shipped_vehicle(id_)
    lamps = lamps_of(vehicle)
    combined = vehicle.electrical.stop_turn == "combined"
    shared = sum(lamp.kind == "turn" and lamp.spot == "rear" for lamp in lamps) if combined else 0
    filaments = document(vehicle)["filaments"]
    assert len(filaments) == len(lamps) - shared
    places = [(filament["housing"], filament["circuit"]) for filament in filaments]
    assert len(set(places)) == len(places)


def test_joined_pins_are_told_together_and_a_power_units_circuits_have_none() -> None:
    pump = {
        circuit["id"]: circuit["pin"]
        for circuit in document(shipped_vehicle("pump_trailer_3"))["circuits"]
    }
    # US tactical practice (from memory): circuit 24, blackout marker, on A, C and H.
    assert pump["blackout_marker"] == "A+C+H"
    assert pump["tail"] == "E"
    tractor = document(made("truck tractor", volts=12, connector="sae_j560"))
    assert {circuit["pin"] for circuit in tractor["circuits"]} == {None}
    assert not tractor["connector_feeds_lamps"]


def test_a_circuit_that_lights_no_lamp_here_is_told_apart() -> None:
    found = document(shipped_vehicle("pump_trailer_3"))
    assert [circuit["pin"] for circuit in found["without_lamps"]] == ["K"]
    assert not {"aux"} & {circuit["id"] for circuit in found["circuits"]}


def test_watts_follow_the_trade_numbers_in_the_vehicles_file() -> None:
    # UN Regulation No. 37: categories P21W and R5W take 21 W and 5 W nominal at 12 V.
    vehicle = made(volts=12, connector="iso_11446", bulbs={"stop": "P21W-12V", "tail": "R5W-12V"})
    watts = {
        (filament["housing"], filament["circuit"]): (filament["watts"], filament["fitted"])
        for filament in document(vehicle)["filaments"]
    }
    assert watts["rear_left", "stop"] == (pytest.approx(21.0, abs=0.05), "named")
    assert watts["rear_left", "tail_left"] == (pytest.approx(5.0, abs=0.05), "named")


def test_a_bulb_that_nobody_named_is_the_usual_one_and_says_so() -> None:
    # sl113.org, a forum page on lamp bulbs: 1157 takes 27 W and 8.3 W, as in SAE J573.
    found = document(shipped_vehicle("sandbag_semitrailer_7"))
    rear = {f["circuit"]: f for f in found["filaments"] if f["housing"] == "rear_left"}
    assert rear["stop"]["watts"] == pytest.approx(27, abs=0.2)
    assert rear["tail"]["watts"] == pytest.approx(8.3, abs=0.1)
    assert {f["bulb"] for f in rear.values()} == {"1157"}
    assert {f["fitted"] for f in rear.values()} == {"usual"}


def test_leds_are_told_from_bulbs() -> None:
    mixed = made(volts=12, connector="sae_j560", led=True, bulbs={"licence_plate": "67"})
    leds = {f["housing"]: f["led"] for f in document(mixed)["filaments"]}
    assert not leds.pop("licence_plate")
    assert all(leds.values())


@every
def test_the_text_tells_every_pin_circuit_and_filament(id_: str) -> None:
    found = document(shipped_vehicle(id_))
    text = wiring_text(found, ENGLISH)
    assert text.startswith(f"{id_}: {found['volts']} V, ")
    assert max(map(len, text.splitlines())) < 160
    for pin in found["pins"]:
        assert pin["function"] in text
    for circuit in found["circuits"]:
        assert re.search(rf"(?m)^  {circuit['id']} +{re.escape(circuit['pin'] or '-')} +\d+$", text)
    rows = [line for line in text.splitlines() if " V " in line and " at " in line]
    assert len(rows) == len(found["filaments"])


def test_the_text_says_which_pins_are_in_doubt_and_which_bulbs_are_assumed() -> None:
    semi = shipped_vehicle("sandbag_semitrailer_7")
    text = wiring_text(document(semi), ENGLISH)
    assert "in doubt" not in text
    old = semi.model_copy(update={"made": date(1990, 1, 1)})
    assert "7? in doubt: may be ABS power" in wiring_text(document(old), ENGLISH)
    assert "1157 *" in text
    assert "* not named in the vehicle's file" in text
    kinds = {lamp.kind for lamp in lamps_of(made(volts=12, connector="sae_j560"))}
    named = made(volts=12, connector="sae_j560", bulbs=dict.fromkeys(kinds, "led"))
    assert "*" not in wiring_text(document(named), ENGLISH)
    tractor = wiring_text(document(made("truck tractor", volts=12, connector="sae_j560")), ENGLISH)
    assert "Pins of the rear socket" in tractor
