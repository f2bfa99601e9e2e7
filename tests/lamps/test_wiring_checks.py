"""What a connector table can get wrong, each in one sentence; how a vehicle fits its connectors
is tested with everything else that its file can get wrong."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from walkaround.lamps.connector import ConnectorTable
from walkaround.lamps.wiring_checks import connector_problems


def connector(**changes: Any) -> dict[str, Any]:
    pin = {"pin": "1", "fn": "GND", "function": "ground", "p": "r"}
    table = {
        "id": "x",
        "standard": "x",
        "title": "x",
        "nominal_volts": 12,
        "pin_count": 2,
        "source": "x",
        "provenance": "read",
        "pins": [pin, pin | {"pin": "2", "fn": "TAIL"}],
    }
    return table | changes


def problems(*connectors: dict[str, Any]) -> list[str]:
    table = ConnectorTable.model_validate({"connector": list(connectors)})
    return [str(problem) for problem in connector_problems(table, "c.toml")]


def test_a_sound_table_has_no_problems() -> None:
    one, other = connector(shares_shell=["y"]), connector(id="y", shares_shell=["x"])
    assert problems(one, other) == []


def test_a_connector_whose_pins_are_not_all_listed_is_a_problem() -> None:
    [problem] = problems(connector(pin_count=7))
    assert problem.startswith("c.toml, connector x.pin_count: is 7, but 2 pins are listed; ")


@pytest.mark.parametrize(("connectors", "pins"), [(100, 2), (2, 60)])
def test_a_table_has_at_most_a_hundred_connectors_and_sixty_pins_in_each(
    connectors: int, pins: int
) -> None:
    def table(connectors: int, pins: int) -> list[str]:
        each = [
            {"pin": f"{pin}", "fn": "GND", "function": "ground", "p": "r"} for pin in range(pins)
        ]
        return problems(
            *(connector(id=f"c{n}", pin_count=pins, pins=each) for n in range(connectors))
        )

    assert table(connectors, pins) == []
    more = (connectors + 1, pins) if connectors == 100 else (1, pins + 1)
    [problem] = table(*more)
    assert f"{max(more)}" in problem


def test_a_connector_without_a_pin_is_none() -> None:
    with pytest.raises(ValidationError, match="pin_count"):
        problems(connector(pin_count=0, pins=[]))


def test_a_pin_that_stands_twice_is_a_problem() -> None:
    pin = {"pin": "1", "fn": "GND", "function": "ground", "p": "r"}
    [problem] = problems(connector(pins=[pin, pin]))
    assert "pins 1: stands twice" in problem


def test_a_connector_that_stands_twice_is_a_problem() -> None:
    assert problems(connector(), connector()) == [
        "c.toml, connector x: stands twice; give each its own id."
    ]


def test_a_shared_shell_is_named_by_each_of_those_that_share_it() -> None:
    one, other = connector(shares_shell=["y"]), connector(id="y")
    assert problems(one, other) == [
        "c.toml, connector x.shares_shell: names y, which does not name x; "
        "name each in the other, or neither."
    ]
    [itself] = problems(connector(shares_shell=["x"]))
    assert "names x" in itself
    [unknown] = problems(connector(shares_shell=["z"]))
    assert "no connector is called z" in unknown


def test_nothing_fills_a_placeholder_of_a_connector() -> None:
    pin = {"pin": "1", "fn": "GND", "function": "ground {volts}", "p": "r"}
    table = connector(pin_count=1, pins=[pin], title="fed by {110 psi}")
    [problem] = problems(table)
    assert problem.startswith("c.toml, connector x.pins 1.function: nothing fills the placeholder")
