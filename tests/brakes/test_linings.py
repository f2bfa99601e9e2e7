"""How thin linings may be.

49 CFR 393.47(d) and part 396 App. A 1.a(6)(c), (d), read in a public copy: steering axles of
trucks, truck tractors and buses 3/16 in (4.8 mm) for one strip, 1/4 in (6.4 mm) for two pads, air
disc 1/8 in (3.2 mm); other axles 1/4 in, air disc 1/8 in. The appendix has 1/4 in for every drum.
"""

from __future__ import annotations

from datetime import date
from typing import Literal

import pytest

from walkaround.base.units import length_limit_text
from walkaround.brakes.linings import is_steering_axle, lining_limit
from walkaround.vehicle.model import KINDS, Axle, Electrical, Kind, Vehicle
from walkaround.words.pronunciation import pronounced

DRUM, DISC = Axle(foundation="drum"), Axle(foundation="disc")
EVERY = [(axle, steer) for axle in (DRUM, DISC) for steer in (True, False)]


def vehicle(kind: Kind) -> Vehicle:
    plug = Electrical(volts=12, connector="x")
    made = date(2011, 4, 1)
    return Vehicle(id="x", kind=kind, made=made, width_mm=2500, length_mm=9000, electrical=plug)


@pytest.mark.parametrize(
    ("steer", "foundation", "limit_in", "limit_mm", "paragraph"),
    [
        (True, "drum", 1 / 4, "6.4 mm", "(d)(1)"),
        (True, "disc", 1 / 8, "3.2 mm", "(d)(1)"),
        (False, "drum", 1 / 4, "6.4 mm", "(d)(2)"),
        (False, "disc", 1 / 8, "3.2 mm", "(d)(2)"),
    ],
)
def test_limits_are_those_of_393_47_d(
    steer: bool,
    foundation: Literal["drum", "disc"],
    limit_in: float,
    limit_mm: str,
    paragraph: str,
) -> None:
    limit = lining_limit(Axle(foundation=foundation), steer)
    assert limit.limit_in == limit_in
    assert length_limit_text(limit.limit_in, "mm") == limit_mm
    assert limit.source.startswith(f"49 CFR 393.47{paragraph}")


def test_where_the_two_texts_differ_both_are_given() -> None:
    """393.47(d)(1) lets one strip be 3/16 in, the appendix asks 1/4 in of every drum."""
    steering = lining_limit(DRUM, True)
    assert "App. A 1.a(6)(d)" in steering.source
    assert str(steering.also[0]).startswith("3/16 in for a shoe with one strip")


@pytest.mark.parametrize(("axle", "steer"), EVERY)
def test_a_drum_lining_may_be_marked_with_its_own_limit(axle: Axle, steer: bool) -> None:
    marked = any("wear indicator" in str(clause) for clause in lining_limit(axle, steer).also)
    assert marked == (axle.foundation == "drum")


@pytest.mark.parametrize(("axle", "steer"), EVERY)
def test_all_of_it_can_be_said(axle: Axle, steer: bool) -> None:
    limit = lining_limit(axle, steer)
    for text in (limit.source, *limit.also):
        said = pronounced(str(text))
        assert said
        assert not any(character.isdigit() for character in said)


# 393.47(d)(1): "the steering axle of a truck, truck-tractor or bus".
@pytest.mark.parametrize("kind", KINDS)
def test_the_first_axle_of_a_power_unit_steers_and_no_other(kind: Kind) -> None:
    power_unit = kind in ("truck", "bus", "truck tractor")
    assert [is_steering_axle(vehicle(kind), number) for number in (1, 2, 3)] == [
        power_unit,
        False,
        False,
    ]
