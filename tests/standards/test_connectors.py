"""Connector tables against the standards, typed apart from checklists/connectors.toml."""

from __future__ import annotations

from datetime import date

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.connector import Connector
from walkaround.library.load import load_library

CONNECTORS = load_library(shipped(), today=date(2026, 11, 1)).connectors

# SAE J560 in a 12 V connector figure of a power converter's application data sheet (4: stop and
# ABS, 7: continuous power for ABS).
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
# US tactical 12-contact wiring, from memory beyond the five contacts of MIL-S-62183C, of which B
# and J carry stop and turn on tactical trucks too (MIL-S-45152H 3.17.5).
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
# ISO 1724 (read at roofoverbritain.com section 9); ISO 11446 has it as pins 1 to 7.
ISO_1724 = {
    "1": "L",
    "2": "FOG",
    "3": "GND",
    "4": "R",
    "5": "TAIL_R",
    "6": "STOP",
    "7": "TAIL_L",
}
# Typed as pins in order. ISO 11446 (read in a Wikipedia copy, pins 1 to 12; pin 13 at
# roofoverbritain.com); ISO 3732 (read there); ISO 1185 and 3731 (read at tralert.com, 7-pin N, S);
# ISO 12098 (a connector maker's catalog); ISO 7638 (an encyclopedia's table; pin 5 in a brake
# maker's guide); SAE J2863 (read at randpcarriages.com); UK practice read at roofoverbritain.com;
# Australian dolly converter read in Electrical and Mechanical Engineering Instruction Vehicle H
# 983, Table 4.
IN_ORDER = {
    "iso_11446": "L FOG GND R TAIL_R STOP TAIL_L REV PERM IGN GND NC GND",
    "iso_3732": "REV IGN GND PERM NC IGN GND",
    "iso_1185": "GND TAIL_L L STOP R TAIL_R BRK",
    "iso_3731": "GND NC REV PERM AUX IGN FOG",
    "iso_12098": "L R FOG GND TAIL_L TAIL_R STOP REV PERM AUX AUX AUX GND CAN_H CAN_L",
    "iso_7638_1": "PERM IGN GND GND SIG CAN_H CAN_L",
    "sae_j2863": "GND BRK TAIL PERM LSTOP RSTOP REV",
    # A B C D E F H J K L M N
    "nato_12_uk": "BO_MARK LST_ONLY BO_MARK GND TAIL BO_STOP BO_MARK RST_ONLY AUX GND L R",
    "nato_12_au": "NC STOP NC GND TAIL NC NC NC AUX GND L R",
}
VOLTS = {
    "sae_j560": 12,
    "iso_1185": 24,
    "iso_3731": 24,
    "iso_12098": 24,
    "iso_7638_1": 24,
    "iso_1724": 12,
    "iso_3732": 12,
    "iso_11446": 12,
    "sae_j2863": 12,
    "mil_12_us_spec": 24,
    "mil_12_us_tactical": 24,
    "nato_12_stanag4007": 24,
    "nato_12_uk": 24,
    "nato_12_au": 24,
}
# Wirings that fit one shell: the 12-contact one by nation, and the seven-pin one of SAE J560 and
# ISO 1185 (read at a connector maker's: the plugs are alike; the 12-contact one in each source).
SHELLS = [
    {"sae_j560", "iso_1185"},
    {
        "mil_12_us_spec",
        "mil_12_us_tactical",
        "nato_12_stanag4007",
        "nato_12_uk",
        "nato_12_au",
    },
]
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
    assert {pin.pin for pin in pins if pin.doubt} == set("ACHKMN")


def test_stanag_4007_contacts_are_the_standards() -> None:
    assert functions(CONNECTORS["nato_12_stanag4007"]) == STANAG_4007


def test_iso_1724_pins_are_the_standards_and_iso_11446_begins_with_them() -> None:
    assert functions(CONNECTORS["iso_1724"]) == ISO_1724
    assert functions(CONNECTORS["iso_11446"]).items() >= ISO_1724.items()


@pytest.mark.parametrize("connector_id", sorted(IN_ORDER))
def test_every_pin_has_the_function_of_its_standard(connector_id: str) -> None:
    found = functions(CONNECTORS[connector_id])
    assert " ".join(found.values()) == IN_ORDER[connector_id]


def test_every_connector_has_the_voltage_of_its_standard() -> None:
    assert {id_: connector.nominal_volts for id_, connector in CONNECTORS.items()} == VOLTS


def test_wirings_that_share_a_shell_name_each_other_and_warn() -> None:
    for id_, connector in CONNECTORS.items():
        others = [shell - {id_} for shell in SHELLS if id_ in shell]
        assert set(connector.shares_shell) == (others[0] if others else set())
        assert not others or "shell" in connector.warning


@pytest.mark.parametrize("connector_id", [id_ for id_ in CONNECTORS if "_12_" in id_])
def test_every_12_contact_wiring_uses_the_letters_of_its_shell(connector_id: str) -> None:
    connector = CONNECTORS[connector_id]
    assert "".join(pin.pin for pin in connector.pins) == TWELVE_LETTERS
    assert connector.warning
