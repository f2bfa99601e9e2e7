"""The connector table: what older tables may say, and which kinds hang elsewhere."""

from __future__ import annotations

from typing import Any

import pytest

from walkaround.lamps.connector import Connector


def connector(**changes: Any) -> Connector:
    table = {
        **{"id": "own", "standard": "own", "title": "own", "nominal_volts": 12, "pin_count": 1},
        **{"source": "book", "provenance": "memory"},
        "pins": [{"pin": "1", "fn": "TAIL", "function": "tail", "p": "m"}],
    }
    return Connector.model_validate(table | changes)


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("read", "read"),
        ("read (pin 7 memory)", "read"),
        ("memory; pins 2 and 5 doubtful", "memory"),
        ("common practice, no source", "common practice, no source"),
        ("shop drawing", "memory"),
    ],
)
def test_a_table_of_an_earlier_form_goes_on_being_read(written: str, kind: str) -> None:
    pin = {"pin": "1", "fn": "TAIL", "function": "tail", "p": "m", "us_circuit": "21"}
    found = connector(provenance=written, pins=[pin])
    assert found.provenance == kind
    assert found.pins[0].fn == "TAIL"


def test_a_color_may_be_less_sure_than_the_function_of_its_contact() -> None:
    pin = {"pin": "1", "fn": "TAIL", "function": "tail", "p": "r", "colour_p": "m"}
    assert connector(pins=[pin]).pins[0].colour_p == "m"
    assert connector().pins[0].colour_p is None
