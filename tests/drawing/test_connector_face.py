"""Faces of connectors: what is known is drawn where it is, what is not known stands in rows."""

from __future__ import annotations

from datetime import date
from itertools import combinations
from math import atan2, dist, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.disk.locations import shipped
from walkaround.drawing.connector_face import (
    LAYOUTS,
    ConnectorDrawing,
    advice,
    caption,
    connector_drawing,
    face_words,
    layout_of,
)
from walkaround.lamps.connector import Connector
from walkaround.library.load import load_library

CONNECTORS = load_library(shipped(), today=date(2026, 11, 1)).connectors
KNOWN = sorted(id_ for id_, connector in CONNECTORS.items() if layout_of(connector))
UNKNOWN = sorted(CONNECTORS.keys() - KNOWN)

connectors = st.sampled_from(sorted(CONNECTORS)).map(CONNECTORS.__getitem__)
sizes = st.tuples(st.floats(100, 700), st.floats(60, 700))
lookings = st.sampled_from(["socket", "plug"])


def hours(drawn: ConnectorDrawing) -> dict[str, int]:
    """The hour of the dial at which each contact off the centre was drawn."""
    assert drawn.shell is not None
    (x, y), _ = drawn.shell
    angles = {
        contact.pin: atan2(contact.center[0] - x, y - contact.center[1])
        for contact in drawn.contacts
        if dist(contact.center, (x, y)) > 1
    }
    return {pin: round(angle / (pi / 6)) % 12 or 12 for pin, angle in angles.items()}


def test_iso_1724_is_numbered_clockwise_from_the_top_looking_into_the_socket() -> None:
    # contenderclass.de, on trailer plugs (in German): looking from behind at the socket on the
    # car, the notch is at the bottom, contact 1 at the top, 2 to 6 follow clockwise, 7 is left for
    # the centre. kfz-tech.de, trailer socket, from the plug's side: left turn signal (1) at the
    # top, 54 (6) above left, 54g (2) above right, 58L (7) centre, 58R (5) bottom left, 31 (3)
    # bottom right, right turn signal (4) bottom.
    drawn = connector_drawing(CONNECTORS["iso_1724"], 200, 200)
    assert hours(drawn) == {"1": 12, "2": 2, "3": 4, "4": 6, "5": 8, "6": 10}
    assert drawn.shell is not None
    assert [c.pin for c in drawn.contacts if c.center == drawn.shell[0]] == ["7"]
    assert drawn.notch is not None
    assert drawn.notch[0][1] > drawn.shell[0][1] + 0.8 * drawn.shell[1]


def test_the_light_blade_connector_has_its_functions_at_these_hours() -> None:
    # elektroda.com, 7-pin trailer connector, looking into the vehicle socket with the notch at the
    # top: tail 11, battery 1, right turn and stop 3, brakes 5, ground 7, left 9, backup centre.
    connector = CONNECTORS["sae_j2863"]
    at = hours(connector_drawing(connector, 200, 200))
    assert {pin.fn: at.get(pin.pin) for pin in connector.pins} == {
        "TAIL": 11,
        "PERM": 1,
        "RSTOP": 3,
        "BRK": 5,
        "GND": 7,
        "LSTOP": 9,
        "REV": None,
    }


def test_the_two_wirings_of_the_heavy_shell_have_one_face() -> None:
    # A connector maker's page on SAE J560: its plug is physically identical to that of ISO 1185.
    one, other = (connector_drawing(CONNECTORS[id_], 200, 200) for id_ in ("sae_j560", "iso_1185"))
    assert [(c.pin, c.center) for c in one.contacts] == [(c.pin, c.center) for c in other.contacts]


@pytest.mark.parametrize("id_", KNOWN)
def test_looking_into_the_plug_left_and_right_change_places(id_: str) -> None:
    socket, plug = (
        connector_drawing(CONNECTORS[id_], 240, 180, looking) for looking in ("socket", "plug")
    )
    for here, there in zip(socket.contacts, plug.contacts, strict=True):
        assert here.pin == there.pin
        assert there.center == pytest.approx((240 - here.center[0], here.center[1]))


@pytest.mark.parametrize("id_", UNKNOWN)
def test_a_face_that_is_not_known_is_not_made_up(id_: str) -> None:
    connector = CONNECTORS[id_]
    drawn = connector_drawing(connector, 300, 150)
    assert drawn.shell is None
    assert drawn.notch is None
    # Rows are read like a page: in the order of the table, all of one size.
    places = [(contact.center[1], contact.center[0]) for contact in drawn.contacts]
    assert places == sorted(places)
    assert [contact.pin for contact in drawn.contacts] == [pin.pin for pin in connector.pins]
    assert "not drawn to scale" in str(advice(connector))
    assert "Looking" not in str(caption(connector))


def test_another_set_of_contacts_under_a_known_id_is_not_drawn_on_that_face() -> None:
    connector = CONNECTORS["sae_j560"]
    fewer = connector.model_copy(update={"pins": connector.pins[:5], "pin_count": 5})
    assert layout_of(connector) is not None
    assert layout_of(fewer) is None
    assert connector_drawing(fewer, 200, 100).shell is None


@given(connectors, sizes, lookings)
def test_contacts_lie_in_the_box_and_on_no_other(
    connector: Connector, size: tuple[float, float], looking: str
) -> None:
    drawn = connector_drawing(connector, *size, "plug" if looking == "plug" else "socket")
    assert len(drawn.contacts) == len(connector.pins)
    for contact in drawn.contacts:
        for at, most in zip(contact.center, size, strict=True):
            assert contact.radius - 1e-6 <= at <= most - contact.radius + 1e-6
    for one, other in combinations(drawn.contacts, 2):
        assert dist(one.center, other.center) > one.radius + other.radius
    if drawn.shell is not None:
        middle, radius = drawn.shell
        for contact in drawn.contacts:
            assert dist(contact.center, middle) + contact.radius < radius
    if drawn.notch is not None:
        at, small = drawn.notch
        assert all(dist(at, c.center) > small + c.radius for c in drawn.contacts)


@given(connectors)
def test_contacts_in_doubt_are_marked_and_no_others(connector: Connector) -> None:
    doubtful = [
        contact.pin
        for contact in connector_drawing(connector, 200, 200).contacts
        if contact.doubtful
    ]
    assert doubtful == [pin.pin for pin in connector.pins if pin.doubt]


@pytest.mark.parametrize("id_", sorted(LAYOUTS))
def test_a_face_from_memory_says_so_and_every_face_has_a_source(id_: str) -> None:
    layout = LAYOUTS[id_]
    assert layout.source
    assert ("from memory" in layout.source) == (layout.provenance == "memory")
    assert ("From memory" in str(advice(CONNECTORS[id_]))) == (layout.provenance == "memory")


@pytest.mark.parametrize("id_", sorted(CONNECTORS))
def test_the_marks_on_the_connector_itself_come_first(id_: str) -> None:
    letters = CONNECTORS[id_].pins[0].pin.isalpha()
    assert f"go by the {'letters' if letters else 'numbers'} beside the contacts" in str(
        advice(CONNECTORS[id_])
    )


def test_the_words_say_which_contacts_where_and_which_are_in_doubt() -> None:
    said = str(face_words(CONNECTORS["sae_j560"], ["4", "2"], "plug"))
    assert said.startswith("Looking into the plug, 7-pin heavy trailer")
    assert "contact 2 at 10 o'clock: clearance, side marker" in said
    assert "contact 4 at 6 o'clock: stop lamps" in said
    assert "also in doubt: 7" in said
    assert "contact 7 in the center: continuous ABS power / auxiliary, in doubt" in str(
        face_words(CONNECTORS["sae_j560"], ["7"])
    )
    assert "o'clock" not in str(face_words(CONNECTORS["mil_12_us_tactical"], ["A"]))
