"""From pins to circuits to lamps: which circuit feeds what on each connector."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from walkaround.base.errors import InputError
from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for
from walkaround.lamps.wiring import Wiring, circuits_of, lamp_problems, wire
from walkaround.library.load import load_library
from walkaround.vehicle.model import Vehicle

LIBRARY = load_library(shipped(), today=date(2025, 11, 1))


def vehicle(connector: str, volts: int, stop_turn: str = "separate", **changes: Any) -> Vehicle:
    """A long, wide, air-braked semitrailer unless changed: every trailer lamp but blackout."""
    electrical = {
        "blackout": changes.pop("blackout", False),
        "second_connector": changes.pop("second_connector", ""),
        "lamps": changes.pop("special", []),
    }
    table = {
        "id": "x",
        "kind": "semitrailer",
        "made": date(2011, 4, 1),
        "width_mm": 2500,
        "length_mm": 12000,
        "brakes": {"system": "air"},
        "electrical": {
            "volts": volts,
            "connector": connector,
            "stop_turn": stop_turn,
            **electrical,
        },
    }
    return Vehicle.model_validate(table | changes)


def wired(*args: Any, **changes: Any) -> Wiring:
    one = vehicle(*args, **changes)
    return wire(one, lamps_for(one, LIBRARY.checklists), LIBRARY.connectors)


def lit_by(wiring: Wiring, circuit_id: str) -> set[str]:
    return {lamp for lamp, circuit in wiring.circuit_of.items() if circuit == circuit_id}


# SAE J560 in tables of a lamp maker and a trade magazine: black (2) feeds clearance, side marker
# and license-plate lamps, brown (6) tail and identification lamps.
def test_sae_j560_parts_tail_and_identification_from_marker_and_plate_lamps() -> None:
    wiring = wired("sae_j560", 12)
    assert lit_by(wiring, "tail") == {
        "tail_left",
        "tail_right",
        *(f"identification_rear_{side}" for side in ("left", "centre", "right")),
    }
    markers = lit_by(wiring, "marker")
    assert len(markers) == 4 + 1 + 6
    assert all(lamp.startswith(("clearance", "licence_plate", "side_marker")) for lamp in markers)
    pins = {circuit.id: circuit.pins for circuit in wiring.circuits}
    assert pins == {
        "marker": ("2",),
        "tail": ("6",),
        "left_turn": ("3",),
        "right_turn": ("5",),
        "stop": ("4",),
        "abs": ("7",),
    }


# MIL-S-62183C 3.11.5: contact E feeds clearance, side marker, identification and tail lamps.
def test_without_a_marker_contact_the_markers_hang_on_the_tail_circuit() -> None:
    wiring = wired("mil_12_us_spec", 24, "combined")
    assert len(lit_by(wiring, "tail")) == 2 + 1 + 4 + 3 + 6
    assert lit_by(wiring, "left_stop_turn") == {"stop_left", "turn_rear_left"}
    assert lit_by(wiring, "right_stop_turn") == {"stop_right", "turn_rear_right"}


# ISO 1185: 58L feeds the left side and the licence-plate lamp, 58R the right (from memory).
def test_split_tail_pins_feed_each_its_side_and_the_left_one_the_centre() -> None:
    wiring = wired("iso_1185", 24)
    right = lit_by(wiring, "tail_right")
    assert right
    assert all(lamp.endswith("_right") for lamp in right)
    left = lit_by(wiring, "tail_left")
    assert {"licence_plate", "identification_rear_centre", "tail_left"} <= left
    assert wiring.circuit_of["identification_rear_right"] == "tail_left"


def test_separate_stop_contacts_feed_each_its_side() -> None:
    wiring = wired("nato_12_uk", 24)
    assert lit_by(wiring, "left_stop") == {"stop_left"}
    assert lit_by(wiring, "right_stop") == {"stop_right"}
    assert lit_by(wiring, "left_turn") == {"turn_rear_left"}


def test_turn_circuits_flash_and_no_other() -> None:
    flashing = {c.id for c in wired("sae_j560", 12).circuits if c.flashes}
    assert flashing == {"left_turn", "right_turn"}
    combined = {c.id for c in wired("mil_12_us_tactical", 24, "combined").circuits if c.flashes}
    assert combined == {"left_stop_turn", "right_stop_turn"}


def test_circuits_come_in_walking_order() -> None:
    wiring = wired("mil_12_us_tactical", 24, "combined", blackout=True, made=date(1990, 1, 1))
    assert [circuit.id for circuit in wiring.circuits] == [
        "tail",
        "left_stop_turn",
        "right_stop_turn",
        "blackout_marker",
        "blackout_stop",
    ]


def test_joined_blackout_contacts_are_one_circuit_that_is_metered_first() -> None:
    wiring = wired("mil_12_us_tactical", 24, "combined", blackout=True)
    [marker] = [circuit for circuit in wiring.circuits if circuit.id == "blackout_marker"]
    assert marker.pins == ("A", "C", "H")
    assert marker.meter_first
    assert str(marker.why_doubtful).startswith("pins A, C, and H: ")
    assert marker.provenance == "memory"


def test_the_continuous_feed_of_sae_j560_is_metered_first_and_nothing_else() -> None:
    """Until 49 CFR 393.55(c)(2) gave it to ABS, of trailers made on or after 1998-03-01."""
    old = wired("sae_j560", 12, made=date(1998, 2, 28))
    assert [circuit.id for circuit in old.unused if circuit.meter_first] == ["abs"]
    new = wired("sae_j560", 12, made=date(1998, 3, 1))
    assert [circuit.id for circuit in new.circuits if not circuit.meter_first] == [
        circuit.id for circuit in new.circuits
    ]


def test_a_feed_without_a_lamp_is_told_as_unused() -> None:
    wiring = wired("sae_j560", 12, made=date(1990, 1, 1))
    assert "abs" not in wiring.circuit_of
    assert [(circuit.id, circuit.pins) for circuit in wiring.unused] == [("abs", ("7",))]


def test_several_pins_of_one_function_that_are_not_joined_stay_apart() -> None:
    unused = {circuit.id: circuit.pins for circuit in wired("iso_12098", 24).unused}
    assert {id_: pins for id_, pins in unused.items() if id_.startswith("aux")} == {
        "aux_10": ("10",),
        "aux_11": ("11",),
        "aux_12": ("12",),
    }


def test_an_abs_lamp_without_a_pin_here_hangs_on_a_plug_of_its_own() -> None:
    wiring = wired("mil_12_us_tactical", 24, "combined")
    [abs_circuit] = [circuit for circuit in wiring.circuits if circuit.id == "abs"]
    assert wiring.circuit_of["abs"] == "abs"
    assert abs_circuit.pins == ()


def test_grounds_are_shared_by_corner_end_and_side() -> None:
    wiring = wired("sae_j560", 12)
    assert set(wiring.cluster_of.values()) == {
        "front_left",
        "front_right",
        "rear_left",
        "rear_right",
        "rear_centre",
        "left_side",
        "right_side",
    }
    assert wiring.cluster_of["side_marker_middle_left"] == "left_side"
    assert wiring.cluster_of["identification_rear_left"] == "rear_centre"


def refused(*args: Any, **changes: Any) -> str:
    """Why this vehicle cannot be wired, where there is one reason."""
    with pytest.raises(InputError) as caught:
        wired(*args, **changes)
    [problem] = caught.value.problems
    return str(problem)


def test_lamps_that_the_connector_cannot_feed_are_named_in_one_sentence_with_the_mend() -> None:
    assert refused("sae_j560", 12, blackout=True) == (
        "x, electrical.connector: sae_j560 has no circuit for the left rear blackout marker, "
        "the right rear blackout marker, the left blackout stop lamp, and the right blackout stop "
        "lamp; name the connector as wired and any second_connector, or correct what is fitted."
    )


def test_many_lamps_without_a_circuit_are_counted() -> None:
    one = vehicle("nato_12_au", 24)
    lamps = [replace(lamp, circuit="fog") for lamp in lamps_for(one, LIBRARY.checklists)]
    [problem] = lamp_problems(one, lamps, LIBRARY.connectors, "v.toml")
    assert str(problem.what).endswith(f"the left stop lamp, and {len(lamps) - 3} more")


def test_up_to_four_lamps_without_a_circuit_are_all_named() -> None:
    one = vehicle("nato_12_au", 24)
    lamps = lamps_for(one, LIBRARY.checklists)
    for count in range(1, 7):
        unfed = [replace(lamp, circuit="fog") for lamp in lamps[:count]]
        [problem] = lamp_problems(one, unfed, LIBRARY.connectors, "v.toml")
        named = [lamp for lamp in unfed if f"the {lamp.name!s}" in str(problem.what)]
        assert len(named) == (count if count <= 4 else 3)
        assert (" more" in str(problem.what)) == (count > 4)


def test_an_unknown_connector_is_an_input_error() -> None:
    with pytest.raises(InputError, match="no connector is called nowhere"):
        wired("nowhere", 12)


@pytest.mark.parametrize("stop_turn", ["separate", "combined"])
@pytest.mark.parametrize("kind", ["truck", "bus", "truck tractor"])
def test_a_power_units_own_lamps_hang_on_circuits_without_pins(kind: str, stop_turn: str) -> None:
    wiring = wired("sae_j560", 12, stop_turn, kind=kind, blackout=True)
    assert all(circuit.pins == () for circuit in wiring.circuits)
    assert wiring.unused == ()
    assert wiring.circuit_of["headlamp_left"] == "headlamp"
    assert wiring.circuit_of["turn_front_left"] == "left_turn"
    rear = "left_turn" if stop_turn == "separate" else "left_stop_turn"
    assert wiring.circuit_of["turn_rear_left"] == rear


# Connectors that carry no lamps of their own, beside a lighting connector: ISO 3731 and 3732
# supplementary, ISO 7638 for ABS.
SUPPLEMENTARY = {"iso_3731", "iso_3732", "iso_7638_1"}
LIGHTING = sorted(LIBRARY.connectors.keys() - SUPPLEMENTARY)


def every_pin_once(wiring: Wiring) -> None:
    """Each contact that feeds something is in one circuit, used or not."""
    no_circuit = {"GND", "NC", "CAN_H", "CAN_L", "SIG"}
    fed = [pin.pin for pin in wiring.connector.pins if pin.fn not in no_circuit]
    pins = [pin for circuit in (*wiring.circuits, *wiring.unused) for pin in circuit.pins]
    assert sorted(pins) == sorted(fed)


@pytest.mark.parametrize("connector_id", LIGHTING)
def test_on_every_lighting_connector_each_lamp_is_fed_by_one_circuit(connector_id: str) -> None:
    connector = LIBRARY.connectors[connector_id]
    stop_turn = "combined" if "LSTOP" in connector.functions else "separate"
    one = vehicle(connector_id, connector.nominal_volts, stop_turn)
    lamps = lamps_for(one, LIBRARY.checklists)
    wiring = wire(one, lamps, LIBRARY.connectors)
    assert set(wiring.circuit_of) == set(wiring.cluster_of) == {lamp.id for lamp in lamps}
    assert set(wiring.circuit_of.values()) == {circuit.id for circuit in wiring.circuits}
    every_pin_once(wiring)
    assert wiring.volts == connector.nominal_volts


@pytest.mark.parametrize("connector_id", sorted(SUPPLEMENTARY))
def test_a_connector_that_carries_no_lamps_says_so_in_one_sentence(connector_id: str) -> None:
    assert refused(connector_id, LIBRARY.connectors[connector_id].nominal_volts) == (
        f"x, electrical.connector: is {connector_id}, which feeds no lamps; "
        "name the connector of the lamps, this one may be its second_connector."
    )


# UN Regulation No. 48 asks trailers for rear fog and reversing lamps (from memory): ISO 12098,
# 11446 and the later STANAG 4007 carry both, the others lack one or both.
UNECE_FED = {"iso_12098": 24, "iso_11446": 12, "nato_12_stanag4007": 24}


@pytest.mark.parametrize("connector_id", LIGHTING)
def test_under_un_rules_a_connector_feeds_every_lamp_or_says_which_not(connector_id: str) -> None:
    connector = LIBRARY.connectors[connector_id]
    stop_turn = "combined" if "LSTOP" in connector.functions else "separate"
    if connector_id in UNECE_FED:
        wiring = wired(connector_id, connector.nominal_volts, stop_turn, rules="unece")
        assert wiring.circuit_of["fog_rear"] == "fog"
        assert wiring.circuit_of["reversing_left"] == "backup"
        every_pin_once(wiring)
    else:
        said = refused(connector_id, connector.nominal_volts, stop_turn, rules="unece")
        assert f"{connector_id} has no circuit for the " in said
        assert ("fog lamp" in said) == ("FOG" not in connector.functions)
        assert ("reversing lamp" in said) == ("REV" not in connector.functions)


# ISO 1185 (24N) and ISO 3731 (24S) stand side by side on 24 V trailers, ISO 1724 (12N) and ISO
# 3732 (12S) on 12 V ones; fog and reversing lamps are 24S pins 7 and 3 and 12N pin 2, 12S pin 1.
@pytest.mark.parametrize(
    ("first", "second", "volts", "fog", "backup"),
    [("iso_1185", "iso_3731", 24, "7", "3"), ("iso_1724", "iso_3732", 12, "2", "1")],
)
def test_a_second_connector_feeds_what_the_first_one_lacks(
    first: str, second: str, volts: int, fog: str, backup: str
) -> None:
    wiring = wired(first, volts, second_connector=second, rules="unece")
    circuits = {circuit.id: circuit for circuit in wiring.circuits}
    assert (circuits["fog"].pins, circuits["backup"].pins) == ((fog,), (backup,))
    assert str(circuits["backup"].name) == "backup, second connector"
    assert str(circuits["left_turn"].name) == "left turn"


def test_a_lamp_hangs_where_the_vehicles_file_says() -> None:
    moved = [
        {"id": "licence_plate", "circuit": "marker"},
        {"id": "tail_left", "cluster": "frame"},
    ]
    wiring = wired("sae_j560", 12, special=moved)
    plain = wired("sae_j560", 12)
    assert wiring.circuit_of["licence_plate"] == "marker"
    assert wiring.cluster_of["tail_left"] == "frame"
    assert wiring.cluster_of["licence_plate"] == plain.cluster_of["licence_plate"]
    unmoved = plain.circuit_of.keys() - {"licence_plate"}
    assert all(wiring.circuit_of[lamp] == plain.circuit_of[lamp] for lamp in unmoved)


def test_a_lamp_that_the_vehicle_does_not_have_cannot_be_moved() -> None:
    assert refused("sae_j560", 12, special=[{"id": "licence", "circuit": "tail"}]) == (
        "x, electrical.lamps licence: the vehicle has no lamp of this id; "
        "perhaps licence_plate is meant."
    )


def test_a_lamp_moved_to_a_circuit_that_is_not_there_has_none() -> None:
    said = refused("sae_j560", 12, special=[{"id": "licence_plate", "circuit": "fog"}])
    assert "sae_j560 has no circuit for the license plate lamp" in said


def test_a_vehicle_of_which_no_table_tells_the_lamps_cannot_be_wired() -> None:
    assert "x, rules: is unece, and no table here says which lamps a bus has there" in refused(
        "sae_j560", 12, kind="bus", rules="unece"
    )


def test_every_circuit_that_a_vehicle_can_have_has_its_own_id() -> None:
    for connector in LIBRARY.connectors.values():
        one = vehicle(connector.id, connector.nominal_volts)
        ids = [circuit.id for circuit in circuits_of(one, LIBRARY.connectors)]
        assert len(set(ids)) == len(ids)


def test_a_lamp_of_no_known_kind_has_no_circuit() -> None:
    one = vehicle("sae_j560", 12)
    odd: Lamp = replace(lamps_for(one, LIBRARY.checklists)[0], kind="other", name="work lamp")
    with pytest.raises(InputError, match="no circuit for the work lamp"):
        wire(one, [odd], LIBRARY.connectors)


def test_a_vehicle_says_otherwise_where_its_builder_wired_it_otherwise() -> None:
    assert "licence_plate" in lit_by(wired("sae_j560", 12), "marker")
    wiring = wired("sae_j560", 12, special=[{"id": "licence_plate", "circuit": "tail"}])
    assert "licence_plate" in lit_by(wiring, "tail")


# 571.108 S6.3.1: a high-mounted stop lamp is combined with no other lamp, so it never flashes.
@pytest.mark.parametrize("stop_turn", ["separate", "combined"])
def test_the_high_mounted_stop_lamp_of_a_small_truck_is_on_a_circuit_that_is_steady(
    stop_turn: str,
) -> None:
    truck = Vehicle.model_validate(
        {
            **{"id": "x", "kind": "truck", "made": date(2015, 1, 1), "gvwr_kg": 4000},
            **{"width_mm": 2000, "length_mm": 6000},
            "electrical": {"volts": 12, "connector": "sae_j2863", "stop_turn": stop_turn},
        }
    )
    wiring = wire(truck, lamps_for(truck, LIBRARY.checklists), LIBRARY.connectors)
    assert wiring.circuit_of["stop_high"] == "stop"
    left = {"separate": "stop", "combined": "left_stop_turn"}[stop_turn]
    assert wiring.circuit_of["stop_left"] == left
    flashing = {circuit.id for circuit in wiring.circuits if circuit.flashes}
    assert "stop" not in flashing
