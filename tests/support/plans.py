"""Plans of many vehicles to draw: the shipped ones, and made ones of every kind and size.

Sizes of the made ones are drawn from the whole range that a vehicle file may hold within reason;
nothing here is a trade fact.
"""

from __future__ import annotations

from datetime import date
from functools import cache

from hypothesis import strategies as st

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Item, Mark, Plan, Step
from walkaround.vehicle.model import KINDS, Axle, Brakes, Electrical, Kind, Vehicle
from walkaround.vehicle.outline import axle_x_mm

# The spots that a checklist may name, from where they are in the plan's own coordinates.
ENDS = ("front", "rear", "left_side", "right_side")
SPOTS = (*ENDS, "source", "cab")

BOXES = [(396.0, 300.0), (388.0, 172.0), (336.0, 140.0), (344.0, 240.0), (560.0, 600.0)]
"""Sizes that the screens give a plan on phones, low phones and tablets, px."""


@cache
def shipped_plans(together: bool = False) -> dict[str, Plan]:
    """The whole walk of each demo vehicle, by vehicle id; circuits one by one, or `together`."""
    library = load_library(shipped(), today=date(2026, 11, 25))
    assert library.problems == ()
    return {
        vehicle.id: plan_walk(vehicle, library.rules, together=together)
        for vehicle in library.vehicles
    }


def made_vehicle(
    kind: Kind = "semitrailer", length_mm: float = 12000.0, width_mm: float = 2500.0, axles: int = 2
) -> Vehicle:
    """A vehicle of that kind and size."""
    return Vehicle(
        id="made",
        name="Made 1",
        kind=kind,
        made=date(2015, 5, 1),
        width_mm=width_mm,
        length_mm=length_mm,
        electrical=Electrical(volts=12, connector="sae_j560"),
        brakes=Brakes(system="air", axles=(Axle(),) * axles),
    )


def made_plan(
    vehicle: Vehicle, spot: str = "rear", marks: tuple[Mark, ...] = (), items: tuple[str, ...] = ()
) -> Plan:
    """A plan with these marks beside the wheel ends, and one step that is about these items."""
    wheels = tuple(
        Mark(id=f"axle_{n}_{side}", x_mm=x_mm, y_mm=sign * (vehicle.width_mm / 2 - 200))
        for n, x_mm in enumerate(axle_x_mm(vehicle), start=1)
        for side, sign in (("left", -1), ("right", 1))
    )
    step = Step(
        id="here",
        part="lamps",
        kind="look",
        title="Look here",
        spot=spot,
        items=tuple(Item(id=id_, name=id_) for id_ in items),
        source="made for tests",
        provenance="memory",
    )
    return Plan(
        vehicle=vehicle,
        scope="whole",
        power="box",
        rounds=1,
        steps=(step,),
        marks=(*marks, *wheels),
    )


vehicles = st.builds(
    made_vehicle,
    kind=st.sampled_from(KINDS),
    length_mm=st.floats(3000, 20000),
    width_mm=st.floats(1500, 3000),
    axles=st.integers(0, 4),
)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A vehicle with up to nine marked places at one spot, or the ends of one axle, and others."""
    vehicle = draw(vehicles)
    spot = draw(st.sampled_from(ENDS))
    share = st.floats(0, 1)
    marks = []
    for number in range(draw(st.integers(0, 9))):
        along, across = draw(share), draw(share) - 0.5
        marks.append(_mark(f"here_{number}", vehicle, spot, along, across))
        other = draw(st.sampled_from(ENDS))
        marks.append(_mark(f"other_{number}", vehicle, other, draw(share), draw(share) - 0.5))
    items = tuple(mark.id for mark in marks if mark.id.startswith("here"))
    axle = draw(st.integers(0, len(vehicle.brakes.axles)))
    if axle and spot in ("left_side", "right_side"):
        items = (f"axle_{axle}_left", f"axle_{axle}_right")
    return made_plan(vehicle, spot, tuple(marks), items)


def _mark(id_: str, vehicle: Vehicle, spot: str, along: float, across: float) -> Mark:
    x_mm = {"front": 0.0, "rear": vehicle.length_mm}.get(spot, along * vehicle.length_mm)
    edge = {"left_side": -0.5, "right_side": 0.5}.get(spot, across)
    return Mark(id=id_, x_mm=x_mm, y_mm=edge * vehicle.width_mm, colour="red")
