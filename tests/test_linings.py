"""How thin linings may be.

49 CFR 393.47(d) and part 396 App. A 1.a(6)(c), (d), read in a public copy: steering axles of
trucks, truck tractors and buses 3/16 in (4.8 mm) for one strip, 1/4 in (6.4 mm) for two pads, air
disc 1/8 in (3.2 mm); other axles 1/4 in, air disc 1/8 in. The appendix has 1/4 in for every drum.
"""

from __future__ import annotations

from datetime import date
from typing import Literal

import pytest

from walkaround.linings import lining_limit, steers
from walkaround.saying import spoken
from walkaround.strokes import limit_text
from walkaround.vehicle import KINDS, Axle, Electrical, Kind, Vehicle

DRUM, DISC = Axle(foundation="drum"), Axle(foundation="disc")
EVERY = [
    (axle, steer, pads)
    for axle in (DRUM, DISC)
    for steer in (True, False)
    for pads in (True, False, None)
]


def vehicle(kind: Kind) -> Vehicle:
    plug = Electrical(volts=12, connector="x")
    made = date(2011, 4, 1)
    return Vehicle(id="x", kind=kind, made=made, width_mm=2500, length_mm=9000, electrical=plug)


@pytest.mark.parametrize(
    ("steer", "two_pad", "foundation", "limit_in", "limit_mm", "paragraph"),
    [
        (True, False, "drum", 3 / 16, 4.8, "(d)(1)"),
        (True, True, "drum", 1 / 4, 6.4, "(d)(1)"),
        (True, None, "drum", 1 / 4, 6.4, "(d)(1)"),
        (True, None, "disc", 1 / 8, 3.2, "(d)(1)"),
        (False, False, "drum", 1 / 4, 6.4, "(d)(2)"),
        (False, None, "drum", 1 / 4, 6.4, "(d)(2)"),
        (False, None, "disc", 1 / 8, 3.2, "(d)(2)"),
    ],
)
def test_limits_are_those_of_393_47_d(
    steer: bool,
    two_pad: bool | None,
    foundation: Literal["drum", "disc"],
    limit_in: float,
    limit_mm: float,
    paragraph: str,
) -> None:
    limit = lining_limit(Axle(foundation=foundation), steer, two_pad)
    assert (limit.limit_in, limit.limit_mm, limit.provenance) == (limit_in, limit_mm, "read")
    assert limit.source.startswith(f"49 CFR 393.47{paragraph}")


def test_where_the_two_texts_differ_both_are_given() -> None:
    one_strip = lining_limit(DRUM, True, False)
    assert one_strip.also[0] == "1/4 in, one strip or two pads (part 396 App. A 1.a(6)(d))"
    not_looked = lining_limit(DRUM, True, None)
    assert "App. A 1.a(6)(d)" in not_looked.source
    assert not_looked.also[0].startswith("3/16 in for a shoe with one strip")


@pytest.mark.parametrize(("axle", "steer", "two_pad"), EVERY)
def test_a_drum_lining_may_be_marked_with_its_own_limit(
    axle: Axle, steer: bool, two_pad: bool | None
) -> None:
    marked = any("wear indicator" in clause for clause in lining_limit(axle, steer, two_pad).also)
    assert marked == (axle.foundation == "drum")


@pytest.mark.parametrize(("axle", "steer", "two_pad"), EVERY)
def test_inches_and_millimetres_say_the_same(axle: Axle, steer: bool, two_pad: bool | None) -> None:
    limit = lining_limit(axle, steer, two_pad)
    assert limit_text(limit.limit_in, "mm") == f"{limit.limit_mm} mm"


@pytest.mark.parametrize(("axle", "steer", "two_pad"), EVERY)
def test_all_of_it_can_be_said(axle: Axle, steer: bool, two_pad: bool | None) -> None:
    limit = lining_limit(axle, steer, two_pad)
    for text in (limit.source, *limit.also):
        said = spoken(text)
        assert said
        assert not any(character.isdigit() for character in said)


# 393.47(d)(1): "the steering axle of a truck, truck-tractor or bus".
@pytest.mark.parametrize("kind", KINDS)
def test_the_first_axle_of_a_power_unit_steers_and_no_other(kind: Kind) -> None:
    power_unit = kind in ("truck", "bus", "truck tractor")
    assert [steers(vehicle(kind), number) for number in (1, 2, 3)] == [power_unit, False, False]
