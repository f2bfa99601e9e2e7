"""A tow vehicle's socket: faults put into every connector of the table, and what is made of them.

What each contact is for is the connector table's, with its sources there (SAE J560, ISO 1185,
ISO 3731, ISO 12098, ISO 11446, MIL-STD and STANAG 4007 wirings).
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH

from walkaround.contacts.socket import (
    OFF,
    Light,
    SocketFault,
    SocketSwitch,
    probed_contacts,
    socket_faults,
    switches_of,
    unprobed_contacts,
)
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library

CONNECTORS = load_library(shipped(), today=date(2026, 11, 26)).connectors
LAMP_CONNECTORS = sorted(id_ for id_, each in CONNECTORS.items() if each.feeds_lamps)
J560 = switches_of(CONNECTORS["sae_j560"])
NEVER = frozenset({"ABS", "CAN_H", "CAN_L", "SIG", "GND", "NC", "PERM", "IGN", "AUX", "BRK"})


def sound(switches: tuple[SocketSwitch, ...]) -> dict[str, dict[str, Light]]:
    """What is seen where nothing is wrong."""
    seen: dict[str, dict[str, Light]] = {OFF: {}}
    return seen | {switch.id: dict.fromkeys(switch.contacts, "bright") for switch in switches}


def with_(**live: str) -> dict[str, dict[str, Light]]:
    """A sound 7-pin heavy trailer socket, but for these switches: live contacts, a letter each."""
    told: Mapping[str, dict[str, Light]] = {
        switch: dict.fromkeys(contacts, "bright") for switch, contacts in live.items()
    }
    return sound(J560) | dict(told)


@pytest.mark.parametrize("connector", LAMP_CONNECTORS)
def test_a_sound_socket_has_nothing_wrong(connector: str) -> None:
    switches = switches_of(CONNECTORS[connector])
    assert {"lamps", "left_turn", "right_turn", "stop"} <= {switch.id for switch in switches}
    assert socket_faults(switches, sound(switches)) == ()


@pytest.mark.parametrize("connector", LAMP_CONNECTORS)
def test_what_feeds_the_abs_or_carries_data_is_never_probed(connector: str) -> None:
    at = CONNECTORS[connector]
    contacts = probed_contacts(switches_of(at))
    for pin in at.pins:
        if pin.fn in NEVER:
            assert pin.pin not in contacts
    # Each contact is either looked at, left alone by name, or no feed at all.
    named = len(contacts) + len(unprobed_contacts(at))
    assert named == sum(pin.fn not in ("GND", "NC") for pin in at.pins)


def test_stop_and_turn_on_shared_contacts_are_understood() -> None:
    """The tactical wiring's stop contacts carry the turn signals; its table row has the source."""
    shared = [id_ for id_ in LAMP_CONNECTORS if {"LSTOP", "RSTOP"} <= CONNECTORS[id_].functions]
    assert shared
    for id_ in shared:
        at = {switch.id: set(switch.contacts) for switch in switches_of(CONNECTORS[id_])}
        assert at["left_turn"] & at["stop"]
        assert at["right_turn"] & at["stop"]
        assert not at["left_turn"] & at["right_turn"]


@pytest.mark.parametrize(
    ("seen", "faults", "said"),
    [
        (with_(stop=""), [SocketFault("missing", ("4",), ("stop",))], "Stop: nothing at 4."),
        (
            with_(left_turn="5", right_turn="3"),
            [SocketFault("swapped", ("3", "5"), ("left_turn", "right_turn"))],
            "Left turn, Right turn are swapped.",
        ),
        (
            with_(lamps="264", stop="426"),
            [SocketFault("joined", ("2", "6", "4"), ("lamps", "stop"))],
            "Lamps, Stop: either feeds both, they hang together.",
        ),
        (
            with_(left_turn="36"),
            [SocketFault("back_fed", ("6",), ("left_turn",))],
            "Left turn: also live at 6, which has another switch.",
        ),
        (
            {each: {**live, "4": "bright"} for each, live in sound(J560).items()},
            [SocketFault("always_on", ("4",))],
            "Live with everything off: 4.",
        ),
        (
            with_() | {"right_turn": {"5": "dim"}},
            [SocketFault("low", ("5",), ("right_turn",))],
            "Right turn: dim at 5, too little under load.",
        ),
    ],
)
def test_what_is_live_says_what_is_wrong(
    seen: dict[str, dict[str, Light]], faults: list[SocketFault], said: str
) -> None:
    found = socket_faults(J560, seen)
    assert list(found) == faults
    assert ENGLISH.text(found[0].text) == said


@given(st.data())
def test_anything_seen_is_understood_and_every_contact_that_is_wrong_is_named(
    data: st.DataObject,
) -> None:
    switches = switches_of(CONNECTORS[data.draw(st.sampled_from(LAMP_CONNECTORS))])
    contacts = probed_contacts(switches)
    lights = st.dictionaries(st.sampled_from(contacts), st.sampled_from(["bright", "dim"]))
    ids = [OFF, *(switch.id for switch in switches)]
    seen = data.draw(st.dictionaries(st.sampled_from(ids), lights))
    faults = socket_faults(switches, seen)
    named = {contact for fault in faults for contact in fault.contacts}
    always = set(seen.get(OFF, {}))
    wrong = set(always)
    for switch in switches:
        if switch.id in seen:
            wrong |= set(switch.contacts) ^ (set(seen[switch.id]) | always & set(switch.contacts))
    # What is always on is told as that, not once more of each switch.
    assert wrong - always <= named
    assert bool(faults) >= bool(wrong)
    if all(light == "bright" for live in seen.values() for light in live.values()) and not wrong:
        assert faults == ()
