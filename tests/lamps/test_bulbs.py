"""Which bulb or LED burns where: as the vehicle's file says, else the usual one."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from walkaround.base.errors import InputError
from walkaround.disk.locations import shipped
from walkaround.lamps.bulbs import Filament, bulb_fault, bulb_in, bulbs_of, filaments_of
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.library.load import load_library
from walkaround.library.standard_tables import standard_tables
from walkaround.rules.lamp_rule import LAMP_KINDS
from walkaround.vehicle.model import Vehicle

LIBRARY = load_library(shipped(), today=date(2025, 11, 1))
BULBS = standard_tables().bulbs


def vehicle(connector: str = "sae_j560", **electrical: Any) -> Vehicle:
    volts = LIBRARY.connectors[connector].nominal_volts
    return Vehicle.model_validate(
        {
            "id": "x",
            "kind": "semitrailer",
            "made": date(2011, 4, 1),
            "width_mm": 2500,
            "length_mm": 12000,
            "brakes": {"system": "air"},
            "electrical": {"volts": volts, "connector": connector, **electrical},
        }
    )


def filaments(one: Vehicle) -> list[Filament]:
    lamps = lamps_for(one, LIBRARY.checklists)
    return list(filaments_of(one, lamps, wire(one, lamps, LIBRARY.connectors), BULBS))


def trade_number(lamp_id: str, **electrical: Any) -> str:
    one = vehicle(**electrical)
    [lamp] = [lamp for lamp in lamps_for(one, LIBRARY.checklists) if lamp.id == lamp_id]
    return bulb_in(lamp, one, BULBS).trade_number


# SAE J573 design data (from memory; 26.9 W and 8.3 W for 1157 read at sl113.org).
def test_a_bulb_of_two_filaments_burns_the_second_for_the_tail_lamp() -> None:
    found = {(f.housing, f.circuit): f for f in filaments(vehicle())}
    stop, tail = found["rear_left", "stop"], found["rear_left", "tail"]
    assert (stop.trade_number, stop.watts, stop.volts) == ("1157", 26.88, 12.8)
    assert (tail.trade_number, tail.watts, tail.volts) == ("1157", 8.26, 14.0)
    assert (tail.cluster, tail.led) == ("rear_left", False)


def test_stop_and_turn_on_one_circuit_are_one_filament() -> None:
    combined = filaments(vehicle("mil_12_us_spec", stop_turn="combined"))
    places = [(f.housing, f.circuit) for f in combined]
    assert places.count(("rear_left", "left_stop_turn")) == 1
    assert len(set(places)) == len(places)


def test_a_bulb_told_for_one_lamp_goes_before_one_told_for_its_kind() -> None:
    told = {"clearance": "67", "clearance_front_left": "led"}
    assert trade_number("clearance_front_right", bulbs=told) == "67"
    assert trade_number("clearance_front_left", bulbs=told) == "LED-marker-12V"


def test_a_vehicle_of_leds_may_have_a_bulb() -> None:
    assert trade_number("tail_left", led=True) == "LED-tail-12V"
    assert trade_number("tail_left", led=True, bulbs={"tail": "2057"}) == "2057"
    leds = filaments(vehicle(led=True))
    assert all(filament.led and not filament.trade_number for filament in leds)


@pytest.mark.parametrize("volts", [12, 24])
@pytest.mark.parametrize("led", [False, True])
@pytest.mark.parametrize("kind", [k for k in LAMP_KINDS if k not in ("reflector", "tape")])
def test_every_kind_of_lamp_has_one_usual_bulb_and_one_usual_led(
    kind: str, led: bool, volts: int
) -> None:
    usual = [b for b in BULBS if (b.led, b.system_volts) == (led, volts) and kind in b.usual_for]
    assert len(usual) == 1


def test_every_bulb_of_the_table_takes_power_and_has_a_source() -> None:
    assert len({bulb.trade_number for bulb in BULBS}) == len(BULBS)
    for bulb in BULBS:
        assert 0 < bulb.watts < 80
        assert bulb.dim_watts is None or 0 < bulb.dim_watts < bulb.watts
        # Bulbs for 12 V are designed for 12 to 14 V, those for 24 V for 24 to 28 V.
        assert bulb.system_volts <= bulb.volts <= bulb.system_volts * 7 / 6
        assert bulb.source
        assert bulb.provenance
        assert bulb.usual_for <= set(LAMP_KINDS)


def test_the_middle_of_a_range_of_currents_is_reckoned_with() -> None:
    columns = "trade_number system_v design_v design_a design_v_2 design_a_2 base usual_for"
    values = ["l", "12", "10", "0.2-0.6", "", "", "LED", "stop tail"]
    row = dict(zip(columns.split(), values, strict=True)) | {"provenance": "p", "source": "s"}
    [led] = bulbs_of([row])
    assert (led.watts, led.led, led.usual_for) == (4.0, True, frozenset({"stop", "tail"}))


def test_a_bulb_that_cannot_burn_here_is_told_when_it_is_looked_for() -> None:
    with pytest.raises(InputError, match=r"electrical\.bulbs\.stop: is 1683, a 24 V bulb"):
        trade_number("stop_left", bulbs={"stop": "1683"})


def test_of_a_bulb_for_another_voltage_those_that_fit_are_named() -> None:
    of_12 = {bulb.trade_number for bulb in BULBS if bulb.system_volts == 12 and not bulb.led}
    of_24 = {bulb.trade_number for bulb in BULBS if bulb.system_volts == 24 and not bulb.led}
    for fitting, other, volts in ((of_12, of_24, 12), (of_24, of_12, 24)):
        fault = bulb_fault(min(other - fitting), volts, BULBS)
        assert fault is not None
        assert set(str(fault[1]).partition(f"; {volts} V bulbs: ")[2].split(", ")) == fitting


def test_an_led_fits_any_voltage_and_its_row_of_the_table_is_no_trade_number() -> None:
    assert bulb_fault("led", 24, BULBS) is None
    assert bulb_fault("1157", 12, BULBS) is None
    fault = bulb_fault("LED-stop-12V", 12, BULBS)
    assert fault is not None
    assert "the bulb table lacks" in str(fault[0])
