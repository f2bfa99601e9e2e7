"""Everything a vehicle's file can get wrong beyond its shape, each in one sentence with a mend."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.connector import Connector
from walkaround.library.load import load_library, reference_of
from walkaround.rules.checklist import Checklist
from walkaround.vehicle.model import KINDS, Vehicle
from walkaround.vehicle_editor.checks import KINDS_ASKED, vehicle_problems

TODAY = date(2025, 11, 1)
SHIPPED = load_library(shipped(), today=TODAY)


def connector(id_: str, volts: int, *functions: str) -> Connector:
    pins = [
        {"pin": str(place), "fn": fn, "function": fn, "p": "r"}
        for place, fn in enumerate(functions, start=1)
    ]
    return Connector.model_validate(
        {
            "id": id_,
            "standard": "test",
            "title": "test",
            "nominal_volts": volts,
            "pin_count": len(pins),
            "source": "test",
            "provenance": "memory",
            "pins": pins,
        }
    )


CONNECTORS: Mapping[str, Connector] = {
    "seven": connector("seven", 12, "GND", "TAIL", "L", "R", "STOP"),
    "plain": connector("plain", 12, "GND", "PERM"),
    "twelve": connector("twelve", 24, "GND", "TAIL", "LSTOP", "RSTOP"),
}


def vehicle(**changes: Any) -> Vehicle:
    table = {
        "id": "trailer_7",
        "kind": "semitrailer",
        "made": date(2011, 4, 1),
        "width_mm": 2591,
        "length_mm": 13716,
        "electrical": {"volts": 12, "connector": "seven"},
    }
    return Vehicle.model_validate(table | changes)


def problems(**changes: Any) -> list[tuple[str, str]]:
    """Key, and what with mend, of each problem, with the connectors above and no checklists."""
    return found_in(vehicle(**changes), CONNECTORS, ())


def lamp_problems(**changes: Any) -> list[tuple[str, str]]:
    """The same with the shipped connectors and checklists, so that lamps are checked as well."""
    return found_in(vehicle(**changes), SHIPPED.connectors, SHIPPED.checklists)


def found_in(
    one: Vehicle, connectors: Mapping[str, Connector], checklists: tuple[Checklist, ...]
) -> list[tuple[str, str]]:
    found = vehicle_problems(one, "v.toml", reference_of(checklists, connectors, TODAY))
    assert all(problem.where == "v.toml" for problem in found)
    return [(problem.key, f"{problem.what}; {problem.mend}") for problem in found]


def electrical(volts: int = 12, connector: str = "sae_j560", **changes: Any) -> dict[str, Any]:
    return {"volts": volts, "connector": connector, **changes}


def test_a_sound_vehicle_has_no_problems() -> None:
    assert problems(vin="1M8GDM9AXKP042788", gvwr_kg=30000) == []


def test_a_12_volt_vehicle_cannot_have_a_24_volt_connector() -> None:
    wired = electrical(12, "twelve", stop_turn="combined")
    assert problems(electrical=wired) == [
        (
            "electrical.volts",
            "is 12, but twelve is a 24 V connector; correct volts or name the connector as wired",
        )
    ]


def test_an_unknown_connector_is_named_with_the_nearest_known_one() -> None:
    assert problems(electrical={"volts": 12, "connector": "sevn"}) == [
        ("electrical.connector", "no connector is called sevn; perhaps seven is meant")
    ]


def test_combined_contacts_cannot_feed_separate_stop_and_turn_lamps() -> None:
    [(key, sentence)] = problems(electrical={"volts": 24, "connector": "twelve"})
    assert key == "electrical.stop_turn"
    assert 'set stop_turn = "combined"' in sentence


def test_a_connector_without_lamp_contacts_is_not_the_one_to_name() -> None:
    [(key, sentence)] = problems(electrical={"volts": 12, "connector": "plain"})
    assert key == "electrical.connector"
    assert "feeds no lamps" in sentence


def test_blackout_lamps_need_blackout_contacts_except_on_a_power_unit() -> None:
    wired = electrical(12, "seven", blackout=True)
    assert problems(electrical=wired) == [
        (
            "electrical.blackout",
            "is true, but seven has no blackout contacts; "
            "set it to false or name the connector as wired",
        )
    ]
    assert problems(electrical=wired, kind="truck") == []


def test_a_date_of_make_to_come_is_a_problem_but_today_is_not() -> None:
    assert problems(made=TODAY) == []
    assert problems(made=date(2025, 11, 2)) == [
        ("made", "is 2025-11-02, a day to come; correct the date of make")
    ]


@pytest.mark.parametrize(
    ("key", "value"),
    [("width_mm", 2.6), ("width_mm", 25910), ("length_mm", 13.7), ("gvwr_kg", 1e9)],
)
def test_a_slip_of_the_unit_is_a_problem(key: str, value: float) -> None:
    [(found, sentence)] = problems(**{key: value})
    assert found == key
    assert "not the size of a road vehicle" in sentence


# 49 CFR 393.47(e)(1): types that the tables list (from memory); 31 is none.
def test_a_chamber_type_that_no_table_has_is_named_with_its_axle() -> None:
    axles = [{"actuator": "clamp", "type": "30"}, {"actuator": "clamp", "type": "31"}]
    [(key, sentence)] = problems(brakes={"system": "air", "axles": axles})
    assert key == "brakes.axles 2.type"
    assert sentence.startswith("is 31, which no stroke table lists for a clamp chamber; ")
    assert 'set actuator = "other" and rated_stroke_in' in sentence


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("key", sorted(KINDS_ASKED))
def test_a_key_that_no_rule_asks_of_such_a_vehicle_is_a_problem(key: str, kind: str) -> None:
    value = {"cab_width_mm": 1000, "body": "tank"}.get(key, True)
    found = [k for k, _ in problems(kind=kind, **{key: value})]
    assert found == ([] if kind in KINDS_ASKED[key] else [key])


def test_an_unknown_trade_number_is_named_with_the_nearest_known_one() -> None:
    assert problems(electrical=electrical(connector="seven", bulbs={"tail": "1175"})) == [
        (
            "electrical.bulbs.tail",
            'is 1175, which the bulb table lacks; perhaps 1157 is meant, or write "led"',
        )
    ]


def test_a_bulb_for_another_voltage_is_a_problem() -> None:
    [(key, sentence)] = problems(electrical=electrical(connector="seven", bulbs={"stop": "1683"}))
    assert key == "electrical.bulbs.stop"
    assert sentence.startswith("is 1683, a 24 V bulb in a 12 V vehicle; correct the number or ")
    assert "1156" in sentence


def test_a_bulb_for_what_is_no_lamp_here_is_a_problem() -> None:
    wired = electrical(
        bulbs={"tail": "1157", "tail_left": "led", "tale": "1157", "headlamp": "led"}
    )
    assert lamp_problems(electrical=wired) == [
        (
            "electrical.bulbs.tale",
            "is neither a kind of lamp nor a lamp of this vehicle; perhaps tail is meant",
        )
    ]


def test_a_lamp_on_a_circuit_that_its_connector_lacks_is_a_problem() -> None:
    wired = electrical(24, "iso_1185", lamps=[{"id": "licence_plate", "circuit": "tale_left"}])
    assert lamp_problems(electrical=wired) == [
        (
            "electrical.lamps licence_plate.circuit",
            "no circuit of iso_1185 is called tale_left; perhaps tail_left is meant",
        )
    ]


@pytest.mark.parametrize(
    ("lamps", "key", "said"),
    [
        ([{"id": "tail"}], "electrical.lamps tail", "says nothing"),
        ([{"id": "abs", "cluster": "a"}] * 2, "electrical.lamps abs", "stands twice"),
        ([{"id": "abc", "cluster": "a"}], "electrical.lamps abc", "no lamp of this id"),
    ],
)
def test_what_a_file_says_of_a_lamp_is_about_a_lamp_and_said_once(
    lamps: list[dict[str, str]], key: str, said: str
) -> None:
    [(found, sentence)] = lamp_problems(electrical=electrical(lamps=lamps))
    assert found == key
    assert said in sentence


def test_without_checklists_ids_of_lamps_are_left_to_the_wiring() -> None:
    wired = electrical(connector="seven", lamps=[{"id": "abc", "circuit": "tail"}])
    assert problems(electrical=wired) == []


def test_a_second_connector_is_known_and_of_the_same_voltage() -> None:
    assert problems(electrical=electrical(connector="seven", second_connector="plain")) == []
    [unknown] = problems(electrical=electrical(connector="seven", second_connector="plane"))
    assert unknown[0] == "electrical.second_connector"
    assert "perhaps plain is meant" in unknown[1]
    [other] = problems(electrical=electrical(connector="seven", second_connector="twelve"))
    assert other[0] == "electrical.volts"


def test_lamps_that_no_table_tells_of_are_told_as_a_problem_of_the_rules() -> None:
    [(key, sentence)] = lamp_problems(kind="truck", rules="unece", electrical=electrical())
    assert key == "rules"
    assert "no table here says which lamps a truck has" in sentence


def test_all_problems_of_a_vehicle_are_told_at_once() -> None:
    found = problems(
        width_mm=2,
        made=date(2100, 1, 1),
        vin="SHORT",
        boat=True,
        kind="converter dolly",
        brakes={"axles": [{"actuator": "bolt", "type": "Z"}]},
        electrical=electrical(connector="nothing_like_it", bulbs={"tail": "0"}),
    )
    assert {key for key, _ in found} == {
        "width_mm",
        "made",
        "vin",
        "boat",
        "brakes.axles 1.type",
        "electrical.bulbs.tail",
        "electrical.connector",
    }
