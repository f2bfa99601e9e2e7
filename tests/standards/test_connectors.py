"""Connector tables against the standards, typed apart from checklists/connectors.toml."""

from __future__ import annotations

import pytest

from walkaround.loading import connectors_from
from walkaround.locations import shipped
from walkaround.wiring import Connector

CONNECTORS = connectors_from(shipped() / "connectors.toml")

# SAE J560; pins 1 to 6 and colours read at wikimili.com/en/Trailer_connectors_in_Australia, all
# seven in a 12 V connector figure of a power converter's application data sheet
# (manualshelf.com, 4: stop and ABS, 7: continuous power for ABS).
SAE_J560 = {
    "1": ("GND", "white"),
    "2": ("MARK", "black"),
    "3": ("L", "yellow"),
    "4": ("STOP", "red"),
    "5": ("R", "green"),
    "6": ("TAIL", "brown"),
    "7": ("ABS", "blue"),
}
# MIL-S-62183C 3.11.5 (read at mil-spec.tpub.com): these contacts, the remaining not connected.
MIL_S_62183C = {"B": "LSTOP", "D": "GND", "E": "TAIL", "J": "RSTOP", "L": "GND"}
# US tactical 12-contact wiring, from memory beyond the five contacts of MIL-S-62183C.
US_TACTICAL = {
    "A": "BO_MARK",
    "B": "LSTOP",
    "C": "BO_MARK",
    "D": "GND",
    "E": "TAIL",
    "F": "BO_STOP",
    "H": "BO_MARK",
    "J": "RSTOP",
    "K": "AUX",
    "L": "GND",
    "M": "NC",
    "N": "NC",
}
# STANAG 4007 (read at en.wikipedia.org/wiki/Trailer_connectors_in_military_organizations).
STANAG_4007 = {
    "A": "BO_SW",
    "B": "L",
    "C": "BO_MARK",
    "D": "GND",
    "E": "TAIL",
    "F": "BO_STOP",
    "H": "FOG",
    "J": "R",
    "K": "AUX",
    "L": "GND",
    "M": "STOP",
    "N": "REV",
}
# ISO 1724 and ISO 11446 pins 1 to 7 (read at roofoverbritain.com section 9).
ISO_1724 = {
    "1": "L",
    "2": "FOG",
    "3": "GND",
    "4": "R",
    "5": "TAIL_R",
    "6": "STOP",
    "7": "TAIL_L",
}
# Contact letters of the 12-contact shell: G and I are not used (MIL-S-62183C, STANAG 4007).
TWELVE_LETTERS = "ABCDEFHJKLMN"


def functions(connector: Connector) -> dict[str, str]:
    return {pin.pin: pin.fn for pin in connector.pins}


def test_sae_j560_pins_and_colours_are_the_standards() -> None:
    connector = CONNECTORS["sae_j560"]
    assert {pin.pin: (pin.fn, pin.colour) for pin in connector.pins} == SAE_J560
    assert connector.nominal_volts == 12


def test_the_us_trailer_specification_feeds_five_contacts_and_no_other() -> None:
    found = functions(CONNECTORS["mil_12_us_spec"])
    assert {pin: fn for pin, fn in found.items() if fn != "NC"} == MIL_S_62183C


def test_us_tactical_wiring_is_as_recalled_and_agrees_with_the_specification() -> None:
    found = functions(CONNECTORS["mil_12_us_tactical"])
    assert found == US_TACTICAL
    assert found.items() >= MIL_S_62183C.items()


def test_what_only_memory_says_of_the_tactical_wiring_is_metered_first() -> None:
    pins = CONNECTORS["mil_12_us_tactical"].pins
    assert {pin.pin for pin in pins if pin.doubt} == {"A", "C", "H", "K"}


def test_stanag_4007_contacts_are_the_standards() -> None:
    assert functions(CONNECTORS["nato_12_stanag4007"]) == STANAG_4007


@pytest.mark.parametrize("connector_id", ["iso_1724", "iso_11446"])
def test_iso_12_volt_pins_one_to_seven_are_the_standards(connector_id: str) -> None:
    assert functions(CONNECTORS[connector_id]).items() >= ISO_1724.items()


@pytest.mark.parametrize("connector_id", [id_ for id_ in CONNECTORS if "_12_" in id_])
def test_every_12_contact_wiring_uses_the_letters_of_its_shell(connector_id: str) -> None:
    connector = CONNECTORS[connector_id]
    assert "".join(pin.pin for pin in connector.pins) == TWELVE_LETTERS
    assert connector.warning
